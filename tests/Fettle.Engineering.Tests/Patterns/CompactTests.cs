using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

public class CompactTests
{
    /// <summary>The footprint of a compact layer, after judging the layer.</summary>
    private static (long Length, long Width)? Footprint(int count, long length, long width, long cartonLength, long cartonWidth)
    {
        var floor = new Floor(length, width, cartonLength, cartonWidth, 1);
        if (Compact.Layer(floor, count) is not { } cartons)
            return null;
        var layer = floor.Pattern(cartons, count, int.MaxValue);
        Assert.Equal(count, layer.Count);
        LayerCheck.IsALayer(layer, Nm(length), Nm(width), Nm(cartonLength), Nm(cartonWidth));
        return (layer.FootprintLength.Nanometres, layer.FootprintWidth.Nanometres);
    }

    private static Length Nm(long nanometres) => Length.FromNanometres(nanometres);

    [Theory]
    // Six of 6 × 5: 3 × 2 of them, 15 + 12 rather than 18 + 10.
    [InlineData(6, 48, 40, 6, 5, 15, 12)]
    // Two: 6 by 10 or 12 by 5; the shorter way round. Of equal ones the one along the length.
    [InlineData(2, 48, 40, 6, 5, 10, 6)]
    [InlineData(1, 48, 40, 6, 5, 6, 5)]
    // Where the width or the length is short, the way that fits.
    [InlineData(6, 48, 11, 6, 5, 18, 10)]
    [InlineData(6, 12, 48, 6, 5, 12, 15)]
    [InlineData(2, 9, 40, 6, 5, 6, 10)]
    // Three of 9 × 3 make a square of 9; a full grid up to three times as long as wide is taken as it is.
    [InlineData(3, 48, 40, 9, 3, 9, 9)]
    [InlineData(3, 48, 40, 1, 1, 3, 1)]
    // Four to one is longer than that: three and two beside, on 3 + 2, take less than five in a row.
    [InlineData(5, 48, 40, 1, 1, 3, 2)]
    [InlineData(7, 48, 40, 1, 1, 4, 2)]
    // A row is all that a strip has room for.
    [InlineData(5, 48, 1, 1, 1, 5, 1)]
    // Four of 3 × 1 as a grid take 4 + 3.
    [InlineData(4, 48, 40, 3, 1, 4, 3)]
    // Five of 3 × 1 but for a corner fill a square of four, where a grid would take 5 + 3.
    [InlineData(5, 48, 40, 3, 1, 5, 3)]
    [InlineData(5, 4, 4, 3, 1, 4, 4)]
    // Four round a hole, where no grid of four fits.
    [InlineData(4, 5, 5, 3, 2, 5, 5)]
    [InlineData(3, 48, 40, 3, 2, 6, 3)]
    // Three one way and two the other, where a grid would take 6 × 6; also on a strip that is just wide enough.
    [InlineData(5, 48, 40, 3, 2, 6, 5)]
    [InlineData(5, 48, 5, 3, 2, 6, 5)]
    // Exactly three times as long as wide, and just longer.
    [InlineData(7, 48, 40, 7, 3, 21, 7)]
    [InlineData(7, 480, 400, 70, 31, 155, 101)]
    // A full grid, though 12 × 7 would be smaller; also on a strip that is just wide enough.
    [InlineData(14, 48, 40, 3, 2, 14, 6)]
    [InlineData(14, 48, 6, 3, 2, 14, 6)]
    public void The_footprint_is_the_smallest_that_is_found(int count, long l, long w, long cl, long cw, long length, long width) =>
        Assert.Equal((length, width), Footprint(count, l, w, cl, cw));

    /// <summary>Length and width of layers of 1, 2, 3 … cartons, as they were found when this was written.</summary>
    [Theory]
    [InlineData(7, 4, new[]
    {
        7, 4, 8, 7, 12, 7, 14, 8, 20, 7, 14, 12, 15, 14, 16, 14, 21, 12, 20, 14, 21, 15, 21, 16, 21, 18, 28, 14, 21, 20, 28, 16, 23, 21, 24, 21, 28, 19, 28, 20,
        28, 21, 28, 22, 28, 23, 28, 24, 35, 20, 28, 26, 36, 21, 28, 28, 29, 28, 35, 24, 31, 28, 32, 28, 44, 21, 34, 28, 35, 28, 36, 28, 37, 28, 38, 28, 52, 21, 35, 32,
    })]
    [InlineData(12, 5, new[]
    {
        12, 5, 12, 10, 15, 12, 20, 12, 25, 12, 24, 15, 35, 12, 24, 20, 36, 15, 25, 24, 27, 25, 30, 24, 32, 25, 35, 24, 36, 25, 40, 24, 36, 29, 36, 30, 36, 32, 48, 25,
        36, 35, 55, 24, 39, 36, 40, 36, 60, 25, 44, 36, 45, 36, 48, 35, 49, 36, 50, 36, 52, 36, 48, 40, 55, 36, 50, 41, 60, 35, 48, 45, 49, 46, 50, 46, 54, 44, 50, 48,
    })]
    public void Layers_of_so_many_take_so_much(long cl, long cw, int[] footprints)
    {
        for (var count = 1; count <= footprints.Length / 2; count++)
            Assert.Equal((footprints[2 * count - 2], footprints[2 * count - 1]), Footprint(count, 60, 48, cl, cw));
    }

    [Fact]
    public void More_than_fit_are_not_laid()
    {
        Assert.Null(Footprint(5, 5, 5, 3, 2));
        Assert.Null(Footprint(2, 5, 3, 4, 3));
        Assert.Equal((8, 3), Footprint(2, 8, 3, 4, 3));
    }

    /// <summary>Half of the perimeter is never more than that of the smallest grid, and the count is always held when a grid holds it.</summary>
    [Fact]
    public void No_grid_is_smaller_unless_a_full_one_was_preferred()
    {
        for (var count = 1; count <= 20; count++)
        {
            var least = long.MaxValue;
            foreach (var (a, b) in ((int, int)[])[(5, 3), (3, 5)])
            {
                for (var columns = 1; columns <= count; columns++)
                {
                    var (l, w) = (columns * a, (count + columns - 1) / columns * b);
                    if (l <= 24 && w <= 17)
                        least = Math.Min(least, l + w);
                }
            }

            if (Footprint(count, 24, 17, 5, 3) is not { } found)
            {
                Assert.Equal(long.MaxValue, least);
                continue;
            }

            Assert.True(found.Length <= 24 && found.Width <= 17);
            var full = found.Length * found.Width == count * 15;
            Assert.True(full || found.Length + found.Width <= least, $"{count} take {found}, a grid {least}");
        }
    }
}
