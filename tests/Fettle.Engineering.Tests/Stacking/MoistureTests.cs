using CsCheck;
using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stacking;

public class MoistureTests
{
    // Kellicut and Landt, Forest Products Laboratory, 1951; formula from memory, values by arithmetic.
    [Theory]
    [InlineData(.08, .12, .7579)]
    [InlineData(.08, .16, .5744)]
    [InlineData(.08, .08, 1)]
    public void Damp_board_keeps_a_power_of_ten_of_its_strength(double first, double second, double left) =>
        Assert.Equal(left, Moisture.StrengthLeft(first, second), 4);

    [Fact]
    public void Getting_damp_in_two_steps_is_getting_damp_once() =>
        Gen.Select(Gen.Double[0, .3], Gen.Double[0, .3], Gen.Double[0, .3]).Sample((a, b, c) =>
            Close.To(Moisture.StrengthLeft(a, c), Moisture.StrengthLeft(a, b) * Moisture.StrengthLeft(b, c), 1e-12));

    [Fact]
    public void More_moisture_never_strengthens() =>
        Gen.Select(Gen.Double[0, .3], Gen.Double[0, .3], Gen.Double[0, .3]).Sample((at, second, more) =>
            Assert.True(Moisture.StrengthLeft(at, second + more) <= Moisture.StrengthLeft(at, second)));

    [Fact]
    public void Percentages_are_not_shares() => Assert.Throws<ArgumentOutOfRangeException>(() => Moisture.StrengthLeft(8, 12));
}

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
    public void Both_ways_at_once_cost_both() =>
        Assert.Equal(.75 * .75, Offset.StrengthLeft(Length.FromInches(2), Length.FromInches(-2), Side, Side), 12);
}
