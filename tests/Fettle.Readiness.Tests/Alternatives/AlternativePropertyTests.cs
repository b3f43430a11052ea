using System.Collections.Frozen;
using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Alternatives;

/// <summary>What is promised of every alternative, on freight made up at random.</summary>
public class AlternativePropertyTests
{
    [Fact]
    public void None_would_be_held_and_none_has_a_stop_or_a_caution_that_was_not_there() => Offered((_, original, _, alternative) =>
    {
        Assert.NotEqual(Verdict.Hold, alternative.Verdict);
        var before = original.Findings.ToLookup(f => f.Code, f => f.Severity);
        foreach (var line in alternative.Results)
        {
            foreach (var after in line.Findings.Where(f => f.Severity > Severity.Tip).GroupBy(f => f.Code, f => f.Severity))
            {
                // Of each code no more findings than before, and none graver than the one it takes the place of.
                var had = before[after.Key].OrderDescending().ToArray();
                var has = after.OrderDescending().ToArray();
                Assert.True(has.Length <= had.Length, $"{alternative.Key}: {after.Key} was not there.");
                Assert.All(has.Zip(had), pair => Assert.True(pair.First <= pair.Second, $"{alternative.Key}: {after.Key} is graver."));
            }
        }
    });

    [Fact]
    public void Each_leaves_less_wrong_than_there_was() => Offered((_, original, _, alternative) =>
    {
        Assert.All(alternative.Results, line => Assert.True(Weight(line) < Weight(original), alternative.Key));
        Assert.All(alternative.Cures, code => Assert.Contains(original.Findings, f => f.Code == code));
        Assert.All(alternative.Cures, code => Assert.DoesNotContain(alternative.Results, line => line.Findings.Any(f => f.Code == code)));
        Assert.Equal(original.Findings.Select(f => f.Code).Distinct().Where(alternative.Cures.Contains), alternative.Cures);
    });

    [Fact]
    public void Applying_one_gives_exactly_what_was_promised() => Offered((_, _, lane, alternative) =>
    {
        Assert.Equal(alternative.HandlingUnits.Count, alternative.Results.Count);
        foreach (var (line, promised) in alternative.HandlingUnits.Zip(alternative.Results))
        {
            var result = line.Check(lane);
            Assert.Equal((promised.Reference, promised.Quantity, promised.Verdict), (result.Reference, result.Quantity, result.Verdict));
            Assert.Equal(promised.Findings, result.Findings);
            Assert.Equal(promised.Measures, result.Measures);
        }

        Assert.Equal(alternative.Results.Max(r => r.Verdict), alternative.Verdict);
    });

    [Fact]
    public void No_carton_and_no_pound_is_lost() => Offered((unit, _, _, alternative) =>
    {
        var load = unit.Cartons();
        Assert.Equal(load.Count * unit.Quantity, alternative.HandlingUnits.Sum(line => line.Cartons().Count * line.Quantity));
        Assert.All(alternative.HandlingUnits, line => Assert.Equal(load.Carton, line.Cartons().Carton));

        // Goods as weighed; where a scale says less than the cartons add up to, a new build is reckoned by the cartons.
        var declared = (unit.GrossWeight - unit.Platform!.Tare) * unit.Quantity;
        var reckoned = load.Carton.GrossWeight * load.Count * unit.Quantity;
        var goods = alternative.HandlingUnits.Aggregate(Mass.Zero, (sum, line) => sum + ((line.GrossWeight - (line.Platform?.Tare ?? Mass.Zero)) * line.Quantity));
        var loose = alternative.HandlingUnits[0].Kind == HandlingUnitKind.LooseCarton;
        var restacked = alternative.HandlingUnits.Any(line => line.Contents != unit.Contents || line.Quantity != unit.Quantity || (line.Platform?.Tare, line.Platform?.Rating) != (unit.Platform.Tare, unit.Platform.Rating));
        var expected = loose ? reckoned : restacked ? Mass.Max(declared, reckoned) : declared;
        // One nanogram a unit for dividing.
        Assert.InRange((goods - expected).Abs().Nanograms, 0, alternative.HandlingUnits.Sum(line => line.Quantity));
    });

    [Fact]
    public void Nothing_is_cured_by_reckoning_where_the_tape_said_more() => Offered((unit, _, _, alternative) =>
    {
        var load = unit.Cartons();
        foreach (var line in alternative.HandlingUnits.Where(line => line.Kind == HandlingUnitKind.Pallet))
        {
            if (line.Cartons().Tiers >= load.Tiers)
                Assert.True(line.Outer.Height - line.Platform!.Height >= unit.Outer.Height - unit.Platform!.Height - Length.Max(Length.Zero, Sag()), alternative.Key);
            Assert.True(line.Outer.Height >= line.Platform!.Height + (load.Carton.Height * line.Cartons().Tiers) - Length.Max(Length.Zero, Sag()));
        }

        // How much lower it was measured than it adds up to.
        Length Sag() => unit.Platform!.Height + (load.Carton.Height * load.Tiers) - unit.Outer.Height;
    });

