using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Film goes at least twice round and comes down over the platform. Common practice, no source.</summary>
public class WrapRuleTests
{
    [Theory]
    [InlineData(0, true)]
    [InlineData(1, true)]
    [InlineData(2, false)]
    [InlineData(3, false)]
    public void Film_goes_at_least_twice_round(int turns, bool found) => Assert.Equal(found, Turned(turns).Finds(FindingCodes.WrapTurns));

    [Fact]
    public void One_turn_is_too_little_to_hold_the_load()
    {
        var finding = Turned(1).Finding(FindingCodes.WrapTurns);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal("protection.wrapTurns", finding.Subject);
        Assert.Equal(Quantity.Pieces(1), finding.Measured);
        Assert.Equal(Quantity.Pieces(2), finding.Limit);
        Assert.Equal(Basis.CommonPractice("film goes at least twice round"), finding.Basis);
        Assert.Equal("The film goes round once. It takes at least 2 full turns to hold 1,320 lb together.", finding.Message.Said());
        Assert.Equal("Wrap 2 full turns, from the pallet to the top.", finding.Cure.Said());
    }

    [Fact]
    public void Film_that_stops_above_the_pallet_holds_nothing_to_it()
    {
        var finding = (Freight.Sound with { Protection = Freight.Wrapped with { WrapOverPlatform = false } }).Finding(FindingCodes.WrapAnchor);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal("protection.wrapOverPlatform", finding.Subject);
        Assert.Equal((Quantity.Pieces(0), Quantity.Pieces(1)), (finding.Measured, finding.Limit));
        Assert.Equal(BasisKind.CommonPractice, finding.Basis.Kind);
    }

    [Fact]
    public void Without_film_there_is_one_finding_and_not_two()
    {
        var bare = Freight.Sound with { Protection = Protection.None };
        Assert.Equal([FindingCodes.WrapTurns], bare.Check().Codes());
        Assert.StartsWith("There is no film.", bare.Finding(FindingCodes.WrapTurns).Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Film_is_about_cartons_on_a_pallet()
    {
        Assert.DoesNotContain(FindingCodes.WrapTurns, Freight.Machine.Check().Codes());
        Assert.DoesNotContain(FindingCodes.WrapTurns, Freight.LooseCarton.Check().Codes());
    }

    [Fact]
    public void Size_and_lane_change_nothing_about_film() =>
        Assert.Equal(
            Turned(1).Finding(FindingCodes.WrapTurns),
            (Turned(1) with { Outer = Freight.Outer(50, 41, 45.5), Stackable = false }).Finding(FindingCodes.WrapTurns, Freight.Far));

    [Fact]
    public void A_carrier_may_want_three_turns()
    {
        var tariff = Tariff.With(rules => rules with { Wrap = new WrapLimits { Turns = 3, TurnsSeverity = Severity.Caution, AnchorSeverity = Severity.Caution } });
        var turns = Turned(2).Finding(FindingCodes.WrapTurns, rules: tariff);
        Assert.Equal((Severity.Caution, Quantity.Pieces(3)), (turns.Severity, turns.Limit));
        Assert.StartsWith("The film goes round twice. It takes at least 3 full turns", turns.Message.Said(), StringComparison.Ordinal);
        Tariff.IsNamedBy(turns);
        var anchor = (Freight.Sound with { Protection = Freight.Wrapped with { WrapOverPlatform = false } }).Finding(FindingCodes.WrapAnchor, rules: tariff);
        Assert.Equal((Severity.Caution, Tariff.Seventh), (anchor.Severity, anchor.RuleSet));
    }

    [Theory]
    [InlineData(2000, 2, false)]
    [InlineData(2001, 2, true)]
    [InlineData(2001, 3, false)]
    public void A_heavy_load_wants_more_squeeze(double pounds, int turns, bool found)
    {
        // A film supplier's guide: 7 lb at least for a heavy, unsteady load; 2.5 lb a turn is our choice.
        foreach (var units in Typed.Both)
        {
            var heavy = Turned(turns) with { GrossWeight = Typed.Heavy(pounds, units) };
            Assert.Equal(found, heavy.Finds(FindingCodes.Containment));
            if (found)
                Assert.Equal((Severity.Tip, Quantity.Pieces(2), Quantity.Pieces(3)), (heavy.Finding(FindingCodes.Containment).Severity, heavy.Finding(FindingCodes.Containment).Measured, heavy.Finding(FindingCodes.Containment).Limit));
        }

        Tariff.IsNamedBy((Turned(3) with { GrossWeight = Mass.FromPounds(2500) }).Finding(
            FindingCodes.Containment, rules: Tariff.With(rules => rules with { Wrap = rules.Wrap with { PoundsForcePerTurn = 2 } })));
    }

    private static HandlingUnit Turned(int turns) => Freight.Sound with { Protection = Freight.Wrapped with { WrapTurns = turns } };
}
