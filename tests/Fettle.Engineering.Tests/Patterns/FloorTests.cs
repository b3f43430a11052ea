using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

public class FloorTests
{
    private static Length Nm(long nanometres) => Length.FromNanometres(nanometres);

    private static Floor? Of(long length, long width, long cartonLength, long cartonWidth) => Floor.Of(Nm(length), Nm(width), Nm(cartonLength), Nm(cartonWidth));

    [Fact]
    public void Sides_become_small_whole_numbers_by_the_common_measure_of_the_carton()
    {
        Assert.Equal(new Floor(24, 20, 6, 5, 2), Of(48, 40, 12, 10));
        // What is left of a side that the measure does not divide holds nothing.
        Assert.Equal(new Floor(24, 20, 6, 5, 2), Of(49, 41, 10, 12));
        Assert.Equal(new Floor(48, 40, 17, 13, 1), Of(48, 40, 13, 17));
        Assert.Equal(new Floor(4, 3, 1, 1, 12), Of(48, 40, 12, 12));
    }

    [Theory]
    [InlineData(10, 5, 10, 5, true)]
    [InlineData(5, 10, 10, 5, true)]
    [InlineData(10, 5, 5, 10, true)]
    [InlineData(9, 5, 10, 5, false)]
    [InlineData(5, 9, 10, 5, false)]
    [InlineData(10, 4, 10, 5, false)]
    [InlineData(4, 10, 10, 5, false)]
    [InlineData(9, 9, 10, 1, false)]
    public void A_carton_fits_when_it_does_one_way_or_the_other(long l, long w, long cl, long cw, bool fits) =>
        Assert.Equal(fits, Of(l, w, cl, cw) is not null);

    [Fact]
    public void The_longest_sides_are_cut_to_what_can_be_added_up()
    {
        Assert.Equal(new Floor(long.MaxValue / 4, long.MaxValue / 4, 1, 1, 1), Of(long.MaxValue, long.MaxValue, 1, 1));
        Assert.Null(Of(long.MaxValue, 5, long.MaxValue / 2, 5));
    }

    [Fact]
    public void A_floor_and_a_box_can_lie_the_other_way()
    {
        Assert.Equal(new Floor(20, 24, 6, 5, 2), new Floor(24, 20, 6, 5, 2).Swapped);
        Assert.Equal([(6, 5), (5, 6)], new Floor(24, 20, 6, 5, 2).Turns);
        Assert.Equal(new Box(2, 1, 4, 3), new Box(1, 2, 3, 4).Swapped);
    }

    [Fact]
    public void A_floor_a_box_and_a_piece_can_be_printed()
    {
        Assert.StartsWith("Floor { Length = 24, Width = 20, ", new Floor(24, 20, 6, 5, 2).ToString(), StringComparison.Ordinal);
        Assert.Equal("Box { X = 1, Y = 2, Length = 3, Width = 4 }", new Box(1, 2, 3, 4).ToString());
        Assert.StartsWith("LPiece { X = 4, Y = 3, InnerX = 2, InnerY = 1, ", new LPiece(4, 3, 2, 1).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_pattern_comes_back_in_lengths_in_order_and_no_longer_than_asked()
    {
        Box[] boxes = [new(6, 0, 6, 5), new(0, 5, 6, 5), new(0, 0, 6, 5)];
        var floor = new Floor(24, 20, 6, 5, 2);
        Placement first = new(Nm(0), Nm(0), Nm(12), Nm(10)), second = new(Nm(0), Nm(10), Nm(12), Nm(10)), third = new(Nm(12), Nm(0), Nm(12), Nm(10));
        Assert.Equal(new LayerPattern([first, second, third], 4, false), floor.Pattern(boxes, 10, 4));
        Assert.Equal(new LayerPattern([first, second, third], 3, true), floor.Pattern(boxes, 3, 3));
        Assert.Equal(new LayerPattern([first, second], 3, false), floor.Pattern(boxes, 2, 3));
    }
}
