using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>Drums, bags, rolls, furniture, machines and crates: each with the rules that fit. Common practice, no source.</summary>
public class ContentsRuleTests
{
    private static readonly DrumContents Drums = new(Length.FromInches(20), Length.FromInches(30), Mass.FromPounds(200), 4, 1, DrumMaterial.Steel);
    private static readonly BagContents Bags = new(Mass.FromPounds(50), 5, 6, StackKind.Interlocked);
    private static readonly RollContents Rolls = new(Length.FromInches(20), Length.FromInches(34), Mass.FromPounds(300), 2, RollStanding.OnSide);
    private static readonly MachineryContents Lathe = new("lathe", Fastened: true, null);

    [Fact]
    public void Well_made_freight_of_every_kind_has_nothing_against_it()
    {
        foreach (var unit in new[]
        {
            Freight.Loaded(Drums), Freight.Loaded(Bags), Freight.Loaded(Rolls with { Standing = RollStanding.OnEnd }), Freight.Loaded(new FurnitureContents("sideboard", true)), Freight.Loaded(Lathe),
            Freight.Bare(new CrateContents("gearbox", true), HandlingUnitKind.Crate), Freight.Loaded(new MixedCartonContents([new(Freight.Small, 20), new(Freight.Carton(20, 12, 8, 15, 32), 10)])),
        })
            Assert.Empty(unit.Check().Findings);
    }

    [Fact]
    public void Film_is_for_bags_and_mixed_cartons_too()
    {
        foreach (var unit in new[] { Freight.Loaded(Bags), Freight.Loaded(new MixedCartonContents([new(Freight.Small, 20)])) })
        {
            Assert.True((unit with { Protection = unit.Protection with { WrapTurns = 1 } }).Finds(FindingCodes.WrapTurns));
            Assert.True((unit with { Protection = unit.Protection with { WrapOverPlatform = false } }).Finds(FindingCodes.WrapAnchor));
        }

        Assert.False((Freight.Loaded(Lathe) with { Protection = Protection.None }).Finds(FindingCodes.WrapTurns));
    }

    [Fact]
    public void Corner_boards_are_for_mixed_cartons_too_and_not_for_bags()
    {
        var mixed = Freight.Loaded(new MixedCartonContents([new(Freight.Small, 20)]));
        Assert.Equal(Severity.Caution, mixed.Finding(FindingCodes.CornerBoards, Freight.Far).Severity);
        Assert.Equal(Severity.Stop, mixed.Reaching(Length.FromInches(50)).Finding(FindingCodes.CornerBoards, Freight.Far).Severity);
        Assert.False(mixed.Finds(FindingCodes.CornerBoards));
        Assert.False(Freight.Loaded(Bags).Finds(FindingCodes.CornerBoards, Freight.Far));
    }

    [Theory]
    [InlineData(DrumMaterial.Steel, 1, false)]
    [InlineData(DrumMaterial.Steel, 2, false)]
    [InlineData(DrumMaterial.Steel, 3, true)]
    [InlineData(DrumMaterial.Plastic, 1, false)]
    [InlineData(DrumMaterial.Plastic, 2, true)]
    [InlineData(DrumMaterial.Fibre, 2, true)]
    public void Drums_stand_so_high(DrumMaterial material, int tiers, bool found)
    {
        var unit = Freight.Loaded(Drums with { Material = material, Tiers = tiers }, 5.5 + (30 * tiers));
        Assert.Equal(found, unit.Finds(FindingCodes.DrumTiers));
        if (found)
            Assert.Equal((Severity.Caution, "contents.tiers"), (unit.Finding(FindingCodes.DrumTiers).Severity, unit.Finding(FindingCodes.DrumTiers).Subject));
    }

