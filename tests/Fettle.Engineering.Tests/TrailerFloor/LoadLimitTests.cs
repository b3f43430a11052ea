using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>What goes into a trailer and what does not, and where each unit stands, by hand.</summary>
public class LoadLimitTests
{
    /// <summary>200 in long, 100 wide and 100 high, with a door 90 wide and 80 high.</summary>
    private static readonly Trailer room = new("room", In(200), In(100), In(100), In(90), In(80), null);

    private static LoadPlan Planned(Decking? decking, params LoadUnits[] units)
    {
        var plan = LoadPlanner.Plan(units, room, decking);
        LoadCheck.IsAPlan(plan, units, room, decking);
        var order = plan.Positions.Where(p => p.On is null).Select(p => (p.Place.X, p.Bottom, p.Place.Y)).ToList();
        Assert.Equal(order.OrderBy(p => p.X).ThenBy(p => p.Bottom).ThenBy(p => p.Y), order);
        return plan;
    }

    private static LeftOutReason? Reason(LoadUnits unit, Trailer? trailer = null) =>
        LoadPlanner.Plan([unit], trailer ?? room).LeftOut is [var left] ? left.Reason : null;

    [Fact]
    public void A_unit_is_as_high_as_the_door_and_the_room_at_most()
    {
        Assert.Null(Reason(One(40, 40, 80, 1)));
        Assert.Equal(LeftOutReason.TooTall, Reason(One(40, 40, 80.1, 1)));
        Assert.Equal(LeftOutReason.TooTall, Reason(One(40, 40, 79, 1), room with { Height = In(78) }));
        Assert.Null(Reason(One(40, 40, 78, 1), room with { Height = In(78) }));
    }

    [Fact]
    public void A_unit_is_as_wide_as_the_room_and_its_narrower_side_as_the_door_at_most()
    {
        Assert.Null(Reason(One(90, 100, 50, 1, turns: false)));
        Assert.Equal(LeftOutReason.TooWide, Reason(One(90, 100.1, 50, 1, turns: false)));
        Assert.Null(Reason(One(90, 100.1, 50, 1)));
        Assert.Null(Reason(One(100, 90, 50, 1)));
        Assert.Equal(LeftOutReason.TooWide, Reason(One(100, 90.1, 50, 1)));
        Assert.Equal(LeftOutReason.TooWide, Reason(One(101, 101, 50, 1), room with { DoorWidth = In(200) }));
        Assert.Null(Reason(One(100, 150, 50, 1), room with { DoorWidth = In(200) }));
        Assert.Equal(LeftOutReason.TooWide, Reason(One(100.1, 150, 50, 1), room with { DoorWidth = In(200) }));
        Assert.Equal(LeftOutReason.TooWide, Reason(One(101, 100.1, 50, 1), room with { DoorWidth = In(200) }));
    }

    [Fact]
    public void A_unit_is_as_long_as_the_room_at_most_in_a_stance_that_goes_across()
    {
        Assert.Null(Reason(One(200, 40, 50, 1)));
        Assert.Equal(LeftOutReason.TooLong, Reason(One(200.1, 40, 50, 1)));
        Assert.Null(Reason(One(40, 200, 50, 1)));
        Assert.Equal(LeftOutReason.TooLong, Reason(One(40, 200.1, 50, 1)));
        // A room wider than it is long takes a long unit across, when that may turn.
        var wide = room with { Length = In(60) };
        Assert.Null(Reason(One(80, 50, 50, 1), wide));
        Assert.Equal(LeftOutReason.TooLong, Reason(One(80, 50, 50, 1, turns: false), wide));
        Assert.Equal(LeftOutReason.TooLong, Reason(One(80, 60.1, 50, 1), wide));
        Assert.Null(Reason(One(80, 60, 50, 1), wide));
    }

    [Fact]
    public void What_can_stand_in_one_way_only_stands_that_way()
    {
        Assert.Equal(Place(0, 0, 40, 80), Planned(null, One(80, 40, 50, 1)).Positions.Single().Place);
        Assert.Equal(In(120), Planned(null, One(40, 120, 50, 1)).LengthUsed);
        // Both would go abreast 80 long; 60 long, the room takes one of them across.
        var plan = LoadPlanner.Plan([One(80, 50, 50, 1) with { Count = 2 }], room with { Length = In(60) });
        Assert.Equal((In(50), 1), (plan.LengthUsed, plan.Positions.Count));
    }

