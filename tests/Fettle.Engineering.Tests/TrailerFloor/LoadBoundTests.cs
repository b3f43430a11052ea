using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>By hand, for a room 100 in wide and high in which two pallets of 48 by 40 stand side by side in 40 in, turned.</summary>
public class LoadBoundTests
{
    private static readonly Trailer room = Trailer.Measured(In(600), In(100), In(100));

    private static readonly Decking beams = new(Lb(2_000), In(4), In(2));

    private static Length Of(Decking? decking, double used, params (int Count, LoadUnits Unit)[] kinds) =>
        LoadBound.Of([.. kinds.SelectMany(k => Enumerable.Repeat(k.Unit, k.Count))], room, decking, In(used));

    private static readonly LoadUnits flat = One(48, 40, 60, 500);

    private static readonly LoadUnits stackable = One(48, 40, 50, 500, bears: 500, rides: true);

    [Fact]
    public void Nothing_takes_nothing() => Assert.Equal(Length.Zero, Of(null, 0));

    [Fact]
    public void Units_that_nothing_may_carry_stand_on_the_floor() =>
        Assert.Equal([40, 40, 80, 120], ((int[])[1, 2, 4, 5]).Select(n => Of(null, 1, (n, flat)).Inches));

    [Fact]
    public void Of_those_that_bear_each_other_half_stand_on_the_floor()
    {
        Assert.Equal(In(40), Of(null, 1, (4, stackable)));
        Assert.Equal(In(80), Of(null, 1, (8, stackable)));
        Assert.Equal(In(120), Of(null, 1, (9, stackable)));
        // Two of 51 in are higher than the room.
        Assert.Equal(In(80), Of(null, 1, (4, stackable with { Height = In(50.1) })));
    }

    [Fact]
    public void What_bears_one_and_rides_on_none_carries_one_other() =>
        // Three flat ones bear three riders; the fourth rider stands: four places.
        Assert.Equal(In(80), Of(null, 1, (3, stackable with { MayRide = false }), (4, stackable with { MayBear = Mass.Zero })));

    private static LoadUnits Stackable(double length, double width, bool turns = true) => stackable with { Length = In(length), Width = In(width), MayTurn = turns };

    // By hand; half of each stand, and which is not known.
    [Fact]
    public void For_each_that_stays_the_least_sides_stand()
    {
        // Of 60 by 40 and 45 by 40 two of 45 by 40 go abreast in 40.
        Assert.Equal(In(40), Of(null, 1, (2, Stackable(60, 40)), (2, Stackable(45, 40))));
        // Of 60 by 50 and 60 by 30 three of 60 by 30 go abreast in 60, turned or not.
        Assert.Equal(In(60), Of(null, 1, (3, Stackable(60, 50)), (3, Stackable(60, 30))));
        Assert.Equal(In(60), Of(null, 1, (3, Stackable(60, 50, false)), (3, Stackable(60, 30, false))));
        // The same named the other way round, and where one of both may not turn.
        Assert.Equal(In(60), Of(null, 1, (3, Stackable(60, 30)), (3, Stackable(30, 60))));
        Assert.Equal(In(60), Of(null, 1, (3, Stackable(60, 30)), (3, Stackable(30, 60, false))));
        Assert.Equal(In(30), Of(null, 1, (2, Stackable(30, 60, false))));
        // Six of 45 by 30 in two rows.
        Assert.Equal(In(90), Of(null, 1, (6, Stackable(60, 30, false)), (6, Stackable(45, 30, false))));
    }

    [Fact]
    public void The_least_sides_are_those_of_units_that_may_leave_the_floor()
    {
        // One of 50 by 50 that nothing carries, and behind it, 60 long and 90 across, one of two that bear each other.
        Assert.Equal(In(110), Of(null, 1, (1, flat with { Length = In(50), Width = In(50) }), (2, Stackable(90, 60))));
        // With beams, half of the four stacks.
        Assert.Equal(In(170), Of(beams, 1, (1, flat with { Length = In(50), Width = In(50) }), (8, Stackable(90, 60) with { Height = In(40), Weight = Lb(100) })));
    }

    // Least sides are 42 by 20; but no eight of them cover less than eight of 42 by 42: 14,112 square inches.
    [Fact]
    public void The_smallest_areas_are_covered_however_they_lie() =>
        Assert.Equal(141.12, Of(null, 1, (8, Stackable(90, 20)), (8, Stackable(42, 42))).Inches, 1e-6);

    // By hand: the third bears the second only, the fourth the first only, and the second stands on the first: two pairs. Then the
    // same with each bearer and rider changed about.
    [Fact]
    public void Pairs_are_found_from_the_bearer_and_from_the_rider()
    {
        LoadUnits Of(double height, double weight, double bears, bool rides) => One(48, 40, height, weight, bears, rides);
        Assert.Equal(In(40), LoadBoundTests.Of(null, 1, (1, Of(30, 200, 500, true)), (1, Of(60, 100, 0, true)), (1, Of(40, 900, 100, false)), (1, Of(50, 900, 500, false))));
        Assert.Equal(In(40), LoadBoundTests.Of(null, 1, (1, Of(40, 150, 100, true)), (1, Of(60, 900, 500, false)), (1, Of(50, 100, 0, true)), (1, Of(40, 200, 0, true))));
    }

