using System.Text.Json;

namespace Fettle.Web.Declarations;

/// <summary>Enum members as the kebab-case words of the API and the forms: LooseCarton is "loose-carton".</summary>
public static class Wording
{
    public static string Word<TEnum>(this TEnum value)
        where TEnum : struct, Enum => Words<TEnum>.All[value];

    public static TEnum? Parse<TEnum>(string? word)
        where TEnum : struct, Enum =>
        word is not null && Words<TEnum>.Back.TryGetValue(word.Trim(), out var value) ? value : null;

    public static IReadOnlyCollection<string> All<TEnum>()
        where TEnum : struct, Enum => Words<TEnum>.All.Values;

    private static class Words<TEnum>
        where TEnum : struct, Enum
    {
        public static readonly Dictionary<TEnum, string> All =
            Enum.GetValues<TEnum>().ToDictionary(value => value, value => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString()));

        public static readonly Dictionary<string, TEnum> Back =
            All.ToDictionary(pair => pair.Value, pair => pair.Key, StringComparer.OrdinalIgnoreCase);
    }
}
