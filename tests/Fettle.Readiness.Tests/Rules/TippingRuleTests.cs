using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>EN 12195-1:2010: a unit stands when half its base is at least c times the height of its centre of gravity; c is 0.5 sideways and 0.8 forward.</summary>
public class TippingRuleTests
{
    [Theory]
    // Critical acceleration of a uniform body, b / d: 40 in wide.
    [InlineData(60, 0.66667)]
    [InlineData(72, 0.55556)]
    [InlineData(80, 0.5)]
    [InlineData(84, 0.47619)]
    [InlineData(96, 0.41667)]
    public void Sideways_figures_of_a_uniform_body_are_arithmetic(double height, double expected) =>
        Assert.Equal(expected, Crate(48, 40, height).Check().Measures.TippingLateral, 5);

    [Theory]
    [InlineData(60, 0.8)]
    [InlineData(66, 0.72727)]
    public void Forward_figures_of_a_uniform_body_are_arithmetic(double height, double expected) =>
        Assert.Equal(expected, Crate(48, 40, height).Check().Measures.TippingForward, 5);

    [Fact]
    public void A_platform_of_eighty_centimetres_carrying_a_metre_eighty_tips_at_four_ninths()
    {
        var crate = Crate(48, 40, 60) with { Outer = new(Length.FromCentimetres(120), Length.FromCentimetres(80), Length.FromCentimetres(180)) };
        Assert.Equal(0.44444, crate.Check().Measures.TippingLateral, 5);
    }

