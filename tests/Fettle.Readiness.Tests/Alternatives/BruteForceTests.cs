using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Alternatives;

/// <summary>
/// For small freight the search finds as cheap a way out as trying everything: whatever the findings call for, with every
/// number of platforms, mended not at all or down to each gravity. Mending a part of one gravity is not offered, by
/// decision: docs/decisions/0007-alternatives.md.
/// </summary>
public class BruteForceTests
{
    private static readonly Gen<HandlingUnit> Small =
        from length in Gen.OneOf(16, 20, 24)
        from width in Gen.OneOf(12, 16)
        from height in Gen.OneOf(10, 14, 18)
        from pounds in Gen.OneOf(8, 30, 60)
        from ect in Gen.OneOf(26, 32, 44)
        from perLayer in Gen.Int[2, 9]
        from layers in Gen.Int[1, 5]
        from stack in Gen.Enum<StackKind>()
        from over in Gen.OneOf(0, 0, 4)
        from quantity in Gen.Int[1, 2]
        from stackable in Gen.Bool
        from protection in Any.Protection
        from rating in Gen.OneOf(1000, 2500)
        let unit = Freight.Pallet(
            new CartonContents(Freight.Carton(length, width, height, pounds, ect), perLayer, layers, stack), Freight.Deck with { Rating = Mass.FromPounds(rating) })
        select unit with
        {
            Outer = unit.Outer with { Length = unit.Outer.Length + Length.FromInches(over) },
            Quantity = quantity,
            Stackable = stackable,
            Protection = protection,
        };

    [Fact]
    public void The_search_is_as_cheap_as_trying_everything()
    {
        var searched = 0;
        Gen.Select(Small, Any.Lane).Sample(
            (unit, lane) =>
            {
                if (IsAsCheap(unit, lane))
                    Interlocked.Increment(ref searched);
            },
            iter: 40,
            print: Any.Print);
        Assert.True(searched > 10, $"Only {searched} were searched.");
    }

    /// <summary>A draw of the test above: what is too heavy for two platforms goes on three, whose top layers are not full, and not on four.</summary>
    [Fact]
    public void What_is_too_heavy_needs_one_platform_more_and_no_whole_layer_less()
    {
        var unit = Freight.Pallet(new CartonContents(Freight.Carton(16, 12, 18, 60, 26), 6, 3, StackKind.Column), Freight.Deck with { Rating = Mass.FromPounds(1000) });
        unit = unit with
        {
            Outer = unit.Outer with { Length = unit.Outer.Length + Length.FromInches(4) },
            Quantity = 2,
            Stackable = true,
            Protection = Protection.None with { WrapTurns = 4, Sleeve = true, SlipSheets = true },
        };
        var lane = new Lane(499.9, 6, CrossBorder: false) { Liftgate = true };

        Assert.True(IsAsCheap(unit, lane));
        Assert.Equal(3, AlternativeFinder.Find(unit, unit.Check(lane), lane, RuleSet.BuiltIn, UnitCosts.Default).Alternatives[0].HandlingUnits.Sum(line => line.Quantity));
    }

    /// <returns>False when there is nothing to search.</returns>
    private static bool IsAsCheap(HandlingUnit unit, Lane lane)
    {
        var original = unit.Check(lane);
        var search = AlternativeFinder.Find(unit, original, lane, RuleSet.BuiltIn, UnitCosts.Default);
        if (original.Findings.Any(f => FindingCodes.IsContradiction(f.Code)) || original.Findings.Count == 0)
            return false;
        var cheapest = Cheapest(unit, original, lane);
        Assert.True(
            cheapest?.Cost.Total == (search.Alternatives.Count == 0 ? null : search.Alternatives[0].Cost.Total),
            $"{cheapest?.Key} at {cheapest?.Cost.Total}, found {string.Join(", ", search.Alternatives.Select(a => $"{a.Key} at {a.Cost.Total}"))}");
        return true;
    }

    private static (AlternativeCost Cost, string Key)? Cheapest(HandlingUnit unit, UnitResult original, Lane lane)
    {
        var before = Wrongs.Of([original]);
        var space = new EditSpace(unit, original, RuleSet.BuiltIn, UnitCosts.Default);
        (AlternativeCost Cost, string Key)? cheapest = null;
        foreach (var deck in space.Decks())
        foreach (var perLayer in space.PerLayers(deck))
        foreach (var platforms in Enumerable.Range(1, MostPlatforms(perLayer)).Select(n => (int?)n).Prepend(null))
        foreach (var stack in space.Stacks())
        foreach (var stackable in space.Stackables())
            Try(new Build(perLayer, platforms, stack, stackable, deck));

        // Without its platform it travels only where the rules say that it had better.
        if (before.Has(FindingCodes.FewLightCartons))
            Try(Build.AsDeclared with { Loose = true });
        return cheapest;

        // More of them than declared only where a finding calls for fewer layers.
        int MostPlatforms(int? perLayer) => space.Platforms(perLayer ?? ((CartonContents)unit.Contents).PerLayer).Any(n => n > unit.Quantity) ? 4 * unit.Quantity : unit.Quantity;

        void Try(Build build)
        {
            var lines = build.Lines(unit, new HashSet<string>());
            if (lines.Count == 0)
                return;
            UnitResult[] bare = [.. lines.Select(line => ReadinessCheck.Run(line, lane, RuleSet.BuiltIn))];
            foreach (var least in Enum.GetValues<Severity>().Select(severity => (Severity?)severity).Append(null))
            {
                Finding[] findings =
                [
                    .. bare.SelectMany(result => result.Findings)
                        .Where(f => f.Severity >= least && Mend.Knows(f.Code))
                        .GroupBy(f => f.Code)
                        .Select(same => same.MaxBy(f => f.Limit.Value)!),
                ];
                HandlingUnit[] mended = [.. lines.Select(line => Mend.Apply(line, findings, RuleSet.BuiltIn, Preference.None))];
                UnitResult[] results = [.. mended.Select(line => ReadinessCheck.Run(line, lane, RuleSet.BuiltIn))];
                var candidate = new Candidate(build, mended, results, Wrongs.Of(results));
                if (candidate.IsHeld || !candidate.Wrongs.IsLessThan(before))
                    continue;
                var cost = Cost.Of(candidate, unit, original, UnitCosts.Default);
                if (cheapest is null || cost.Total < cheapest.Value.Cost.Total)
                    cheapest = (cost, $"{build.Key} {string.Join('+', findings.Select(f => f.Code))}");
            }
        }
    }
}
