using Fettle.Engineering.Statistics;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class RuleEffectsTests
{
    private static readonly Commodity Glass = new("cartons fragile");
    private static readonly Commodity Paper = new("rolls");

    [Fact]
    public void A_finding_that_only_goes_with_glass_predicts_nothing_once_glass_is_compared_with_glass()
    {
        // Glass breaks ten times as often, with the finding and without it; the finding is made mostly about glass.
        var effects = Of(
            (Glass, "", 1000, 100), (Glass, "top-cap", 900, 90),
            (Paper, "", 1000, 10), (Paper, "top-cap", 100, 1));
        var effect = Assert.Single(effects.Effects);
        Assert.Equal(Effect.PredictsNothing, effect.Effect);
        Assert.Equal(1, effect.Ratio!.Value.Value, 1e-9);

        // Thrown together it would have seemed five times as bad.
        Assert.True(effect.With.Seen / effect.Without.Seen > 4.5);
    }

    [Fact]
    public void A_finding_that_tells_the_truth_is_named_with_its_ratio()
    {
        var effects = Of((Glass, "", 1000, 60), (Glass, "overhang", 200, 40), (Paper, "", 400, 12), (Paper, "overhang", 100, 9));
        var effect = Assert.Single(effects.Effects);
        Assert.Equal(Effect.Predicts, effect.Effect);
        var expected = MantelHaenszel.RiskRatio([new(40, 200, 20, 800), new(9, 100, 3, 300)]);
        Assert.Equal(expected, effect.Ratio);
        Assert.Equal((300, 1100, 72, 2), (effect.ComparedWith, effect.ComparedWithout, effect.ComparedDamaged, effect.Strata));
        Assert.Equal((72, 1400), (effects.Damaged.Part, effects.Damaged.Whole));
    }

    [Fact]
    public void A_finding_that_people_take_care_of_goes_the_other_way() =>
        Assert.Equal(Effect.Reverse, Assert.Single(Of((Glass, "", 2000, 200), (Glass, "partitions", 500, 10)).Effects).Effect);

    [Theory]
    [InlineData(29, 5, 1000, 50)]
    [InlineData(500, 30, 529, 40)]
    [InlineData(500, 2, 1000, 4)]
    public void Too_few_lines_or_damages_are_said_to_be_too_few(int with, int damagedWith, int all, int damaged) =>
        Assert.Equal(Effect.TooFew, Assert.Single(Of((Glass, "", all, damaged), (Glass, "overhang", with, damagedWith)).Effects).Effect);

    [Fact]
    public void Lines_that_have_no_like_to_compare_with_do_not_count_as_data()
    {
        // All glass has the finding and no paper has: there is nothing to compare.
        var effect = Assert.Single(Of((Glass, "", 500, 50), (Glass, "overhang", 500, 50), (Paper, "", 500, 5)).Effects);
        Assert.Equal((Effect.TooFew, 0, 0L), (effect.Effect, effect.Strata, effect.ComparedWith));
        Assert.Equal(500, effect.With.Whole);
    }

    [Fact]
    public void Damage_that_nothing_foresaw_is_counted()
    {
        var unforeseen = Line.Times(3, () => Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Damaged)));
        var foreseen = Line.Of(Line.Declared("overhang"), Line.Arrived(OutcomeKind.Damaged));
        var effects = RuleEffects.Of(Line.Cells([.. unforeseen, foreseen]).Where(cell => cell.Facet == Facet.Finding).Select(cell =>
        {
            var (commodity, miles, code) = CellKeys.ReadFinding(cell.Key);
            return (commodity, miles, code, cell.Tally);
        }));
        Assert.Equal((3, 4), (effects.Unforeseen.Part, effects.Unforeseen.Whole));
        Assert.Equal((4, 4), (effects.Damaged.Part, effects.Damaged.Whole));
    }

    [Fact]
    public void Nothing_but_the_counts_named_is_looked_at()
    {
        ScoredLine[] lines =
        [
            .. Line.Times(40, () => Line.Of(Line.Declared("overhang"), Line.Arrived(OutcomeKind.Damaged))),
            .. Line.Times(60, () => Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Clean))),
            .. Line.Times(4, () => Line.Of(Line.Declared(), Line.Arrived(OutcomeKind.Damaged))),
        ];
        var cells = Line.Cells(lines).Where(cell => cell.Facet == Facet.Finding).Select(cell => (Read: CellKeys.ReadFinding(cell.Key), cell.Tally)).ToArray();
        var all = RuleEffects.Of(cells.Select(cell => (cell.Read.Commodity, cell.Read.Miles, cell.Read.Code, cell.Tally)));
        var named = RuleEffects.Of(cells.Select(cell => (cell.Read.Commodity, cell.Read.Miles, cell.Read.Code, Tally.From(RuleEffects.Counts.Select(what => (what, cell.Tally[what]))))));
        Assert.Equal((all.Damaged, all.Unforeseen), (named.Damaged, named.Unforeseen));
        Assert.Equal(all.Effects, named.Effects);
        Assert.NotEmpty(named.Effects);
    }

    [Fact]
    public void Nothing_known_is_no_effect()
    {
        var effects = RuleEffects.Of([]);
        Assert.Empty(effects.Effects);
        Assert.Equal(0, effects.Damaged.Whole);
    }

    private static RuleEffects Of(params (Commodity Commodity, string Code, int Travelled, int Damaged)[] cells) => RuleEffects.Of(cells.Select(cell => (
        cell.Commodity,
        MileBand.Long,
        cell.Code,
        Tally.From((Tallied.Travelled, cell.Travelled), (Tallied.TravelledDamaged, cell.Damaged)))));
}
