using CsCheck;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stability;

public class StrapsTests
{
    private static readonly Mass TwoTonnes = Mass.FromKilograms(2000);
    private static readonly Force Tension = Force.FromNewtons(4000);

    // EN 12195-1:2010, formula from memory, worked with g = 9.81.
    [Theory]
    [InlineData(.45, .5, Straps.SafetySideways, 0.29975, 1)]
    [InlineData(.45, .8, Straps.SafetyForward, 2.3844, 3)]
    [InlineData(.30, .5, Straps.SafetySideways, 1.7985, 2)]
    public void Straps_over_the_top_are_counted_up(double friction, double acceleration, double safety, double exactly, int straps)
    {
        Close.To(exactly, Straps.OverTheTopExactly(TwoTonnes, friction, acceleration, Tension, 90, safety), Close.Strength);
        Assert.Equal(straps, Straps.OverTheTop(TwoTonnes, friction, acceleration, Tension, 90, safety));
    }

    [Fact]
    public void Enough_friction_needs_no_strap() =>
        Assert.Equal(0, Straps.OverTheTop(TwoTonnes, .5, .5, Tension, 90, Straps.SafetySideways));

    [Fact]
    public void A_flatter_strap_never_presses_harder() =>
        Gen.Select(Gen.Double[5, 90], Gen.Double[0.05, 1]).Sample((angle, share) =>
            Assert.True(
                Straps.OverTheTopExactly(TwoTonnes, .3, .8, Tension, angle * share, 1.25)
                >= Straps.OverTheTopExactly(TwoTonnes, .3, .8, Tension, angle, 1.25)));

    // 49 CFR 393.106(d), from memory: half the weight.
    [Theory]
    [InlineData(2000, 1000, 1)]
    [InlineData(2001, 1000, 2)]
    [InlineData(10_000, 1667, 3)]
    [InlineData(0, 1000, 0)]
    public void Working_load_limits_together_reach_half_the_weight(double pounds, double limit, int straps) =>
        Assert.Equal(straps, Straps.ByWorkingLoad(Mass.FromPounds(pounds), Force.FromPoundsForce(limit)));

    [Fact]
    public void A_tall_load_is_held_upright_by_moments_about_its_edge()
    {
        // By hand: 1000 lb, half base 20 in, centre of gravity 48 in, 0.5 g, strap at 80 in: (24 − 20) / 80 = 50 lbf.
        var held = Straps.HoldingUpright(Mass.FromPounds(1000), Length.FromInches(20), Length.FromInches(48), 0.5, Length.FromInches(80));
        Close.To(50, held.PoundsForce, 1e-12);
        Assert.Equal(Force.Zero, Straps.HoldingUpright(Mass.FromPounds(1000), Length.FromInches(20), Length.FromInches(40), 0.5, Length.FromInches(80)));
    }

    [Fact]
    public void A_higher_strap_never_pulls_harder() =>
        Gen.Select(Gen.Double[10, 40], Gen.Double[10, 80], Gen.Double[0, 1], Gen.Double[10, 100], Gen.Double[0, 50]).Sample((half, height, c, strap, more) =>
        {
            Force At(double inches) => Straps.HoldingUpright(Mass.FromPounds(1000), Length.FromInches(half), Length.FromInches(height), c, Length.FromInches(inches));
            Assert.True(At(strap + more) <= At(strap));
        });

    [Fact]
    public void A_bare_edge_crushes_far_sooner_than_one_under_a_board()
    {
        // Our own bound, no source: 32 lb/in under a 2 in strap bears 64 lbf, under a 24 in edge board twelve times that.
        var bare = Straps.CrushingTension(new Board(Flute.C, 32), Length.FromInches(2));
        Close.To(64, bare.PoundsForce, 1e-12);
        Close.To(12, Straps.CrushingTension(new Board(Flute.C, 32), Length.FromInches(24)) / bare, 1e-12);
        Close.To(0.48, Straps.CrushingTension(new Board(Flute.C, 32), Length.FromInches(2), 0.48) / bare, 1e-12);
    }

    [Fact]
    public void What_no_strap_does_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, 0, .5, Tension, 90, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Force.Zero, 90, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 0, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 91, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 90, .9));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 90, double.NaN));
    }
}
