using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>How hard a distribution test is meant to be (ASTM D4169): I severe, II usual, III mild.</summary>
public enum AssuranceLevel
{
    /// <summary>Severe, improbable.</summary>
    I,

    /// <summary>Usual.</summary>
    II,

    /// <summary>Mild, frequent.</summary>
    III,
}

/// <summary>What bears the load in a package (ASTM D4169, construction types 1 to 3; from memory).</summary>
public enum LoadBearing
{
    /// <summary>1: corrugated, fibreboard or plastic walls; the goods support nothing.</summary>
    Walls,

    /// <summary>2: the same with rigid inserts such as wood that carry load.</summary>
    RigidInserts,

    /// <summary>3: goods that carry the load themselves, or packaging that damp and heat do not weaken.</summary>
    Goods,
}

/// <summary>
/// What the trade will put on top of a unit, by the stacking formulas of ASTM D4169 (schedules B and C). Conventions for a
/// test: a committee's own slides say that no reference for the factors could be found. The edition matters, so density,
/// height and factor are arguments. See docs/engineering/vehicle-stacking-load.md.
/// </summary>
public static class VehicleStackingLoad
{
    /// <summary>Density of the mixed freight above, in the editions up to -16: 10 lb/ft³ (a test laboratory's page).</summary>
    public static readonly Density FreightDensityUpTo2016 = Density.FromPoundsPerCubicFoot(10);

    /// <summary>Density of the mixed freight above, current edition: 12 lb/ft³ (the same laboratory's later page).</summary>
    public static readonly Density FreightDensityCurrent = Density.FromPoundsPerCubicFoot(12);

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
    /// <param name="factor">The factor F, at least zero; 1 gives the plain weight above.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Force MixedFreight(Length length, Length width, Length height, Density freight, Length stackHeight, double factor)
    {
        Require.Positive(length.Metres, nameof(length));
        Require.Positive(width.Metres, nameof(width));
        Require.Positive(height.Metres, nameof(height));
        Require.NotNegative(factor);
        // (l · w · h) · (H − h) / h is the room above the package.
        var roomAbove = length.Metres * width.Metres * Above(height, stackHeight).Metres;
        return Force.FromNewtons(freight.KilogramsPerCubicMetre * roomAbove * Force.StandardGravity * factor);
    }

    /// <summary>
    /// The same unit again and again up to a stack height, whole or not: L = M · ((H − h) / h) · F under standard gravity.
    /// </summary>
    /// <param name="unit">Gross mass of one unit, M.</param>
    /// <param name="height">Its height h, above zero.</param>
    /// <param name="stackHeight">Height of the whole stack, H.</param>
    /// <param name="factor">The factor F, at least zero; 1 gives the plain weight above.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Force Identical(Mass unit, Length height, Length stackHeight, double factor)
    {
        Require.NotNegative(unit.Kilograms, nameof(unit));
        Require.Positive(height.Metres, nameof(height));
        return Force.WeightOf(unit) * (Above(height, stackHeight) / height) * Require.NotNegative(factor);
    }

    /// <summary>
    /// The factor F of schedule C (vehicle stacking). Type 1 (10, 7, 5) as a test laboratory prints it; types 2 and 3 from
    /// memory.
    /// </summary>
    public static double VehicleFactor(LoadBearing bearing, AssuranceLevel level) => (bearing, level) switch
    {
        (LoadBearing.Walls, AssuranceLevel.I) => 10,
        (LoadBearing.Walls, AssuranceLevel.II) => 7,
        (LoadBearing.Walls, AssuranceLevel.III) => 5,
        (LoadBearing.RigidInserts, AssuranceLevel.I) => 6,
        (LoadBearing.RigidInserts, AssuranceLevel.II) => 4.5,
        (LoadBearing.RigidInserts, AssuranceLevel.III) => 3,
        (LoadBearing.Goods, AssuranceLevel.I) => 4,
        (LoadBearing.Goods, AssuranceLevel.II) => 3,
        (LoadBearing.Goods, AssuranceLevel.III) => 2,
    };

    /// <summary>The factor F of schedule B (warehouse stacking); from memory throughout.</summary>
    public static double WarehouseFactor(LoadBearing bearing, AssuranceLevel level) => (bearing, level) switch
    {
        (LoadBearing.Walls, AssuranceLevel.I) => 8,
        (LoadBearing.Walls, AssuranceLevel.II) => 4.5,
        (LoadBearing.Walls, AssuranceLevel.III) => 3,
        (LoadBearing.RigidInserts, AssuranceLevel.I) => 4.5,
        (LoadBearing.RigidInserts, AssuranceLevel.II) => 3,
        (LoadBearing.RigidInserts, AssuranceLevel.III) => 2,
        (LoadBearing.Goods, AssuranceLevel.I) => 3,
        (LoadBearing.Goods, AssuranceLevel.II) => 2,
        (LoadBearing.Goods, AssuranceLevel.III) => 1.5,
    };

    private static Length Above(Length height, Length stackHeight) => Length.Max(stackHeight - height, Length.Zero);
}
