using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Fettle does not classify: it waits until a trained person is named.</summary>
public class RegulatedRuleTests
{
    [Theory]
    [InlineData(false, false, null, 0)]
    [InlineData(true, false, null, 1)]
    [InlineData(false, true, null, 1)]
    [InlineData(true, true, null, 2)]
    [InlineData(true, true, " ", 2)]
    [InlineData(true, true, "Kim Lorne", 0)]
    public void It_is_held_until_somebody_confirms(bool hazardous, bool cold, string? by, int found)
    {
        var unit = Freight.Sound with { Hazardous = hazardous, TemperatureControlled = cold, ConfirmedBy = by };
        var findings = unit.Check().Findings.Where(finding => finding.Code == FindingCodes.Regulated).ToArray();
        Assert.Equal(found, findings.Length);
        Assert.All(findings, finding => Assert.Equal(Severity.Stop, finding.Severity));
        Assert.All(findings, finding => Assert.Contains("Fettle does not classify", finding.Message.Said(), StringComparison.Ordinal));
    }

    [Fact]
    public void Each_stands_at_its_own_field() => Assert.Equal(
        ["hazardous", "temperatureControlled"],
        (Freight.Sound with { Hazardous = true, TemperatureControlled = true }).Check().Findings.Select(finding => finding.Subject));

    [Fact]
    public void A_carrier_may_only_want_it_recorded() => Assert.Equal(
        (Severity.Caution, Tariff.Seventh),
        (Freight.Sound with { Hazardous = true }).Finding(FindingCodes.Regulated, rules: Tariff.With(rules => rules with { Regulated = new RegulatedLimits { Severity = Severity.Caution } })) is var finding ? (finding.Severity, finding.RuleSet) : default);
}
