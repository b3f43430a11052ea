using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>A pallet over about 2,000 lb asks for trouble in LTL handling: common practice, no source. The rest is arithmetic and the maker's rating.</summary>
public class WeightRuleTests
{
    private static readonly HandlingUnit Unrated = Freight.Machine with { Platform = Freight.Deck with { Rating = null } };

    [Theory]
    [InlineData(1999.9, null)]
    [InlineData(2000, null)]
    [InlineData(2000.1, Severity.Caution)]
    [InlineData(4000, Severity.Caution)]
    [InlineData(4000.1, Severity.Stop)]
    public void Over_two_thousand_pounds_is_heavy_and_over_four_thousand_is_too_much(double pounds, Severity? severity)
    {
        foreach (var units in Typed.Both)
        {
            var finding = Weighing(Unrated, Typed.Heavy(pounds, units)).Check().Findings.SingleOrDefault(f => f.Code == FindingCodes.GrossWeight);
            Assert.Equal(severity, finding?.Severity);
        }
    }

    [Theory]
    [InlineData(1499.9, false)]
    [InlineData(1500, false)]
    [InlineData(1500.1, true)]
    public void The_platform_makers_rating_is_never_exceeded(double pounds, bool found)
    {
        var rated = Freight.Machine with { Platform = Freight.Deck with { Rating = Mass.FromPounds(1500) } };
        foreach (var units in Typed.Both)
            Assert.Equal(found, Weighing(rated, Typed.Heavy(pounds, units)).Finds(FindingCodes.GrossWeight));
    }

    [Fact]
    public void A_pallet_over_its_rating_is_not_called_heavy_as_well()
    {
        var finding = Weighing(Freight.Machine, Mass.FromPounds(2600)).Finding(FindingCodes.GrossWeight);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal("grossWeight", finding.Subject);
        Assert.Equal(new Quantity(2600, Unit.Pound), finding.Measured);
        Assert.Equal(new Quantity(2500, Unit.Pound), finding.Limit);
        Assert.Equal("2,600 lb is 100 lb more than the pallet is rated for (2,500 lb). It can break when it is lifted.", finding.Message.Said());
    }

    [Fact]
    public void The_rating_and_the_carriers_limit_are_two_things() =>
        Assert.Equal(
            [new Quantity(2500, Unit.Pound), new Quantity(4000, Unit.Pound)],
            Weighing(Freight.Machine, Mass.FromPounds(4200)).Check().Findings.Where(f => f.Code == FindingCodes.GrossWeight).Select(f => f.Limit));

    [Fact]
    public void What_cannot_be_spread_is_not_told_to_be()
    {
        Assert.DoesNotContain("carton", Weighing(Unrated, Mass.FromPounds(2100)).Finding(FindingCodes.GrossWeight).Cure.Said(), StringComparison.Ordinal);
        var cartons = Freight.Pallet(new CartonContents(Freight.Carton(12, 10, 8, 38, 51), 14, 4, StackKind.Column));
        Assert.Contains("cartons over more pallets", cartons.Finding(FindingCodes.GrossWeight).Cure.Said(), StringComparison.Ordinal);
    }

