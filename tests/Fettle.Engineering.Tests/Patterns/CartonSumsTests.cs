using Fettle.Engineering.Patterns;

namespace Fettle.Engineering.Tests.Patterns;

public class CartonSumsTests
{
    private static CartonSums Of(long side, long length, long width) => CartonSums.UpTo(side, length, width, 1000)!;

    private static long[] All(CartonSums sums) => [.. Enumerable.Range(0, sums.Count).Select(rank => sums[rank])];

    [Fact]
    public void All_lengths_of_whole_cartons_end_to_end_come_once_and_in_order()
    {
        var sums = Of(15, 5, 3);
        Assert.Equal([0, 3, 5, 6, 8, 9, 10, 11, 12, 13, 14, 15], All(sums));
        Assert.Equal((5, 3), (sums.CartonLength, sums.CartonWidth));
        // The side itself counts when it is a sum.
        Assert.Equal([0, 3, 5, 6, 8, 9, 10, 11, 12, 13], All(Of(13, 5, 3)));
        Assert.Equal([0, 4, 7], All(Of(7, 7, 4)));
        Assert.Equal([0], All(Of(2, 7, 3)));
    }

    [Fact]
    public void More_lengths_than_the_limit_are_too_many()
    {
        Assert.Equal(12, CartonSums.UpTo(15, 5, 3, 12)!.Count);
        Assert.Null(CartonSums.UpTo(15, 5, 3, 11));
        // 0, 1, 2 up to 99 are a hundred lengths, met 5050 times in all.
        Assert.Equal(100, CartonSums.UpTo(99, 1, 1, 100)!.Count);
        // So many that come twice or more are too many even where few are distinct: 201 up to 200, met 20,301 times.
        Assert.Null(CartonSums.UpTo(200, 1, 1, 202));
        Assert.Equal(200, CartonSums.UpTo(199, 1, 1, 201)!.Count);
        Assert.Null(CartonSums.UpTo(1, 1, 1, 1));
    }

    [Fact]
    public void The_difference_of_two_is_the_longest_length_that_fits_between_them()
    {
        var sums = Of(40, 11, 4);
        for (var a = 0; a < sums.Count; a++)
        {
            for (var b = 0; b <= a; b++)
                Assert.Equal(All(sums).Last(s => s <= sums[a] - sums[b]), sums[sums.Difference(a, b)]);
        }
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(2, 0)]
    [InlineData(3, 1)]
    [InlineData(4, 1)]
    [InlineData(5, 2)]
    [InlineData(15, 11)]
    [InlineData(99, 11)]
    public void The_rank_of_a_length_is_that_of_the_longest_that_fits_it(long length, int rank) =>
        Assert.Equal(rank, Of(15, 5, 3).RankOf(length));

    [Fact]
    public void Cuts_are_the_lengths_that_remain_when_each_is_pushed_as_far_as_it_goes()
    {
        // Along 13, of 0, 3, 5, 6, 8, 9, 10, 11, 12, 13: what remains beyond each is 13, 10, 8, 6 (of 7), 5, 3 (of 4), 3, 0, 0, 0.
        var sums = Of(13, 5, 3);
        Assert.Equal([0L, 3, 5, 6, 8, 10, 13], sums.CutsOf(9).ToArray().Select(rank => sums[rank]));
        Assert.Equal([0L, 3], sums.CutsOf(1).ToArray().Select(rank => sums[rank]));
        Assert.Equal([0], sums.CutsOf(0).ToArray());
        // Asked again, the same.
        Assert.Equal([0L, 3, 5, 6, 8, 10, 13], sums.CutsOf(9).ToArray().Select(rank => sums[rank]));
    }

    [Fact]
    public void Partitions_of_a_side_are_those_of_its_length()
    {
        var sums = Of(17, 5, 3);
        var known = sums.PartitionsOf(sums.Count - 1);
        Assert.Equal((17, 3, 5), (sums[sums.Count - 1], known.MostLengths, known.MostWidths));
        Assert.Same(known, sums.PartitionsOf(sums.Count - 1));
    }
}
