using CsCheck;
using Fettle.Engineering.Stacking;

namespace Fettle.Engineering.Tests.Stacking;

public class MoistureTests
{
    // Kellicut and Landt, Forest Products Laboratory, 1951; formula from memory, values by arithmetic.
    [Theory]
    [InlineData(.08, .12, .7579)]
    [InlineData(.08, .16, .5744)]
    [InlineData(.08, .08, 1)]
    [InlineData(1, 1, 1)]
    [InlineData(0, 0, 1)]
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
