using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Units;

/// <summary>
/// A density, held in kilograms per cubic metre. Always finite and not negative: anything else is refused.
/// For freight it is gross weight over the outermost box, platform and packaging included.
/// </summary>
[JsonConverter(typeof(DensityJsonConverter))]
public readonly record struct Density : IComparable<Density>
{
    /// <summary>One pound per cubic foot in kilograms per cubic metre: 0.45359237 kg over (0.3048 m)³.</summary>
    public const double KilogramsPerCubicMetrePerPoundPerCubicFoot = 0.45359237 / 0.028316846592;

    private Density(double kilogramsPerCubicMetre) => KilogramsPerCubicMetre = double.IsFinite(kilogramsPerCubicMetre) && kilogramsPerCubicMetre >= 0
        ? kilogramsPerCubicMetre
        : throw new ArgumentOutOfRangeException(nameof(kilogramsPerCubicMetre), kilogramsPerCubicMetre, "A density is a finite number of zero or more.");

    /// <summary>The stored form: kilograms per cubic metre (kg/m³).</summary>
    public double KilogramsPerCubicMetre { get; }

    /// <summary>The density in pounds per cubic foot (lb/ft³, written "pcf" on American freight papers).</summary>
    public double PoundsPerCubicFoot => KilogramsPerCubicMetre / KilogramsPerCubicMetrePerPoundPerCubicFoot;

    /// <summary>From pounds per cubic foot.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is negative, NaN or infinite.</exception>
    public static Density FromPoundsPerCubicFoot(double poundsPerCubicFoot) => new(poundsPerCubicFoot * KilogramsPerCubicMetrePerPoundPerCubicFoot);

    /// <summary>From kilograms per cubic metre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is negative, NaN or infinite.</exception>
    public static Density FromKilogramsPerCubicMetre(double kilogramsPerCubicMetre) => new(kilogramsPerCubicMetre);

    /// <summary>A mass spread over a box of the given outside dimensions.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A dimension is zero or negative, or the mass is negative.</exception>
    public static Density Of(Mass mass, Length length, Length width, Length height)
    {
        Require.Positive(length.Metres, nameof(length));
        Require.Positive(width.Metres, nameof(width));
        Require.Positive(height.Metres, nameof(height));
        return new(mass.Kilograms / (length.Metres * width.Metres * height.Metres));
    }

    /// <summary>A density as a figure, in pounds per cubic foot.</summary>
    public static implicit operator Quantity(Density density) => new(density.PoundsPerCubicFoot, Unit.PoundPerCubicFoot);

    /// <inheritdoc/>
    public int CompareTo(Density other) => KilogramsPerCubicMetre.CompareTo(other.KilogramsPerCubicMetre);

    /// <summary>For logs and failing tests: "11.25 lb/ft³".</summary>
    public override string ToString() => PoundsPerCubicFoot.ToString("0.####", CultureInfo.InvariantCulture) + " lb/ft³";

    /// <summary>How many times <paramref name="b"/> goes into <paramref name="a"/>; a plain ratio.</summary>
    public static double operator /(Density a, Density b) => a.KilogramsPerCubicMetre / b.KilogramsPerCubicMetre;

    public static bool operator <(Density a, Density b) => a.KilogramsPerCubicMetre < b.KilogramsPerCubicMetre;

    public static bool operator >(Density a, Density b) => a.KilogramsPerCubicMetre > b.KilogramsPerCubicMetre;

    public static bool operator <=(Density a, Density b) => a.KilogramsPerCubicMetre <= b.KilogramsPerCubicMetre;

    public static bool operator >=(Density a, Density b) => a.KilogramsPerCubicMetre >= b.KilogramsPerCubicMetre;
}

/// <summary>JSON as <c>{"value":180.2,"unit":"KMQ"}</c>; pounds per cubic foot ("87") are read too.</summary>
internal sealed class DensityJsonConverter : JsonConverter<Density>
{
    public override Density Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var (value, unit) = QuantityJson.Read(ref reader);
        if (value < 0)
            throw new JsonException("A density is not negative.");
        return unit switch
        {
            "KMQ" => Density.FromKilogramsPerCubicMetre((double)value),
            "87" => Density.FromPoundsPerCubicFoot((double)value),
            _ => throw new JsonException($"{unit} is not a unit of density (KMQ, 87)."),
        };
    }

    public override void Write(Utf8JsonWriter writer, Density value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteNumber("value", value.KilogramsPerCubicMetre);
        writer.WriteString("unit", "KMQ");
        writer.WriteEndObject();
    }
}
