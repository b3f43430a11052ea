using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

public class BlocksTests
{
    private static Box[] Best(long length, long width, long cartonLength, long cartonWidth)
    {
        var floor = new Floor(length, width, cartonLength, cartonWidth, 1);
        Box[] boxes = [.. Blocks.Best(floor)];
        LayerCheck.IsALayer(floor.Pattern(boxes, boxes.Length, int.MaxValue), Nm(length), Nm(width), Nm(cartonLength), Nm(cartonWidth));
        return boxes;
    }

    private static Length Nm(long nanometres) => Length.FromNanometres(nanometres);

    [Theory]
    // One block, either way round.
    [InlineData(6, 4, 3, 2, 4)]
    [InlineData(8, 3, 3, 2, 4)]
    [InlineData(3, 8, 3, 2, 4)]
    // Three one way and two the other.
    [InlineData(5, 6, 3, 2, 5)]
    [InlineData(6, 5, 3, 2, 5)]
    // Cut across either side.
    [InlineData(7, 5, 4, 3, 2)]
    [InlineData(5, 7, 4, 3, 2)]
    [InlineData(7, 4, 4, 3, 2)]
    [InlineData(4, 7, 4, 3, 2)]
    // A pinwheel of four would fit; two blocks hold no more than three.
    [InlineData(5, 5, 3, 2, 3)]
    [InlineData(3, 3, 4, 1, 0)]
    public void One_or_two_blocks_hold_so_many(long l, long w, long cl, long cw, int count) =>
        Assert.Equal(count, Best(l, w, cl, cw).Length);

    [Fact]
    public void Two_blocks_lie_side_by_side()
    {
        Assert.Equal([new Box(0, 0, 3, 2), new Box(0, 2, 3, 2), new Box(0, 4, 3, 2), new Box(3, 0, 2, 3), new Box(3, 3, 2, 3)], Best(5, 6, 3, 2));
        Assert.Equal([new Box(0, 0, 2, 3), new Box(2, 0, 2, 3), new Box(4, 0, 2, 3), new Box(0, 3, 3, 2), new Box(3, 3, 3, 2)], Best(6, 5, 3, 2));
    }

    /// <summary>Against every place of one cut and every way of lying on both sides of it.</summary>
    [Fact]
    public void No_cut_holds_more()
    {
        for (var l = 1; l <= 14; l++)
        {
            for (var w = 1; w <= 14; w++)
            {
                var most = 0;
                foreach (var (a, b) in ((int, int)[])[(5, 3), (3, 5)])
                {
                    foreach (var (c, d) in ((int, int)[])[(5, 3), (3, 5)])
                    {
                        for (var cut = 0; cut <= l; cut++)
                            most = Math.Max(most, cut / a * (w / b) + (l - cut) / c * (w / d));
                        for (var cut = 0; cut <= w; cut++)
                            most = Math.Max(most, l / a * (cut / b) + l / c * ((w - cut) / d));
                    }
                }

                Assert.Equal(most, Best(l, w, 5, 3).Length);
            }
        }
    }

    [Fact]
    public void Ten_thousand_cartons_are_the_most()
    {
        Assert.Equal(PatternFinder.LargestLayer, Blocks.Best(new Floor(300, 200, 2, 1, 1)).Count());
        Assert.Equal(9_900, Blocks.Best(new Floor(198, 100, 2, 1, 1)).Count());
        Assert.Equal(PatternFinder.LargestLayer, Blocks.Best(new Floor(long.MaxValue / 4, long.MaxValue / 4, 3, 1, 1)).Count());
    }
}
