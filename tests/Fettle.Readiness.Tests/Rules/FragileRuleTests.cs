using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Glass, ceramics, liquids and eggs. Common practice, no source.</summary>
public class FragileRuleTests
{
    [Theory]
    [InlineData(Fragility.None, false)]
    [InlineData(Fragility.Glass, true)]
    [InlineData(Fragility.Ceramics, true)]
    [InlineData(Fragility.Liquid, true)]
    [InlineData(Fragility.Eggs, true)]
    [InlineData(Fragility.Other, false)]
    public void What_breaks_against_its_like_is_kept_apart(Fragility fragile, bool found)
    {
        var unit = Freight.Sound with { Fragile = fragile, Stackable = false };
        Assert.Equal(found, unit.Finds(FindingCodes.Partitions));
        Assert.False((unit with { Partitions = true }).Finds(FindingCodes.Partitions));
        Assert.Equal(found, (Freight.LooseCarton with { Fragile = fragile }).Finds(FindingCodes.Partitions));
        Assert.Equal(found, (Freight.Loaded(new MixedCartonContents([new(Freight.Small, 20)])) with { Fragile = fragile }).Finds(FindingCodes.Partitions));
        Assert.False((Freight.Machine with { Fragile = fragile }).Finds(FindingCodes.Partitions));
    }

    [Fact]
    public void Without_partitions_it_is_held()
    {
        var finding = Glass(partitions: false).Finding(FindingCodes.Partitions);
        Assert.Equal((Severity.Stop, "partitions", BasisKind.CommonPractice), (finding.Severity, finding.Subject, finding.Basis.Kind));
        Assert.Equal(finding, (Glass(partitions: false) with { Protection = Freight.Boarded, Stackable = true }).Finding(FindingCodes.Partitions, Freight.Far));
    }

    [Fact]
    public void Decking_or_airbags_are_asked_for()
    {
        Assert.Equal((Severity.Caution, "requests"), (Glass().Finding(FindingCodes.FragileCare).Severity, Glass().Finding(FindingCodes.FragileCare).Subject));
        Assert.True((Glass() with { Requests = new(NoTopLoad: true, Strap: true) }).Finds(FindingCodes.FragileCare));
        Assert.False((Glass() with { Requests = new(Decking: true) }).Finds(FindingCodes.FragileCare));
        Assert.False((Glass() with { Requests = new(Airbags: true) }).Finds(FindingCodes.FragileCare));
        Assert.False((Freight.LooseCarton with { Fragile = Fragility.Glass }).Finds(FindingCodes.FragileCare));
    }

    [Fact]
    public void Nothing_rides_on_it()
    {
        var finding = (Glass() with { Stackable = true }).Finding(FindingCodes.FragileStackable);
        Assert.Equal((Severity.Caution, "stackable"), (finding.Severity, finding.Subject));
        Assert.False(Glass().Finds(FindingCodes.FragileStackable));
        Assert.False(Freight.Sound.Finds(FindingCodes.FragileStackable));
    }

    [Fact]
    public void A_drum_or_bag_of_liquid_is_its_own_package()
    {
        var drums = Freight.Loaded(new DrumContents(Length.FromInches(20), Length.FromInches(30), Mass.FromPounds(200), 4, 1, DrumMaterial.Steel)) with { Fragile = Fragility.Liquid, Stackable = true };
        Assert.DoesNotContain(drums.Check().Codes(), code => code is FindingCodes.Partitions or FindingCodes.FragileCare or FindingCodes.FragileStackable);
    }

    [Fact]
    public void A_carrier_sets_how_grave_each_is()
    {
        var tariff = Tariff.With(rules => rules with
        {
            Fragile = new FragileLimits { PartitionSeverity = Severity.Caution, CareSeverity = Severity.Tip, StackableSeverity = Severity.Stop },
        });
        var findings = (Glass(partitions: false) with { Stackable = true }).Check(rules: tariff).Findings.ToDictionary(finding => finding.Code);
        Assert.Equal(
            (Severity.Caution, Severity.Tip, Severity.Stop),
            (findings[FindingCodes.Partitions].Severity, findings[FindingCodes.FragileCare].Severity, findings[FindingCodes.FragileStackable].Severity));
        Assert.All(findings.Values, finding => Assert.Equal(Tariff.Seventh, finding.RuleSet));
    }

    private static HandlingUnit Glass(bool partitions = true) => Freight.Sound with { Fragile = Fragility.Glass, Partitions = partitions, Stackable = false };
}
