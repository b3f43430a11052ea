using CsCheck;
using Fettle.Engineering.Axles;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Axles;

/// <summary>23 USC 127 and 23 CFR 658.17, with the rounding of the agency's own freight questions and answers.</summary>
public class BridgeFormulaTests
{
    [Theory]
    [InlineData(51, 5, 80_000)] // 79,875 before rounding
    [InlineData(48, 5, 78_000)]
    [InlineData(41, 4, 69_500)] // 69,333 before rounding
    [InlineData(58, 5, 84_000)] // 84,250: exactly between two steps, the lower one; the cap of 80,000 comes first
    [InlineData(36, 4, 66_000)]
    public void Gives_the_worked_values_to_the_nearest_five_hundred(double feet, int axles, double pounds) =>
        Assert.Equal(Mass.FromPounds(pounds), BridgeFormula.Allowed(Length.FromFeet(feet), axles));

    [Fact]
    public void Two_tandems_thirty_six_feet_apart_may_carry_sixty_eight_thousand()
    {
        Assert.Equal(Mass.FromPounds(68_000), BridgeFormula.AllowedTandemPair(Length.FromFeet(36)));
        Assert.Equal(BridgeFormula.Allowed(Length.FromFeet(35.9), 4), BridgeFormula.AllowedTandemPair(Length.FromFeet(35.9)));
        Assert.Equal(Mass.FromPounds(69_500), BridgeFormula.AllowedTandemPair(Length.FromFeet(41)));
    }

    [Fact]
    public void The_worked_vehicle_is_within_it()
    {
        var loads = TractorTrailer.Illustration.Carrying(Mass.FromPounds(44_200), Length.FromInches(263));
        Assert.InRange((loads.Drive + loads.Trailer).Pounds, 64_312, 64_314);
        Assert.True(loads.Drive + loads.Trailer <= BridgeFormula.AllowedTandemPair(Length.FromFeet(41)));
        Assert.True(loads.Gross <= BridgeFormula.Allowed(Length.FromFeet(58), 5));
    }

    [Fact]
    public void Longer_never_allows_less() =>
        Gen.Select(Gen.Double[8, 60], Gen.Double[0, 20], Gen.Int[2, 7]).Sample((feet, more, axles) =>
            Assert.True(BridgeFormula.Allowed(Length.FromFeet(feet + more), axles) >= BridgeFormula.Allowed(Length.FromFeet(feet), axles)));

    [Fact]
    public void One_axle_is_no_group() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BridgeFormula.Allowed(Length.FromFeet(10), 1));
}
