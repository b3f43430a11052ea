using Fettle.Engineering.MixedCartons;
using static Fettle.Engineering.Tests.MixedCartons.SmallCartons;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>Layouts that were drawn by hand after the rule: the lowest gap first, by the carton that fills it best across.</summary>
public class MixedLayerTests
{
    private static IReadOnlyList<Laid> Best(long deckLength, long deckWidth, params (long Along, long Across, int Left)[] cartons)
    {
        var laid = MixedLayer.Best(
            [.. cartons.Select((c, i) => (new Stance(i, c.Along, c.Across, 1, CartonFace.Base, false), c.Left))], Room(deckLength, deckWidth, 1));
        for (var i = 0; i < laid.Count; i++)
        {
            var (s, x, y) = laid[i];
            Assert.True(x >= 0 && y >= 0 && x + s.Along <= deckLength && y + s.Across <= deckWidth, $"{laid[i]} leaves the deck");
            Assert.All(laid.Take(i), o => Assert.Equal(0, new Resting(o.Stance, new Seat(o.X, o.Y, 0, 1)).Overlap(x, y, s.Along, s.Across)));
            var (along, across, _) = cartons[s.Kind];
            Assert.Equal((Math.Max(along, across), Math.Min(along, across)), (Math.Max(s.Along, s.Across), Math.Min(s.Along, s.Across)));
            Assert.Equal(s.Along == along, !s.Turned);
        }

        Assert.All(laid.GroupBy(l => l.Stance.Kind), g => Assert.True(g.Count() <= cartons[g.Key].Left));
        return laid;
    }

    private static IEnumerable<(int, long, long, long, long)> Places(IEnumerable<Laid> laid) =>
        laid.Select(l => (l.Stance.Kind, l.X, l.Y, l.Stance.Along, l.Stance.Across));

    private static double Area(IEnumerable<Laid> laid) => laid.Sum(l => l.Stance.Area);

    [Fact]
    public void Cartons_of_several_sizes_fill_a_deck_wholly_when_each_closes_a_gap() =>
        Assert.Equal(
            [(0, 0L, 0L, 4L, 6L), (1, 4, 0, 4, 6), (2, 8, 0, 2, 3), (2, 8, 3, 2, 3)],
            Places(Best(10, 6, (4, 6, 1), (6, 4, 1), (3, 2, 2))));

    [Fact]
    public void Nothing_is_laid_where_nothing_fits_or_nothing_is_left()
    {
        Assert.Empty(Best(4, 4, (5, 1, 3)));
        Assert.Empty(Best(4, 4, (2, 2, 0)));
        Assert.Empty(Best(4, 4));
        Assert.Equal([(0, 0L, 0L, 4L, 4L)], Places(Best(4, 4, (4, 4, 3))));
    }

    [Fact]
    public void A_carton_is_turned_when_it_fits_only_so() =>
        Assert.Equal([(0, 0L, 0L, 5L, 2L)], Places(Best(5, 2, (2, 5, 2))));

    [Fact]
    public void What_only_rows_across_the_deck_fill_is_found_from_the_side()
    {
        Assert.Equal([(0, 0L, 0L, 10L, 2L), (1, 0, 2, 5, 4), (1, 5, 2, 5, 4)], Places(Best(10, 6, (10, 2, 1), (5, 4, 2))));
        Assert.Equal([(0, 0L, 0L, 2L, 10L), (1, 2, 0, 4, 5), (1, 2, 5, 4, 5)], Places(Best(6, 10, (10, 2, 1), (5, 4, 2))));
    }

    [Fact]
    public void A_large_carton_is_found_though_a_longer_one_fills_the_gap_better_across() =>
        Assert.Equal([(1, 0L, 0L, 16L, 16L)], Places(Best(18, 18, (4, 17, 1), (16, 16, 1))));

    [Fact]
    public void A_gap_that_nothing_fits_is_given_up_and_what_is_beside_it_goes_on() =>
        Assert.Equal([(0, 0L, 0L, 4L, 4L), (1, 4, 0, 3, 3)], Places(Best(7, 5, (4, 4, 1), (3, 3, 2))));

    /// <summary>Layouts with gaps in the middle, at either side and behind others; what the rule covers is kept as it was when written.</summary>
    [Theory]
    [InlineData(9, 10, 0, 80)]
    [InlineData(13, 11, 1, 128)]
    [InlineData(17, 12, 2, 144)]
    [InlineData(12, 17, 3, 184)]
    [InlineData(20, 20, 4, 329)]
    [InlineData(14, 15, 5, 194)]
    public void Mixed_sizes_cover_as_much_as_the_rule_gives(long length, long width, int seed, double area)
    {
        var random = new Random(seed);
        (long, long, int)[] cartons = [.. Enumerable.Range(0, 4).Select(_ => ((long)random.Next(2, 9), (long)random.Next(2, 9), random.Next(1, 6)))];
        Assert.Equal(area, Area(Best(length, width, cartons)));
    }
}
