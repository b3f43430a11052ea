using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Treatment marks by ISPM 15; the rest is common practice, no source.</summary>
public class PlatformRuleTests
{
    private static readonly Lane Border = Freight.Near with { CrossBorder = true };

    [Theory]
    [InlineData(PlatformMaterial.Wood, TreatmentMark.None, true)]
    [InlineData(PlatformMaterial.Wood, TreatmentMark.HT, false)]
    [InlineData(PlatformMaterial.Wood, TreatmentMark.MB, false)]
    [InlineData(PlatformMaterial.Wood, TreatmentMark.DH, false)]
    [InlineData(PlatformMaterial.Wood, TreatmentMark.SF, false)]
    [InlineData(PlatformMaterial.Plastic, TreatmentMark.None, false)]
    [InlineData(PlatformMaterial.Metal, TreatmentMark.None, false)]
    public void Wood_is_marked_across_a_border(PlatformMaterial material, TreatmentMark mark, bool found)
    {
        var unit = Freight.Sound with { Platform = Freight.Deck with { Material = material, TreatmentMark = mark } };
        Assert.Equal(found, unit.Finds(FindingCodes.TreatmentMark, Border));
        Assert.False(unit.Finds(FindingCodes.TreatmentMark));
        if (found)
            Assert.Equal((Severity.Stop, "platform.treatmentMark", BasisKind.PublishedStandard), (unit.Finding(FindingCodes.TreatmentMark, Border).Severity, unit.Finding(FindingCodes.TreatmentMark, Border).Subject, unit.Finding(FindingCodes.TreatmentMark, Border).Basis.Kind));
    }

    [Theory]
    [InlineData(PlatformCondition.Sound, null)]
    [InlineData(PlatformCondition.Worn, Severity.Tip)]
    [InlineData(PlatformCondition.Damaged, Severity.Stop)]
    public void A_broken_pallet_lifts_nothing(PlatformCondition condition, Severity? severity) => Assert.Equal(
        severity,
        (Freight.Sound with { Platform = Freight.Deck with { Condition = condition } }).Check().Findings.SingleOrDefault(f => f.Code == FindingCodes.PlatformCondition)?.Severity);

    [Fact]
    public void Two_way_entry_is_a_tip()
    {
        var finding = (Freight.Sound with { Platform = Freight.Deck with { Entry = ForkEntry.TwoWay } }).Finding(FindingCodes.ForkEntry);
        Assert.Equal((Severity.Tip, "platform.entry"), (finding.Severity, finding.Subject));
        Assert.False(Freight.Sound.Finds(FindingCodes.ForkEntry));
    }

    [Fact]
    public void Machines_and_bags_want_a_pallet()
    {
        var bags = new BagContents(Mass.FromPounds(50), 1, 2, StackKind.Column);
        foreach (var unit in new[] { Freight.Bare(new MachineryContents("lathe", false, null)), Freight.Bare(bags) })
            Assert.Equal((Severity.Caution, "kind"), (unit.Finding(FindingCodes.PlatformMissing).Severity, unit.Finding(FindingCodes.PlatformMissing).Subject));
        Assert.False(Freight.Bare(new PieceContents("boiler")).Finds(FindingCodes.PlatformMissing));
        Assert.False(Freight.Bare(new MachineryContents("lathe", true, null), HandlingUnitKind.Crate).Finds(FindingCodes.PlatformMissing));
        Assert.False(Freight.Loaded(bags).Finds(FindingCodes.PlatformMissing));
    }

    [Fact]
    public void A_carrier_sets_how_grave_each_is()
    {
        var tariff = Tariff.With(rules => rules with { Platform = new PlatformLimits { MarkSeverity = Severity.Caution, DamagedSeverity = Severity.Caution, TwoWaySeverity = Severity.Caution } });
        var poor = Freight.Sound with { Platform = Freight.Deck with { Condition = PlatformCondition.Damaged, Entry = ForkEntry.TwoWay } };
        Assert.All(poor.Check(Border, tariff).Findings, finding => Assert.Equal((Severity.Caution, Tariff.Seventh), (finding.Severity, finding.RuleSet)));
        Assert.Equal(3, poor.Check(Border, tariff).Findings.Count);
    }
}
