using Fettle.Engineering.TrailerFloor;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class StripTests
{
    [Fact]
    public void A_kind_stands_in_every_way_that_fits_across()
    {
        Assert.Equal([new(0, 4, 5), new(0, 5, 4)], Strip(5, (5, 4, 1, true)).Stances);
        Assert.Equal([new(0, 4, 5)], Strip(4, (5, 4, 1, true)).Stances);
        Assert.Equal([new(0, 4, 5)], Strip(9, (5, 4, 1, false)).Stances);
        Assert.Equal([new(0, 4, 4)], Strip(9, (4, 4, 1, true)).Stances);
        Assert.Equal([new(1, 2, 3)], Strip(9, (5, 4, 0, true), (3, 2, 1, false)).Stances);
    }

    [Fact]
    public void Counts_area_and_total_are_those_of_all_units()
    {
        var strip = Strip(9, (5, 4, 2, true), (3, 2, 3, true));
        Assert.Equal([2, 3], strip.Counts);
        Assert.Equal((5, (Int128)58), (strip.Total, strip.Area));
        // Too large for 64 bits: a kilometre in nanometres, squared, fifty times.
        Assert.Equal((Int128)1_000_000_000_000 * 1_000_000_000_000 * 50, Strip(1, (1_000_000_000_000, 1_000_000_000_000, 50, true)).Area);
    }

    // By hand: units of 4 and 6, one each, and 4 turned is 9.
    [Fact]
    public void Sums_are_of_different_units_each_in_one_stance()
    {
        var strip = Strip(14, (9, 4, 1, true), (7, 6, 1, false));
        Assert.Equal([0, 4, 6, 9, 10], strip.AcrossSums!);
        Assert.Equal(10, strip.Width);
        Assert.Equal([0, 4, 7, 9, 11, 16], strip.AlongSums(16)!);
        Assert.Equal([0, 4, 7, 9, 11], strip.AlongSums(15)!);
        Assert.Equal([0, 3, 6, 9], Strip(9, (5, 3, 9, false)).AcrossSums!);
        Assert.Equal([0, 3, 6], Strip(9, (5, 3, 2, false)).AcrossSums!);
        Assert.Equal([0, 3, 5, 6, 8, 10], Strip(10, (5, 3, 2, true)).AcrossSums!);
    }

    [Fact]
    public void A_width_that_units_fill_stays_whole() =>
        Assert.Equal((10, 9), (Strip(10, (5, 4, 3, true)).Width, Strip(9, (5, 4, 3, true)).Width));

    // Nine of 1, of 10 and of 100, and five of 1,000 across: every width from 0 to 5,999.
    [Fact]
    public void Too_many_sums_are_not_listed()
    {
        (long, long, int, bool)[] kinds = [(1, 1, 9, true), (10, 10, 9, true), (100, 100, 9, true), (1_000, 1_000, 5, true)];
        Assert.Equal(5_000, Strip(4_999, kinds).AcrossSums!.Length);
        var many = Strip(5_000, kinds);
        Assert.Null(many.AcrossSums);
        Assert.Equal(5_000, many.Width);
        Assert.Null(many.AlongSums(5_000));
        Assert.Equal(5_000, many.AlongSums(4_999)!.Length);
    }
}