    [Fact]
    public void A_carriers_tiers_are_named() => Tariff.IsNamedBy(Freight.Loaded(Drums with { Tiers = 2 }, 65.5).Finding(
        FindingCodes.DrumTiers, rules: Tariff.With(rules => rules with { Contents = rules.Contents with { SteelDrumTiers = 1 } })));

    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(0, 1, true)]
    [InlineData(0, 2, false)]
    [InlineData(1, 0, false)]
    public void Drums_are_held_together_by_straps_or_film(int straps, int turns, bool found)
    {
        var unit = Freight.Loaded(Drums) with { Protection = Freight.Wrapped with { Straps = straps, WrapTurns = turns } };
        Assert.Equal(found, unit.Finds(FindingCodes.LooseDrums));
        if (found)
            Assert.Equal(Severity.Stop, unit.Finding(FindingCodes.LooseDrums).Severity);
        Assert.False((unit with { Contents = Drums with { Count = 1 } }).Finds(FindingCodes.LooseDrums));
    }

    [Fact]
    public void Between_tiers_of_drums_lies_a_sheet()
    {
        var two = Freight.Loaded(Drums with { Tiers = 2 }, 65.5) with { Protection = Freight.Wrapped };
        Assert.Equal(Severity.Caution, two.Finding(FindingCodes.SlipSheets).Severity);
        Assert.False((Freight.Loaded(Drums) with { Protection = Freight.Wrapped }).Finds(FindingCodes.SlipSheets));
    }

    [Fact]
    public void One_drum_by_itself_is_handled_by_hand()
    {
        var alone = Freight.Bare(Drums with { Count = 1 }, HandlingUnitKind.Drum) with { Outer = Freight.Outer(20, 20, 30) };
        Assert.Equal((Severity.Caution, "kind"), (alone.Finding(FindingCodes.LoneDrum).Severity, alone.Finding(FindingCodes.LoneDrum).Subject));
        Assert.False(Freight.Loaded(Drums with { Count = 1 }).Finds(FindingCodes.LoneDrum));
    }

    [Fact]
    public void Bags_tie_each_other_and_lie_on_a_sheet_under_a_cap()
    {
        var columns = Freight.Loaded(Bags with { Stack = StackKind.Column });
        Assert.Equal((Severity.Caution, "contents.stack"), (columns.Finding(FindingCodes.BagColumns).Severity, columns.Finding(FindingCodes.BagColumns).Subject));
        Assert.False((columns with { Contents = Bags with { Stack = StackKind.Column, Layers = 1 } }).Finds(FindingCodes.BagColumns));
        var bare = Freight.Loaded(Bags) with { Protection = Freight.Wrapped };
        Assert.Equal((Severity.Tip, Severity.Tip), (bare.Finding(FindingCodes.SlipSheets).Severity, bare.Finding(FindingCodes.TopCap).Severity));
    }

    [Fact]
    public void Rolls_on_their_side_are_chocked()
    {
        var rolls = Freight.Loaded(Rolls);
        Assert.Equal((Severity.Stop, "protection.straps"), (rolls.Finding(FindingCodes.RollChocks).Severity, rolls.Finding(FindingCodes.RollChocks).Subject));
        Assert.Equal(Severity.Caution, (rolls with { Requests = new(Strap: true) }).Finding(FindingCodes.RollChocks).Severity);
        Assert.Equal(Severity.Caution, (rolls with { Requests = new(Bulkhead: true) }).Finding(FindingCodes.RollChocks).Severity);
        Assert.False((rolls with { Protection = rolls.Protection with { Straps = 1 } }).Finds(FindingCodes.RollChocks));
        Assert.Equal(rolls.Finding(FindingCodes.RollChocks), (rolls with { Quantity = 3, Protection = Protection.None }).Finding(FindingCodes.RollChocks, Freight.Far));
    }

    [Theory]
    [InlineData(0, 1, true)]
    [InlineData(0, 2, false)]
    [InlineData(1, 0, false)]
    public void Rolls_on_end_stand_together(int straps, int turns, bool found)
    {
        var rolls = Freight.Loaded(Rolls with { Standing = RollStanding.OnEnd }) with { Protection = Freight.Wrapped with { Straps = straps, WrapTurns = turns } };
        Assert.Equal(found, rolls.Finds(FindingCodes.RollsOnEnd));
        if (found)
            Assert.Equal(Severity.Tip, rolls.Finding(FindingCodes.RollsOnEnd).Severity);
    }

    [Theory]
    [InlineData(false, 1, true)]
    [InlineData(false, 2, false)]
    [InlineData(true, 0, false)]
    public void Bare_furniture_wants_film(bool boxed, int turns, bool found)
    {
        var sofa = Freight.Loaded(new FurnitureContents("sofa", boxed)) with { Protection = Freight.Wrapped with { WrapTurns = turns } };
        Assert.Equal(found, sofa.Finds(FindingCodes.BareFurniture));
        if (found)
            Assert.Equal(Severity.Caution, sofa.Finding(FindingCodes.BareFurniture).Severity);
    }

    [Fact]
    public void A_carriers_turns_are_named_there_too() => Tariff.IsNamedBy(Freight.Loaded(new FurnitureContents("sofa", false)).Finding(
        FindingCodes.BareFurniture, rules: Tariff.With(rules => rules with { Wrap = rules.Wrap with { Turns = 4 } })));

    [Fact]
    public void A_machine_is_fastened_to_its_skid()
    {
        var loose = Freight.Loaded(Lathe with { Fastened = false });
        Assert.Equal((Severity.Stop, "contents.fastened"), (loose.Finding(FindingCodes.Unfastened).Severity, loose.Finding(FindingCodes.Unfastened).Subject));
        Assert.Equal(Severity.Caution, (loose with { Protection = Protection.None with { Straps = 2 } }).Finding(FindingCodes.Unfastened).Severity);
        Assert.False(Freight.Loaded(Lathe).Finds(FindingCodes.Unfastened));
        Assert.False(Freight.Bare(Lathe with { Fastened = false }).Finds(FindingCodes.Unfastened));
    }

    [Fact]
    public void Its_own_centre_of_gravity_decides_whether_it_tips()
    {
        var tall = Freight.Loaded(Lathe, height: 90);
        Assert.True(tall.Finds(FindingCodes.Tipping));
        var low = tall with { Contents = Lathe with { CentreOfGravity = Length.FromInches(20) } };
        Assert.Equal(1.0, low.Check().Measures.TippingLateral, 9);
        Assert.False(low.Finds(FindingCodes.Tipping));
        var high = tall with { Contents = Lathe with { CentreOfGravity = Length.FromInches(60) } };
        Assert.Equal(20.0 / 60, high.Check().Measures.TippingLateral, 9);
    }

    [Theory]
    [InlineData(39.9, false)]
    [InlineData(40, true)]
    [InlineData(40.1, true)]
    public void A_centre_of_gravity_is_inside(double inches, bool found)
    {
        foreach (var units in Typed.Both)
            Assert.Equal(found, Freight.Loaded(Lathe with { CentreOfGravity = Typed.Long(inches, units) }).Check().Findings.Any(f => f.Subject == "contents.centreOfGravity"));
    }

    [Fact]
    public void What_is_in_a_crate_is_braced()
    {
        var loose = Freight.Bare(new CrateContents("gearbox", false), HandlingUnitKind.Crate);
        Assert.Equal((Severity.Caution, "contents.braced"), (loose.Finding(FindingCodes.Unbraced).Severity, loose.Finding(FindingCodes.Unbraced).Subject));
    }

    [Theory]
    // Two stand beside each other on 48 × 40 in, give or take an inch and a half; a third needs 48 × 48.
    [InlineData(23.5, 2, 40, false)]
    [InlineData(23.5, 4, 40, true)]
    [InlineData(23.5, 4, 46, false)]
    public void Drums_that_cannot_stand_there_are_a_contradiction(double diameter, int count, double width, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var unit = Freight.Loaded(Drums with { Diameter = Typed.Long(diameter, units), Count = count }).Reaching(width: Typed.Long(width, units));
            Assert.Equal(found, unit.Finds(FindingCodes.InconsistentDimensions));
            Assert.Equal(width > 40, unit.Finds(FindingCodes.Overhang));
        }
    }

    [Fact]
    public void Tiers_of_drums_add_up_to_the_height()
    {
        Assert.Equal("outer.height", Freight.Loaded(Drums with { Tiers = 2 }).Finding(FindingCodes.InconsistentDimensions).Subject);
        Assert.False(Freight.Loaded(Drums with { Tiers = 2 }, 65.5).Finds(FindingCodes.InconsistentDimensions));
    }

    [Fact]
    public void A_roll_lies_inside_its_outer_size()
    {
        Assert.False((Freight.Loaded(Rolls) with { Protection = Freight.Wrapped with { Straps = 2 } }).Finds(FindingCodes.InconsistentDimensions));
        Assert.True(Freight.Loaded(Rolls with { Width = Length.FromInches(60) }).Finds(FindingCodes.InconsistentDimensions));
        Assert.True(Freight.Loaded(Rolls with { Diameter = Length.FromInches(40) }).Finds(FindingCodes.InconsistentDimensions));
    }

    [Theory]
    // 48 × 40 × 34.5 in over the pallet are 66.9 of these cartons of 990 in³; 3 % more is 68.9.
    [InlineData(66, false)]
    [InlineData(68, false)]
    [InlineData(69, true)]
    public void Mixed_cartons_have_no_more_volume_than_the_outer_size(int count, bool found)
    {
        var unit = Freight.Loaded(new MixedCartonContents([new(Freight.Small, count - 10), new(Freight.Small with { GrossWeight = Mass.FromPounds(5) }, 10)]));
        Assert.Equal(found, unit.Finds(FindingCodes.InconsistentDimensions));
        if (found)
            Assert.Equal(("contents.lines", Severity.Stop), (unit.Finding(FindingCodes.InconsistentDimensions).Subject, unit.Finding(FindingCodes.InconsistentDimensions).Severity));
    }

    [Fact]
    public void Nor_a_carton_that_is_larger_than_it() =>
        Assert.True(Freight.Loaded(new MixedCartonContents([new(Freight.Carton(60, 12, 8, 15, 32), 2)])).Finds(FindingCodes.InconsistentDimensions));

    [Theory]
    [InlineData(24.9, false)]
    [InlineData(25, false)]
    [InlineData(25.1, true)]
    public void Every_kind_that_knows_its_weight_adds_up(double more, bool found)
    {
        foreach (var contents in new Contents[]
        {
            Drums with { WeightEach = Mass.FromPounds(400) }, Bags, Rolls with { WeightEach = Mass.FromPounds(600) }, new MixedCartonContents([new(Freight.Small, 40), new(Freight.Small with { GrossWeight = Mass.FromPounds(15) }, 20)]),
        })
        {
            foreach (var units in Typed.Both)
            {
                var unit = Freight.Loaded(contents);
                Assert.Equal(found, (unit with { GrossWeight = Typed.Heavy(unit.GrossWeight.Pounds + more, units) }).Finds(FindingCodes.WeightMismatch));
            }
        }
    }

    [Theory]
    // A cubic foot of lead is 708 lb.
    [InlineData(707, false)]
    [InlineData(708, false)]
    [InlineData(709, true)]
    public void Nothing_is_denser_than_lead(double pounds, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var side = Typed.Long(12, units);
            var block = Freight.Bare(new PieceContents("ingot")) with { Outer = new(side, side, side), GrossWeight = Typed.Heavy(pounds, units), DeclaredClass = 500 };
            Assert.Equal(found, block.Finds(FindingCodes.InconsistentDimensions));
            Assert.Equal(!found, block.Finds(FindingCodes.FreightClass));
        }
    }

    [Fact]
    public void The_boards_of_a_crate_weigh_too()
    {
        var crate = Freight.Bare(Rolls, HandlingUnitKind.Crate);
        Assert.False((crate with { GrossWeight = Mass.FromPounds(700) }).Finds(FindingCodes.WeightMismatch));
        Assert.True((crate with { GrossWeight = Mass.FromPounds(500) }).Finds(FindingCodes.WeightMismatch));
    }
}
