using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Units;

/// <summary>JSON as <c>{"value":48,"unit":"INH"}</c>, the unit a UN/CEFACT Recommendation 20 code.</summary>
internal static class QuantityJson
{
    public static (decimal Value, string Unit) Read(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.StartObject)
            throw new JsonException("A quantity is an object with \"value\" and \"unit\".");
        decimal? value = null;
        string? unit = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString();
            reader.Read();
            if (string.Equals(name, "value", StringComparison.OrdinalIgnoreCase))
                value = reader.TokenType == JsonTokenType.Number && reader.TryGetDecimal(out var number)
                    ? number
                    : throw new JsonException("The value of a quantity is a number.");
            else if (string.Equals(name, "unit", StringComparison.OrdinalIgnoreCase))
                unit = reader.GetString();
            else
                reader.Skip();
        }

        return (value ?? throw new JsonException("A quantity has a \"value\"."), unit ?? throw new JsonException("A quantity has a \"unit\"."));
    }

    public static void Write(Utf8JsonWriter writer, decimal value, string unit)
    {
        writer.WriteStartObject();
        // Dividing by one with 28 zeros drops the trailing zeros that a decimal carries.
        writer.WriteNumber("value", value / 1.0000000000000000000000000000m);
        writer.WriteString("unit", unit);
        writer.WriteEndObject();
    }

    public static long Whole(decimal value, decimal scale)
    {
        try
        {
            return (long)Math.Round(value * scale, MidpointRounding.AwayFromZero);
        }
        catch (OverflowException)
        {
            throw new JsonException("The quantity is too large to hold.");
        }
    }
}

internal sealed class LengthJsonConverter : JsonConverter<Length>
{
    public override Length Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var (value, unit) = QuantityJson.Read(ref reader);
        decimal scale = unit switch
        {
            "MMT" => 1_000_000m,
            "CMT" => 10_000_000m,
            "MTR" => 1_000_000_000m,
            "INH" => Length.NanometresPerInch,
            "FOT" => Length.NanometresPerInch * 12m,
            _ => throw new JsonException($"{unit} is not a unit of length (MMT, CMT, MTR, INH, FOT)."),
        };
        return Length.FromNanometres(QuantityJson.Whole(value, scale));
    }

    public override void Write(Utf8JsonWriter writer, Length value, JsonSerializerOptions options) =>
        QuantityJson.Write(writer, value.Nanometres / 1_000_000m, "MMT");
}

internal sealed class MassJsonConverter : JsonConverter<Mass>
{
    public override Mass Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var (value, unit) = QuantityJson.Read(ref reader);
        decimal scale = unit switch
        {
            "KGM" => 1_000_000_000_000m,
            "LBR" => Mass.NanogramsPerPound,
            _ => throw new JsonException($"{unit} is not a unit of mass (KGM, LBR)."),
        };
        return Mass.FromNanograms(QuantityJson.Whole(value, scale));
    }

    public override void Write(Utf8JsonWriter writer, Mass value, JsonSerializerOptions options) =>
        QuantityJson.Write(writer, value.Nanograms / 1_000_000_000_000m, "KGM");
}

internal sealed class QuantityJsonConverter : JsonConverter<Quantity>
{
    public override Quantity Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var (value, unit) = QuantityJson.Read(ref reader);
        // By way of its digits: the cast from decimal is not always the nearest double.
        return new Quantity(double.Parse(value.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), UnitCodes.FromCode(unit) ?? throw new JsonException($"{unit} is not a unit that Fettle uses."));
    }

    public override void Write(Utf8JsonWriter writer, Quantity value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        // Beyond a thousand million a double has no six decimals to round to, and rounding twice would give two figures.
        writer.WriteNumber("value", Math.Abs(value.Value) < 1e9 ? Math.Round(value.Value, 6) : value.Value);
        writer.WriteString("unit", value.Unit.Code());
        writer.WriteEndObject();
    }
}
