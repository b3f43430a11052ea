using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>
/// What every dock supervisor has seen. The cases are common practice, no source; the figures in them follow from the rules'
/// own sources.
/// </summary>
public class ClassicCaseTests
{
    [Fact]
    public void Cartons_over_the_edge_of_the_deck()
    {
        // Ten cartons of 17 × 13 in a layer: none of the patterns stays on 48 × 40 in.
        var over = Freight.Pallet(new CartonContents(Freight.Carton(17, 13, 10, 18, 44), 10, 4, StackKind.Column)).Reaching(Length.FromInches(52), Length.FromInches(51));
        var result = over.Check();
        Assert.Equal(Verdict.Hold, result.Verdict);
        Assert.Equal(2, result.Codes().Count(code => code == FindingCodes.Overhang));
        Assert.Equal((Length.FromInches(2), Length.FromInches(5.5)), (result.Measures.Shape.Overhang.Front, result.Measures.Shape.Overhang.Left));
        // They also carry less: the table of the Fibre Box Handbook leaves 60 % of a carton that hangs over by more than a little.
        var within = over with { Outer = over.Outer with { Length = Length.FromInches(48), Width = Length.FromInches(40) }, Contents = over.Cartons() with { PerLayer = 8 } };
        Assert.Equal(0.6, result.Measures.UsableStrength!.Value / within.Check().Measures.UsableStrength!.Value, 9);
    }

    [Fact]
    public void Heavy_cases_that_sink_into_themselves()
    {
        // Fasteners: 12 × 10 × 6 in, 44 lb, plain 32 ECT, ten high and interlocked.
        var cases = Freight.Pallet(new CartonContents(Freight.Carton(12, 10, 6, 44, 32), 12, 10, StackKind.Interlocked), Freight.Deck with { Rating = Mass.FromPounds(6000) });
        var finding = cases.Finding(FindingCodes.SelfCrush);
        Assert.Equal(Severity.Stop, finding.Severity);
        Assert.InRange(finding.Measured.Value, 0.1, 0.99);
        Assert.Equal(Verdict.Hold, cases.Check().Verdict);
    }

    [Fact]
    public void Three_light_cartons_alone_on_a_pallet()
    {
        var candles = Freight.Pallet(new CartonContents(Freight.Carton(16, 12, 10, 14, 44), 3, 1, StackKind.Column));
        var result = candles.Check();
        Assert.Equal([FindingCodes.FewLightCartons], result.Codes());
        Assert.Equal(Verdict.Ready, result.Verdict);
        Assert.True(result.Measures.FreightClass > 92.5m);
    }

