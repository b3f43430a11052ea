using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>Floors whose shortest length is known, and the limits of the questions that may be asked.</summary>
public class FloorExampleTests
{
    private static FloorUnits Units(int count, double length, double width, bool mayTurn = true) => new(In(length), In(width), count, mayTurn);

    private static FloorPlan Planned(FloorEffort effort, double width, params FloorUnits[] units)
    {
        var plan = FloorPlanner.Shortest(units, In(width), effort)!;
        FloorCheck.IsAPlan(plan, units, In(width));
        var order = plan.Positions.Select(p => (p.Place.X, p.Place.Y)).ToList();
        Assert.Equal(order.OrderBy(p => p.X).ThenBy(p => p.Y), order);
        return plan;
    }

    private static void IsShortest(double length, double width, params FloorUnits[] units)
    {
        var plan = Planned(FloorEffort.Quick, width, units);
        Assert.Equal((In(length), In(length)), (plan.LengthUsed, plan.LowerBound));
        Assert.True(plan.IsOptimal);
    }

    /// <summary>
    /// Published: 26 standard pallets straight, 28 pinwheeled and 30 turned stand in 53 ft; by hand, the lengths that rows take.
    /// </summary>
    [Theory]
    [InlineData(26, false, 624)]
    [InlineData(28, true, 560)]
    [InlineData(30, true, 600)]
    [InlineData(31, true, 640)]
    [InlineData(1, true, 40)]
    [InlineData(2, true, 40)]
    [InlineData(3, true, 80)]
    [InlineData(3, false, 96)]
    public void Standard_pallets_take_as_many_rows_as_by_hand(int count, bool mayTurn, double length)
    {
        IsShortest(length, 98.5, Units(count, 48, 40, mayTurn));
        Assert.Equal(length <= 630, Trailer.Van53.Holds(FloorPlanner.Shortest([Units(count, 48, 40, mayTurn)], In(98.5))!));
    }

    /// <summary>On a floor 90 in wide two do not stand turned side by side; a lane of 48 and one of 40 stand beside each other.</summary>
    [Fact]
    public void Lanes_of_both_ways_fill_a_floor_on_which_two_do_not_go_turned()
    {
        // Pinwheeled, 5 × 48 in beside 6 × 40: 240 in, and the area leaves no less.
        IsShortest(240, 88, Units(11, 48, 40));
        IsShortest(240, 90, Units(11, 48, 40));
    }

    /// <summary>Also proved by a general solver: docs/benchmarks/floor-use.md.</summary>
    [Theory]
    [InlineData(4, 3, 3, 256)]
    [InlineData(2, 7, 3, 276)]
    [InlineData(5, 4, 4, 328)]
    [InlineData(3, 6, 5, 332)]
    [InlineData(4, 7, 5, 380)]
    public void Mixes_of_three_platforms_take_what_was_proved(int sixty, int standard, int square, double length) =>
        IsShortest(length, 98.5, Units(sixty, 60, 48), Units(standard, 48, 40), Units(square, 48, 48));

    /// <summary>Each was once held to need more (153, 159.5, 157 and 190.5 in): a place must stay bare though something is narrow enough for it.</summary>
    [Fact]
    public void Mixes_that_leave_a_place_bare_are_not_held_to_need_more()
    {
        Takes(149, Units(5, 48, 20), Units(3, 37, 37), Units(1, 44, 44), Units(2, 36, 36));
        Takes(158, Units(2, 47.25, 31.5), Units(4, 45, 45, false), Units(4, 48, 20));
        Takes(156, Units(5, 48, 20), Units(2, 30, 30), Units(3, 42, 42), Units(1, 45, 45, false));
        Takes(189, Units(4, 47.25, 31.5), Units(4, 48, 20, false), Units(2, 80, 40));

        static void Takes(double length, params FloorUnits[] units) => IsShortest(length, 98.5, units);
    }

