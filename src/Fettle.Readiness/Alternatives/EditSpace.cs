using System.Collections.Frozen;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Alternatives;

/// <summary>What may be changed about a line, as far as its findings call for it. <see cref="AlternativeFinder"/> walks the combinations.</summary>
internal sealed class EditSpace(HandlingUnit unit, UnitResult original, RuleSet rules, UnitCosts costs)
{
    /// <summary>A line is spread over at most this many times its platforms.</summary>
    private const int MostTimesPlatforms = 4;

    /// <summary>Findings that fewer layers on a platform may cure.</summary>
    private static readonly FrozenSet<string> CuredByFewerLayers =
    [
        FindingCodes.Overhang, FindingCodes.GrossWeight, FindingCodes.Height, FindingCodes.DoubleStackHeight, FindingCodes.Tipping, FindingCodes.SelfCrush,
        FindingCodes.TopLoad, FindingCodes.TopSurface,
    ];

    /// <summary>Findings that another number of cartons in a layer may cure.</summary>
    private static readonly FrozenSet<string> CuredByAnotherLayer =
    [
        FindingCodes.Overhang, FindingCodes.Height, FindingCodes.DoubleStackHeight, FindingCodes.Tipping, FindingCodes.SelfCrush, FindingCodes.TopLoad, FindingCodes.TopSurface,
    ];

    /// <summary>Findings that a larger or stronger platform may cure.</summary>
    private static readonly FrozenSet<string> CuredByAnotherDeck = [FindingCodes.Overhang, FindingCodes.GrossWeight, FindingCodes.Tipping];

    /// <summary>Findings that are about what may ride on top.</summary>
    private static readonly FrozenSet<string> CuredByNoTop =
    [
        FindingCodes.TopLoad, FindingCodes.TopSurface, FindingCodes.DoubleStackHeight, FindingCodes.FragileStackable, FindingCodes.NeverStackable,
    ];

    /// <summary>Numbers of platforms below the declared one that are tried, fewest first.</summary>
    private const int MostConsolidated = 6;

    /// <summary>Numbers of platforms that are tried between two that carry whole layers, fewest first.</summary>
    private const int MostBetween = 3;

    private readonly CartonContents? cartons = (unit.Contents as CartonContents)?.Settled;

    /// <summary>Platforms to put it on: its own, and those to be had that are larger or carry more where the findings ask for it.</summary>
    public IEnumerable<PlatformChoice?> Decks()
    {
        yield return null;
        if (unit.Platform is not { } own || !Calls(CuredByAnotherDeck))
            yield break;
        foreach (var choice in costs.Platforms)
        {
            var deck = choice.Platform;
            var larger = deck.Length > own.Length || deck.Width > own.Width;
            var stronger = own.Rating is { } rating && deck.Rating > rating;
            if (deck.Length >= own.Length && deck.Width >= own.Width && (larger || stronger))
                yield return choice;
        }
    }

    /// <summary>
    /// Cartons in a layer to try: as declared; the most that fit on the deck; and the next lower number that shares
    /// the cartons out in whole layers, so that the top is full.
    /// </summary>
    public List<int?> PerLayers(PlatformChoice? choice)
    {
        List<int?> counts = [null];
        if (cartons is null || unit.Platform is not { } own || !Calls(CuredByAnotherLayer))
            return counts;
        var deck = choice?.Platform ?? own;
        var all = cartons.Count * unit.Quantity;
        var most = Math.Min(cartons.Count, PatternFinder.Best(deck.Length, deck.Width, cartons.Carton.Length, cartons.Carton.Width).Count);
        if (most == 0)
            return counts;
        counts.Add(most);
        // The declared number, when it fits on the deck in another pattern.
        if (cartons.PerLayer < most && Has(FindingCodes.Overhang))
            counts.Add(cartons.PerLayer);
        for (var n = most - 1; n > most / 2; n--)
        {
            if (all % n != 0)
                continue;
            if (!counts.Contains(n))
                counts.Add(n);
            break;
        }

        return counts;
    }

    /// <summary>
    /// Platforms to try: as many as are needed when each carries so and so many layers, fewer and fewer; and a few numbers
    /// between, whose top layers are not full, since what is too heavy needs no whole layer taken off.
    /// </summary>
    public IEnumerable<int?> Platforms(int perLayer)
    {
        yield return null;
        if (cartons is null || unit.Platform is null || !Calls(CuredByFewerLayers))
            yield break;
        var layers = ((cartons.Count * unit.Quantity) + perLayer - 1) / perLayer;
        var last = unit.Quantity;
        for (var high = ((layers + unit.Quantity - 1) / unit.Quantity) - 1; high > 0; high--)
        {
            var platforms = (layers + high - 1) / high;
            if (platforms > unit.Quantity * MostTimesPlatforms)
                yield break;
            if (platforms <= last)
                continue;
            for (var between = last + 1; between < Math.Min(platforms, last + 1 + MostBetween); between++)
                yield return between;
            yield return last = platforms;
        }
    }

    public StackKind?[] Stacks() => unit.Contents is BagContents { Stack: StackKind.Column } ? [null, StackKind.Interlocked] : cartons is { Stack: StackKind.Interlocked } && unit.Platform is not null && (Has(FindingCodes.SelfCrush) || Has(FindingCodes.TopLoad))
        ? [null, StackKind.Column]
        : [null];

    public bool?[] Stackables()
    {
        if (unit.Stackable)
            return Calls(CuredByNoTop) ? [null, false] : [null];
        return Has(FindingCodes.StackableUnclaimed) ? [null, true] : [null];
    }

    /// <summary>Fewer platforms than declared: as few as height allows, and a few more.</summary>
    public IEnumerable<int> FewerPlatforms(int perLayer, PlatformChoice? choice)
    {
        if (cartons is null || unit.Platform is not { } own || unit.Quantity == 1)
            yield break;
        var layers = ((cartons.Count * unit.Quantity) + perLayer - 1) / perLayer;
        var deck = choice?.Platform ?? own;
        var high = Math.Max(1, (int)Math.Floor((rules.Height.Limit - deck.Height) / cartons.Carton.Height));
        var fewest = (layers + high - 1) / high;
        for (var platforms = fewest; platforms < Math.Min(unit.Quantity, fewest + MostConsolidated); platforms++)
            yield return platforms;
    }

    private bool Has(string code) => original.Findings.Any(f => f.Code == code);

    private bool Calls(FrozenSet<string> codes) => original.Findings.Any(f => codes.Contains(f.Code));
}
