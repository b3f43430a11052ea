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
}
