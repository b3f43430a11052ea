namespace Fettle.Engineering.Stacking;

/// <summary>
/// Strength of corrugated board by its own moisture, when that has been measured: Kellicut and Landt, Forest Products
/// Laboratory, 1951 (from memory). A refinement of the humidity row of <see cref="Derating"/>; never use both.
/// </summary>
public static class Moisture
{
    private const double Exponent = 3.01;

    /// <summary>Strength at the second moisture as a share of strength at the first: 10^(3.01 · (x1 − x2)).</summary>
    /// <param name="first">Moisture at which strength is known, a share of dry mass, 0 to 1: 0.08 is 8 %.</param>
    /// <param name="second">Moisture in use, a share.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share lies outside 0 to 1.</exception>
    public static double StrengthLeft(double first, double second) => Math.Pow(10, Exponent * (Share(first) - Share(second)));

    private static double Share(double moisture) => moisture is >= 0 and <= 1
        ? moisture
        : throw new ArgumentOutOfRangeException(nameof(moisture), moisture, "Moisture is a share from 0 to 1.");
}
