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
        Assert.Equal(0, Straps.OverTheTop(TwoTonnes, .5, .5, Tension, 90, safety: 1));

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

    // EN 12195-1:2010, by moments, from memory. 1000 kg, 1 m wide, centre of gravity 1.5 m up, 0.5 g: the moment missing is
    // (0.5 · 1.5 − 0.5) m · 9806.65 N = 2451.7 Nm, times 1.1 is 2696.8; a strap of 1000 N at 90° gives 1000 Nm, so 3; 30° halves it.
    [Theory]
    [InlineData(1, 1.5, .5, 1000, 90, Straps.SafetySideways, 3)]
    [InlineData(1, 1.5, .5, 1000, 30, Straps.SafetySideways, 6)]
    [InlineData(1, 1.5, .5, 2696.8, 90, Straps.SafetySideways, 2)]
    [InlineData(1, 1.5, .5, 2696.9, 90, Straps.SafetySideways, 1)]
    [InlineData(1, 1.5, .5, 1000, 90, Straps.SafetyForward, 4)]
    [InlineData(1, 1.5, .6, 1000, 90, Straps.SafetySideways, 5)]
    [InlineData(2, 1.5, .8, 1000, 90, Straps.SafetySideways, 2)]
    [InlineData(1, 1.5, .5, 9806.65 / 8, 90, 1, 2)]
    [InlineData(1, 1.0, .5, 1000, 90, Straps.SafetySideways, 0)]
    public void Straps_over_the_top_hold_a_tall_load_by_moments(
        double width, double height, double acceleration, double newtons, double angle, double safety, int straps) =>
        Assert.Equal(straps, Straps.OverTheTopAgainstTipping(
            Mass.FromKilograms(1000), Length.FromMetres(width), Length.FromMetres(height), acceleration, Force.FromNewtons(newtons), angle, safety));

    [Fact]
    public void A_wider_or_lower_load_never_needs_more_straps_against_tipping() =>
        Gen.Select(Gen.Double[0.5, 2], Gen.Double[0.2, 2], Gen.Double[0, 1], Gen.Double[0.1, 1]).Sample((width, height, c, more) =>
        {
            int Count(double w, double h) => Straps.OverTheTopAgainstTipping(TwoTonnes, Length.FromMetres(w), Length.FromMetres(h), c, Tension, 75, 1.1);
            Assert.True(Count(width + more, height) <= Count(width, height));
            Assert.True(Count(width, height + more) >= Count(width, height));
        });

    // 49 CFR 393.110(b) and (c), from memory.
    [Theory]
    [InlineData(5, 1_100, false, 1)]
    [InlineData(5, 1_100.1, false, 2)]
    [InlineData(5.01, 100, false, 2)]
    [InlineData(10, 5_000, false, 2)]
    [InlineData(10.01, 5_000, false, 3)]
    [InlineData(20, 5_000, false, 3)]
    [InlineData(20.01, 5_000, false, 4)]
    [InlineData(4, 5_000, true, 1)]
    [InlineData(10, 5_000, true, 1)]
    [InlineData(10.01, 5_000, true, 2)]
    [InlineData(30, 5_000, true, 3)]
    public void A_longer_article_needs_more_tie_downs(double feet, double pounds, bool blocked, int straps) =>
        Assert.Equal(straps, Straps.ByLength(Length.FromFeet(feet), Mass.FromPounds(pounds), blocked));

    [Fact]
    public void What_no_strap_does_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.HoldingUpright(TwoTonnes, Length.FromMetres(1), Length.FromMetres(1), .5, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.ByLength(Length.Zero, TwoTonnes, false));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTopAgainstTipping(TwoTonnes, Length.Zero, Length.FromMetres(1), .5, Tension, 90, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTopAgainstTipping(TwoTonnes, Length.FromMetres(1), Length.FromMetres(1), .5, Force.Zero, 90, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTopAgainstTipping(TwoTonnes, Length.FromMetres(1), Length.FromMetres(1), .5, Tension, 90, .99));

        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, 0, .5, Tension, 90, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Force.Zero, 90, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 0, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 91, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 90, .9));
        Assert.Throws<ArgumentOutOfRangeException>(() => Straps.OverTheTop(TwoTonnes, .3, .5, Tension, 90, double.NaN));
    }
}
