using Fettle.Engineering.Patterns;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>Bounds of the literature on instances small enough to follow, and against layers that are known to exist.</summary>
public class LayerBoundTests
{
    private static int ByMeasure(long length, long width, long cartonLength, long cartonWidth) =>
        LayerBound.ByMeasure(Partitions.Of(length, cartonLength, cartonWidth), Partitions.Of(width, cartonLength, cartonWidth));

    private static int ByBars(long length, long width, long cartonLength, long cartonWidth, int enough = 0) =>
        LayerBound.ByBars(Partitions.Of(length, cartonLength, cartonWidth), Partitions.Of(width, cartonLength, cartonWidth), enough);

    [Theory]
    // The plain area: 48 × 40 of 12 × 10.
    [InlineData(48, 40, 12, 10, 16)]
    // The optimum in tests/Fettle.Engineering.Tests/Data/pallet-patterns.csv.
    [InlineData(48, 40, 17, 13, 8)]
    // One way only: the carton is longer than the deck is wide.
    [InlineData(10, 3, 4, 2, 2)]
    [InlineData(3, 10, 4, 2, 2)]
    [InlineData(10, 3, 4, 3, 2)]
    [InlineData(9, 9, 10, 1, 0)]
    [InlineData(3, 3, 4, 4, 0)]
    // All but a corner.
    [InlineData(4, 4, 3, 1, 5)]
    // Four round a hole.
    [InlineData(5, 5, 3, 2, 4)]
    public void The_measure_bound_is_at_most_the_area_and_counts_rows_where_cartons_lie_one_way(long l, long w, long cl, long cw, int bound) =>
        Assert.Equal(bound, ByMeasure(l, w, cl, cw));

    [Theory]
    // Bars of three leave a waste of one.
    [InlineData(4, 4, 3, 1, 5)]
    // Tiles of 4 × 1 on 6 × 6: area 9, but bars of four leave a waste of four, so that eight are the most.
    [InlineData(6, 6, 4, 1, 8)]
    // Tiles of 2 × 1 on 5 × 5.
    [InlineData(5, 5, 2, 1, 12)]
    [InlineData(10, 10, 4, 1, 24)]
    [InlineData(48, 40, 12, 10, 16)]
    // Bars of seven leave nine of 121: four by four remain, and three by three are left out.
    [InlineData(11, 11, 7, 1, 16)]
    [InlineData(13, 12, 8, 1, 18)]
    public void Bars_leave_a_waste_that_follows_from_the_remainders(long l, long w, long cl, long cw, int bound) =>
        Assert.Equal(bound, ByBars(l, w, cl, cw));

    [Fact]
    public void The_search_of_bars_ends_as_soon_as_the_bound_is_low_enough()
    {
        Assert.Equal(8, ByBars(6, 6, 4, 1, 8));
        // Unit squares come first: 36 of them on 6 × 6, and that is enough.
        Assert.Equal(36, ByBars(6, 6, 4, 1, 36));
    }

    [Fact]
    public void On_every_small_deck_no_bound_is_below_the_most_that_trying_everything_finds_nor_above_the_area()
    {
        for (var length = 1; length <= 7; length++)
        {
            for (var width = 1; width <= length; width++)
            {
                for (var cartonLength = 2; cartonLength <= 5; cartonLength++)
                {
                    for (var cartonWidth = 1; cartonWidth <= cartonLength; cartonWidth++)
                    {
                        var most = LayerCheck.MostByBruteForce(length, width, cartonLength, cartonWidth);
                        var area = length * width / (cartonLength * cartonWidth);
                        Assert.InRange(ByMeasure(length, width, cartonLength, cartonWidth), most, area);
                        Assert.InRange(ByBars(length, width, cartonLength, cartonWidth), most, area);
                    }
                }
            }
        }
    }

    [Fact]
    public void A_floor_of_very_many_cartons_is_bounded_by_its_area_alone()
    {
        // Six rows of 142; by area it would be 857.
        Assert.Equal(6 * 142, LayerBound.Of(new Floor(1000, 6, 7, 1, 1)));
        Assert.Equal(6 * 142, LayerBound.Of(new Floor(6, 1000, 7, 1, 1)));
        // Past a thousand widths in a row: by area, though it is six rows of 143.
        Assert.Equal(1006 * 6 / 7, LayerBound.Of(new Floor(1006, 6, 7, 1, 1)));
        Assert.Equal(1006 * 6 / 7, LayerBound.Of(new Floor(6, 1006, 7, 1, 1)));
        Assert.Equal(2012 * 12 / 28, LayerBound.Of(new Floor(2012, 12, 14, 2, 1)));
        // Widths, not units, are counted.
        Assert.Equal(6 * 142, LayerBound.Of(new Floor(2000, 12, 14, 2, 1)));
        Assert.Equal(int.MaxValue, LayerBound.Of(new Floor(long.MaxValue / 4, long.MaxValue / 4, 2, 1, 1)));
    }

    [Fact]
    public void A_range_narrows_until_no_number_is_left()
    {
        // Of 5, n at 3 and the rest at 1 come to no more than 11: n is at most 3.
        var range = new TurnRange(5);
        Assert.True(range.Narrow(3, 1, 11));
        // n at 1 and the rest at 3: n is at least 2, at least 3, at least 4.
        Assert.True(range.Narrow(1, 3, 11));
        Assert.True(range.Narrow(1, 3, 9));
        Assert.False(range.Narrow(1, 3, 8));
    }

    [Theory]
    // All five the same way: 10 on the limit, 9 past it.
    [InlineData(2, 2, 10, true)]
    [InlineData(2, 2, 9, false)]
    // Even with none along, or with all along, it is too much.
    [InlineData(3, 2, 10, true)]
    [InlineData(3, 2, 9, false)]
    [InlineData(4, 2, 9, false)]
    [InlineData(2, 3, 10, true)]
    [InlineData(2, 3, 9, false)]
    public void Nothing_is_left_when_the_lighter_way_is_too_much(long along, long across, long whole, bool possible)
    {
        var range = new TurnRange(5);
        Assert.Equal(possible, range.Narrow(along, across, whole));
        // What was ruled out stays so.
        Assert.Equal(possible, range.Narrow(0, 0, 0));
    }

    [Theory]
    [InlineData(4, 1, 8, 1)]
    [InlineData(4, 1, 10, 1)]
    [InlineData(4, 1, 11, 2)]
    [InlineData(4, 1, 5, 0)]
    public void Whole_cartons_only_may_lie_along(long along, long across, long whole, int most)
    {
        // n × 4 + (5 − n) ≤ whole leaves n at most; the other side asks for at least as many.
        for (var least = 0; least <= 5; least++)
        {
            var range = new TurnRange(5);
            Assert.True(range.Narrow(along, across, whole));
            // (5 − n) × 1 ≤ 5 − least: at least so many lie along.
            Assert.Equal(least <= most, range.Narrow(0, 1, 5 - least));
        }
    }
}
