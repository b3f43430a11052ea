using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Fettle.Engineering.Units;

namespace Fettle.Readiness.Findings;

/// <summary>
/// A sentence with its figures kept apart, so that a stored finding can be read in inches or centimetres, and its English
/// template can serve as the key of a translation. Parts are quantities, words, whole numbers or further phrases.
/// </summary>
[JsonConverter(typeof(PhraseJsonConverter))]
public sealed class Phrase : IEquatable<Phrase>
{
    private readonly object[] parts;

    private Phrase(string template, object[] parts)
    {
        Template = template;
        this.parts = parts;
    }

    /// <summary>The English sentence with numbered places: "The load is {0} past the deck."</summary>
    public string Template { get; }

    public IReadOnlyList<object> Parts => parts;

    /// <summary>Nothing said.</summary>
    public static readonly Phrase Empty = new("", []);

    /// <summary>From an interpolated string whose holes are quantities, lengths, masses, words, whole numbers or phrases.</summary>
    /// <exception cref="ArgumentException">A hole holds anything else, such as a bare floating number without a unit.</exception>
    public static Phrase Of(FormattableString sentence) =>
        new(sentence.Format, [.. sentence.GetArguments().Select(Part)]);

    /// <summary>Words without a figure.</summary>
    public static Phrase Word(string words) => new(words.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal), []);

    /// <summary>Several sentences after one another.</summary>
    public static Phrase Join(string separator, IReadOnlyList<Phrase> phrases) =>
        phrases.Count == 1
            ? phrases[0]
            : new(string.Join(separator, Enumerable.Range(0, phrases.Count).Select(i => $"{{{i}}}")), [.. phrases]);

    /// <summary>As a person reads it.</summary>
    public string Say(UnitSystem units, CultureInfo? culture = null)
    {
        culture ??= CultureInfo.InvariantCulture;
        return string.Format(culture, Template, [.. parts.Select(object (part) => part switch
        {
            Quantity quantity => quantity.Show(units, culture),
            Phrase phrase => phrase.Say(units, culture),
            _ => part,
        })]);
    }

    /// <summary>For logs and failing tests: in inches and pounds.</summary>
    public override string ToString() => Say(UnitSystem.Imperial);

    public bool Equals(Phrase? other) =>
        other is not null && Template == other.Template && parts.SequenceEqual(other.parts);

    public override bool Equals(object? obj) => Equals(obj as Phrase);

    public override int GetHashCode() => Template.GetHashCode(StringComparison.Ordinal);

    private static object Part(object? value) => value switch
    {
        Length length => (Quantity)length,
        Mass mass => (Quantity)mass,
        Density density => (Quantity)density,
        Quantity or string or int or Phrase => value,
        _ => throw new ArgumentException($"A phrase cannot hold {value?.GetType().Name ?? "nothing"}: give it a unit."),
    };

    internal sealed class PhraseJsonConverter : JsonConverter<Phrase>
    {
        public override Phrase Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            using var document = JsonDocument.ParseValue(ref reader);
            return From(document.RootElement);
        }

        public override void Write(Utf8JsonWriter writer, Phrase value, JsonSerializerOptions options)
        {
            writer.WriteStartObject();
            writer.WriteString("template", value.Template);
            writer.WriteStartArray("parts");
            foreach (var part in value.parts)
            {
                switch (part)
                {
                    case string word:
                        writer.WriteStringValue(word);
                        break;
                    case int number:
                        writer.WriteNumberValue(number);
                        break;
                    default:
                        JsonSerializer.Serialize(writer, part, part.GetType(), options);
                        break;
                }
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        private static Phrase From(JsonElement element)
        {
            if (element.ValueKind != JsonValueKind.Object
                || !element.TryGetProperty("template", out var template) || template.ValueKind != JsonValueKind.String
                || !element.TryGetProperty("parts", out var parts) || parts.ValueKind != JsonValueKind.Array)
                throw new JsonException("A phrase is an object with \"template\" and \"parts\".");
            var phrase = new Phrase(template.GetString()!, [.. parts.EnumerateArray().Select(Part)]);
            try
            {
                if (CompositeFormat.Parse(phrase.Template).MinimumArgumentCount > phrase.parts.Length)
                    throw new JsonException("A phrase has a part for each place.");
            }
            catch (FormatException)
            {
                throw new JsonException("The template of a phrase has numbered places.");
            }

            return phrase;
        }

        private static object Part(JsonElement part) => part.ValueKind switch
        {
            JsonValueKind.String => part.GetString()!,
            JsonValueKind.Number when part.TryGetInt32(out var whole) => whole,
            JsonValueKind.Object when part.TryGetProperty("template", out _) => From(part),
            JsonValueKind.Object => part.Deserialize<Quantity>(),
            _ => throw new JsonException("Not a part of a phrase."),
        };
    }
}
