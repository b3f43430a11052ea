using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>The 13-tier density scale of July 2025; densities as published for these sizes.</summary>
public class FreightClassRuleTests
{
    [Theory]
    // 48 × 40 × 45 in and 2,500 lb are exactly 50 lb/ft³, class 50; a pound less is class 55.
    [InlineData(2500, 50, false)]
    [InlineData(2499, 50, true)]
    [InlineData(2499, 55, false)]
    [InlineData(2501, 55, true)]
    public void The_declared_class_is_held_against_density(double pounds, double declared, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var unit = Freight.Machine with
            {
                Outer = new(Typed.Long(48, units), Typed.Long(40, units), Typed.Long(45, units)), GrossWeight = Typed.Heavy(pounds, units), DeclaredClass = (decimal)declared,
            };
            Assert.Equal(found, unit.Finds(FindingCodes.FreightClass));
        }
    }

    [Fact]
    public void Where_none_is_declared_nothing_is_said() => Assert.False((Freight.Machine with { DeclaredClass = null }).Finds(FindingCodes.FreightClass));

    [Fact]
    public void Both_classes_and_the_density_are_told()
    {
        // Published example: 48 × 40 × 28 in, 110 lb: 3.54 lb/ft³, class 250.
        var unit = Freight.Machine with { Outer = Freight.Outer(48, 40, 28), GrossWeight = Mass.FromPounds(110), DeclaredClass = 125 };
        var finding = unit.Finding(FindingCodes.FreightClass);
        Assert.Equal((Severity.Caution, "declaredClass", Quantity.Ratio(125), Quantity.Ratio(250)), (finding.Severity, finding.Subject, finding.Measured, finding.Limit));
        Assert.Equal("110 lb ÷ (48 in × 40 in × 28 in) = 3.54 lb/ft³", finding.Formula.Said());
        Assert.StartsWith("Class 125 is declared; 3.54 lb/ft³ on the outermost size is class 250.", finding.Message.Said(), StringComparison.Ordinal);
        Assert.Equal(finding, (unit with { Stackable = true, Protection = Freight.Boarded }).Finding(FindingCodes.FreightClass, Freight.Far));
        Assert.Equal(Severity.Tip, unit.Finding(FindingCodes.FreightClass, rules: Tariff.With(rules => rules with { Class = new ClassLimits { Severity = Severity.Tip } })).Severity);
    }
}
