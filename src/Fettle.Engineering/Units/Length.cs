using System.Globalization;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Units;

/// <summary>
/// A length, held as whole nanometres, so that inches down to 1/64 and any decimal of a centimetre that a person types
/// come back exactly as typed. Range about ±9.2 million kilometres; anything outside, and NaN, is refused.
/// </summary>
[JsonConverter(typeof(LengthJsonConverter))]
public readonly record struct Length : IComparable<Length>
{
    /// <summary>One inch is exactly 25.4 mm (international yard and pound agreement, 1959).</summary>
    public const long NanometresPerInch = 25_400_000;

    private const long NanometresPerMillimetre = 1_000_000;

    private Length(long nanometres) => Nanometres = nanometres;

    /// <summary>No length at all; also the default value.</summary>
    public static readonly Length Zero;

    /// <summary>The stored form: whole nanometres.</summary>
    public long Nanometres { get; }

    /// <summary>The length in inches (in).</summary>
    public double Inches => Nanometres / (double)NanometresPerInch;

    /// <summary>The length in feet (ft).</summary>
    public double Feet => Inches / 12;

    /// <summary>The length in millimetres (mm).</summary>
    public double Millimetres => Nanometres / 1e6;

    /// <summary>The length in centimetres (cm).</summary>
    public double Centimetres => Nanometres / 1e7;

    /// <summary>The length in metres (m).</summary>
    public double Metres => Nanometres / 1e9;

    /// <summary>From whole nanometres, the stored form.</summary>
    public static Length FromNanometres(long nanometres) => new(nanometres);

    /// <summary>From inches, rounded to the nearest nanometre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN, infinite or out of range.</exception>
    public static Length FromInches(double inches) => new(Whole.From(inches, NanometresPerInch));

    /// <inheritdoc cref="FromInches"/>
    public static Length FromFeet(double feet) => new(Whole.From(feet, NanometresPerInch * 12));

    /// <inheritdoc cref="FromInches"/>
    public static Length FromMillimetres(double millimetres) => new(Whole.From(millimetres, NanometresPerMillimetre));

    /// <inheritdoc cref="FromInches"/>
    public static Length FromCentimetres(double centimetres) => new(Whole.From(centimetres, NanometresPerMillimetre * 10));

    /// <inheritdoc cref="FromInches"/>
    public static Length FromMetres(double metres) => new(Whole.From(metres, NanometresPerMillimetre * 1000));

    /// <summary>From the length unit of a family: inches (imperial) or centimetres (metric).</summary>
    public static Length From(double value, UnitSystem units) =>
        units == UnitSystem.Metric ? FromCentimetres(value) : FromInches(value);

    /// <summary>In the length unit of a family: inches (imperial) or centimetres (metric).</summary>
    public double In(UnitSystem units) => units == UnitSystem.Metric ? Centimetres : Inches;

    /// <summary>The greater of two lengths.</summary>
    public static Length Max(Length a, Length b) => a > b ? a : b;

    /// <summary>The lesser of two lengths.</summary>
    public static Length Min(Length a, Length b) => a < b ? a : b;

    /// <summary>The length without its sign.</summary>
    public Length Abs() => new(Math.Abs(Nanometres));

    /// <inheritdoc/>
    public int CompareTo(Length other) => Nanometres.CompareTo(other.Nanometres);

    /// <summary>For logs and failing tests: "48 in".</summary>
    public override string ToString() => Inches.ToString("0.####", CultureInfo.InvariantCulture) + " in";

    public static Length operator +(Length a, Length b) => new(a.Nanometres + b.Nanometres);

    public static Length operator -(Length a, Length b) => new(a.Nanometres - b.Nanometres);

    public static Length operator -(Length a) => new(-a.Nanometres);

    public static Length operator *(Length a, int times) => new(a.Nanometres * times);

    public static Length operator *(int times, Length a) => a * times;

    public static Length operator *(Length a, double factor) => new(Whole.From(a.Nanometres, factor));

    public static Length operator /(Length a, double divisor) => new(Whole.From(a.Nanometres, 1 / divisor));

    /// <summary>How many times <paramref name="b"/> goes into <paramref name="a"/>; a plain ratio.</summary>
    public static double operator /(Length a, Length b) => a.Nanometres / (double)b.Nanometres;

    public static bool operator <(Length a, Length b) => a.Nanometres < b.Nanometres;

    public static bool operator >(Length a, Length b) => a.Nanometres > b.Nanometres;

    public static bool operator <=(Length a, Length b) => a.Nanometres <= b.Nanometres;

    public static bool operator >=(Length a, Length b) => a.Nanometres >= b.Nanometres;
}
