using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>49 USC 80113(c): loaded by the shipper and so marked, the carrier does not answer for the loading.</summary>
public class ProofRuleTests
{
    [Fact]
    public void A_driver_kept_off_the_dock_is_a_caution_about_the_whole_pickup()
    {
        var result = Run(driverOnDock: false, Freight.Sound);
        var finding = Assert.Single(result.Findings);
        Assert.Equal((FindingCodes.DriverOffDock, Severity.Caution, "driverOnDock"), (finding.Code, finding.Severity, finding.Subject));
        Assert.Contains("shipper's load and count", finding.Message.Said(), StringComparison.Ordinal);
        Assert.Contains("photograph all 4 sides", finding.Cure.Said(), StringComparison.Ordinal);
        Assert.Equal(Verdict.ReadyWithCautions, result.Verdict);
    }

    [Fact]
    public void The_units_are_judged_as_ever()
    {
        var (off, on) = (Run(driverOnDock: false, Freight.Sound), Run(driverOnDock: true, Freight.Sound));
        Assert.Equal(Verdict.Ready, off.HandlingUnits[0].Verdict);
        Assert.Equal(on.HandlingUnits[0].Findings, off.HandlingUnits[0].Findings);
        Assert.Empty(on.Findings);
        Assert.Equal(Verdict.Ready, on.Verdict);
        Assert.Equal(Verdict.Hold, Run(driverOnDock: false, Freight.Sound with { Protection = Protection.None }).Verdict);
    }

    [Theory]
    [InlineData(Severity.Tip, Verdict.Ready)]
    [InlineData(Severity.Caution, Verdict.ReadyWithCautions)]
    [InlineData(Severity.Stop, Verdict.ReadyWithCautions)]
    public void It_never_holds_freight_for_no_line_is_at_fault(Severity severity, Verdict verdict)
    {
        var result = Run(driverOnDock: false, Freight.Sound, Tariff.With(rules => rules with { Proof = rules.Proof with { Severity = severity } }));
        Assert.Equal(verdict, result.Verdict);
        Assert.Equal((severity, Tariff.Seventh), (result.Findings[0].Severity, result.Findings[0].RuleSet));
    }

    private static Readiness.Rules.CheckResult Run(bool driverOnDock, HandlingUnit unit, RuleSet? rules = null) =>
        Readiness.Rules.ReadinessCheck.Run(new Declaration(Freight.Near, driverOnDock, UnitSystem.Imperial, [unit]), rules ?? RuleSet.BuiltIn);
}
