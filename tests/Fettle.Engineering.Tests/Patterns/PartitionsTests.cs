using Fettle.Engineering.Patterns;

namespace Fettle.Engineering.Tests.Patterns;

public class PartitionsTests
{
    [Fact]
    public void The_corners_bound_how_many_lengths_and_widths_fit_end_to_end()
    {
        // Cartons of 5 and 3 along 17: five widths; one length and four widths; two and two; three and none.
        var along = Partitions.Of(17, 5, 3);
        Assert.Equal((3, 5), (along.MostLengths, along.MostWidths));
        // The lines i + j = 5 and 4 i + 2 j = 12 hold them all; (2, 2) lies on the second and is no corner.
        Assert.Equal([new Partitions.Scale(1, 1, 5), new Partitions.Scale(4, 2, 12)], along.Scales);
        Assert.Equal(17, along.Side(5, 3));
        // For a carton of other sizes: the greatest of 5 w, l + 4 w and 3 l.
        Assert.Equal(10, along.Side(1, 2));
        Assert.Equal(21, along.Side(7, 1));
        Assert.Equal(16, along.Side(4, 3));
    }

    [Fact]
    public void A_side_that_fits_whole_numbers_both_ways_has_one_line()
    {
        // 4 lengths or 6 widths: 3 i + 2 j = 12 touches (0, 6), (2, 3) and (4, 0).
        var along = Partitions.Of(12, 3, 2);
        Assert.Equal([new Partitions.Scale(6, 4, 24)], along.Scales);
        Assert.Equal((4, 6), (along.MostLengths, along.MostWidths));
    }

    [Fact]
    public void A_last_corner_off_the_axis_bounds_the_lengths_alone()
    {
        // One length of 7 along 10 leaves room for one width of 3 besides: (0, 3), (1, 1).
        var along = Partitions.Of(10, 7, 3);
        Assert.Equal([new Partitions.Scale(2, 1, 3), new Partitions.Scale(1, 0, 1)], along.Scales);
    }

    [Fact]
    public void A_side_too_short_for_a_length_holds_widths_alone_and_one_too_short_for_both_holds_none()
    {
        var widths = Partitions.Of(6, 7, 3);
        Assert.Equal((0, 2), (widths.MostLengths, widths.MostWidths));
        Assert.Empty(widths.Scales);
        Assert.Equal(8, widths.Side(100, 4));
        var none = Partitions.Of(2, 7, 3);
        Assert.Equal((0, 0), (none.MostLengths, none.MostWidths));
        Assert.Equal(0, none.Side(7, 3));
    }

    /// <summary>Against all partitions, counted one by one: every line holds them all and touches two, and the corners reach as far as they do.</summary>
    [Fact]
    public void Every_scale_holds_all_partitions_and_none_could_be_tighter()
    {
        for (var side = 0L; side <= 60; side++)
        {
            for (var (l, w) = (7L, 3L); l <= 13; (l, w) = (l + 2, w + 1))
            {
                var along = Partitions.Of(side, l, w);
                (long I, long J)[] all = [.. from i in Enumerable.Range(0, 20) from j in Enumerable.Range(0, 30) where i * l + j * w <= side select ((long)i, (long)j)];
                Assert.Equal((all.Max(p => p.I), all.Max(p => p.J)), (along.MostLengths, along.MostWidths));
                Assert.All(along.Scales, s => Assert.Equal(s.Whole, all.Max(p => p.I * s.Length + p.J * s.Width)));
                Assert.All(along.Scales.Where(s => s.Width > 0), s => Assert.True(all.Count(p => p.I * s.Length + p.J * s.Width == s.Whole) >= 2));
                Assert.Equal(all.Max(p => p.I * 5 + p.J * 4), along.Side(5, 4));
                Assert.Equal(all.Max(p => p.I * 4 + p.J * 9), along.Side(4, 9));
            }
        }
    }
}
