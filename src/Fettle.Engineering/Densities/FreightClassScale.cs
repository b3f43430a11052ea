using Fettle.Engineering.Units;

namespace Fettle.Engineering.Densities;

/// <summary>One tier of a density scale.</summary>
/// <param name="From">Its lower bound, which belongs to it.</param>
/// <param name="Class">The freight class, 50 (cheapest) to 500.</param>
public readonly record struct FreightClassTier(Density From, decimal Class);

/// <summary>
/// A scale that turns density into freight class. The lower bound of a tier belongs to it, to within one part in a
/// thousand million: 50.0 lb/ft³ reckoned from inches and pounds is class 50 whatever the last bit says.
/// Only for freight whose item has a full density scale; what item applies is the shipper's and carrier's to say.
/// See docs/engineering/density-and-class.md.
/// </summary>
public sealed class FreightClassScale
{
    private const double Boundary = 1e-9;

    private FreightClassScale(string name, params (double PoundsPerCubicFoot, decimal Class)[] tiers)
    {
        Name = name;
        Tiers = [.. tiers.Select(t => new FreightClassTier(Density.FromPoundsPerCubicFoot(t.PoundsPerCubicFoot), t.Class))];
    }

    /// <summary>What people call the scale.</summary>
    public string Name { get; }

    /// <summary>From the densest tier to the lightest, whose lower bound is zero.</summary>
    public IReadOnlyList<FreightClassTier> Tiers { get; }

    /// <summary>In force since 19 July 2025 (Docket 2025-1; two trade sources agree, the official page is not public).</summary>
    public static readonly FreightClassScale ThirteenTier = new(
        "13-tier density scale, July 2025",
        (50, 50), (35, 55), (30, 60), (22.5, 65), (15, 70), (12, 85), (10, 92.5m), (8, 100), (6, 125), (4, 175), (2, 250), (1, 300), (0, 400));

    /// <summary>Before July 2025: the same below 30 lb/ft³, everything above in class 60.</summary>
    public static readonly FreightClassScale ElevenTier = new(
        "11-tier density scale",
        (30, 60), (22.5, 65), (15, 70), (12, 85), (10, 92.5m), (8, 100), (6, 125), (4, 175), (2, 250), (1, 300), (0, 400));

    /// <summary>The old guideline over all eighteen classes, still widely copied.</summary>
    public static readonly FreightClassScale EighteenClass = new(
        "18-class guideline",
        (50, 50), (35, 55), (30, 60), (22.5, 65), (15, 70), (13.5, 77.5m), (12, 85), (10.5, 92.5m), (9, 100), (8, 110), (7, 125), (6, 150),
        (5, 175), (4, 200), (3, 250), (2, 300), (1, 400), (0, 500));

    /// <summary>All eighteen freight classes, lowest first; a scale by density need not use them all.</summary>
    public static readonly IReadOnlyList<decimal> Classes = [.. EighteenClass.Tiers.Select(tier => tier.Class).Order()];

    /// <summary>The class of a density: 50, 92.5, …</summary>
    public decimal ClassOf(Density density) => TierOf(density).Class;

    /// <summary>The tier a density falls in.</summary>
    public FreightClassTier TierOf(Density density)
    {
        foreach (var tier in Tiers)
        {
            if (density.KilogramsPerCubicMetre >= tier.From.KilogramsPerCubicMetre * (1 - Boundary))
                return tier;
        }

        throw new InvalidOperationException("A scale ends at zero, and no density is below it.");
    }

    /// <inheritdoc cref="Name"/>
    public override string ToString() => Name;
}
