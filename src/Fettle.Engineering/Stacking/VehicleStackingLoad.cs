using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>
/// What the trade will put on top of a unit, by the mixed-freight formula of ASTM D4169 (schedule C, less-than-truckload). The
/// edition matters, so density, height and factor are arguments. See docs/engineering/vehicle-stacking-load.md.
/// </summary>
public static class VehicleStackingLoad
{
    /// <summary>Stack height in a trailer: 108 in (the metric text says 2.7 m).</summary>
    public static readonly Length TrailerStackHeight = Length.FromInches(108);

    /// <summary>Stack height for packages under 30 lb and 2 ft³ among mixed freight: 54 in (the metric text says 1.4 m).</summary>
    public static readonly Length SmallPackageStackHeight = Length.FromInches(54);

    /// <summary>
    /// Freight of a given density heaped over a package up to a stack height: L = Mf · (l · w · h) · ((H − h) / h) · F under
    /// standard gravity. Nothing when the package is as tall as the stack.
    /// </summary>
    /// <param name="length">Outside length l, above zero.</param>
    /// <param name="width">Outside width w, above zero.</param>
    /// <param name="height">Outside height h, above zero.</param>
    /// <param name="freight">Average density of what is heaped on top, Mf.</param>
    /// <param name="stackHeight">Height of the whole stack, H.</param>
    /// <param name="factor">
    /// The factor F, at least zero. 1 gives the plain weight above, for a strength that is derated already; type 1 packages are
    /// tested with 10, 7 or 5 (assurance levels I to III), a convention for which a committee's own slides find no reference.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Force MixedFreight(Length length, Length width, Length height, Density freight, Length stackHeight, double factor)
    {
        Require.Positive(length.Metres, nameof(length));
        Require.Positive(width.Metres, nameof(width));
        Require.Positive(height.Metres, nameof(height));
        Require.NotNegative(factor);
        // (l · w · h) · (H − h) / h is the room above the package.
        var roomAbove = length.Metres * width.Metres * Length.Max(stackHeight - height, Length.Zero).Metres;
        return Force.FromNewtons(freight.KilogramsPerCubicMetre * roomAbove * Force.StandardGravity * factor);
    }
}