    [Fact]
    public void Small_floors_are_as_short_as_trying_everything_finds_whatever_the_effort()
    {
        var random = new Random(6);
        for (var i = 0; i < 60; i++)
        {
            (int Length, int Width, int Count, bool MayTurn)[] kinds = [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => (random.Next(1, 5), random.Next(1, 4), random.Next(1, 3), random.Next(2) == 0))];
            FloorUnits[] units = [.. kinds.Select(k => Units(k.Count, k.Length, k.Width, k.MayTurn))];
            var shortest = In(FloorCheck.ShortestByBruteForce(kinds, 5));
            var plan = Planned(FloorEffort.Quick, 5, units);
            Assert.Equal((shortest, shortest), (plan.LengthUsed, plan.LowerBound));
            var sketch = Planned(FloorEffort.Sketch, 5, units);
            Assert.True(sketch.LengthUsed >= shortest && sketch.LowerBound <= shortest);
        }
    }

    [Fact]
    public void A_sketch_leaves_open_what_takes_a_proof()
    {
        // Two of 3 by 3 on a floor of 5 stand one behind the other: 6, by widths alone.
        IsShortest(6, 5, Units(2, 3, 3));
        var (sketch, proved) = (Planned(FloorEffort.Sketch, 98.5, mix), Planned(FloorEffort.Quick, 98.5, mix));
        Assert.Equal(In(302), proved.LengthUsed);
        Assert.True(proved.IsOptimal);
        Assert.False(sketch.IsOptimal);
    }

    private static readonly FloorUnits[] mix = [Units(2, 80, 40), Units(4, 48, 40), Units(3, 42, 42), Units(3, 36, 36), Units(2, 30, 30)];

    // Of fourteen units of six kinds, which neither the beam nor the proof decides with the work they have.
    [Fact]
    public void What_is_left_undecided_is_no_longer_and_bounded_no_lower_than_it_was()
    {
        var plan = Planned(FloorEffort.Quick, 98.5, Units(3, 80, 40), Units(3, 45, 45), Units(1, 48, 48), Units(1, 36, 36), Units(3, 30, 30), Units(3, 48, 20));
        Assert.True(plan.LengthUsed <= In(284) && plan.LowerBound >= In(279), $"{plan.LengthUsed}, at least {plan.LowerBound}");
    }

    [Fact]
    public void A_bound_is_a_length_that_sides_end_to_end_can_make() =>
        // Four of 7 by 3 and one of 7 by 2, none turned, on 6: the area would fit in 15 and a bit; lengths are multiples of 7.
        Assert.Equal(In(21), Planned(FloorEffort.Sketch, 6, Units(4, 7, 3, false), Units(1, 7, 2, false)).LowerBound);

    [Fact]
    public void Units_are_one_kind_when_they_are_equal_turned_as_they_may_be()
    {
        // Each keeps its own number and size.
        var plan = Planned(FloorEffort.Quick, 98.5, Units(1, 48, 40), Units(2, 40, 48), Units(1, 48, 40, false), Units(0, 500, 500), Units(1, 40, 48, false));
        Assert.Equal([0, 1, 1, 2, 4], plan.Positions.Select(p => p.Kind).Order());
        Assert.Equal(Place(0, 0, 48, 40) with { X = Length.Zero, Y = Length.Zero }, plan.Positions.Single(p => p.Kind == 2).Place with { X = Length.Zero, Y = Length.Zero });
        Assert.Equal(In(40), plan.Positions.Single(p => p.Kind == 4).Place.Length);
    }

    [Fact]
    public void A_unit_goes_in_when_one_of_its_stances_does()
    {
        Assert.Null(FloorPlanner.Shortest([Units(1, 120, 98.6)], In(98.5)));
        IsShortest(120, 98.5, Units(1, 120, 98.5));
        IsShortest(120, 98.5, Units(1, 98.5, 120));
        Assert.Null(FloorPlanner.Shortest([Units(1, 98.5, 120, false)], In(98.5)));
        Assert.Null(FloorPlanner.Shortest([Units(1, 48, 40), Units(1, 120, 120)], In(98.5)));
    }

    [Fact]
    public void A_unit_is_at_most_a_kilometre_long_as_it_stands()
    {
        var kilometre = Length.FromMetres(1_000);
        Assert.Equal(kilometre, FloorPlanner.Shortest([new(kilometre, In(40), 1)], In(98.5))!.LengthUsed);
        Assert.Null(FloorPlanner.Shortest([new(kilometre + In(1), In(40), 1)], In(98.5)));
        Assert.Equal(In(40), FloorPlanner.Shortest([new(kilometre + In(1), In(40), 1)], kilometre * 2)!.LengthUsed);
    }

    [Fact]
    public void Five_thousand_units_are_planned_and_one_more_is_refused()
    {
        FloorUnits half = Units(FloorPlanner.MostUnits / 2, 48, 40);
        Assert.Equal(In(100_000), FloorPlanner.Shortest([half, half], In(98.5), FloorEffort.Sketch)!.LengthUsed);
        Assert.Throws<ArgumentOutOfRangeException>(() => FloorPlanner.Shortest([half, half, Units(1, 1, 1)], In(98.5)));
        Assert.Throws<ArgumentOutOfRangeException>(() => FloorPlanner.Shortest([half with { Count = int.MaxValue }, half with { Count = int.MaxValue }], In(98.5)));
    }

    [Fact]
    public void Questions_without_sense_name_what_is_wrong()
    {
        Assert.Equal("width", Refused(Length.Zero, Units(1, 48, 40)));
        Assert.Equal("unit.Length", Refused(In(98.5), Units(1, 48, 40), Units(1, 0, 40)));
        Assert.Equal("unit.Width", Refused(In(98.5), Units(1, 48, -1)));
        Assert.Equal("unit.Count", Refused(In(98.5), Units(-1, 48, 40)));

        static string? Refused(Length width, params FloorUnits[] units) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => FloorPlanner.Shortest(units, width)).ParamName;
    }

    [Fact]
    public void No_units_take_no_length_and_need_no_room() =>
        Assert.Equal((Length.Zero, Length.Zero, 0), FloorPlanner.Shortest([Units(0, 500, 500, false)], In(1)) is { } plan ? (plan.LengthUsed, plan.LowerBound, plan.Positions.Count) : default);

    /// <summary>In half inches, as <see cref="StandingCheck.Mixes"/> has them.</summary>
    private static FloorUnits[] OfMix(Strip strip) => [.. Enumerable.Range(0, strip.Counts.Length).Select(k =>
        new FloorUnits(In(strip.Stances.First(s => s.Kind == k).Along / 2.0), In(strip.Stances.First(s => s.Kind == k).Across / 2.0), strip.Counts[k], strip.Stances.Count(s => s.Kind == k) > 1))];

    // Longer in all than this, and less is made of the work that a sketch may do; a bound further below, and less is known.
    [Theory]
    [InlineData(11, 4, 5, 3132, 3056)]
    [InlineData(12, 7, 3, 3748, 3649)]
    [InlineData(13, 2, 9, 2692, 2674)]
    public void Sketches_of_mixes_take_no_more_length_than_they_did(int seed, int kinds, int most, double mostLength, double leastBound)
    {
        var plans = StandingCheck.Mixes(seed, 12, kinds, most).Select(strip => Planned(FloorEffort.Sketch, 98.5, OfMix(strip))).ToList();
        var (length, bound) = (plans.Sum(p => p.LengthUsed.Inches), plans.Sum(p => p.LowerBound.Inches));
        Assert.True(length <= mostLength && bound >= leastBound, $"{length} long, at least {bound}");
    }

    // Three of 5 by 6 and one of 1 by 4, none turned, across 10: those of 6 stand one behind the other. By area they take 9.4.
    [Fact]
    public void A_sketch_is_bounded_by_the_sizes_under_which_units_take_most() =>
        Assert.Equal(In(15), Planned(FloorEffort.Sketch, 10, Units(3, 5, 6, false), Units(1, 1, 4, false)).LowerBound);

    [Fact]
    public void A_sketch_is_bounded_by_the_longest_unit() =>
        Assert.Equal(In(30), Planned(FloorEffort.Sketch, 98.5, Units(1, 30, 1, false), Units(6, 2, 2)).LowerBound);

    // 7 units of three kinds take 149 in, and by their measure and the lengths that their sides make 144: only a proof shows it.
    // Planks as wide as the floor make up the number, and the number of kinds.
    [Theory]
    [InlineData(57, 1, true)]
    [InlineData(58, 1, false)]
    [InlineData(5, 5, true)]
    [InlineData(6, 6, false)]
    public void A_proof_is_sought_for_up_to_64_units_of_8_kinds(int planks, int plankKinds, bool proved)
    {
        FloorUnits[] units =
        [
            Units(2, 42, 42, false), Units(4, 48, 45), Units(1, 48, 20),
            .. Enumerable.Range(0, planks).GroupBy(i => i % plankKinds).Select(g => Units(g.Count(), 2 + g.Key, 98.5, false)),
        ];
        var plan = Planned(FloorEffort.Quick, 98.5, units);
        Assert.Equal(In(149 + Enumerable.Range(0, planks).Sum(i => 2 + i % plankKinds)), plan.LengthUsed);
        Assert.Equal(proved, plan.IsOptimal);
    }
}
