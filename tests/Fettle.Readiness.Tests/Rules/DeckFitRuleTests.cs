using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Support under a carton after Carpenter and Dowsland 1985 (from memory); the rest is common practice and arithmetic.</summary>
public class DeckFitRuleTests
{
    [Theory]
    // Cartons 9 in wide on a deck of 40 in: 2.25 in past the edge leave three quarters of the base on it.
    [InlineData(44.4, false)]
    [InlineData(44.5, false)]
    [InlineData(44.6, true)]
    public void Three_quarters_of_a_base_stand_on_the_deck(double width, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Freight.Sound.Reaching(width: Typed.Long(width, units)).Finds(FindingCodes.DeckEdge));
    }

    [Fact]
    public void The_edge_carries_next_to_nothing()
    {
        var finding = Freight.Sound.Reaching(width: Length.FromInches(47)).Finding(FindingCodes.DeckEdge);
        Assert.Equal((Severity.Caution, "contents.perLayer"), (finding.Severity, finding.Subject));
        Assert.Equal(100 * 5.5 / 9, finding.Measured.Value, 6);
        Assert.StartsWith("The outermost cartons have 61.1 % of their base on the deck", finding.Message.Said(), StringComparison.Ordinal);
        Tariff.IsNamedBy(Freight.Sound.Reaching(width: Length.FromInches(44)).Finding(
            FindingCodes.DeckEdge, rules: Tariff.With(rules => rules with { DeckFit = rules.DeckFit with { Support = 0.8 } })));
    }

    [Fact]
    public void Within_the_deck_nothing_is_said_of_its_edge() =>
        Assert.False(Freight.Pallet(new CartonContents(Freight.Carton(12, 10, 10, 20, 44), 16, 4, StackKind.Column)).Finds(FindingCodes.DeckEdge));

    [Theory]
    // Two and one of them, square: the middle of three is a sixth of a side beside the deck's; 8 % of 40 in is 3.2 in.
    [InlineData(19.1, false)]
    [InlineData(19.2, false)]
    [InlineData(19.3, true)]
    public void Three_where_four_would_stand_are_off_the_middle(double side, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Three(Typed.Long(side, units)).Finds(FindingCodes.OffCentre));
    }

    [Fact]
    public void How_far_off_is_told()
    {
        var finding = Three(Length.FromInches(20)).Finding(FindingCodes.OffCentre);
        Assert.Equal((Severity.Caution, "outer.width"), (finding.Severity, finding.Subject));
        Assert.Equal(100.0 / 12, finding.Measured.Value, 6);
        Assert.Equal("3.33 in ÷ 40 in = 8.33 %", finding.Formula.Said());
        Assert.Equal(finding, (Three(Length.FromInches(20)) with { Stackable = true, Quantity = 4 }).Finding(FindingCodes.OffCentre));
        Tariff.IsNamedBy(Three(Length.FromInches(18)).Finding(
            FindingCodes.OffCentre, rules: Tariff.With(rules => rules with { DeckFit = rules.DeckFit with { OffCentre = 0.05 } })));
    }

    [Theory]
    // Two gaps of 3.25 in.
    [InlineData(6.4, true)]
    [InlineData(6.5, false)]
    [InlineData(6.6, false)]
    public void A_small_carton_sinks_between_the_boards(double width, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var small = Freight.Pallet(new CartonContents(Freight.Carton(12, 8, 6, 10, 44) with { Width = Typed.Long(width, units) }, 20, 4, StackKind.Column));
            Assert.Equal(found, small.Finds(FindingCodes.DeckGap));
            Assert.False((small with { Protection = small.Protection with { SlipSheets = true } }).Finds(FindingCodes.DeckGap));
            Assert.False((small with { Platform = small.Platform! with { Material = PlatformMaterial.Plastic } }).Finds(FindingCodes.DeckGap));
        }
    }

    [Fact]
    public void A_carrier_may_reckon_with_other_boards()
    {
        var finding = Freight.Sound.Finding(FindingCodes.DeckGap, rules: Tariff.With(rules => rules with { DeckFit = rules.DeckFit with { BoardGap = Length.FromInches(5), GapSeverity = Severity.Tip } }));
        Assert.Equal((Severity.Tip, (Quantity)Length.FromInches(9), (Quantity)Length.FromInches(10)), (finding.Severity, finding.Measured, finding.Limit));
        Tariff.IsNamedBy(finding);
    }

    private static HandlingUnit Three(Length side) =>
        Freight.Pallet(new CartonContents(Freight.Carton(20, 20, 12, 60, 48) with { Length = side, Width = side }, 3, 2, StackKind.Column));
}
