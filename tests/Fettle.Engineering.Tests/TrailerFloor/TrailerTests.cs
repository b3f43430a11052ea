using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class TrailerTests
{
    private static Length In(double inches) => Length.FromInches(inches);

    /// <summary>
    /// 53 ft: 26, 28 and 30 quoted by three trade sources and the same by arithmetic (13 × 2, 13 + 15, 15 × 2). 48 ft and
    /// 28 ft: arithmetic on 570 and 324 in; the trade's "24 straight" in a 48-ft trailer does not follow from its length.
    /// </summary>
    public static TheoryData<string, int, int, int> StandardPallets => new()
    {
        { "53-ft dry van", 26, 28, 30 },
        { "48-ft dry van", 22, 25, 28 },
        { "28-ft pup", 12, 14, 16 },
    };

    [Theory]
    [MemberData(nameof(StandardPallets))]
    public void Standard_pallets_stand_straight_pinwheeled_or_turned(string name, int straight, int pinwheeled, int turned)
    {
        var trailer = Trailer.All.Single(t => t.Name == name);
        Assert.Equal(straight, FloorRows.Count(trailer, In(48), In(40), RowPattern.Straight));
        Assert.Equal(pinwheeled, FloorRows.Count(trailer, In(40), In(48), RowPattern.Pinwheeled));
        Assert.Equal(turned, FloorRows.Count(trailer, In(48), In(40), RowPattern.Turned));
    }

    [Fact]
    public void Turned_pallets_with_an_inch_of_overhang_on_each_side_do_not_stand_side_by_side() =>
        Assert.Equal(15, FloorRows.Count(Trailer.Van53, In(50), In(42), RowPattern.Turned));

    [Fact]
    public void Lanes_as_wide_as_the_floor_stand_beside_each_other() =>
        // 50 + 48.5 = 98.5 in; 630 / 50 and 630 / 48.5, rounded down, are 12 each.
        Assert.Equal(24, FloorRows.Count(Trailer.Van53, In(50), In(48.5), RowPattern.Pinwheeled));

    [Fact]
    public void Units_without_length_or_width_and_counts_below_zero_are_refused()
    {
        foreach (var none in (Length[])[Length.Zero, In(-1)])
        {
            Assert.Equal("unitLength", Refused(() => FloorRows.Count(Trailer.Van53, none, In(40), RowPattern.Straight)));
            Assert.Equal("unitWidth", Refused(() => FloorRows.Count(Trailer.Van53, In(48), none, RowPattern.Straight)));
            Assert.Equal("alongTrailer", Refused(() => FloorRows.LengthTaken(1, none, In(40), In(98.5))));
            Assert.Equal("acrossTrailer", Refused(() => FloorRows.LengthTaken(1, In(48), none, In(98.5))));
        }

        Assert.Equal("count", Refused(() => FloorRows.LengthTaken(-1, In(48), In(40), In(98.5))));

        static string? Refused(Func<object?> asked) => Assert.Throws<ArgumentOutOfRangeException>(asked).ParamName;
    }

    [Fact]
    public void A_unit_wider_than_the_floor_has_no_pattern() =>
        Assert.Equal([0, 0, 0], Enum.GetValues<RowPattern>().Select(p => FloorRows.Count(Trailer.Van53, In(120), In(99), p)));

    [Fact]
    public void Rows_take_as_many_times_the_side_along_as_there_are_rows()
    {
        // Six standard pallets, arithmetic: 3 rows of 40 in or of 48 in.
        Assert.Equal(In(120), FloorRows.LengthTaken(6, In(40), In(48), In(98.5)));
        Assert.Equal(In(144), FloorRows.LengthTaken(6, In(48), In(40), In(98.5)));
        Assert.Equal(In(40), FloorRows.LengthTaken(1, In(40), In(48), In(98.5)));
        Assert.Equal(Length.Zero, FloorRows.LengthTaken(0, In(40), In(48), In(98.5)));
        Assert.Null(FloorRows.LengthTaken(1, In(40), In(99), In(98.5)));
    }

    [Fact]
    public void The_door_is_lower_and_narrower_than_the_room_behind_it()
    {
        Assert.True(Trailer.Van53.TakesThroughDoor(In(48), In(40), In(105)));
        Assert.False(Trailer.Van53.TakesThroughDoor(In(48), In(40), In(105.1)));
        Assert.True(Trailer.Van53.TakesThroughDoor(In(200), In(98), In(50)));
        Assert.False(Trailer.Van53.TakesThroughDoor(In(200), In(98.25), In(50)));
    }

    [Fact]
    public void Cube_follows_from_the_inside_dimensions()
    {
        // 630 × 98.5 × 108 / 1,728; dealers state 3,800 to 4,000 cubic feet.
        Assert.Equal(630 * 98.5 * 108 / 1728, Trailer.Van53.CubicFeet, 6);
        Assert.InRange(Trailer.Van53.CubicFeet, 3_800, 4_000);
        Assert.Equal(0.5, Trailer.Van53.CubeUsed(Trailer.Van53.CubicFeet / 2), 12);
    }

    [Fact]
    public void Lanes_wider_than_the_floor_do_not_stand_beside_each_other() =>
        Assert.Equal(0, FloorRows.Count(Trailer.Van53, In(50), In(48.6), RowPattern.Pinwheeled));

    /// <summary>By hand: 3 × 2 units of 2 by 1, 2 + 4 in two lanes, and four rows of one across on a floor of 5 by 3.</summary>
    [Fact]
    public void Patterns_on_a_small_floor_count_as_by_hand()
    {
        var floor = Trailer.Measured(In(5), In(3), In(1));
        Assert.Equal(6, FloorRows.Count(floor, In(1), In(2), RowPattern.Straight));
        Assert.Equal(7, FloorRows.Count(floor, In(2), In(1), RowPattern.Pinwheeled));
        Assert.Equal(5, FloorRows.Count(floor, In(2), In(1), RowPattern.Turned));
    }

    [Fact]
    public void Dust_is_counted_up_to_a_limit_and_not_past_what_a_number_holds()
    {
        var grain = Length.FromNanometres(1);
        Assert.All(Enum.GetValues<RowPattern>(), p => Assert.True(FloorRows.Count(Trailer.Van53, grain, grain, p) > 50_000));
        Assert.Equal(40_000 * 40_000, FloorRows.Count(Trailer.Van53, grain, grain, RowPattern.Turned));
    }

    [Fact]
    public void A_row_fuller_than_the_count_is_still_a_row()
    {
        Assert.Equal(In(10), FloorRows.LengthTaken(3, In(10), In(20), In(98.5)));
        Assert.Equal(In(20), FloorRows.LengthTaken(5, In(10), In(20), In(98.5)));
        Assert.Equal(In(10), FloorRows.LengthTaken(4, In(10), In(20), In(98.5)));
        Assert.Equal(In(10), FloorRows.LengthTaken(1, In(10), In(98.5), In(98.5)));
    }

    /// <summary>In inches and pounds: the lesser figures of the ranges that the types state, and of the straight truck from memory.</summary>
    [Fact]
    public void Types_have_the_lesser_of_the_stated_inside_dimensions()
    {
        Assert.Equal(["53-ft dry van", "48-ft dry van", "28-ft pup", "26-ft straight truck"], Trailer.All.Select(t => t.Name));
        Assert.Equal([630, 570, 324, 312], Trailer.All.Select(t => t.Length.Inches));
        Assert.Equal([98.5, 98.5, 98.5, 96], Trailer.All.Select(t => t.Width.Inches));
        Assert.Equal([108, 108, 108, 96], Trailer.All.Select(t => t.Height.Inches));
        Assert.Equal([98, 98, 98, 92], Trailer.All.Select(t => t.DoorWidth.Inches));
        Assert.Equal([105, 105, 105, 92], Trailer.All.Select(t => t.DoorHeight.Inches));
        Assert.Equal([Mass.FromPounds(45_000), null, null, null], Trailer.All.Select(t => t.Payload));
    }

    [Fact]
    public void A_measured_room_has_a_door_as_large_as_itself()
    {
        var room = Trailer.Measured(In(100), In(80), In(90));
        Assert.Equal(("as measured", In(100), In(80), In(90)), (room.Name, room.Length, room.Width, room.Height));
        Assert.Equal((In(80), In(90), (Mass?)null), (room.DoorWidth, room.DoorHeight, room.Payload));
    }

    [Fact]
    public void A_trailer_holds_a_plan_that_ends_at_its_door_and_none_that_ends_past_it()
    {
        Assert.True(Trailer.Van53.Holds(new FloorPlan([], In(630), In(1))));
        Assert.False(Trailer.Van53.Holds(new FloorPlan([], In(630.1), In(1))));
    }

    [Fact]
    public void Either_side_may_go_through_the_door_first()
    {
        Assert.True(Trailer.Van53.TakesThroughDoor(In(98), In(200), In(50)));
        Assert.False(Trailer.Van53.TakesThroughDoor(In(98.25), In(200), In(50)));
    }
}