    [Fact]
    public void What_shares_its_carrier_with_its_like_counts_for_nothing()
    {
        // Half a pallet's footprint or less; just over half it has the carrier to itself.
        Assert.Equal(In(40), Of(null, 1, (2, stackable with { MayRide = false }), (2, One(40, 24, 10, 100, rides: true))));
        Assert.Equal(In(40), Of(null, 1, (2, stackable with { MayRide = false }), (4, One(40, 24, 10, 100, rides: true))));
        Assert.True(Of(null, 1, (2, stackable with { MayRide = false }), (6, One(40, 25, 10, 100, rides: true))) > In(40));
    }

    [Fact]
    public void Nothing_is_shorter_than_the_longest_of_the_least_sides()
    {
        // 120 in do not go across; 100 do.
        Assert.Equal(In(120), Of(null, 1, (1, One(120, 90, 50, 100))));
        Assert.Equal(In(120), Of(null, 1, (1, One(120, 90, 50, 100, turns: false))));
        Assert.Equal(In(100), Of(null, 1, (1, One(100, 100, 50, 100))));
        Assert.Equal(In(110), Of(null, 1, (1, One(110, 100, 50, 100))));
        // Two on two others; both of the least sides would take 40.
        Assert.Equal(In(48), Of(null, 1, (2, Stackable(60, 48)), (2, Stackable(48, 40))));
        Assert.Equal(In(60), Of(null, 1, (2, Stackable(60, 40, false)), (2, Stackable(40, 40))));
        Assert.Equal(In(120), Of(null, 1, (2, Stackable(120, 40)), (2, Stackable(40, 40))));
        Assert.Equal(In(40), Of(null, 1, (2, Stackable(100, 40)), (2, Stackable(40, 40))));
    }

    [Fact]
    public void What_may_not_turn_takes_its_length() =>
        Assert.Equal((In(96), In(48)), (Of(null, 1, (4, flat with { MayTurn = false })), Of(null, 1, (4, stackable with { MayTurn = false }))));

    // Two floors: of eight that may stand above or below, four stand on one of them.
    [Fact]
    public void With_beams_one_of_two_floors_holds_half()
    {
        var low = flat with { Height = In(40) };
        Assert.Equal(In(80), Of(beams, 1, (8, low)));
        Assert.Equal(In(80), Of(beams, 1, (7, low)));
        Assert.Equal(In(40), Of(beams, 1, (2, low)));
        Assert.Equal(In(160), Of(null, 1, (8, low)));
    }

    [Fact]
    public void What_is_too_heavy_for_the_beams_or_too_tall_for_anything_above_it_stands_on_the_floor()
    {
        // 40 of 100 in are 1,600 of 4,000 lb.
        var low = flat with { Height = In(40) };
        Assert.Equal(In(80), Of(beams, 1, (4, low with { Weight = Lb(1_600.1) })));
        Assert.Equal(In(40), Of(beams, 1, (4, low with { Weight = Lb(1_600) })));
        // 47 + 6 + 47 in are as high as the room.
        Assert.Equal(In(40), Of(beams, 1, (4, flat with { Height = In(47) })));
        Assert.Equal(In(80), Of(beams, 1, (4, flat with { Height = In(47.1) })));
    }

    // Two tall ones stand on the floor; of the other six, half: five places, though the heavier of the two floors has no more.
    [Fact]
    public void Tall_ones_take_their_place_of_both_floors()
    {
        var low = flat with { Height = In(40) };
        Assert.Equal(In(120), Of(beams, 1, (2, flat with { Height = In(60) }), (6, low)));
        Assert.Equal(In(80), Of(beams, 1, (2, flat with { Height = In(54) }), (6, low)));
        Assert.Equal(In(120), Of(beams, 1, (2, flat with { Height = In(54.1) }), (6, low)));
    }

    // The same as trying all: six heavy ones cannot go up, so that they alone take three rows.
    [Fact]
    public void The_longer_of_the_two_ways_to_reckon_with_beams_holds() =>
        Assert.Equal(In(120), Of(beams, 1, (6, flat with { Height = In(40), Weight = Lb(2_000) }), (2, flat with { Height = In(40) })));

    // 5 of 48 by 48 and 3 of 60 by 42 need more than a sketch to be proved; a plan that uses more than it is worth the work.
    [Fact]
    public void A_bound_never_exceeds_what_a_plan_takes()
    {
        var random = new Random(4);
        (double, double)[] sizes = [(48, 40), (48, 48), (42, 42), (60, 48), (30, 30)];
        for (var i = 0; i < 8; i++)
        {
            LoadUnits[] units = [.. Enumerable.Range(0, random.Next(2, 6)).Select(_ => sizes[random.Next(5)]).Select(size =>
                One(size.Item1, size.Item2, random.Next(30, 60), random.Next(200, 1_500), bears: 700 * random.Next(3), rides: random.Next(2) == 0))];
            var plan = LoadPlanner.Plan(units, room);
            Assert.True(LoadBound.Of(units, room, null, plan.LengthUsed) <= plan.LengthUsed);
            var decked = LoadPlanner.Plan(units, room, beams);
            Assert.True(LoadBound.Of(units, room, beams, decked.LengthUsed) <= decked.LengthUsed);
        }
    }
}