    [Fact]
    public void Names_and_keys_are_unique_and_the_answer_is_always_the_same() => Searched((unit, _, lane, search) =>
    {
        Assert.Equal(search.Alternatives.Count, search.Alternatives.Select(a => a.Key).Distinct().Count());
        Assert.All(search.Alternatives, a => Assert.Equal(a.HandlingUnits.Count, a.HandlingUnits.Select(line => line.Reference).Distinct(StringComparer.OrdinalIgnoreCase).Count()));
        Assert.All(search.Alternatives, a => Assert.Equal(unit.Reference, a.HandlingUnits[0].Reference));
        Assert.All(search.Alternatives, a => Assert.Matches("^[a-z0-9]+(-[a-z0-9]+)*$", a.Key));

        var again = AlternativeFinder.Find(unit, unit.Check(lane), lane, RuleSet.BuiltIn, UnitCosts.Default);
        Assert.Equal(search.Blocked, again.Blocked);
        Assert.Equal(search.Alternatives.Select(a => (a.Key, a.Summary, a.Cost)), again.Alternatives.Select(a => (a.Key, a.Summary, a.Cost)));
        Assert.Equal(search.Alternatives.SelectMany(a => a.HandlingUnits), again.Alternatives.SelectMany(a => a.HandlingUnits));
        Assert.Equal(search.Alternatives.SelectMany(a => a.Cures), again.Alternatives.SelectMany(a => a.Cures));
    });

    [Fact]
    public void Cheapest_comes_first_and_costs_are_what_they_can_be() => Searched((unit, _, _, search) =>
    {
        Assert.InRange(search.Alternatives.Count, 0, AlternativeFinder.Offered);
        Assert.Equal(search.Alternatives.OrderBy(a => a.Cost.Total).Select(a => a.Key), search.Alternatives.Select(a => a.Key));
        foreach (var (alternative, cost) in search.Alternatives.Select(a => (a, a.Cost)))
        {
            Assert.True(cost.Minutes >= 0);
            Assert.True(double.IsFinite(cost.Minutes));
            // Only what leaves a pallet behind saves material.
            if (alternative.HandlingUnits[0].Kind == HandlingUnitKind.Pallet)
                Assert.True(cost.Material >= 15 * Math.Min(0, cost.ExtraPlatforms));
            else
                Assert.Contains(cost.ExtraFloorPositions, new[] { -unit.Quantity, -((unit.Quantity + 1) / 2) });
            Assert.Equal(alternative.HandlingUnits.Where(line => line.Platform is not null).Sum(line => line.Quantity) - unit.Quantity, cost.ExtraPlatforms);
            if (alternative.HandlingUnits[0].Platform == unit.Platform)
                Assert.Equal(cost.Material + (cost.ExtraFloorPositions * Positions(unit) * 40) + ((decimal)cost.Minutes * 0.5m), cost.Total, 1);
            Assert.Equal(unit.Stackable && alternative.HandlingUnits.Any(line => !line.Stackable && line.Kind == HandlingUnitKind.Pallet), cost.LosesStackable);
        }
    });

    /// <summary>A platform's floor, in positions of 48 × 40 in.</summary>
    private static decimal Positions(HandlingUnit unit) => (decimal)Math.Max(1, unit.Platform!.Length.Inches * unit.Platform.Width.Inches / 1920);

    [Fact]
    public void No_two_come_to_the_same_lines() => Searched((_, _, _, search) =>
    {
        for (var i = 0; i < search.Alternatives.Count; i++)
            Assert.DoesNotContain(search.Alternatives.Skip(i + 1), other => other.HandlingUnits.SequenceEqual(search.Alternatives[i].HandlingUnits));
    });

    [Fact]
    public void Each_says_what_to_do_in_a_sentence() => Offered((_, _, _, alternative) =>
    {
        foreach (var units in Typed.Both)
        {
            var said = alternative.Summary.Say(units);
            Assert.NotEmpty(said);
            Assert.True(char.IsUpper(said[0]), said);
            Assert.DoesNotMatch(@"\b1 (pallets|layers|cartons)|\b0 (pallets|layers|cartons)", said.Replace('\u00a0', ' '));
        }
    });

    [Fact]
    public void Names_that_other_lines_have_are_passed_over() =>
        Gen.Select(Any.Pallet, Any.Lane).Sample(
            (unit, lane) =>
            {
                var original = unit.Check(lane);
                var taken = new[] { "A1", "A1b", "A1d", "A1E" }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);
                var search = AlternativeFinder.Find(unit, original, lane, RuleSet.BuiltIn, UnitCosts.Default, taken);
                Assert.All(search.Alternatives, a => Assert.All(a.HandlingUnits.Skip(1), line => Assert.False(taken.Contains(line.Reference), line.Reference)));
                // Names change nothing else.
                var free = AlternativeFinder.Find(unit, original, lane, RuleSet.BuiltIn, UnitCosts.Default);
                Assert.Equal(free.Alternatives.Select(a => (a.Key, a.Cost)), search.Alternatives.Select(a => (a.Key, a.Cost)));
            },
            iter: 200,
            print: Any.Print);

    private static void Offered(Action<HandlingUnit, UnitResult, Lane, Alternative> check)
    {
        var offered = 0;
        Searched((unit, original, lane, search) =>
        {
            foreach (var alternative in search.Alternatives)
            {
                Interlocked.Increment(ref offered);
                check(unit, original, lane, alternative);
            }
        });
        Assert.True(offered > 500, $"Only {offered} alternatives came up.");
    }

    private static void Searched(Action<HandlingUnit, UnitResult, Lane, AlternativeSearch> check) =>
        Gen.Select(Any.Pallet, Any.Lane).Sample(
            (unit, lane) =>
            {
                var original = unit.Check(lane);
                check(unit, original, lane, AlternativeFinder.Find(unit, original, lane, RuleSet.BuiltIn, UnitCosts.Default));
            },
            iter: 600,
            print: Any.Print);

    private static int Weight(UnitResult result) => result.Findings.Sum(f => f.Severity switch { Severity.Stop => 10_000, Severity.Caution => 100, Severity.Tip => 1 });
}