    [Theory]
    [InlineData(79.9, null)]
    [InlineData(80, null)]
    [InlineData(80.1, Severity.Caution)]
    public void Forty_inches_wide_stands_up_to_eighty(double height, Severity? severity)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(severity, Of(Crate(200, 40, 60) with { Outer = new(Length.FromInches(200), Typed.Long(40, units), Typed.Long(height, units)) }, "outer.width")?.Severity);
    }

    [Theory]
    [InlineData(59.9, null)]
    [InlineData(60, null)]
    [InlineData(60.1, Severity.Tip)]
    public void Forty_eight_inches_long_stands_up_to_sixty(double height, Severity? severity)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(severity, Of(Crate(48, 90, 60) with { Outer = new(Typed.Long(48, units), Length.FromInches(90), Typed.Long(height, units)) }, "outer.length")?.Severity);
    }

    [Theory]
    // 35 in wide: 0.35 g, seven tenths of the limit, at 100 in.
    [InlineData(99.9, Severity.Caution)]
    [InlineData(100, Severity.Caution)]
    [InlineData(100.1, Severity.Stop)]
    public void Far_below_the_limit_is_a_stop(double height, Severity severity)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(severity, Of(Crate(200, 35, 60) with { Outer = new(Length.FromInches(200), Typed.Long(35, units), Typed.Long(height, units)) }, "outer.width")?.Severity);
    }

    [Fact]
    public void The_finding_gives_the_height_that_would_stand()
    {
        var finding = Of(Crate(200, 40, 84), "outer.width")!;
        Assert.Equal(Unit.One, finding.Measured.Unit);
        Assert.Equal(40.0 / 84, finding.Measured.Value, 9);
        Assert.Equal(Quantity.Ratio(0.5), finding.Limit);
        Assert.Equal(Basis.Standard("EN 12195-1:2010 design accelerations"), finding.Basis);
        Assert.Equal("Tall for its base: 84 in on 40 in. It begins to tip sideways in a bend at 0.48 g, and must stand 0.5 g.", finding.Message.Said());
        Assert.StartsWith("Build it lower (about 80 in on this base)", finding.Cure.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_heavy_pallet_below_steadies_a_light_load_above()
    {
        var light = Freight.Machine with { Outer = Freight.Outer(48, 40, 80), GrossWeight = Mass.FromPounds(60) };
        var heavy = light with { GrossWeight = Mass.FromPounds(2000) };
        Assert.True(light.Check().Measures.TippingLateral > heavy.Check().Measures.TippingLateral);
    }

    [Fact]
    public void What_hangs_over_gives_no_foot_to_stand_on()
    {
        var within = Freight.Machine with { Outer = Freight.Outer(48, 40, 70) };
        Assert.Equal(within.Check().Measures.TippingLateral, within.Reaching(width: Length.FromInches(44)).Check().Measures.TippingLateral);
    }

    [Fact]
    public void An_unfinished_top_layer_lowers_the_middle()
    {
        var full = Freight.Pallet(new CartonContents(Freight.Small, 16, 6, StackKind.Column));
        var few = Freight.Pallet(new CartonContents(Freight.Small, 16, 5, StackKind.Column, TopLayer: 2));
        Assert.True(few.Check().Measures.TippingLateral > full.Check().Measures.TippingLateral);
    }

    [Fact]
    public void Film_and_board_change_nothing_about_tipping()
    {
        var tall = Freight.Machine with { Outer = Freight.Outer(48, 40, 90) };
        Assert.Equal(
            tall.Check().Findings.Where(f => f.Code == FindingCodes.Tipping),
            (tall with { Protection = Freight.Boarded, Stackable = true }).Check(Freight.Far).Findings.Where(f => f.Code == FindingCodes.Tipping));
    }

    [Fact]
    public void A_carrier_may_reckon_with_another_acceleration()
    {
        // 0.6 sideways for goods at risk of tipping: the standard's other figure.
        var tariff = Tariff.With(rules => rules with
        {
            Tipping = new TippingLimits { Lateral = 0.6, Severity = Severity.Tip, FarBelow = 0.9, FarBelowSeverity = Severity.Caution },
        });
        var finding = Of(Crate(200, 40, 72), "outer.width", tariff)!;
        Assert.Equal((Severity.Tip, Quantity.Ratio(0.6)), (finding.Severity, finding.Limit));
        Tariff.IsNamedBy(finding);
        Assert.Equal(Severity.Caution, Of(Crate(200, 40, 76), "outer.width", tariff)!.Severity);
    }

    [Fact]
    public void A_strap_asked_for_answers_both_axes_and_a_bulkhead_the_forward_one()
    {
        var tall = Crate(48, 40, 84);
        Severity[] Gravities(Requests requests) => [.. (tall with { Requests = requests }).Check().Findings.Where(f => f.Code == FindingCodes.Tipping).OrderBy(f => f.Subject).Select(f => f.Severity)];
        // Forward (outer.length), then sideways.
        Assert.Equal([Severity.Tip, Severity.Caution], Gravities(Requests.None));
        Assert.Equal([Severity.Tip, Severity.Tip], Gravities(new(Strap: true)));
        Assert.Equal([Severity.Tip, Severity.Caution], Gravities(new(Bulkhead: true)));
        tall = Crate(48, 24, 92);
        Assert.Equal([Severity.Stop, Severity.Stop], Gravities(Requests.None));
        Assert.Equal([Severity.Caution, Severity.Stop], Gravities(new(Bulkhead: true)));
        Assert.Equal([Severity.Caution, Severity.Caution], Gravities(new(Strap: true)));
    }

    [Fact]
    public void The_working_is_half_the_base_over_the_height_of_the_middle() =>
        Assert.Equal("(40 in ÷ 2) ÷ 42 in = 0.48 g", Of(Crate(200, 40, 84), "outer.width")!.Formula.Said());

    private static HandlingUnit Crate(double length, double width, double height) => new()
    {
        Reference = "C1",
        Quantity = 1,
        Kind = HandlingUnitKind.Crate,
        Outer = Freight.Outer(length, width, height),
        GrossWeight = Mass.FromPounds(800),
        Contents = new PieceContents("pump, crated"),
    };

    private static Finding? Of(HandlingUnit unit, string subject, RuleSet? rules = null) =>
        unit.Check(rules: rules).Findings.SingleOrDefault(f => f.Code == FindingCodes.Tipping && f.Subject == subject);
}
