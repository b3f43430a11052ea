using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Alternatives;

/// <summary>Each kind of change, on freight that calls for it.</summary>
public class AlternativeFinderTests
{
    [Fact]
    public void Another_pattern_that_stays_on_the_deck()
    {
        // Twelve of 12 × 10 in, set up so carelessly that they reach over both edges.
        var careless = Freight.Pallet(new CartonContents(Freight.Carton(12, 10, 10, 20, 44), 12, 4, StackKind.Column)).Reaching(Length.FromInches(50), Length.FromInches(42));
        var offered = Offer(careless, "layer12");
        Assert.Equal([FindingCodes.Overhang, FindingCodes.CornerBoards], offered.Cures);
        var line = Assert.Single(offered.HandlingUnits);
        Assert.Equal((12, 4, 0), (line.Cartons().PerLayer, line.Cartons().Layers, line.Cartons().TopLayer));
        Assert.Equal((Length.FromInches(48), Length.FromInches(40)), (line.Outer.Length, line.Outer.Width));
        Assert.Equal(Length.Zero, offered.Results[0].Measures.Shape.Overhang.Greatest);
        Assert.Equal((0, 0), (offered.Cost.ExtraPlatforms, offered.Cost.ExtraFloorPositions));
        Assert.Equal("Stack 12 cartons a layer, all on the deck. Keep 1 pallet (1 × 4 layers)", offered.Summary.Said());
    }

