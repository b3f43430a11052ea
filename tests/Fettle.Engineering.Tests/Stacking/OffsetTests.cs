using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stacking;

public class OffsetTests
{
    private static readonly Length Side = Length.FromInches(20);

    // Park, Michigan State University, 2010: 2.5 % lost for every 1 % of offset.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(.2, .975)]
    [InlineData(-.2, .975)]
    [InlineData(2, .75)]
    [InlineData(8, 0)]
    [InlineData(20, 0)]
    public void Each_percent_of_offset_costs_two_and_a_half(double inches, double left) =>
        Assert.Equal(left, Offset.StrengthLeft(Length.FromInches(inches), Length.Zero, Side, Side), 12);

    [Fact]
    public void A_carton_without_a_side_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Offset.StrengthLeft(Length.Zero, Length.Zero, Length.Zero, Side));
        Assert.Throws<ArgumentOutOfRangeException>(() => Offset.StrengthLeft(Length.Zero, Length.Zero, Side, Length.Zero));
    }

    [Fact]
    public void Both_ways_at_once_cost_both() =>
        Assert.Equal(.75 * .75, Offset.StrengthLeft(Length.FromInches(2), Length.FromInches(-2), Side, Side), 12);
}
