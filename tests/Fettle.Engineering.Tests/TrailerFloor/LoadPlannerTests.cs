using CsCheck;
using Fettle.Engineering.Axles;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class LoadPlannerTests
{
    private static readonly Trailer van = Trailer.Van53;

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static LoadUnits Units(int count, double length, double width, double height, double weight, double bears = 0, bool rides = false, bool turns = true) =>
        new(Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(weight), count, Mass.FromPounds(bears), rides, turns);

    /// <summary>Platforms, crates, half pallets and cartons that bear, ride and turn or do not.</summary>
    private static readonly Gen<LoadUnits> someUnits = Gen.Select(
        OneOf((48, 40), (48, 48), (42, 42), (60, 48), (24, 40), (96, 48), (16, 12), (20, 20), (10, 8), (45, 110)),
        Gen.Int[8, 110], Gen.Int[0, 2_400], Gen.Int[1, 7], OneOf(0, 0, 300, 1_000, 2_500), Gen.Bool, Gen.Bool)
        .Select((size, height, weight, count, bears, rides, turns) => Units(count, size.Item1, size.Item2, height, weight, bears, rides, turns));

    [Fact]
    public void Every_plan_stands_inside_the_trailer_and_carries_only_what_it_may() =>
        Gen.Select(someUnits.Array[0, 6], OneOf(0, 1, 2), Gen.Bool).Sample((units, trailer, decks) =>
        {
            var decking = decks ? Decking.Common : null;
            LoadCheck.IsAPlan(LoadPlanner.Plan(units, Trailer.All[trailer], decking), units, Trailer.All[trailer], decking);
        }, iter: 80);

    [Fact]
    public void Sides_of_any_measure_are_planned_as_soundly() =>
        Gen.Select(Gen.Int[200, 1_500], Gen.Int[200, 1_500], Gen.Int[100, 2_600], Gen.Int[0, 900], Gen.Int[1, 5], Gen.Int[0, 2_000], Gen.Bool)
            .Select((l, w, h, weight, count, bears, rides) => new LoadUnits(
                Length.FromMillimetres(l), Length.FromMillimetres(w), Length.FromMillimetres(h), Mass.FromKilograms(weight), count, Mass.FromKilograms(bears), rides))
            .Array[1, 6].Sample(units => LoadCheck.IsAPlan(LoadPlanner.Plan(units, van, Decking.Common), units, van, Decking.Common), iter: 25);

    [Fact]
    public void More_that_may_be_done_never_takes_more_length() =>
        someUnits.Where(u => u.Height <= van.DoorHeight && u.Width <= van.Width).Array[1, 4].Sample(units =>
        {
            LoadUnits[] few = [.. units.Select(u => u with { Count = Math.Min(u.Count, 3) })];
            var flat = LoadPlanner.Plan([.. few.Select(u => u with { MayRide = false })], van);
            var high = LoadPlanner.Plan(few, van);
            var decked = LoadPlanner.Plan(few, van, Decking.Common);
            Assert.True(decked.Positions.Count > high.Positions.Count || (decked.Positions.Count == high.Positions.Count && decked.LengthUsed <= high.LengthUsed));
            if (flat.LeftOut.SequenceEqual(high.LeftOut))
                Assert.True(high.LowerBound <= flat.LengthUsed && decked.LowerBound <= flat.LengthUsed);
        }, iter: 20);

    /// <summary>Three trade sources: 26 straight, 28 pinwheeled, 30 turned in a 53-ft trailer; of 27 that may not turn, one stays.</summary>
    [Fact]
    public void Standard_pallets_fill_the_floor_as_the_trade_says()
    {
        var straight = LoadPlanner.Plan([Units(27, 48, 40, 60, 1_000, turns: false)], van);
        Assert.Equal(26, straight.Positions.Count);
        Assert.Equal([new LeftOut(0, 1, LeftOutReason.NoRoomLeft)], straight.LeftOut);
        Assert.False(straight.IsOptimal);

        var turned = LoadPlanner.Plan([Units(30, 48, 40, 60, 1_000)], van);
        Assert.Empty(turned.LeftOut);
        Assert.Equal(50, turned.LinearFeet, 1e-9);
        Assert.True(turned.IsOptimal);
    }

    /// <summary>By hand: 26 in 13 places two high; turned, two side by side take 40 in: seven rows, 280 in.</summary>
    [Fact]
    public void Pallets_that_bear_each_other_stand_two_high_and_half_as_long()
    {
        var plan = LoadPlanner.Plan([Units(26, 48, 40, 50, 1_000, bears: 1_000, rides: true)], van);

        Assert.Equal(13, plan.Positions.Count(p => p.Level == LoadLevel.Second));
        Assert.Equal(Length.FromInches(280), plan.LengthUsed);
        Assert.True(plan.IsOptimal);
        // 26 × 48 × 40 × 50 in against 630 × 98.5 × 108.
        Assert.Equal(2_496_000 / 6_701_940.0, plan.CubeUsed, 1e-9);
        Assert.Equal(13 * 48 * 40 / (280 * 98.5), plan.FloorUsed, 1e-9);
    }

    [Fact]
    public void Nothing_stands_on_what_may_bear_nothing_or_what_may_not_ride()
    {
        Assert.All(LoadPlanner.Plan([Units(10, 48, 40, 50, 1_000, bears: 0, rides: true)], van).Positions, p => Assert.Equal(LoadLevel.Floor, p.Level));
        Assert.All(LoadPlanner.Plan([Units(10, 48, 40, 50, 1_000, bears: 2_000, rides: false)], van).Positions, p => Assert.Equal(LoadLevel.Floor, p.Level));
    }

    /// <summary>Common practice, no source: a 53-ft trailer takes 26 on its floor "and as many again on a second floor of decking beams".</summary>
    [Fact]
    public void As_many_again_stand_on_the_second_floor()
    {
        LoadUnits[] units = [Units(52, 48, 40, 50, 900, turns: false)];
        Assert.Equal(26, LoadPlanner.Plan(units, van).Positions.Count);

        var plan = LoadPlanner.Plan(units, van, Decking.Common);

        Assert.Empty(plan.LeftOut);
        Assert.Equal(26, plan.Positions.Count(p => p.IsOnDeck));
        Assert.Equal(Length.FromInches(56), plan.DeckHeight);
        Assert.Equal(Length.FromInches(13 * 48), plan.LengthUsed);
        Assert.True(plan.IsOptimal);
        LoadCheck.IsAPlan(plan, units, van, Decking.Common);
    }

    [Fact]
    public void What_is_too_heavy_for_the_beams_or_too_tall_beside_them_stays_on_the_floor()
    {
        // A pair of beams bears 4,000 lb; a unit 40 in wide its share of 98.5 in: 1,624 lb.
        Assert.Equal(1_624.4, Decking.Common.MostFor(Length.FromInches(48), Length.FromInches(40), van.Width).Pounds, 0.1);
        Assert.DoesNotContain(LoadPlanner.Plan([Units(20, 48, 40, 50, 1_625)], van, Decking.Common).Positions, p => p.IsOnDeck);
        // 51 + 4 + 2 + 52 in is more than 108.
        Assert.DoesNotContain(LoadPlanner.Plan([Units(10, 48, 40, 51, 500), Units(10, 48, 40, 52, 500)], van, Decking.Common).Positions, p => p.IsOnDeck && p.Height == Length.FromInches(52));
        var mixed = LoadPlanner.Plan([Units(6, 48, 40, 90, 500), Units(8, 48, 40, 40, 500)], van, Decking.Common);
        Assert.Equal(4, mixed.Positions.Count(p => p.IsOnDeck));
        // Three rows of tall ones, two of the others.
        Assert.Equal(Length.FromInches(200), mixed.LengthUsed);
    }

    [Fact]
    public void Loose_cartons_ride_side_by_side_up_to_what_the_pallet_bears()
    {
        // Eight of 30 lb are 240 lb; the ninth would be 270.
        var plan = LoadPlanner.Plan([Units(1, 48, 40, 50, 1_000, bears: 250), Units(9, 16, 12, 12, 30, rides: true)], van);

        Assert.Equal(8, plan.Positions.Count(p => p is { Level: LoadLevel.Second, On: not null }));
        Assert.Equal(1, plan.Positions.Count(p => p.Kind == 1 && p.Level == LoadLevel.Floor));
    }

    [Fact]
    public void A_carton_on_a_stack_of_two_is_the_top_level_and_counts_for_both_below()
    {
        var pallet = Units(2, 48, 40, 45, 700, bears: 740, rides: true);
        var plan = LoadPlanner.Plan([pallet, Units(2, 16, 12, 12, 30, rides: true)], van);

        // 700 + 30 lb are within 740; 700 + 60 are not.
        Assert.Equal(1, plan.Positions.Count(p => p.Level == LoadLevel.Top));
        Assert.Equal(Length.FromInches(90), plan.Positions.Single(p => p.Level == LoadLevel.Top).Bottom);
    }

    [Fact]
    public void What_cannot_go_in_is_left_out_with_the_reason()
    {
        var plan = LoadPlanner.Plan(
            [Units(1, 48, 40, 106, 100), Units(2, 120, 110, 50, 100), Units(1, 640, 40, 50, 100), Units(1, 48, 40, 105, 100), Units(1, 110, 48, 50, 100), Units(0, 500, 500, 500, 1)], van);

        Assert.Equal([new(0, 1, LeftOutReason.TooTall), new(1, 2, LeftOutReason.TooWide), new(2, 1, LeftOutReason.TooLong)], plan.LeftOut);
        Assert.Equal([3, 4], plan.Positions.Select(p => p.Kind).Order());
    }

    [Fact]
    public void An_empty_trailer_takes_nothing()
    {
        var plan = LoadPlanner.Plan([], van, Decking.Common);
        Assert.Equal((Length.Zero, Length.Zero, 0, 0), (plan.LengthUsed, plan.LowerBound, plan.FloorUsed, plan.CubeUsed));
        Assert.True(plan.IsOptimal);
        Assert.Null(plan.Balance);
    }

    [Fact]
    public void Pallets_in_single_file_change_sides_to_even_the_weight()
    {
        var plan = LoadPlanner.Plan([Units(6, 60, 52, 50, 1_000, turns: false)], van);

        Assert.Equal(0.5, plan.Balance!.LeftShare, 1e-9);
        // 6 × 60 in: the weight acts in the middle, and 6,000 lb rest on the illustration's axles as on any with it there.
        Assert.Equal(Length.FromInches(180), plan.Balance.Centre);
        Assert.Equal(32_000 + 6_000, plan.Balance.On(TractorTrailer.Illustration).Gross.Pounds, 1e-6);
    }

    [Fact]
    public void Sides_without_length_negative_weights_and_thousands_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => LoadPlanner.Plan([Units(1, 0, 40, 50, 1)], van));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoadPlanner.Plan([Units(1, 48, 40, 0, 1)], van));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoadPlanner.Plan([Units(1, 48, 40, 50, -1)], van));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoadPlanner.Plan([Units(LoadPlanner.MostUnits + 1, 48, 40, 50, 1)], van));
    }

    /// <summary>Small mixes, every way of pairing tried: nothing beats the bound, whatever is stacked.</summary>
    [Fact]
    public void No_way_of_pairing_beats_the_bound() =>
        Gen.Select(OneOf((48, 40), (48, 48), (42, 42), (60, 48)), Gen.Int[30, 60], Gen.Int[200, 1_500], OneOf(0, 700, 2_000), Gen.Bool)
            .Select((size, height, weight, bears, rides) => Units(1, size.Item1, size.Item2, height, weight, bears, rides))
            .Array[1, 6].Sample(units =>
            {
                var plan = LoadPlanner.Plan(units, van);
                Assert.True(plan.LowerBound <= ShortestByPairing(units, 0, []), $"{plan.LowerBound}");
            }, iter: 30);

    private static Length ShortestByPairing(LoadUnits[] units, int next, Dictionary<int, int> carriers)
    {
        if (next == units.Length)
        {
            var floor = Enumerable.Range(0, units.Length).Where(i => !carriers.ContainsKey(i)).Select(i => new FloorUnits(units[i].Length, units[i].Width, 1)).ToArray();
            return FloorPlanner.Shortest(floor, van.Width)!.LengthUsed;
        }

        var best = ShortestByPairing(units, next + 1, carriers);
        for (var lower = 0; lower < units.Length; lower++)
        {
            var (a, b) = (units[next], units[lower]);
            if (lower == next || carriers.ContainsKey(lower) || carriers.ContainsValue(lower) || carriers.ContainsValue(next) || !a.MayRide || a.Weight > b.MayBear || a.Height + b.Height > van.Height
                || Length.Max(a.Length, a.Width) > Length.Max(b.Length, b.Width) || Length.Min(a.Length, a.Width) > Length.Min(b.Length, b.Width))
                continue;
            carriers[next] = lower;
            best = Length.Min(best, ShortestByPairing(units, next + 1, carriers));
            carriers.Remove(next);
        }

        return best;
    }
}