    [Fact]
    public void Senseless_questions_name_what_is_wrong()
    {
        var good = One(48, 40, 50, 0);
        Assert.Equal("trailer.Length", Refused(room with { Length = Length.Zero }, good));
        Assert.Equal("trailer.Width", Refused(room with { Width = Length.Zero }, good));
        Assert.Equal("trailer.Height", Refused(room with { Height = Length.Zero }, good));
        Assert.Equal("unit.Length", Refused(room, good, good with { Length = Length.Zero }));
        Assert.Equal("unit.Width", Refused(room, good with { Width = Length.Zero }));
        Assert.Equal("unit.Height", Refused(room, good with { Height = Length.Zero }));
        Assert.Equal("unit.Weight", Refused(room, good with { Weight = Lb(-1) }));
        Assert.Equal("unit.Count", Refused(room, good with { Count = -1 }));
        Assert.Equal("unit.Length", Refused(room, good with { Count = 0, Length = Length.Zero }));
        Assert.Equal("unit.Width", Refused(room, good with { Count = 0, Width = Length.Zero }));
        Refused(room, good with { Count = LoadPlanner.MostUnits }, good);
        Refused(room, good with { Count = int.MaxValue }, good with { Count = int.MaxValue });
        Assert.Empty(LoadPlanner.Plan([good with { Count = 0 }], room).Positions);
        Assert.Empty(LoadPlanner.Plan([One(500, 500, 500, 1) with { Count = 0 }], room).LeftOut);

        static string? Refused(Trailer trailer, params LoadUnits[] units) =>
            Assert.Throws<ArgumentOutOfRangeException>(() => LoadPlanner.Plan(units, trailer)).ParamName;
    }

    [Fact]
    public void Two_hundred_units_are_planned() =>
        Assert.Equal(LoadPlanner.MostUnits, LoadPlanner.Plan([One(48, 50, 50, 0, turns: false) with { Count = LoadPlanner.MostUnits }], room) is { } plan ? plan.Positions.Count + plan.LeftOut.Sum(l => l.Count) : 0);

    // Four rows of 50 in, two abreast: eight go in, and what stands past the door stays, by kind.
    [Fact]
    public void What_stands_past_the_door_is_left_out_by_kind()
    {
        var plan = Planned(null, One(50, 50, 50, 500) with { Count = 5 }, One(120, 40, 90, 1), One(50, 50, 50, 900) with { Count = 6 }, One(50, 50, 50, 100) with { Count = 0 });
        Assert.Equal([new(1, 1, LeftOutReason.TooTall), new(0, 3, LeftOutReason.NoRoomLeft)], plan.LeftOut);
        Assert.Equal((In(200), In(200), false), (plan.LengthUsed, plan.LowerBound, plan.IsOptimal));
        Assert.Equal([0, 0, 2, 2, 2, 2, 2, 2], plan.Positions.Select(p => p.Kind).Order());
    }

    [Fact]
    public void Kinds_left_out_come_in_order()
    {
        var plan = Planned(null, One(50, 100, 50, 100, turns: false) with { Count = 3 }, One(50, 100, 50, 900, turns: false) with { Count = 3 }, One(60, 100, 50, 50, turns: false));
        Assert.Equal([0, 1], plan.LeftOut.Select(l => l.Kind));
    }

    [Fact]
    public void Positions_follow_from_the_nose_floor_before_deck_and_each_rider_after_its_carrier()
    {
        var decking = new Decking(Lb(2_000), In(4), In(2));
        // Two low ones in each place across are as wide as the room: one under the deck and one on it, in two rows.
        var plan = Planned(decking, One(50, 100, 40, 600, turns: false) with { Count = 4 });
        Assert.Equal((In(100), In(46)), (plan.LengthUsed, plan.DeckHeight));
        Assert.Equal([(0, 0), (0, 46), (50, 0), (50, 46)], plan.Positions.Select(p => (p.Place.X.Inches, p.Bottom.Inches)));
        Assert.Equal([LoadLevel.Floor, LoadLevel.Second, LoadLevel.Floor, LoadLevel.Second], plan.Positions.Select(p => p.Level));
        Assert.All(plan.Positions, p => Assert.Null(p.On));
        Assert.Equal([false, true, false, true], plan.Positions.Select(p => p.IsOnDeck));
        Assert.Equal(In(100), plan.LowerBound);
    }

    [Fact]
    public void Levels_count_units_and_decks_below()
    {
        var pallet = One(100, 50, 40, 700, bears: 800, rides: true) with { Count = 4 };
        var carton = One(20, 20, 15, 50, rides: true) with { Count = 2 };
        var plan = Planned(null, pallet, carton);
        Assert.Equal(In(100), plan.LengthUsed);
        Assert.Equal([LoadLevel.Floor, LoadLevel.Second, LoadLevel.Top, LoadLevel.Top, LoadLevel.Floor, LoadLevel.Second], plan.Positions.Select(p => p.Level));
        Assert.Equal([null, 0, 1, 1, null, 4], plan.Positions.Select(p => p.On));
        Assert.Equal([0, 40, 80, 80, 0, 40], plan.Positions.Select(p => p.Bottom.Inches));
        Assert.Equal([40, 40, 15, 15, 40, 40], plan.Positions.Select(p => p.Height.Inches));
    }

