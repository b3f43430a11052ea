using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>
/// The search by L-shaped pieces, mostly without help: the search by blocks that it begins with may make no cut, so that every
/// layer of more than one or two blocks is its own. Its work is counted, so that the least that finds a layer is known
/// exactly; these figures were taken when the tests were written. A change that needs more lost one of the rules that save work.
/// </summary>
public class LShapeSearchTests
{
    private static int Most(long l, long w, long cartonLength, long cartonWidth, long work, long blockWork = 0, int? wanted = null)
    {
        var sums = CartonSums.UpTo(Math.Max(l, w), cartonLength, cartonWidth, 400)!;
        var (a, b) = (sums.RankOf(l), sums.RankOf(w));
        var blocks = new FiveBlockSearch(sums, blockWork);
        var search = LShapeSearch.For(a, b, sums, blocks, work)!;
        var most = search.Most(a, b, wanted ?? blocks.Bound(a, b));
        Box[] boxes = [.. search.Layout(a, b)];
        Assert.Equal(most, boxes.Length);
        LayerCheck.IsALayer(
            new Floor(l, w, cartonLength, cartonWidth, 1).Pattern(boxes, boxes.Length, blocks.Bound(a, b)),
            Nm(l), Nm(w), Nm(cartonLength), Nm(cartonWidth));
        return most;
    }

    private static Length Nm(long nanometres) => Length.FromNanometres(nanometres);

    [Theory]
    [InlineData(40, 21, 11, 3, 24, 15_612)]
    [InlineData(46, 23, 7, 3, 50, 960_984)]
    [InlineData(27, 22, 5, 3, 39, 233_423)]
    [InlineData(53, 27, 6, 5, 47, 1_398_344)]
    [InlineData(31, 20, 7, 2, 44, 253_910)]
    [InlineData(38, 27, 7, 4, 35, 168_184)]
    [InlineData(40, 34, 7, 4, 48, 1_577_647)]
    [InlineData(27, 25, 7, 2, 48, 55_578)]
    [InlineData(34, 25, 7, 3, 40, 3_747)]
    [InlineData(29, 16, 7, 3, 22, 22_743)]
    [InlineData(34, 31, 8, 3, 43, 461_928)]
    [InlineData(31, 26, 8, 3, 33, 513_888)]
    [InlineData(58, 44, 15, 4, 41, 42_830)]
    [InlineData(20, 12, 7, 2, 16, 14_670)]
    [InlineData(84, 50, 17, 5, 48, 176_251)]
    [InlineData(54, 31, 8, 5, 41, 24_028)]
    [InlineData(119, 84, 17, 10, 58, 74_499)]
    [InlineData(41, 38, 7, 5, 44, 3_421)]
    [InlineData(42, 26, 11, 3, 32, 319)]
    public void A_published_optimum_is_found_with_so_much_work_and_not_with_less(long l, long w, long cl, long cw, int optimum, long work)
    {
        // Optima: tests/Fettle.Engineering.Tests/Data/pallet-patterns.csv.
        Assert.Equal(optimum, Most(l, w, cl, cw, work, wanted: optimum));
        Assert.True(Most(l, w, cl, cw, work - 1, wanted: optimum) < optimum);
        // Lying the other way it is the same layer, turned.
        Assert.Equal(optimum, Most(w, l, cl, cw, work, wanted: optimum));
    }

    /// <summary>Layers that between them take every way of cutting a piece, steps across and along, beside the inner corner and swapped zigzags.</summary>
    [Theory]
    [InlineData(66, 34, 9, 7, 35)]
    [InlineData(31, 29, 7, 4, 32)]
    [InlineData(24, 13, 5, 2, 31)]
    [InlineData(19, 17, 5, 4, 16)]
    [InlineData(32, 31, 7, 5, 27)]
    public void Every_way_of_cutting_a_piece_is_laid_without_overlap(long l, long w, long cl, long cw, int count)
    {
        Assert.Equal(count, Most(l, w, cl, cw, 400_000));
        Assert.Equal(count, Most(w, l, cl, cw, 400_000));
    }

    [Fact]
    public void On_every_small_deck_pieces_find_the_most_that_trying_everything_finds()
    {
        for (var (cartonLength, cartonWidth) = (3, 1); cartonLength <= 5; (cartonLength, cartonWidth) = (cartonLength + 1, cartonWidth == 2 ? 1 : 2))
        {
            for (var length = cartonLength; length <= 8; length++)
            {
                for (var width = cartonLength; width <= length; width++)
                    Assert.Equal(LayerCheck.MostByBruteForce(length, width, cartonLength, cartonWidth), Most(length, width, cartonLength, cartonWidth, 1_000_000));
            }
        }
    }

    [Fact]
    public void It_ends_when_what_is_wanted_is_found_or_cannot_be()
    {
        Assert.Equal(22, Most(40, 21, 11, 3, 2_000_000, wanted: 22));
        // No more than 24 fit by the bound.
        Assert.Equal(24, Most(40, 21, 11, 3, 2_000_000, wanted: 99));
    }

    [Fact]
    public void Without_work_it_knows_what_the_blocks_know()
    {
        Assert.Equal(21, Most(40, 21, 11, 3, 0));
        Assert.Equal(24, Most(40, 21, 11, 3, 0, blockWork: 2_000_000));
    }

    [Fact]
    public void Over_four_hundred_cartons_are_not_searched()
    {
        static LShapeSearch? For(long l, long w, long cl, long cw)
        {
            var sums = CartonSums.UpTo(Math.Max(l, w), cl, cw, 1000)!;
            return LShapeSearch.For(sums.RankOf(l), sums.RankOf(w), sums, new FiveBlockSearch(sums, 0), 1);
        }

        // Too short for a length both ways: nothing to measure with.
        Assert.Null(For(10, 10, 11, 3));
        Assert.NotNull(For(40, 40, 3, 3));
        // 400 of 2 × 1, and 410.
        Assert.NotNull(For(40, 20, 2, 1));
        Assert.Null(For(41, 20, 2, 1));
        // Long sides alone are no hindrance: only how many cartons fit counts.
        Assert.NotNull(For(60_000, 50_000, 8_009, 7_001));
    }
}
