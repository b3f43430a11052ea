using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Units;

/// <summary>A force, held in newtons. Always finite: NaN and infinities are refused wherever one would arise.</summary>
[JsonConverter(typeof(ForceJsonConverter))]
public readonly record struct Force : IComparable<Force>
{
    /// <summary>Standard acceleration of free fall, m/s², exact (3rd General Conference on Weights and Measures, 1901).</summary>
    public const double StandardGravity = 9.80665;

    /// <summary>One pound-force in newtons, exact: 0.45359237 kg × 9.80665 m/s².</summary>
    public const double NewtonsPerPoundForce = 4.4482216152605;

    private Force(double newtons) => Newtons = double.IsFinite(newtons)
        ? newtons
        : throw new ArgumentOutOfRangeException(nameof(newtons), newtons, "A force is a finite number.");

    /// <summary>No force at all; also the default value.</summary>
    public static readonly Force Zero;

    /// <summary>The stored form: newtons (N).</summary>
    public double Newtons { get; }

    /// <summary>The force in pounds-force (lbf), what the trade calls "pounds" of top load.</summary>
    public double PoundsForce => Newtons / NewtonsPerPoundForce;

    /// <summary>From newtons.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static Force FromNewtons(double newtons) => new(newtons);

    /// <summary>From pounds-force.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static Force FromPoundsForce(double poundsForce) => new(poundsForce * NewtonsPerPoundForce);

    /// <summary>The weight of a mass under standard gravity.</summary>
    public static Force WeightOf(Mass mass) => new(mass.Kilograms * StandardGravity);

    /// <summary>The mass whose weight under standard gravity is this force.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The mass is too large to hold (about 9,200 tonnes).</exception>
    public Mass MassHeld() => Mass.FromKilograms(Newtons / StandardGravity);

    /// <summary>The greater of two forces.</summary>
    public static Force Max(Force a, Force b) => a > b ? a : b;

    /// <summary>The lesser of two forces.</summary>
    public static Force Min(Force a, Force b) => a < b ? a : b;

    /// <inheritdoc/>
    public int CompareTo(Force other) => Newtons.CompareTo(other.Newtons);

    /// <summary>For logs and failing tests: "562.27 lbf".</summary>
    public override string ToString() => PoundsForce.ToString("0.####", CultureInfo.InvariantCulture) + " lbf";

    public static Force operator +(Force a, Force b) => new(a.Newtons + b.Newtons);

    public static Force operator -(Force a, Force b) => new(a.Newtons - b.Newtons);

    public static Force operator -(Force a) => new(-a.Newtons);

    public static Force operator *(Force a, double factor) => new(a.Newtons * factor);

    public static Force operator *(double factor, Force a) => a * factor;

    public static Force operator /(Force a, double divisor) => new(a.Newtons / divisor);

    /// <summary>How many times <paramref name="b"/> goes into <paramref name="a"/>; a plain ratio, not finite when <paramref name="b"/> is zero.</summary>
    public static double operator /(Force a, Force b) => a.Newtons / b.Newtons;

    public static bool operator <(Force a, Force b) => a.Newtons < b.Newtons;

    public static bool operator >(Force a, Force b) => a.Newtons > b.Newtons;

    public static bool operator <=(Force a, Force b) => a.Newtons <= b.Newtons;

    public static bool operator >=(Force a, Force b) => a.Newtons >= b.Newtons;
}

/// <summary>JSON as <c>{"value":2501.085,"unit":"NEW"}</c>; the Recommendation 20 code for newton is from memory.</summary>
internal sealed class ForceJsonConverter : JsonConverter<Force>
{
    public override Force Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var (value, unit) = QuantityJson.Read(ref reader);
        return unit == "NEW" ? Force.FromNewtons((double)value) : throw new JsonException($"{unit} is not a unit of force (NEW).");
    }

    public override void Write(Utf8JsonWriter writer, Force value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteNumber("value", value.Newtons);
        writer.WriteString("unit", "NEW");
        writer.WriteEndObject();
    }
}
