using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Friction by the CTU Code, annex 7, appendix 2; accelerations by EN 12195-1:2010.</summary>
public class SlidingRuleTests
{
    [Fact]
    public void An_ordinary_wooden_pallet_is_blocked_by_its_neighbours_and_gets_no_finding()
    {
        Assert.False(Freight.Sound.Finds(FindingCodes.Sliding));
        Assert.False(Freight.Machine.Finds(FindingCodes.Sliding));
        Assert.False((Freight.Sound with { Platform = Freight.Deck with { Material = PlatformMaterial.Plastic } }).Finds(FindingCodes.Sliding));
    }

    [Fact]
    public void A_machine_on_a_plastic_pallet_lacks_three_tenths_of_its_weight()
    {
        var finding = Slippery(2000).Finding(FindingCodes.Sliding);
        Assert.Equal((Severity.Caution, "requests"), (finding.Severity, finding.Subject));
        Assert.Equal((Quantity.Ratio(0.2), Quantity.Ratio(0.5)), (finding.Measured, finding.Limit));
        Assert.Equal("(0.5 − 0.2) × 2,000 lb = 600 lb", finding.Formula.Said());
        Assert.Contains("CTU Code", finding.Basis.Source, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(749, Severity.Tip)]
    [InlineData(750, Severity.Tip)]
    [InlineData(751, Severity.Caution)]
    public void What_is_heavy_is_more_than_a_tip(double pounds, Severity severity)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(severity, (Slippery(900) with { GrossWeight = Typed.Heavy(pounds, units) }).Finding(FindingCodes.Sliding).Severity);
    }

    [Theory]
    [InlineData(0.19, false)]
    [InlineData(0.2, false)]
    [InlineData(0.21, true)]
    public void From_which_friction_on_nothing_is_said_is_the_carriers_to_set(double ordinary, bool found) =>
        Assert.Equal(found, Slippery(900).Finds(FindingCodes.Sliding, rules: Tariff.With(rules => rules with { Sliding = rules.Sliding with { Ordinary = ordinary } })));

    [Fact]
    public void A_strap_or_bulkhead_asked_for_answers_it()
    {
        Assert.False((Slippery(900) with { Requests = new(Strap: true) }).Finds(FindingCodes.Sliding));
        Assert.False((Slippery(900) with { Requests = new(Bulkhead: true) }).Finds(FindingCodes.Sliding));
        Assert.True((Slippery(900) with { Requests = new(Decking: true, NoTopLoad: true), Stackable = false }).Finds(FindingCodes.Sliding));
    }

    [Fact]
    public void A_steel_drum_by_itself_is_taken_at_the_codes_figure_for_what_it_does_not_list()
    {
        var drum = Freight.Bare(new DrumContents(Length.FromInches(23), Length.FromInches(35), Mass.FromPounds(400), 1, 1, DrumMaterial.Steel), HandlingUnitKind.Drum) with { Outer = Freight.Outer(23, 23, 35) };
        Assert.Equal((Severity.Tip, Quantity.Ratio(0.3)), (drum.Finding(FindingCodes.Sliding).Severity, drum.Finding(FindingCodes.Sliding).Measured));
    }

    [Fact]
    public void A_carriers_acceleration_is_named() =>
        Tariff.IsNamedBy(Slippery(900).Finding(FindingCodes.Sliding, rules: Tariff.With(rules => rules with { Sliding = rules.Sliding with { Lateral = 0.6 } })));

    private static HandlingUnit Slippery(double pounds) => Freight.Machine with { Platform = Freight.Deck with { Material = PlatformMaterial.Plastic }, GrossWeight = Mass.FromPounds(pounds) };
}
