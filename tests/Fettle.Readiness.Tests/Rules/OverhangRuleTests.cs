using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Nothing past the deck; a few inches bare at best. Common practice, no source.</summary>
public class OverhangRuleTests
{
    [Theory]
    [InlineData(47.9, false)]
    [InlineData(48, false)]
    // What two tapes disagree about is no overhang: our choice, no source.
    [InlineData(48.125, false)]
    [InlineData(48.1875, true)]
    [InlineData(50, true)]
    public void A_load_longer_than_the_deck_overhangs_at_the_ends(double length, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Freight.Sound.Reaching(length: Typed.Long(length, units)).Finds(FindingCodes.Overhang));
    }

    [Theory]
    [InlineData(39.9, false)]
    [InlineData(40, false)]
    [InlineData(40.125, false)]
    [InlineData(40.1875, true)]
    [InlineData(43, true)]
    public void A_load_wider_than_the_deck_overhangs_at_the_sides(double width, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Freight.Sound.Reaching(width: Typed.Long(width, units)).Finds(FindingCodes.Overhang));
    }

    [Fact]
    public void What_two_tapes_disagree_about_moves_no_carton()
    {
        var carton = Freight.Carton(20.5, 7, 4.75, 33.6, 61);
        var narrow = Freight.Pallet(new CartonContents(carton, 8, 2, StackKind.Interlocked), Freight.Deck);
        narrow = narrow.Reaching(length: Freight.Deck.Length, width: Freight.Deck.Width);

        var wider = narrow.Reaching(width: Freight.Deck.Width + Length.FromInches(1 / 12d));

        Assert.Equal(narrow.Check().Measures.UsableStrength, wider.Check().Measures.UsableStrength);
        Assert.Equal(narrow.Check().Verdict, wider.Check().Verdict);
    }

    [Fact]
    public void Each_end_has_half_of_what_is_too_long_and_the_forks_are_named()
    {
        var finding = Freight.Sound.Reaching(length: Length.FromInches(51)).Finding(FindingCodes.Overhang);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal("outer.length", finding.Subject);
        Assert.Equal(new Quantity(1.5, Unit.Inch), finding.Measured);
        Assert.Equal(new Quantity(0, Unit.Inch), finding.Limit);
        Assert.Equal(BasisKind.CommonPractice, finding.Basis.Kind);
        Assert.Equal(RuleSet.BuiltIn.Identity, finding.RuleSet);
        Assert.Equal(
            "The load is 51 in long on a deck of 48 in: 1.5 in sticks out at each end. Forks enter at the ends and strike the load there before they reach the pallet.",
            finding.Message.Said());
        Assert.Equal("Bring the load inside 48 in: another pattern, or a longer pallet.", finding.Cure.Said());
    }

    [Fact]
    public void The_sides_rub_where_the_ends_are_struck()
    {
        var finding = Freight.Sound.Reaching(width: Length.FromInches(42)).Finding(FindingCodes.Overhang);
        Assert.Equal("outer.width", finding.Subject);
        Assert.Equal(new Quantity(1, Unit.Inch), finding.Measured);
        Assert.Contains("rubs on the next pallet", finding.Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_load_over_both_edges_has_a_finding_for_each() =>
        Assert.Equal(
            ["outer.length", "outer.width"],
            Freight.Sound.Reaching(Length.FromInches(50), Length.FromInches(42)).Check().Findings.Where(f => f.Code == FindingCodes.Overhang).Select(f => f.Subject));

    [Fact]
    public void A_machine_may_not_hang_over_either() =>
        Assert.True(Freight.Machine.Reaching(length: Length.FromInches(49)).Finds(FindingCodes.Overhang));

    [Theory]
    // Sixteen cartons of 11 × 9 in on 48 × 40: the pallet's width decides what is bare on the sides.
    [InlineData(40.25, false)]
    [InlineData(40, false)]
    [InlineData(39.875, true)]
    public void Less_than_two_inches_of_bare_deck_on_a_side_is_too_little(double deckWidth, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var deck = Freight.Deck with { Width = Typed.Long(deckWidth, units) };
            var unit = Freight.Pallet(Freight.Sound.Cartons(), deck) with { Stackable = true };
            Assert.Equal(found, unit.Finds(FindingCodes.Clearance));
        }
    }

    [Fact]
    public void The_finding_names_the_barest_side()
    {
        var deck = Freight.Deck with { Length = Length.FromInches(47), Width = Length.FromInches(38) };
        var finding = Freight.Pallet(Freight.Sound.Cartons(), deck).Finding(FindingCodes.Clearance);
        Assert.Equal("outer.width", finding.Subject);
        Assert.Equal(new Quantity(1, Unit.Inch), finding.Measured);
        Assert.Equal(new Quantity(2, Unit.Inch), finding.Limit);
        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.StartsWith("Only 1 in of deck is left bare", finding.Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_is_bare_it_says_so()
    {
        var deck = Freight.Deck with { Width = Length.FromInches(36) };
        Assert.StartsWith("No deck is left bare", Freight.Pallet(Freight.Sound.Cartons(), deck).Finding(FindingCodes.Clearance).Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Corner_boards_down_to_the_platform_stand_in_for_bare_deck()
    {
        var tight = Freight.Pallet(Freight.Sound.Cartons(), Freight.Deck with { Width = Length.FromInches(38) });
        Assert.True(tight.Finds(FindingCodes.Clearance));
        Assert.True((tight with { Protection = Freight.Wrapped with { CornerBoards = CornerBoards.Partial } }).Finds(FindingCodes.Clearance));
        Assert.False((tight with { Protection = Freight.Boarded }).Finds(FindingCodes.Clearance));
    }

    [Fact]
    public void Weight_board_and_film_change_nothing_about_overhang()
    {
        var over = Freight.Sound.Reaching(length: Length.FromInches(50));
        var other = over with { Protection = Protection.None, Stackable = false, Quantity = 7 };
        Assert.Equal(over.Finding(FindingCodes.Overhang), other.Finding(FindingCodes.Overhang));
    }

    [Fact]
    public void A_carrier_may_be_milder_or_want_more()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Overhang = rules.Overhang with { OverhangSeverity = Severity.Caution, ClearanceSeverity = Severity.Stop, Clearance = Length.FromInches(3) },
        });
        var overhang = Freight.Sound.Reaching(length: Length.FromInches(50)).Finding(FindingCodes.Overhang, rules: tariff);
        Assert.Equal(Severity.Caution, overhang.Severity);
        Assert.Equal(Tariff.Seventh, overhang.RuleSet);
        var clearance = Freight.Sound.Finding(FindingCodes.Clearance, rules: tariff);
        Assert.Equal(Severity.Stop, clearance.Severity);
        Assert.Equal(new Quantity(3, Unit.Inch), clearance.Limit);
        Tariff.IsNamedBy(clearance);
    }
}
