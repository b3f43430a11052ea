using CsCheck;
using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stability;

public class TippingTests
{
    // EN 12195-1 in share of g: a uniform load 40 in wide or 48 in long, centre of gravity at half height.
    [Theory]
    [InlineData(40, 60, 0.66667)]
    [InlineData(40, 72, 0.55556)]
    [InlineData(40, 80, 0.5)]
    [InlineData(40, 84, 0.47619)]
    [InlineData(40, 96, 0.41667)]
    [InlineData(48, 60, 0.8)]
    [InlineData(48, 66, 0.72727)]
    public void A_uniform_load_tips_at_base_over_height(double inchesOfBase, double height, double critical) =>
        Assert.Equal(critical, Tipping.CriticalAcceleration(Length.FromInches(inchesOfBase / 2), Length.FromInches(height / 2)), 5);

    [Fact]
    public void A_tall_load_on_a_half_size_metric_platform_tips_below_half_a_g() =>
        Assert.Equal(0.44444, Tipping.CriticalAcceleration(Length.FromMetres(0.4), Length.FromMetres(0.9)), 5);

    [Theory]
    [InlineData(40, 72, 0.5, true)]
    [InlineData(40, 72, 0.6, false)]
    [InlineData(40, 80, 0.5, true)]
    [InlineData(40, 84, 0.5, false)]
    [InlineData(48, 60, 0.8, true)]
    [InlineData(48, 66, 0.8, false)]
    public void Exactly_on_the_limit_stands_and_past_it_falls(double inchesOfBase, double height, double limit, bool stands) =>
        Assert.Equal(stands, Tipping.Stands(Length.FromInches(inchesOfBase / 2), Length.FromInches(height / 2), limit));

    [Theory]
    [InlineData(0.5, 2.0)]
    [InlineData(0.6, 1.6667)]
    [InlineData(0.7, 1.4286)]
    [InlineData(0.8, 1.25)]
    public void The_greatest_height_over_base_is_one_over_the_acceleration(double acceleration, double ratio) =>
        Close.To(ratio, Tipping.GreatestHeight(Length.FromInches(40), acceleration) / Length.FromInches(40), 1e-4);

    [Theory]
    [InlineData(0.5, 26.565)]
    [InlineData(0.6, 30.964)]
    [InlineData(0.8, 38.660)]
    public void A_test_table_tilts_to_the_equivalent_angle(double acceleration, double degrees) =>
        Assert.Equal(degrees, Tipping.EquivalentTiltAngle(acceleration), 3);

    [Fact]
    public void The_greatest_height_is_on_the_limit() =>
        Gen.Select(Gen.Double[10, 120], Gen.Double[0.1, 1]).Sample((side, acceleration) =>
        {
            var platform = Length.FromInches(side);
            var height = Tipping.GreatestHeight(platform, acceleration);
            Assert.True(Tipping.Stands(platform / 2, height / 2, acceleration));
            Assert.False(Tipping.Stands(platform / 2, height / 2 * 1.001, acceleration));
        });

    [Fact]
    public void A_higher_centre_of_gravity_never_stands_better() =>
        Gen.Select(Gen.Double[1, 60], Gen.Double[1, 60], Gen.Double[0, 60]).Sample((half, height, more) =>
            Assert.True(
                Tipping.CriticalAcceleration(Length.FromInches(half), Length.FromInches(height + more))
                <= Tipping.CriticalAcceleration(Length.FromInches(half), Length.FromInches(height))));

    [Fact]
    public void Past_the_edge_it_tips_of_itself_and_on_the_floor_never()
    {
        Assert.Equal(0, Tipping.CriticalAcceleration(Length.Zero, Length.FromInches(30)));
        Assert.Equal(0, Tipping.CriticalAcceleration(Length.FromInches(-2), Length.FromInches(30)));
        Assert.Equal(double.PositiveInfinity, Tipping.CriticalAcceleration(Length.FromInches(20), Length.Zero));
        Assert.Equal(double.PositiveInfinity, Tipping.CriticalAcceleration(Length.FromInches(20), Length.FromInches(-1)));
        Assert.Equal(0, Tipping.CriticalAcceleration(Length.Zero, Length.Zero));
        Assert.False(Tipping.Stands(Length.Zero, Length.FromInches(30), 0.5));
        Assert.True(Tipping.Stands(Length.Zero, Length.FromInches(30), 0));
    }

    [Fact]
    public void The_two_American_tiers_are_kept_apart()
    {
        // 49 CFR 393.102(a)(1) and (2) for an article of 2,000 lb: 1600/1000/1000 lbf and 870/1000/500 lbf; (b): 400 lbf down.
        var breaking = RoadAccelerations.UnitedStatesBreakingStrength;
        var working = RoadAccelerations.UnitedStatesWorkingLoad;
        var weight = Force.WeightOf(Mass.FromPounds(2000));
        Close.To(1600, (weight * breaking.Forward).PoundsForce, Close.Arithmetic);
        Close.To(1000, (weight * breaking.Rearward).PoundsForce, Close.Arithmetic);
        Close.To(1000, (weight * breaking.Lateral).PoundsForce, Close.Arithmetic);
        Close.To(870, (weight * working.Forward).PoundsForce, Close.Arithmetic);
        Close.To(1000, (weight * working.Rearward).PoundsForce, Close.Arithmetic);
        Close.To(500, (weight * working.Lateral).PoundsForce, Close.Arithmetic);
        Close.To(400, (weight * RoadAccelerations.UnitedStatesDownwardShare).PoundsForce, Close.Arithmetic);
    }

    [Fact]
    public void The_European_road_figures_are_the_editions_own()
    {
        // Load-securing slides by the International Road Transport Union; rearward 0.5 from memory.
        Assert.Equal((0.8, 0.5, 0.5, 0.6), Figures(RoadAccelerations.En12195Edition2010));
        Assert.Equal((0.8, 0.5, 0.5, 0.7), Figures(RoadAccelerations.En12195Edition2003));

        // CTU Code, road (partly from memory), and Quebec, C-24.2 r. 30 s. 3.
        Assert.Equal((0.8, 0.5, 0.5, 0.5), Figures(RoadAccelerations.CtuCodeRoad));
        Assert.Equal((0.8, 0.5, 0.5, 0.5), Figures(RoadAccelerations.Quebec));

        Assert.Equal(
            ["EN 12195-1:2010", "EN 12195-1:2003", "CTU Code, road", "49 CFR 393.102(a)(1)", "49 CFR 393.102(a)(2)", "C-24.2, r. 30, s. 3"],
            new[]
            {
                RoadAccelerations.En12195Edition2010, RoadAccelerations.En12195Edition2003, RoadAccelerations.CtuCodeRoad,
                RoadAccelerations.UnitedStatesBreakingStrength, RoadAccelerations.UnitedStatesWorkingLoad, RoadAccelerations.Quebec,
            }.Select(a => a.Source));

        static (double, double, double, double) Figures(RoadAccelerations a) => (a.Forward, a.Rearward, a.Lateral, a.LateralTilt);
    }
}