    [Theory]
    // 64 cartons of 20 lb and 40 lb of pallet make 1,320 lb; 3 % would be more than 25 lb.
    [InlineData(1294.9, true)]
    [InlineData(1295, false)]
    [InlineData(1320, false)]
    [InlineData(1345, false)]
    [InlineData(1345.1, true)]
    public void Declared_and_computed_weight_may_be_twenty_five_pounds_apart(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Weighing(Freight.Sound, Typed.Heavy(pounds, units)).Finds(FindingCodes.WeightMismatch));
    }

    [Theory]
    // 14 cartons of 11 lb and 40 lb of pallet make 194 lb: 6 lb less than 200, which is 3 % of it.
    [InlineData(199.9, false)]
    [InlineData(200, false)]
    [InlineData(200.1, true)]
    public void On_a_light_unit_they_may_be_three_percent_apart(double pounds, bool found)
    {
        var light = Freight.Pallet(new CartonContents(Freight.Carton(11, 9, 10, 11, 44), 7, 2, StackKind.Column));
        foreach (var units in Typed.Both)
        {
            var unit = Weighing(light, Typed.Heavy(pounds, units));
            Assert.Equal(found, unit.Finds(FindingCodes.WeightMismatch));
            if (found)
                Assert.Equal(Quantity.Percent(3), unit.Finding(FindingCodes.WeightMismatch).Limit);
        }
    }

    [Theory]
    // 3 cartons of 20 lb and the pallet make 100 lb. Five pounds of film and boards are no contradiction: our choice.
    [InlineData(94.9, true)]
    [InlineData(95, false)]
    [InlineData(105, false)]
    [InlineData(105.1, true)]
    public void Film_and_boards_are_no_contradiction_on_a_very_light_pallet(double pounds, bool found)
    {
        var light = Freight.Pallet(new CartonContents(Freight.Small, 3, 1, StackKind.Column));
        foreach (var units in Typed.Both)
            Assert.Equal(found, Weighing(light, Typed.Heavy(pounds, units)).Finds(FindingCodes.WeightMismatch));
    }

    [Theory]
    [InlineData(20.6, false)]
    [InlineData(20.7, true)]
    public void A_loose_carton_has_no_film_to_blame(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Weighing(Freight.LooseCarton, Typed.Heavy(pounds, units)).Finds(FindingCodes.WeightMismatch));
    }

    [Fact]
    public void The_finding_adds_up_what_was_declared()
    {
        var finding = Weighing(Freight.Sound, Mass.FromPounds(1400)).Finding(FindingCodes.WeightMismatch);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.Equal("grossWeight", finding.Subject);
        Assert.Equal(new Quantity(80, Unit.Pound), finding.Measured);
        Assert.Equal(new Quantity(25, Unit.Pound), finding.Limit);
        Assert.Equal(BasisKind.Arithmetic, finding.Basis.Kind);
        Assert.Equal("64 cartons of 20 lb and the pallet add up to 1,320 lb, but 1,400 lb is declared: 80 lb apart. One of the figures is wrong.", finding.Message.Said());
        Assert.Contains("36.3 kg apart", finding.Message.Said(UnitSystem.Metric), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(40.1, false)]
    [InlineData(40, true)]
    [InlineData(39, true)]
    public void A_unit_weighs_more_than_its_empty_pallet(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Weighing(Freight.Machine, Typed.Heavy(pounds, units)).Finds(FindingCodes.WeightMismatch));
    }

    [Fact]
    public void One_finding_is_enough_when_the_pallet_alone_weighs_more_than_the_whole()
    {
        var finding = Weighing(Freight.Sound, Mass.FromPounds(30)).Finding(FindingCodes.WeightMismatch);
        Assert.Contains("empty pallet's own 40 lb", finding.Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Film_and_size_change_nothing_about_weight()
    {
        var heavy = Weighing(Unrated, Mass.FromPounds(2400));
        var other = heavy with { Protection = Freight.Boarded, Outer = Freight.Outer(47, 40, 61), Stackable = true };
        Assert.Equal(heavy.Finding(FindingCodes.GrossWeight), other.Finding(FindingCodes.GrossWeight));
    }

    [Fact]
    public void A_carrier_sets_its_own_marks()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Weight = rules.Weight with { Heavy = Mass.FromPounds(1500), HeavySeverity = Severity.Stop, Carrier = Mass.FromPounds(1800), CarrierSeverity = Severity.Caution },
        });
        var heavy = Weighing(Unrated, Mass.FromPounds(1600)).Finding(FindingCodes.GrossWeight, rules: tariff);
        Assert.Equal((Severity.Stop, new Quantity(1500, Unit.Pound)), (heavy.Severity, heavy.Limit));
        Tariff.IsNamedBy(heavy);
        var over = Weighing(Unrated, Mass.FromPounds(1801)).Finding(FindingCodes.GrossWeight, rules: tariff);
        Assert.Equal((Severity.Caution, new Quantity(1800, Unit.Pound)), (over.Severity, over.Limit));
        Tariff.IsNamedBy(over);
    }

    [Fact]
    public void A_carrier_may_be_stricter_about_weights_that_do_not_agree()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Weight = rules.Weight with { Mismatch = Mass.FromPounds(10), MismatchSeverity = Severity.Caution, RatingSeverity = Severity.Caution },
        });
        var finding = Weighing(Freight.Sound, Mass.FromPounds(1331)).Finding(FindingCodes.WeightMismatch, rules: tariff);
        Assert.Equal((Severity.Caution, Tariff.Seventh), (finding.Severity, finding.RuleSet));
        Assert.False(Weighing(Freight.Sound, Mass.FromPounds(1331)).Finds(FindingCodes.WeightMismatch, rules: RuleSet.BuiltIn));
        Assert.Equal(Severity.Caution, Weighing(Freight.Machine, Mass.FromPounds(2600)).Finding(FindingCodes.GrossWeight, rules: tariff).Severity);
    }

    private static HandlingUnit Weighing(HandlingUnit unit, Mass gross) => unit with { GrossWeight = gross };
}
