using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>
/// A few light cartons often travel better loose: common practice, no source. What one person lifts: the load constant of
/// the revised NIOSH lifting equation, Pub. 94-110, 51 lb; twice that for two is practice.
/// </summary>
public class FewLightCartonsRuleTests
{
    [Theory]
    [InlineData(5, true)]
    [InlineData(6, true)]
    [InlineData(7, false)]
    public void Six_cartons_are_few_and_seven_are_not(int count, bool found) =>
        Assert.Equal(found, Few(count, 10).Finds(FindingCodes.FewLightCartons));

    [Theory]
    [InlineData(50.9, true)]
    [InlineData(51, true)]
    [InlineData(51.1, false)]
    public void Light_is_what_one_person_lifts(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var carton = Strong with { GrossWeight = Typed.Heavy(pounds, units) };
            Assert.Equal(found, Freight.Pallet(new CartonContents(carton, 3, 1, StackKind.Column)).Finds(FindingCodes.FewLightCartons));
        }
    }

    [Fact]
    public void The_comparison_is_computed_both_ways()
    {
        var finding = Few(3, 10).Finding(FindingCodes.FewLightCartons);
        Assert.Equal((Severity.Tip, "contents.perLayer"), (finding.Severity, finding.Subject));
        Assert.Equal((Quantity.Pieces(3), Quantity.Pieces(6)), (finding.Measured, finding.Limit));
        Assert.Equal(BasisKind.CommonPractice, finding.Basis.Kind);
        // 70 lb in 48 × 40 × 15.5 in against 10 lb in 14 × 12 × 10 in.
        Assert.Equal(
            "3 cartons of 10 lb ride alone on a pallet: as built 4.06 lb/ft³ and class 175, loose 10.3 lb/ft³ and class 92.5. One person can lift each of them.",
            finding.Message.Said());
        Assert.StartsWith("1 carton of 10 lb rides alone on a pallet", Few(1, 10).Finding(FindingCodes.FewLightCartons).Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Cartons_that_do_not_bear_other_freight_stay_on_their_pallet()
    {
        Assert.False(Few(3, 10, edgeCrush: 7).Finds(FindingCodes.FewLightCartons));
        Assert.False(Freight.Pallet(new CartonContents(Strong with { Board = null }, 3, 1, StackKind.Column)).Finds(FindingCodes.FewLightCartons));
        Assert.False((Few(3, 10) with { Fragile = Fragility.Ceramics }).Finds(FindingCodes.FewLightCartons));
    }

    [Fact]
    public void Cartons_that_fill_their_pallet_are_not_few()
    {
        // Five at 50 lb on a pallet as small as they are: as built it is denser than loose.
        var carton = Freight.Carton(24, 20, 20, 50, 61);
        var deck = Freight.Deck with { Length = Length.FromInches(24), Width = Length.FromInches(20), Height = Length.FromInches(3), Tare = Mass.FromPounds(60) };
        Assert.False(Freight.Pallet(new CartonContents(carton, 1, 5, StackKind.Column), deck).Finds(FindingCodes.FewLightCartons));
    }

    [Fact]
    public void Film_and_count_of_pallets_change_nothing() =>
        Assert.Equal(
            Few(3, 10).Finding(FindingCodes.FewLightCartons),
            (Few(3, 10) with { Protection = Protection.None, Quantity = 5 }).Finding(FindingCodes.FewLightCartons));

    [Theory]
    [InlineData(51, null)]
    [InlineData(51.1, Severity.Caution)]
    [InlineData(102, Severity.Caution)]
    [InlineData(102.1, Severity.Stop)]
    public void A_loose_carton_is_lifted_by_one_or_two_people(double pounds, Severity? severity)
    {
        foreach (var units in Typed.Both)
        {
            var carton = Freight.Carton(20, 16, 12, 1, 61) with { GrossWeight = Typed.Heavy(pounds, units) };
            Assert.Equal(severity, Freight.Loose(carton).Check().Findings.SingleOrDefault(f => f.Code == FindingCodes.LooseCartonLift)?.Severity);
        }
    }

    [Fact]
    public void The_lift_names_the_equation_and_the_caution()
    {
        var finding = Freight.Loose(Freight.Carton(20, 16, 12, 60, 61)).Finding(FindingCodes.LooseCartonLift);
        Assert.Equal(("grossWeight", new Quantity(60, Unit.Pound), new Quantity(51, Unit.Pound)), (finding.Subject, finding.Measured, finding.Limit));
        Assert.Contains("NIOSH Pub. 94-110", finding.Basis.Source, StringComparison.Ordinal);
        Assert.Equal("A loose carton of 60 lb is a lift for two people: the limit is 51 lb.", finding.Message.Said());
        Assert.Contains("Lifting can injure", FindingCodes.CautionFor(finding.Code), StringComparison.Ordinal);
    }

    [Fact]
    public void Freight_is_heaped_on_a_loose_carton_to_the_height_of_the_trailer()
    {
        // ASTM D4169, 20 × 16 × 12 in at 10 lb/ft³ to 108 in: printed 1777.78 lbf with a factor of 10 in it.
        var finding = Freight.Loose(Freight.Carton(20, 16, 12, 40, 16)).Finding(FindingCodes.LooseCartonStrength);
        Assert.Equal((Severity.Caution, "contents.carton.board"), (finding.Severity, finding.Subject));
        Assert.Equal(Unit.Pound, finding.Limit.Unit);
        Assert.Equal(177.778, finding.Limit.Value, 3);
        Assert.True(finding.Measured.Value < finding.Limit.Value);
    }

    [Fact]
    public void On_a_small_light_one_only_to_half_of_that()
    {
        // Under 30 lb and 2 ft³ the standard says 54 in: 10 lb/ft³ on 18 × 14 in from 12 to 54 in is 61.25 lb, arithmetic.
        var small = Freight.Loose(Freight.Carton(18, 14, 12, 29, 5)).Finding(FindingCodes.LooseCartonStrength);
        Assert.Equal(61.25, small.Limit.Value, 6);
        var heavier = Freight.Loose(Freight.Carton(18, 14, 12, 30, 5)).Finding(FindingCodes.LooseCartonStrength);
        Assert.Equal(140, heavier.Limit.Value, 6);
    }

    [Fact]
    public void What_it_can_be_counted_on_for_is_exactly_enough()
    {
        var carton = Freight.Carton(20, 16, 12, 40, 16);
        var counted = Freight.Loose(carton).Finding(FindingCodes.LooseCartonStrength).Measured.Value;
        // 20 × 16 in from 12 to 108 in is 17.78 ft³ of room above.
        Assert.False(Freight.Loose(carton).Finds(FindingCodes.LooseCartonStrength, rules: Density((counted / 17.77777777777) - 1e-6)));
        Assert.True(Freight.Loose(carton).Finds(FindingCodes.LooseCartonStrength, rules: Density((counted / 17.77777777777) + 1e-6)));

        static RuleSet Density(double pounds) => Tariff.With(rules => rules with { Strength = rules.Strength with { MixedFreightPoundsPerCubicFoot = pounds } });
    }

    [Fact]
    public void A_carton_of_unknown_board_is_not_called_weak() =>
        Assert.Empty(Freight.Loose(Freight.Carton(20, 16, 12, 40, null)).Check().Findings);

    [Fact]
    public void A_carriers_figures_are_its_own()
    {
        var tariff = Tariff.With(rules => rules with
        {
            FewCartons = new FewCartonLimits
            {
                Cartons = 2, Severity = Severity.Caution, OnePersonLift = Mass.FromPounds(35), TwoPersonLift = Mass.FromPounds(70),
                TwoPersonSeverity = Severity.Tip, TooHeavySeverity = Severity.Caution, StrengthSeverity = Severity.Stop,
            },
        });
        Assert.False(Few(3, 10).Finds(FindingCodes.FewLightCartons, rules: tariff));
        var few = Few(2, 10).Finding(FindingCodes.FewLightCartons, rules: tariff);
        Assert.Equal(Severity.Caution, few.Severity);
        Tariff.IsNamedBy(few);
        var lift = Freight.Loose(Freight.Carton(20, 16, 12, 36, 61)).Finding(FindingCodes.LooseCartonLift, rules: tariff);
        Assert.Equal((Severity.Tip, new Quantity(35, Unit.Pound)), (lift.Severity, lift.Limit));
        Tariff.IsNamedBy(lift);
        Assert.Equal(Severity.Caution, Freight.Loose(Freight.Carton(20, 16, 12, 71, 61)).Finding(FindingCodes.LooseCartonLift, rules: tariff).Severity);
        Assert.Equal(Severity.Stop, Freight.Loose(Freight.Carton(20, 16, 12, 30, 16)).Finding(FindingCodes.LooseCartonStrength, rules: tariff).Severity);
    }

    private static readonly Carton Strong = Freight.Carton(14, 12, 10, 10, 44);

    private static HandlingUnit Few(int count, double pounds, double edgeCrush = 44) =>
        Freight.Pallet(new CartonContents(Freight.Carton(14, 12, 10, pounds, edgeCrush), count, 1, StackKind.Column));
}
