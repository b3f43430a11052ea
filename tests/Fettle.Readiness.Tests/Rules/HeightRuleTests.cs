using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Doors of 53-ft dry vans are quoted from 105 to 110 in high, the inside from 108 to 110 (trade figures): the lowest count.</summary>
public class HeightRuleTests
{
    [Theory]
    [InlineData(104.9, false)]
    [InlineData(105, false)]
    [InlineData(105.1, true)]
    public void What_is_taller_than_the_door_does_not_go_in(double height, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Tall(Freight.Machine, Typed.Long(height, units)).Finds(FindingCodes.Height));
    }

    [Theory]
    [InlineData(53.9, false)]
    [InlineData(54, false)]
    [InlineData(54.1, true)]
    public void Two_stackable_units_stand_under_the_roof_or_it_is_said(double height, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var stackable = Tall(Freight.Machine, Typed.Long(height, units)) with { Stackable = true };
            Assert.Equal(found, stackable.Finds(FindingCodes.DoubleStackHeight));
            Assert.False((stackable with { Stackable = false }).Finds(FindingCodes.DoubleStackHeight));
        }
    }

    [Fact]
    public void The_door_is_a_stop()
    {
        var finding = Tall(Freight.Machine, Length.FromInches(108)).Finding(FindingCodes.Height);
        Assert.Equal((Severity.Stop, "outer.height"), (finding.Severity, finding.Subject));
        Assert.Equal((new Quantity(108, Unit.Inch), new Quantity(105, Unit.Inch)), (finding.Measured, finding.Limit));
        Assert.Equal(BasisKind.CommonPractice, finding.Basis.Kind);
        Assert.Equal("At 108 in it is 3 in taller than the door (105 in).", finding.Message.Said());
        Assert.DoesNotContain("layer", finding.Cure.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_pair_is_measured_as_a_pair()
    {
        var finding = (Tall(Freight.Machine, Length.FromInches(60)) with { Stackable = true }).Finding(FindingCodes.DoubleStackHeight);
        Assert.Equal((Severity.Caution, "outer.height"), (finding.Severity, finding.Subject));
        Assert.Equal((new Quantity(120, Unit.Inch), new Quantity(108, Unit.Inch)), (finding.Measured, finding.Limit));
        Assert.Contains("Build to 54 in or lower", finding.Cure.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_over_the_door_is_not_told_about_a_second_one() =>
        Assert.False((Tall(Freight.Machine, Length.FromInches(110)) with { Stackable = true }).Finds(FindingCodes.DoubleStackHeight));

    [Fact]
    public void Weight_and_film_change_nothing_about_height()
    {
        var tall = Tall(Freight.Machine, Length.FromInches(107));
        Assert.Equal(tall.Finding(FindingCodes.Height), (tall with { GrossWeight = Mass.FromPounds(2200), Protection = Freight.Boarded }).Finding(FindingCodes.Height, Freight.Far));
    }

    [Fact]
    public void A_carrier_with_low_doors_says_so()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Height = new HeightLimits
            {
                Limit = Length.FromInches(90), LimitSeverity = Severity.Caution, DoubleStack = Length.FromInches(96), DoubleStackSeverity = Severity.Stop,
            },
        });
        var over = Tall(Freight.Machine, Length.FromInches(91)).Finding(FindingCodes.Height, rules: tariff);
        Assert.Equal((Severity.Caution, new Quantity(90, Unit.Inch)), (over.Severity, over.Limit));
        Tariff.IsNamedBy(over);
        var pair = (Tall(Freight.Machine, Length.FromInches(50)) with { Stackable = true }).Finding(FindingCodes.DoubleStackHeight, rules: tariff);
        Assert.Equal((Severity.Stop, new Quantity(96, Unit.Inch)), (pair.Severity, pair.Limit));
        Tariff.IsNamedBy(pair);
    }

    private static HandlingUnit Tall(HandlingUnit unit, Length height) => unit with { Outer = unit.Outer with { Height = height } };
}
