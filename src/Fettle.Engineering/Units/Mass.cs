using System.Globalization;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Units;

/// <summary>
/// A mass, held as whole nanograms, so that pounds and kilograms come back as typed to fifteen digits and sums are exact.
/// Range about ±9,200 tonnes; anything outside, and NaN, is refused.
/// </summary>
[JsonConverter(typeof(MassJsonConverter))]
public readonly record struct Mass : IComparable<Mass>
{
    /// <summary>One avoirdupois pound is exactly 0.45359237 kg (international yard and pound agreement, 1959).</summary>
    public const long NanogramsPerPound = 453_592_370_000;

    private const long NanogramsPerKilogram = 1_000_000_000_000;

    private Mass(long nanograms) => Nanograms = nanograms;

    /// <summary>No mass at all; also the default value.</summary>
    public static readonly Mass Zero;

    /// <summary>The stored form: whole nanograms.</summary>
    public long Nanograms { get; }

    /// <summary>The mass in avoirdupois pounds (lb).</summary>
    public double Pounds => Nanograms / (double)NanogramsPerPound;

    /// <summary>The mass in kilograms (kg).</summary>
    public double Kilograms => Nanograms / (double)NanogramsPerKilogram;

    /// <summary>From whole nanograms, the stored form.</summary>
    public static Mass FromNanograms(long nanograms) => new(nanograms);

    /// <summary>From pounds, rounded to the nearest nanogram.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN, infinite or out of range.</exception>
    public static Mass FromPounds(double pounds) => new(Whole.From(pounds, NanogramsPerPound));

    /// <inheritdoc cref="FromPounds"/>
    public static Mass FromKilograms(double kilograms) => new(Whole.From(kilograms, NanogramsPerKilogram));

    /// <summary>From the mass unit of a family: pounds (imperial) or kilograms (metric).</summary>
    public static Mass From(double value, UnitSystem units) =>
        units == UnitSystem.Metric ? FromKilograms(value) : FromPounds(value);

    /// <summary>In the mass unit of a family: pounds (imperial) or kilograms (metric).</summary>
    public double In(UnitSystem units) => units == UnitSystem.Metric ? Kilograms : Pounds;

    /// <summary>The greater of two masses.</summary>
    public static Mass Max(Mass a, Mass b) => a > b ? a : b;

    /// <summary>The lesser of two masses.</summary>
    public static Mass Min(Mass a, Mass b) => a < b ? a : b;

    /// <summary>The mass without its sign.</summary>
    public Mass Abs() => new(Math.Abs(Nanograms));

    /// <inheritdoc/>
    public int CompareTo(Mass other) => Nanograms.CompareTo(other.Nanograms);

    /// <summary>For logs and failing tests: "940 lb".</summary>
    public override string ToString() => Pounds.ToString("0.####", CultureInfo.InvariantCulture) + " lb";

    public static Mass operator +(Mass a, Mass b) => new(a.Nanograms + b.Nanograms);

    public static Mass operator -(Mass a, Mass b) => new(a.Nanograms - b.Nanograms);

    public static Mass operator *(Mass a, int times) => new(a.Nanograms * times);

    public static Mass operator *(int times, Mass a) => a * times;

    public static Mass operator *(Mass a, double factor) => new(Whole.From(a.Nanograms, factor));

    public static Mass operator /(Mass a, double divisor) => new(Whole.From(a.Nanograms, 1 / divisor));

    /// <summary>How many times <paramref name="b"/> goes into <paramref name="a"/>; a plain ratio.</summary>
    public static double operator /(Mass a, Mass b) => a.Nanograms / (double)b.Nanograms;

    public static bool operator <(Mass a, Mass b) => a.Nanograms < b.Nanograms;

    public static bool operator >(Mass a, Mass b) => a.Nanograms > b.Nanograms;

    public static bool operator <=(Mass a, Mass b) => a.Nanograms <= b.Nanograms;

    public static bool operator >=(Mass a, Mass b) => a.Nanograms >= b.Nanograms;
}
