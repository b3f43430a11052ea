using CsCheck;
using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stability;

public class SlidingTests
{
    // EN 12195-1 worked with g = 9.81 m/s²; we take 9.80665, three hundredths of a percent less.
    [Theory]
    [InlineData(.45, .5, 490.5)]
    [InlineData(.45, .8, 3433.5)]
    [InlineData(.6, .5, 0)]
    public void What_friction_does_not_hold_is_missing(double friction, double acceleration, double newtons) =>
        Close.To(newtons, Sliding.Missing(Mass.FromKilograms(1000), friction, acceleration).Newtons, Close.Strength);

    [Fact]
    public void On_the_limit_the_load_stays()
    {
        Assert.True(Sliding.Holds(.5, .5));
        Assert.True(Sliding.Holds(0, 0));
        Assert.True(Sliding.Holds(.1 + .2, .3));
        Assert.True(Sliding.Holds(.3, .1 + .2));
        Assert.False(Sliding.Holds(.4999, .5));
    }

    [Fact]
    public void More_friction_never_leaves_more_missing() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1]).Sample((friction, more, acceleration) =>
            Assert.True(
                Sliding.Missing(Mass.FromKilograms(1000), friction + more, acceleration)
                <= Sliding.Missing(Mass.FromKilograms(1000), friction, acceleration)));

    // CTU Code, annex 7, appendix 2 (UNECE); the last three from memory.
    [Theory]
    [InlineData(Surfaces.WoodOnPlywood, .45)]
    [InlineData(Surfaces.WoodOnGroovedAluminium, .40)]
    [InlineData(Surfaces.WoodOnStainlessSteel, .30)]
    [InlineData(Surfaces.WoodOnShrinkFilm, .30)]
    [InlineData(Surfaces.PlanedWoodOnPlywood, .30)]
    [InlineData(Surfaces.PlanedWoodOnGroovedAluminium, .25)]
    [InlineData(Surfaces.PlanedWoodOnStainlessSteel, .20)]
    [InlineData(Surfaces.PlasticOnPlywood, .20)]
    [InlineData(Surfaces.PlasticOnGroovedAluminium, .15)]
    [InlineData(Surfaces.PlasticOnStainlessSteel, .15)]
    [InlineData(Surfaces.CardboardOnCardboard, .50)]
    [InlineData(Surfaces.CardboardOnWood, .50)]
    [InlineData(Surfaces.BigBagOnWood, .40)]
    [InlineData(Surfaces.RoughMetalOnRoughMetal, .40)]
    [InlineData(Surfaces.PaintedRoughMetal, .30)]
    [InlineData(Surfaces.PaintedSmoothMetal, .20)]
    [InlineData(Surfaces.SmoothMetalOnSmoothMetal, .20)]
    [InlineData(Surfaces.SteelCrateOnPlywood, .45)]
    [InlineData(Surfaces.SteelCrateOnGroovedAluminium, .30)]
    [InlineData(Surfaces.SteelCrateOnStainlessSteel, .20)]
    [InlineData(Surfaces.RoughConcreteOnWood, .70)]
    [InlineData(Surfaces.SmoothConcreteOnWood, .55)]
    [InlineData(Surfaces.AntiSlipMat, .60)]
    [InlineData(Surfaces.Unknown, .30)]
    public void Friction_is_the_codes(Surfaces surfaces, double friction)
    {
        Assert.Equal(friction, Friction.Static(surfaces));
        Assert.Equal(friction * .75, Friction.Dynamic(surfaces), 12);
    }
}