    // On the deck a carton rides on a low unit: deck and unit are below it.
    [Fact]
    public void What_rides_on_the_deck_is_at_the_top()
    {
        var decking = new Decking(Lb(2_000), In(4), In(2));
        var plan = Planned(decking, One(90, 100, 60, 3_000, turns: false), One(90, 100, 20, 300, bears: 100, turns: false), One(20, 20, 10, 50, rides: true));
        Assert.Equal(In(90), plan.LengthUsed);
        var carton = plan.Positions.Single(p => p.Kind == 2);
        Assert.Equal((LoadLevel.Top, In(86), (int?)1), (carton.Level, carton.Bottom, carton.On));
        Assert.False(carton.IsOnDeck);
        Assert.Equal(In(66), plan.DeckHeight);
    }

    [Fact]
    public void Without_anything_on_it_there_is_no_deck()
    {
        var decking = new Decking(Lb(2_000), In(4), In(2));
        Assert.Null(Planned(decking, One(90, 100, 80, 300)).DeckHeight);
        // One alone takes as much length on the deck as below.
        Assert.Null(Planned(decking, One(90, 100, 40, 300)).DeckHeight);
    }

    // 60 or 50 in go under a deck at 66 with the low ones on it, or on one at 36; at 56 the highest stands before the deck.
    [Fact]
    public void The_best_of_some_deck_heights_is_taken()
    {
        var decking = new Decking(Lb(2_000), In(4), In(2));
        LoadUnits Low(double height) => One(90, 100, height, 500, turns: false);
        foreach (var units in (LoadUnits[][])[[Low(50), Low(60), Low(30), Low(30)], [Low(60), Low(50), Low(30), Low(30)], [Low(30), Low(60), Low(30), Low(50)]])
        {
            var plan = Planned(decking, units);
            Assert.Equal((In(180), 4), (plan.LengthUsed, plan.Positions.Count));
            Assert.Equal(2, plan.Positions.Count(p => p.IsOnDeck));
        }
    }

    [Fact]
    public void Flat_loads_are_proved_by_their_floor_and_stacked_ones_by_their_matching()
    {
        Assert.True(Planned(null, One(48, 40, 50, 500) with { Count = 4 }).IsOptimal);
        Assert.True(Planned(null, One(48, 40, 50, 500, bears: 500, rides: true) with { Count = 4 }).IsOptimal);
        Assert.True(Planned(null).IsOptimal);
    }

    // By hand: with the first on the second, 70 in, the third takes 90 behind it. Were the second on the third and the first alone,
    // they would take 60 and 90, and in no way less.
    [Fact]
    public void Stacked_loads_are_not_held_to_need_what_their_own_stacks_need()
    {
        LoadUnits Stackable(double length, double width) => One(length, width, 40, 500, bears: 500, rides: true);
        var plan = Planned(null, Stackable(70, 60), Stackable(90, 70), Stackable(90, 90));
        Assert.Equal(In(150), plan.LowerBound);
    }

    // From a fixed seed: more length, or less in, and less is made of heights, decks and stacks.
    [Theory]
    [InlineData(1, false, 56, 892, 864)]
    [InlineData(2, true, 56, 892, 520.07)]
    [InlineData(3, true, 56, 954, 473.15)]
    public void Mixed_loads_take_no_more_length_than_they_did(int seed, bool decked, int leastIn, double mostLength, double leastBound)
    {
        var random = new Random(seed);
        (double, double)[] sizes = [(48, 40), (48, 48), (42, 42), (60, 48), (40, 30), (24, 20)];
        var (inside, length, bound) = (0, 0.0, 0.0);
        for (var i = 0; i < 8; i++)
        {
            LoadUnits[] units = [.. Enumerable.Range(0, 7).Select(_ => sizes[random.Next(sizes.Length)]).Select(size =>
                One(size.Item1, size.Item2, random.Next(20, 75), random.Next(100, 1_500), bears: 600 * random.Next(3), rides: random.Next(2) == 0, turns: random.Next(4) > 0))];
            var plan = Planned(decked ? new Decking(Lb(2_000), In(4), In(2)) : null, units);
            (inside, length, bound) = (inside + plan.Positions.Count, length + plan.LengthUsed.Inches, bound + plan.LowerBound.Inches);
        }

        Assert.True(inside >= leastIn && length <= mostLength && bound >= leastBound, $"{inside} in, {length} long, at least {bound}");
    }

    // Four of one weight in single file, 60 wide, change sides.
    [Fact]
    public void Weight_is_evened_across() =>
        Assert.Equal(0.5, Planned(null, One(50, 60, 50, 500, turns: false) with { Count = 4 }).Balance!.LeftShare, 1e-12);
}