    [Fact]
    public void Fewer_cartons_in_a_layer_when_so_many_do_not_fit()
    {
        // Nine of 20 × 12 in hang over; eight cover the deck. 36 cartons are 4 layers and 4 more.
        var over = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 20, 44), 9, 4, StackKind.Column)).Reaching(Length.FromInches(60), Length.FromInches(42));
        var offered = Offer(over, "layer8-mend2");
        Assert.Equal((8, 4, 4), (offered.HandlingUnits[0].Cartons().PerLayer, offered.HandlingUnits[0].Cartons().Layers, offered.HandlingUnits[0].Cartons().TopLayer));
        Assert.Equal("Stack 8 cartons a layer, all on the deck. Keep 1 pallet (1 × 4 layers and 4 cartons on top). Put corner boards down to the pallet", offered.Summary.Said());
    }

    [Fact]
    public void Fewer_layers_over_more_platforms()
    {
        var tall = Freight.Pallet(new CartonContents(Freight.Small, 16, 8, StackKind.Column) with { Carton = Freight.Small with { GrossWeight = Mass.FromPounds(12) } });
        Assert.True(tall.Finds(FindingCodes.Tipping));
        var offered = Offer(tall, "on2");
        Assert.Contains(FindingCodes.Tipping, offered.Cures);
        Assert.Equal([(2, 4)], offered.HandlingUnits.Select(line => (line.Quantity, line.Cartons().Layers)));
        Assert.Equal((1, 1), (offered.Cost.ExtraPlatforms, offered.Cost.ExtraFloorPositions));
        Assert.Equal("Spread the load over 2 pallets instead of 1 (2 × 4 layers)", offered.Summary.Said());
    }

    [Fact]
    public void Layers_that_do_not_divide_make_two_lines()
    {
        // Five pallets of nine layers: 45 layers are six pallets of seven or eight.
        var tall = Freight.Pallet(new CartonContents(Freight.Small with { GrossWeight = Mass.FromPounds(11) }, 16, 9, StackKind.Column)) with { Quantity = 5 };
        var offered = Find(tall).Alternatives.First(a => a.Key.StartsWith("on", StringComparison.Ordinal));
        Assert.Equal(["A1", "A1b"], offered.HandlingUnits.Select(line => line.Reference));
        Assert.Equal(45, offered.HandlingUnits.Sum(line => line.Quantity * line.Cartons().Layers));
        Assert.Equal(1, offered.HandlingUnits[0].Cartons().Layers - offered.HandlingUnits[1].Cartons().Layers);
    }

    [Fact]
    public void An_overweight_unit_is_split()
    {
        var heavy = Freight.Pallet(new CartonContents(Freight.Carton(11, 9, 8, 44, 61), 16, 4, StackKind.Column));
        Assert.Equal(Severity.Stop, heavy.Finding(FindingCodes.GrossWeight).Severity);
        var offered = Offer(heavy, "on2");
        Assert.Contains(FindingCodes.GrossWeight, offered.Cures);
        Assert.All(offered.HandlingUnits, line => Assert.True(line.GrossWeight <= Mass.FromPounds(2000)));
        Assert.Equal(heavy.GrossWeight + Freight.Deck.Tare, offered.HandlingUnits[0].GrossWeight * 2);
        // Half of the 64 cartons are lifted, and both pallets wrapped afresh.
        Assert.Equal((32 * 0.2) + (2 * 3), offered.Cost.Minutes, 9);
        Assert.Equal(15 + (2 * 4 * 0.5m), offered.Cost.Material);
    }

    [Fact]
    public void A_larger_platform_takes_what_sticks_out()
    {
        var offered = Offer(Freight.Machine.Reaching(length: Length.FromInches(52)), "deck60x48");
        var line = Assert.Single(offered.HandlingUnits);
        Assert.Equal((Length.FromInches(60), Length.FromInches(48)), (line.Outer.Length, line.Outer.Width));
        Assert.Equal(Freight.Machine.GrossWeight + Mass.FromPounds(30), line.GrossWeight);
        // 60 × 48 in is one and a half positions: 0.83 ft more of the trailer. Whoever has the platform lifts the machine over.
        Assert.Equal((0, 0.8, 38m, 15.0), (offered.Cost.ExtraPlatforms, offered.Cost.ExtraLinearFeet, offered.Cost.Material, offered.Cost.Minutes));
    }

    [Fact]
    public void A_stronger_platform_carries_what_is_over_the_rating()
    {
        var heavy = Freight.Pallet(new CartonContents(Freight.Carton(11, 9, 8, 26, 61), 16, 4, StackKind.Column), Freight.Deck with { Rating = Mass.FromPounds(1500) });
        Assert.Equal(Severity.Stop, heavy.Finding(FindingCodes.GrossWeight).Severity);
        var offered = Offer(heavy, "deckrated");
        Assert.Equal(Mass.FromPounds(4600), offered.HandlingUnits[0].Platform!.Rating);
        Assert.Contains(FindingCodes.GrossWeight, offered.Cures);
        Assert.Equal("Put it on a pallet of 48 in × 40 in, rated 4,600 lb", offered.Summary.Said());
    }

    [Fact]
    public void A_platform_that_nobody_rated_is_not_said_to_carry_something()
    {
        var costs = UnitCosts.Default with { Platforms = [new("unrated", Freight.Deck with { Length = Length.FromInches(60), Rating = null }, 20)] };
        var over = Freight.Machine.Reaching(length: Length.FromInches(52));
        var offered = AlternativeFinder.Find(over, over.Check(), Freight.Near, RuleSet.BuiltIn, costs).Alternatives;
        Assert.Contains(offered, a => a.Summary.Said() == "Put it on a pallet of 60 in × 40 in");
    }

    [Fact]
    public void A_few_light_cartons_each_are_brought_together()
    {
        var few = Freight.Pallet(new CartonContents(Freight.Carton(14, 12, 10, 10, 44), 6, 1, StackKind.Column)) with { Quantity = 4 };
        Assert.True(few.Finds(FindingCodes.FewLightCartons));
        var offered = Find(few).Alternatives.First(a => a.Key.StartsWith("on", StringComparison.Ordinal));
        Assert.Equal((-3, Severity.Tip), (offered.Cost.ExtraPlatforms, few.Finding(FindingCodes.FewLightCartons).Severity));
        Assert.Contains(FindingCodes.FewLightCartons, offered.Cures);
        Assert.Equal(24, offered.HandlingUnits.Sum(line => line.Quantity * line.Cartons().Count));
    }

    [Fact]
    public void Each_offer_says_what_tells_it_from_the_others()
    {
        var weak = Freight.Pallet(new CartonContents(Freight.Carton(11, 9, 10, 20, 23, Flute.B), 16, 4, StackKind.Column)) with { Stackable = true };
        var search = Find(weak);
        Assert.Equal([search.Alternatives[0]], search.Alternatives.Where(a => a.Merits.HasFlag(Merits.Cheapest)));
        Assert.True(Offer(weak, "notstackable").Merits.HasFlag(Merits.NoMorePlatforms | Merits.NoMoreMaterial | Merits.Fastest));
        Assert.False(Offer(weak, "notstackable").Merits.HasFlag(Merits.KeepsStackable));
        Assert.Contains(search.Alternatives, a => a.Merits.HasFlag(Merits.KeepsStackable));
        Assert.False(search.StoppedEarly);
        Assert.True(search.Builds > search.Alternatives.Count);
    }

    [Fact]
    public void No_more_platforms_than_it_takes()
    {
        // 26 pallets of six layers at 3,064 lb: four layers are still over the 2,000 lb mark, three are not.
        var heavy = Freight.Pallet(new CartonContents(Freight.Carton(10, 8, 6, 21, 44), 24, 6, StackKind.Column)) with { Quantity = 26, Protection = Freight.Boarded };
        Assert.Equal([39, 52], Find(heavy).Alternatives.Where(a => a.Cost.ExtraPlatforms > 0).Select(a => 26 + a.Cost.ExtraPlatforms));
    }

    [Fact]
    public void Film_is_brought_down_over_the_pallet()
    {
        var slides = Freight.Sound with { Protection = Freight.Wrapped with { WrapOverPlatform = false } };
        var offered = Assert.Single(Find(slides).Alternatives);
        Assert.Equal(slides with { Protection = Freight.Wrapped }, Assert.Single(offered.HandlingUnits));
        Assert.Equal("Bring the film down over the pallet", offered.Summary.Said());
        Assert.Equal(new AlternativeCost(0, 0, 0, 0.5m, 3, false, null, 2.0m), offered.Cost);
    }

    [Fact]
    public void Turns_are_added_and_come_down_over_the_pallet()
    {
        var bare = Freight.Sound with { Protection = Protection.None };
        var offered = Assert.Single(Find(bare).Alternatives);
        Assert.Equal((2, true), (offered.HandlingUnits[0].Protection.WrapTurns, offered.HandlingUnits[0].Protection.WrapOverPlatform));
        Assert.Equal("Wrap 2 full turns, down over the pallet", offered.Summary.Said());
        Assert.Equal(Verdict.Ready, offered.Verdict);
    }

    [Fact]
    public void Corner_boards_are_put_on()
    {
        var offered = Assert.Single(Find(Freight.Sound, Freight.Far).Alternatives);
        Assert.Equal(CornerBoards.ToPlatform, offered.HandlingUnits[0].Protection.CornerBoards);
        Assert.Equal("Put corner boards down to the pallet", offered.Summary.Said());
        Assert.Equal(new AlternativeCost(0, 0, 0, 4, 3, false, null, 5.5m), offered.Cost);
    }

    [Fact]
    public void A_sleeve_is_put_round_the_load()
    {
        var flush = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 20, 44), 8, 4, StackKind.Column)) with { Stackable = true, Protection = Freight.Boarded };
        var offered = Assert.Single(Find(flush, Freight.Far).Alternatives);
        Assert.True(offered.HandlingUnits[0].Protection.Sleeve);
        Assert.Equal([FindingCodes.Sleeve, FindingCodes.TopCap], offered.Cures);
        Assert.Equal("Put a corrugated sleeve round the load. Put a cap on top", offered.Summary.Said());
    }

    [Fact]
    public void What_cannot_carry_is_declared_not_stackable()
    {
        var weak = Freight.Pallet(new CartonContents(Freight.Carton(11, 9, 10, 20, 23, Flute.B), 16, 4, StackKind.Column)) with { Stackable = true };
        Assert.True(weak.Finds(FindingCodes.TopLoad));
        var offered = Offer(weak, "notstackable");
        Assert.False(Assert.Single(offered.HandlingUnits).Stackable);
        Assert.True(offered.Cost.LosesStackable);
        Assert.Equal("Declare it not stackable", offered.Summary.Said());
        // Another way keeps what was claimed.
        Assert.Contains(Find(weak).Alternatives, a => !a.Cost.LosesStackable && a.HandlingUnits.All(line => line.Stackable) && a.Results.All(r => r.Measures.CarriesLikeUnit));
    }

    [Fact]
    public void A_few_light_cartons_are_shipped_loose()
    {
        var few = Freight.Pallet(new CartonContents(Freight.Carton(14, 12, 10, 10, 44), 3, 1, StackKind.Column)) with { Quantity = 2 };
        var offered = Offer(few, "loose");
        var line = Assert.Single(offered.HandlingUnits);
        Assert.Equal((HandlingUnitKind.LooseCarton, 6, null), (line.Kind, line.Quantity, line.Platform));
        Assert.Equal(Mass.FromPounds(10), line.GrossWeight);
        Assert.Equal((-2, -2, -30m), (offered.Cost.ExtraPlatforms, offered.Cost.ExtraFloorPositions, offered.Cost.Material));
        // Each carton is lifted once.
        Assert.Equal(1.2, offered.Cost.Minutes);
        Assert.Equal("Ship the 6 cartons loose, without a pallet", offered.Summary.Said());
    }

    [Fact]
    public void Straight_columns_instead_of_interlocked_layers()
    {
        var interlocked = Freight.Pallet(new CartonContents(Freight.Carton(11, 9, 9, 26, 29), 16, 5, StackKind.Interlocked));
        Assert.True(interlocked.Finds(FindingCodes.SelfCrush));
        var offered = Offer(interlocked, "column");
        Assert.Equal(StackKind.Column, offered.HandlingUnits[0].Cartons().Stack);
        Assert.Equal([FindingCodes.SelfCrush], offered.Cures);
        Assert.Equal("Stack straight columns instead of interlocked layers", offered.Summary.Said());
        // Every carton is lifted, and the film is new.
        Assert.Equal((80 * 0.2) + 3, offered.Cost.Minutes, 9);
        Assert.Equal(4 * 0.5m, offered.Cost.Material);
    }

    [Fact]
    public void What_carries_its_like_is_declared_stackable_and_saves_floor()
    {
        var unclaimed = Freight.Sound with { Stackable = false, Quantity = 6 };
        var offered = Assert.Single(Find(unclaimed).Alternatives);
        Assert.Equal("stackable", offered.Key);
        Assert.Equal(new AlternativeCost(0, -3, -5, 0, 0, false, null, -120), offered.Cost);
    }

    [Fact]
    public void A_fuller_layer_lowers_a_tall_load_without_another_platform()
    {
        var tall = Freight.Pallet(new CartonContents(Freight.Small, 8, 8, StackKind.Column));
        Assert.True(tall.Finds(FindingCodes.Tipping));
        var offered = Find(tall).Alternatives.First(a => a.Cures.Contains(FindingCodes.Tipping));
        Assert.Equal(0, offered.Cost.ExtraPlatforms);
        Assert.True(offered.HandlingUnits[0].Cartons().PerLayer > 8);
        Assert.True(offered.HandlingUnits[0].Outer.Height < tall.Outer.Height);
    }

    [Fact]
    public void Another_number_in_a_layer_fills_the_top()
    {
        // 2 × 35 cartons of eight a layer leave three on top; of seven they make five full layers.
        var unfinished = Freight.Pallet(new CartonContents(Freight.Carton(16, 11, 9, 18, 51), 8, 4, StackKind.Column, TopLayer: 3)) with { Stackable = true, Quantity = 2 };
        Assert.True(unfinished.Finds(FindingCodes.TopSurface));
        var offered = Find(unfinished).Alternatives.First(a => a.Key.StartsWith("layer7", StringComparison.Ordinal));
        Assert.Equal((7, 5, 0), (offered.HandlingUnits[0].Cartons().PerLayer, offered.HandlingUnits[0].Cartons().Layers, offered.HandlingUnits[0].Cartons().TopLayer));
        Assert.False(offered.Cost.LosesStackable);
    }

    [Fact]
    public void Several_troubles_are_cured_in_one_press()
    {
        var bad = Freight.Pallet(new CartonContents(Freight.Carton(12, 10, 10, 48, 44), 12, 6, StackKind.Interlocked)).Reaching(Length.FromInches(51), Length.FromInches(42)) with
        {
            Protection = Protection.None with { WrapTurns = 1 },
        };
        Assert.Equal(
            [FindingCodes.CornerBoards, FindingCodes.GrossWeight, FindingCodes.Overhang, FindingCodes.SelfCrush, FindingCodes.WrapAnchor, FindingCodes.WrapTurns],
            bad.Check(Freight.Far).Findings.Where(f => f.Severity == Severity.Stop).Select(f => f.Code).Distinct().Order());
        var offered = Find(bad, Freight.Far).Alternatives;
        Assert.NotEmpty(offered);
        Assert.All(offered, a => Assert.NotEqual(Verdict.Hold, a.Verdict));
        Assert.Contains(offered, a => a.Verdict == Verdict.Ready);
    }

    [Fact]
    public void Nothing_is_offered_for_figures_that_contradict_each_other_and_it_says_why()
    {
        var weights = Find(Freight.Sound with { GrossWeight = Mass.FromPounds(1700) });
        Assert.Empty(weights.Alternatives);
        Assert.Equal(
            "The figures contradict each other: weights that do not agree. Put them right first; what is built on a wrong figure would be wrong too.",
            weights.Blocked!.Said());
        var sizes = Find(Freight.Sound with { Outer = Freight.Outer(4, 3.33, 3.79) });
        Assert.Empty(sizes.Alternatives);
        Assert.Contains("sizes that do not agree", sizes.Blocked!.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void When_nothing_works_what_blocks_is_named()
    {
        var machine = Find(Freight.Machine.Reaching(length: Length.FromInches(72)));
        Assert.Empty(machine.Alternatives);
        Assert.Equal("No change that was tried clears it; what blocks is overhang.", machine.Blocked!.Said());
        Assert.Contains(machine.Attempts, attempt => attempt.Summary.Said() == "Put it on a pallet of 60 in × 48 in, rated 4,000 lb");
        Assert.Equal([FindingCodes.Overhang], machine.Attempts[0].Left);
        // One carton that is too large for any deck: there is no other pattern for it.
        var huge = Freight.Pallet(new CartonContents(Freight.Carton(80, 30, 20, 100, 48), 1, 1, StackKind.Column)).Reaching(length: Length.FromInches(80));
        Assert.Contains("what blocks is overhang", Find(huge).Blocked!.Said(), StringComparison.Ordinal);
        // Two cautions that no build of ours touches.
        var tall = Find(Freight.Machine with { Kind = HandlingUnitKind.Crate, Platform = null, Outer = Freight.Outer(48, 40, 65) });
        Assert.Empty(tall.Alternatives);
        Assert.Equal("No change that was tried makes this unit better; see what each finding advises.", tall.Blocked!.Said());
    }

    [Fact]
    public void Where_nothing_is_wrong_nothing_is_said()
    {
        var search = Find(Freight.Sound);
        Assert.Empty(search.Alternatives);
        Assert.Null(search.Blocked);
    }

    [Fact]
    public void What_was_measured_taller_and_heavier_than_it_adds_up_to_stays_so()
    {
        // An inch of bulge over eight layers, and 16 lb more than 128 cartons weigh by count.
        var bulging = Freight.Pallet(new CartonContents(Freight.Small with { GrossWeight = Mass.FromPounds(12) }, 16, 8, StackKind.Column));
        bulging = bulging with { Outer = bulging.Outer with { Height = bulging.Outer.Height + Length.FromInches(1) }, GrossWeight = bulging.GrossWeight + Mass.FromPounds(16) };
        var line = Assert.Single(Offer(bulging, "on2").HandlingUnits);
        Assert.Equal(Length.FromInches(5.5 + 40 + 0.5), line.Outer.Height);
        Assert.Equal(Mass.FromPounds(40 + (64 * 12) + 8), line.GrossWeight);
    }

    [Fact]
    public void A_long_name_still_fits_the_form()
    {
        var name = new string('X', HandlingUnit.LongestReference);
        var tall = Freight.Pallet(new CartonContents(Freight.Small with { GrossWeight = Mass.FromPounds(11) }, 16, 9, StackKind.Column)) with { Quantity = 5, Reference = name };
        var lines = Find(tall).Alternatives.First(a => a.HandlingUnits.Count > 1).HandlingUnits;
        Assert.Equal(lines.Count, lines.Select(line => line.Reference).Distinct().Count());
        Assert.All(lines, line => Assert.True(line.Reference.Length <= HandlingUnit.LongestReference));
    }

    [Fact]
    public void A_rule_sets_own_figures_decide_what_is_built()
    {
        var tariff = Tariff.With(rules => rules with { Wrap = rules.Wrap with { Turns = 5 }, Weight = rules.Weight with { Heavy = Mass.FromPounds(1000), HeavySeverity = Severity.Stop } });
        var alternatives = AlternativeFinder.Find(Freight.Sound, Freight.Sound.Check(rules: tariff), Freight.Near, tariff, UnitCosts.Default).Alternatives;
        Assert.NotEmpty(alternatives);
        Assert.All(alternatives.SelectMany(a => a.HandlingUnits), line => Assert.True(line.GrossWeight <= Mass.FromPounds(1000) && line.Protection.WrapTurns == 5));
        Assert.All(alternatives.SelectMany(a => a.Results).SelectMany(r => r.Findings), f => Assert.Equal(Tariff.Seventh, f.RuleSet));
    }

    private static AlternativeSearch Find(HandlingUnit unit, Lane? lane = null) =>
        AlternativeFinder.Find(unit, unit.Check(lane), lane ?? Freight.Near, RuleSet.BuiltIn, UnitCosts.Default);

    private static Alternative Offer(HandlingUnit unit, string key, Lane? lane = null) => Assert.Single(Find(unit, lane).Alternatives, a => a.Key == key);
}
