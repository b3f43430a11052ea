using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>Loads that published stacking tests put on a package, to compare a declaration with its maker's certificates.</summary>
public static class PublishedTestLoad
{
    // 49 CFR 178.606 as printed: 3 m stack, 8.3 lb to a gallon of water, 0.98 full, 2.2 lb to a kilogram, half as much again.
    private const double HazmatStackMetres = 3;
    private const double PoundsPerGallonOfWater = 8.3;
    private const double Filling = 0.98;
    private const double PoundsPerKilogramAsPrinted = 2.2;
    private const double HazmatFactor = 1.5;

    /// <summary>
    /// Apply-and-hold compression: weight × (units − 1) × factor (answer by the International Safe Transit Association's
    /// staff). One unit alone bears nothing.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one unit, or a negative factor or mass.</exception>
    public static Force ApplyAndHold(Mass unit, int unitsInStack, double factor) =>
        Force.WeightOf(unit) * (Require.AtLeast(1, unitsInStack) - 1) * Require.NotNegative(factor);

    /// <summary>
    /// ISTA 1C weight-and-spreader load, metric form, in whole kilograms: 135 + M + 54 (L + W), rounded up, between 135 and
    /// 340 kg (staff's worked example).
    /// </summary>
    /// <param name="package">Gross mass M.</param>
    /// <param name="length">Length L.</param>
    /// <param name="width">Width W.</param>
    public static Mass WeightAndSpreader(Mass package, Length length, Length width) =>
        Mass.FromKilograms(Math.Clamp(Math.Ceiling(135 + package.Kilograms + (54 * (length + width).Metres)), 135, 340));

    /// <summary>The smallest number of packagings of a height that reach a 3 m stack (49 CFR 178.606).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The height is zero or negative.</exception>
    public static int UnitsToThreeMetres(Length height) =>
        (int)Math.Ceiling(HazmatStackMetres / Require.Positive(height.Metres, nameof(height)));

    /// <summary>Dynamic stack load for solids, (n − 1) · m · 2.2 · 1.5 lb (49 CFR 178.606).</summary>
    /// <param name="unitsInStack">n, one or more.</param>
    /// <param name="gross">Gross mass m.</param>
    public static Force HazmatSolids(int unitsInStack, Mass gross) =>
        Force.FromPoundsForce((Require.AtLeast(1, unitsInStack) - 1) * gross.Kilograms * PoundsPerKilogramAsPrinted * HazmatFactor);

    /// <summary>Dynamic stack load for liquids, (n − 1) · (w + s · v · 8.3 · 0.98) · 1.5 lb (49 CFR 178.606).</summary>
    /// <param name="unitsInStack">n, one or more.</param>
    /// <param name="empty">Mass of the empty packaging, w.</param>
    /// <param name="specificGravity">Of the liquid, s; water is 1.</param>
    /// <param name="gallons">Overflow capacity in US gallons, v.</param>
    public static Force HazmatLiquids(int unitsInStack, Mass empty, double specificGravity, double gallons) =>
        Force.FromPoundsForce((Require.AtLeast(1, unitsInStack) - 1) * HazmatFactor *
            (empty.Pounds + (Require.NotNegative(specificGravity) * Require.NotNegative(gallons) * PoundsPerGallonOfWater * Filling)));
}