    [Fact]
    public void A_load_wrapped_to_the_bottom_carton_only()
    {
        var slides = Freight.Sound with { Protection = Freight.Wrapped with { WrapTurns = 4, WrapOverPlatform = false } };
        Assert.Equal([FindingCodes.WrapAnchor], slides.Check().Codes());
        Assert.Equal(Verdict.Hold, slides.Check().Verdict);
        Assert.Contains("slides off", slides.Finding(FindingCodes.WrapAnchor).Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void Declared_not_stackable_though_it_would_carry_its_like()
    {
        var pantry = Freight.Sound with { Stackable = false };
        Assert.Equal([FindingCodes.StackableUnclaimed], pantry.Check().Codes());
        Assert.Equal(Verdict.Ready, pantry.Check().Verdict);
        Assert.True(pantry.Check().Measures.CarriesLikeUnit);
    }

    [Fact]
    public void Declared_stackable_though_it_cannot()
    {
        var weak = Freight.Pallet(new CartonContents(Freight.Carton(20, 16, 12, 24, 23, Flute.B), 6, 4, StackKind.Column)) with { Stackable = true };
        var result = weak.Check();
        Assert.Contains(FindingCodes.TopLoad, result.Codes());
        Assert.Equal(Verdict.Hold, result.Verdict);
        Assert.False(result.Measures.CarriesLikeUnit);
        Assert.DoesNotContain(FindingCodes.TopLoad, (weak with { Stackable = false }).Check().Codes());
    }

    [Fact]
    public void A_tall_and_narrow_load()
    {
        // Furniture: 84 in tall on 24 × 40 in. 24 / 84 is less than seven tenths of 0.5 g.
        var deck = Freight.Deck with { Width = Length.FromInches(24), Length = Length.FromInches(40) };
        var tall = Freight.Machine with { Platform = deck, Outer = Freight.Outer(40, 24, 84), GrossWeight = Mass.FromPounds(300) };
        var findings = tall.Check().Findings.Where(f => f.Code == FindingCodes.Tipping).ToDictionary(f => f.Subject);
        Assert.Equal(Severity.Stop, findings["outer.width"].Severity);
        Assert.Equal(Severity.Stop, findings["outer.length"].Severity);
    }

    [Fact]
    public void A_flush_load_over_five_hundred_miles_without_boards()
    {
        var flush = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 20, 44), 8, 4, StackKind.Column)) with { Stackable = true };
        var result = flush.Check(Freight.Far);
        Assert.Equal([FindingCodes.CornerBoards, FindingCodes.Clearance, FindingCodes.Sleeve, FindingCodes.TopCap], result.Codes());
        Assert.Equal([Severity.Stop, Severity.Caution, Severity.Tip, Severity.Tip], result.Findings.Select(f => f.Severity));
        var boarded = flush with { Protection = Freight.Boarded with { Sleeve = true, TopCap = true } };
        Assert.Empty(boarded.Check(Freight.Far).Findings);
    }

    [Fact]
    public void Glass_without_partitions()
    {
        var glasses = Freight.Sound with { Stackable = false, Fragile = Fragility.Glass, Requests = new(Decking: true), Protection = Freight.Wrapped with { TopCap = true } };
        Assert.Equal([FindingCodes.Partitions], glasses.Check().Codes());
        Assert.Equal(Verdict.Hold, glasses.Check().Verdict);
        Assert.Empty((glasses with { Partitions = true }).Check().Findings);
    }

    [Fact]
    public void Tall_and_narrow_on_a_long_lane()
    {
        var tall = Freight.Machine with { Contents = new FurnitureContents("wardrobe", Boxed: true), Outer = Freight.Outer(48, 40, 90), GrossWeight = Mass.FromPounds(300) };
        Assert.Equal([Severity.Caution, Severity.Tip], tall.Check(Freight.Far).Findings.Where(f => f.Code == FindingCodes.Tipping).Select(f => f.Severity));
        var strapped = tall with { Requests = new(Strap: true) };
        Assert.Equal(Verdict.Ready, strapped.Check(Freight.Far).Verdict);
        Assert.Equal(2, strapped.Check(Freight.Far).Codes().Count(code => code == FindingCodes.Tipping));
    }

    [Fact]
    public void Four_light_cartons_on_a_bare_deck_are_told_one_thing()
    {
        var four = Freight.Pallet(new CartonContents(Freight.Carton(14, 10, 9, 19, 51, Flute.BC), 4, 1, StackKind.Column));
        Assert.Equal([FindingCodes.FewLightCartons], four.Check(Freight.Far).Codes());
        Assert.Equal([FindingCodes.FewLightCartons], four.Check(new Lane(900, 4, false)).Codes());
    }

    [Fact]
    public void Feet_typed_as_inches()
    {
        var typed = Freight.Sound with { Outer = Freight.Outer(4, 3.33, 3.79) };
        var findings = typed.Check(typedIn: UnitSystem.Imperial).Findings.Where(f => f.Code == FindingCodes.InconsistentDimensions).ToDictionary(f => f.Subject);
        Assert.EndsWith("Typed in feet? 48 in would fit.", findings["outer.length"].Message.Said(), StringComparison.Ordinal);
        Assert.EndsWith("Typed in feet? 40 in would fit.", findings["outer.width"].Message.Said(), StringComparison.Ordinal);
        Assert.EndsWith("Typed in feet? 45.5 in would fit.", findings["outer.height"].Message.Said(), StringComparison.Ordinal);
        Assert.Equal(3, findings.Count);
    }
}
