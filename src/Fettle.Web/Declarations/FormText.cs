using System.Text.Json;
using System.Text.Json.Nodes;

namespace Fettle.Web.Declarations;

/// <summary>A form seen as what it is: named texts.</summary>
public static class FormText
{
    /// <summary>A copy that shares nothing with the original.</summary>
    public static UnitForm Copy(UnitForm form) => JsonSerializer.Deserialize<UnitForm>(JsonSerializer.Serialize(form))!;

    /// <summary>
    /// The same without NUL, which PostgreSQL's JSON refuses, and without halves of characters, which are no text. The
    /// validators complain about both; what a page shows is still what was typed.
    /// </summary>
    public static PickupForm Clean(PickupForm form) => JsonSerializer.Deserialize<PickupForm>(CleanNode(JsonSerializer.SerializeToNode(form))!)!;

    /// <summary>Every text of the form by its name in the API: "handlingUnits[0].outer.length".</summary>
    public static IEnumerable<(string Field, string Value)> Flatten(PickupForm form) =>
        Flatten(JsonSerializer.SerializeToNode(form, JsonSerializerOptions.Web), "");

    private static JsonNode? CleanNode(JsonNode? node) => node switch
    {
        JsonObject o => new JsonObject(o.Select(pair => KeyValuePair.Create(pair.Key, CleanNode(pair.Value)))),
        JsonArray a => new JsonArray([.. a.Select(CleanNode)]),
        JsonValue v when v.TryGetValue<string>(out var text) => JsonValue.Create(text.Replace("\0", "", StringComparison.Ordinal)),
        _ => node?.DeepClone(),
    };

    private static IEnumerable<(string Field, string Value)> Flatten(JsonNode? node, string path) => node switch
    {
        JsonObject o => o.SelectMany(pair => Flatten(pair.Value, path.Length == 0 ? pair.Key : $"{path}.{pair.Key}")),
        JsonArray a => a.SelectMany((item, i) => Flatten(item, $"{path}[{i}]")),
        JsonValue v => [(path, v.ToString())],
        _ => [],
    };
}

/// <summary>Which fields of two forms differ.</summary>
public static class FormDifference
{
    public static IReadOnlyList<(string Field, string Saved, string Yours)> Between(PickupForm saved, PickupForm yours)
    {
        var theirs = FormText.Flatten(saved).ToDictionary(pair => pair.Field, pair => pair.Value, StringComparer.Ordinal);
        var mine = FormText.Flatten(yours).ToDictionary(pair => pair.Field, pair => pair.Value, StringComparer.Ordinal);
        return
        [
            .. theirs.Keys.Union(mine.Keys)
                .Select(field => (field, theirs.GetValueOrDefault(field, ""), mine.GetValueOrDefault(field, "")))
                .Where(row => row.Item2 != row.Item3),
        ];
    }
}
