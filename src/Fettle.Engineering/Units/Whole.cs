namespace Fettle.Engineering.Units;

/// <summary>The one place where a floating number becomes a whole number of stored units.</summary>
internal static class Whole
{
    /// <summary>Rounds <paramref name="value"/> × <paramref name="scale"/> to the nearest whole number, halves away from zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite, or outside what a long holds.</exception>
    public static long From(double value, double scale)
    {
        // 2^63 is exactly representable; anything at or beyond it does not fit.
        var scaled = Math.Round(value * scale, MidpointRounding.AwayFromZero);
        if (double.IsNaN(scaled) || Math.Abs(scaled) >= 9.223372036854775807e18)
            throw new ArgumentOutOfRangeException(nameof(value), value, "The quantity is not a number or is too large to hold.");
        return (long)scaled;
    }
}
