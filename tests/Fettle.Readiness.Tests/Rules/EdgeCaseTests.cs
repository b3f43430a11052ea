using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Declarations at the edge of what the form lets through.</summary>
public class EdgeCaseTests
{
    [Fact]
    public void Two_thousand_cartons_of_forty_tons_each_are_a_contradiction_and_not_a_crash()
    {
        var monstrous = Freight.Sound with { Contents = new CartonContents(Freight.Small with { GrossWeight = Mass.FromPounds(80_000) }, 20, 100, StackKind.Column) };
        var result = monstrous.Check();
        Assert.Equal(Verdict.Hold, result.Verdict);
        Assert.Contains(FindingCodes.WeightMismatch, result.Codes());
        // Whatever is more than four thousand tonnes is called that.
        Assert.Equal(Mass.FromKilograms(4_000_000) + Freight.Deck.Tare, result.Measures.ComputedGrossWeight);
    }

    [Fact]
    public void Five_hundred_of_the_strongest_cartons_do_not_overflow_what_may_be_put_on_them()
    {
        var strong = new CartonContents(Freight.Carton(240, 240, 1, 1, 500), 500, 1, StackKind.Column);
        Assert.NotNull(Freight.Pallet(strong).Check().Measures.TopLoadCapacity);
    }

    [Fact]
    public void A_platform_larger_than_the_outside_is_a_contradiction_both_ways()
    {
        var subjects = (Freight.Sound with { Outer = Freight.Outer(40, 30, 45.5) }).Check().Findings.Where(f => f.Code == FindingCodes.InconsistentDimensions).Select(f => f.Subject);
        Assert.Equal(["outer.length", "outer.width"], subjects);
    }

    [Fact]
    public void One_carton_alone_bears_nothing_and_is_no_stack()
    {
        var one = Freight.Pallet(new CartonContents(Freight.Carton(40, 34, 30, 120, 48), 1, 1, StackKind.Column));
        var result = one.Check();
        Assert.Equal(Mass.Zero, result.Measures.LoadOnBottomCarton);
        Assert.Null(result.Measures.SelfCrushSafety);
        Assert.DoesNotContain(FindingCodes.SelfCrush, result.Codes());
        Assert.Single(result.Measures.Shape.Layer!.Placements);
    }

    [Fact]
    public void Nine_hundred_ninety_nine_pallets_are_judged_as_one()
    {
        var many = Freight.Sound with { Quantity = 999 };
        Assert.Equal(Freight.Sound.Check().Findings, many.Check().Findings);
        Assert.Equal(999, many.Check().Quantity);
    }

    [Fact]
    public void No_alternative_makes_a_line_of_more_than_nine_hundred_ninety_nine()
    {
        var few = Freight.Pallet(new CartonContents(Freight.Carton(14, 12, 10, 10, 44), 3, 1, StackKind.Column)) with { Quantity = 400 };
        Assert.True(few.Finds(FindingCodes.FewLightCartons));
        Assert.Empty(Find(few).Alternatives);
        Assert.Contains(Find(few with { Quantity = 333 }).Alternatives, a => a.Key == "loose" && a.HandlingUnits[0].Quantity == 999);
        var heavy = Freight.Pallet(new CartonContents(Freight.Carton(12, 10, 8, 38, 51), 16, 5, StackKind.Column)) with { Quantity = 999 };
        Assert.True(heavy.Finds(FindingCodes.GrossWeight));
        Assert.All(Find(heavy).Alternatives, a => Assert.All(a.HandlingUnits, line => Assert.InRange(line.Quantity, 1, 999)));
    }

    [Fact]
    public void A_cube_on_a_square_deck_has_no_longer_side()
    {
        var deck = Freight.Deck with { Length = Length.FromInches(42), Width = Length.FromInches(42) };
        var cube = Freight.Pallet(new CartonContents(Freight.Carton(12, 12, 12, 20, 44), 9, 3, StackKind.Column), deck);
        var shape = cube.Check().Measures.Shape;
        Assert.Equal(shape.Clearance.Front, shape.Clearance.Left);
        Assert.Equal(Length.FromInches(3), shape.Clearance.Least);
        Assert.Equal(cube.Check().Measures.TippingLateral, cube.Check().Measures.TippingForward);
    }

    [Fact]
    public void The_smallest_figures_of_all_are_judged()
    {
        var speck = new HandlingUnit
        {
            Reference = "A1",
            Quantity = 1,
            Kind = HandlingUnitKind.Pallet,
            Platform = new(Length.FromNanometres(1), Length.FromNanometres(1), Length.FromNanometres(1), Mass.FromNanograms(1), PlatformMaterial.Wood, Mass.FromNanograms(1)),
            Outer = new(Length.FromNanometres(1), Length.FromNanometres(1), Length.FromNanometres(1)),
            GrossWeight = Mass.FromNanograms(1),
            Contents = new CartonContents(
                new(Length.FromNanometres(1), Length.FromNanometres(1), Length.FromNanometres(1), Mass.FromNanograms(1), new(Engineering.Cartons.Flute.C, 0.01)), 1, 1, StackKind.Column),
        };
        var result = speck.Check();
        Assert.Equal(Verdict.Hold, result.Verdict);
        Assert.All(result.Findings, f => Assert.True(double.IsFinite(f.Measured.Value) && double.IsFinite(f.Limit.Value)));
    }

    [Fact]
    public void Nothing_declared_is_ready()
    {
        var result = ReadinessCheck.Run(new Declaration(Freight.Near, true, UnitSystem.Imperial, []), RuleSet.BuiltIn);
        Assert.Equal(Verdict.Ready, result.Verdict);
        Assert.Empty(result.HandlingUnits);
    }

    [Fact]
    public void A_declaration_is_as_grave_as_its_worst_line()
    {
        var declaration = new Declaration(Freight.Near, true, UnitSystem.Imperial, [Freight.Sound, Freight.Sound.Reaching(length: Length.FromInches(50)) with { Reference = "A2" }]);
        var result = ReadinessCheck.Run(declaration, RuleSet.BuiltIn);
        Assert.Equal((Verdict.Hold, RuleSet.BuiltIn.Identity), (result.Verdict, result.RuleSet));
        Assert.Equal([("A1", Verdict.Ready), ("A2", Verdict.Hold)], result.HandlingUnits.Select(unit => (unit.Reference, unit.Verdict)));
    }

    [Fact]
    public void The_sound_pallet_of_these_tests_has_nothing_wrong() => Assert.Empty(Freight.Sound.Check().Findings);

    private static AlternativeSearch Find(HandlingUnit unit) =>
        AlternativeFinder.Find(unit, unit.Check(), Freight.Near, RuleSet.BuiltIn, UnitCosts.Default);
}
