using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>
/// The search by blocks alone. Its work is counted, so that the least that finds a layer is known exactly; these figures were
/// taken when the tests were written. A change that needs more lost one of the rules that save work.
/// </summary>
public class FiveBlockSearchTests
{
    private static int Most(FiveBlockSearch search, CartonSums sums, long length, long width, int wanted = int.MaxValue, int depths = 4)
    {
        var (a, b) = (sums.RankOf(length), sums.RankOf(width));
        var most = search.Most(a, b, wanted, depths);
        Box[] boxes = [.. search.Layout(a, b)];
        Assert.Equal(most, boxes.Length);
        Assert.Equal(most, search.Most(a, b, depths: 0));
        LayerCheck.IsALayer(
            new Floor(length, width, sums.CartonLength, sums.CartonWidth, 1).Pattern(boxes, boxes.Length, search.Bound(a, b)),
            Nm(length), Nm(width), Nm(sums.CartonLength), Nm(sums.CartonWidth));
        return most;
    }

    private static Length Nm(long nanometres) => Length.FromNanometres(nanometres);

    private static CartonSums Sums(long side, long cartonLength, long cartonWidth) => CartonSums.UpTo(side, cartonLength, cartonWidth, 400)!;

    [Theory]
    [InlineData(62, 35, 9, 5, 42, 45, 37)]
    [InlineData(40, 21, 11, 3, 21, 24, 1765)]
    [InlineData(69, 42, 14, 5, 39, 41, 199)]
    [InlineData(42, 26, 11, 3, 28, 32, 235)]
    [InlineData(25, 20, 7, 4, 15, 17, 22)]
    [InlineData(32, 28, 7, 3, 40, 42, 1225)]
    [InlineData(19, 16, 5, 2, 27, 30, 183)]
    [InlineData(29, 16, 7, 3, 20, 22, 3205)]
    [InlineData(41, 39, 7, 6, 30, 36, 1769)]
    [InlineData(164, 164, 33, 16, 40, 50, 3481)]
    [InlineData(17, 15, 4, 3, 20, 21, 276)]
    [InlineData(40, 27, 6, 5, 32, 35, 235)]
    [InlineData(59, 48, 10, 7, 32, 39, 2041)]
    // These need cuts within cuts.
    [InlineData(46, 23, 7, 3, 45, 50, 94_247)]
    [InlineData(27, 22, 5, 3, 36, 39, 21_549)]
    [InlineData(31, 20, 7, 2, 40, 44, 33_736)]
    [InlineData(77, 49, 13, 6, 40, 48, 47_121)]
    [InlineData(22, 16, 5, 3, 21, 23, 4_186)]
    [InlineData(40, 25, 7, 3, 40, 47, 162_502)]
    [InlineData(57, 44, 12, 5, 33, 41, 28_449)]
    public void A_published_optimum_is_found_with_so_many_cuts_and_not_with_one_less(long l, long w, long cl, long cw, int oneBlock, int optimum, long work)
    {
        // Optima: tests/Fettle.Engineering.Tests/Data/pallet-patterns.csv.
        var sums = Sums(l, cl, cw);
        Assert.Equal(oneBlock, Most(new FiveBlockSearch(sums, 0), sums, l, w));
        Assert.Equal(optimum, Most(new FiveBlockSearch(sums, work), sums, l, w, depths: 3));
        Assert.InRange(Most(new FiveBlockSearch(sums, work - 1), sums, l, w, depths: 3), oneBlock, optimum - 1);
        // Lying the other way it is the same layer, turned.
        Assert.Equal(optimum, Most(new FiveBlockSearch(sums, work), sums, w, l, depths: 3));
    }

    [Fact]
    public void On_every_small_deck_cuts_to_the_last_depth_find_the_most_that_trying_everything_finds()
    {
        for (var (cartonLength, cartonWidth) = (3, 1); cartonLength <= 5; (cartonLength, cartonWidth) = (cartonLength + 1, cartonWidth == 2 ? 1 : 2))
        {
            var sums = Sums(8, cartonLength, cartonWidth);
            for (var length = 1; length <= 8; length++)
            {
                for (var width = 1; width <= length; width++)
                {
                    var search = new FiveBlockSearch(sums, 1_000_000);
                    var most = LayerCheck.MostByBruteForce(length, width, cartonLength, cartonWidth);
                    Assert.Equal(most, Most(search, sums, length, width));
                    Assert.InRange(search.Bound(sums.RankOf(length), sums.RankOf(width)), most, length * width / (cartonLength * cartonWidth));
                }
            }
        }
    }

    [Fact]
    public void Of_two_blocks_that_hold_as_many_the_one_along_the_deck_is_laid()
    {
        var sums = Sums(6, 3, 2);
        var side = sums.RankOf(6);
        Assert.Equal([new Box(0, 0, 3, 2), new Box(0, 2, 3, 2), new Box(0, 4, 3, 2), new Box(3, 0, 3, 2), new Box(3, 2, 3, 2), new Box(3, 4, 3, 2)], new FiveBlockSearch(sums, 9).Layout(side, side));
    }

    [Fact]
    public void The_search_ends_with_what_was_wanted()
    {
        // One block holds 21 and two hold 23 or more; the bound is 24.
        var sums = Sums(40, 11, 3);
        Assert.Equal(21, Most(new FiveBlockSearch(sums, 2_000_000), sums, 40, 21, wanted: 21));
        Assert.Equal(24, Most(new FiveBlockSearch(sums, 2_000_000), sums, 40, 21));
    }

    [Theory]
    // One block; blocks of one cut; cuts within cuts; and the optimum (pallet-patterns.csv).
    [InlineData(46, 23, 7, 3, new[] { 45, 49, 50, 50, 50 })]
    [InlineData(22, 16, 5, 3, new[] { 21, 22, 23, 23, 23 })]
    [InlineData(50, 32, 6, 5, new[] { 50, 52, 52, 53, 53 })]
    [InlineData(40, 25, 7, 3, new[] { 40, 46, 46, 47, 47 })]
    public void Deeper_cuts_find_more(long l, long w, long cl, long cw, int[] most)
    {
        var sums = Sums(l, cl, cw);
        for (var depths = 0; depths < most.Length; depths++)
            Assert.Equal(most[depths], Most(new FiveBlockSearch(sums, 300_000), sums, l, w, depths: depths));
    }
}
