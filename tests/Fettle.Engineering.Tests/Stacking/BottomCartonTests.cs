using CsCheck;
using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stacking;

public class BottomCartonTests
{
    [Fact]
    public void The_worked_carton_bears_ten_above_itself()
    {
        // Worked from the handbook's factors: 269.89 lb left, cartons of 25 lb.
        var carton = Mass.FromPounds(25);
        var usable = Force.FromPoundsForce(269.89);
        Assert.Equal(11, BottomCarton.SafeLayers(usable, carton));
        Close.To(250, BottomCarton.LoadOnBottom(carton, 11).PoundsForce, Close.Arithmetic);
        Close.To(269.89 / 250, BottomCarton.Safety(usable, BottomCarton.LoadOnBottom(carton, 11)), Close.Arithmetic);
    }

    [Fact]
    public void The_rule_of_thumb_of_three_and_a_half_allows_seven_layers() =>
        // 562.266 lb / 3.5 = 160.65 lb.
        Assert.Equal(7, BottomCarton.SafeLayers(Force.FromPoundsForce(562.266 / 3.5), Mass.FromPounds(25)));

    [Fact]
    public void Exactly_on_the_limit_counts_as_within_it()
    {
        Assert.Equal(11, BottomCarton.SafeLayers(Force.WeightOf(Mass.FromPounds(25)) * 10, Mass.FromPounds(25)));
        Assert.Equal(4, BottomCarton.SafeLayers(Force.WeightOf(Mass.FromPounds(0.1)) * 3, Mass.FromPounds(0.1)));
    }

    [Fact]
    public void A_carton_alone_bears_only_what_is_put_on_top()
    {
        Assert.Equal(Force.Zero, BottomCarton.LoadOnBottom(Mass.FromPounds(25), 1));
        Assert.Equal(Force.FromPoundsForce(100), BottomCarton.LoadOnBottom(Mass.FromPounds(25), 1, Force.FromPoundsForce(100)));
        Assert.Equal(double.PositiveInfinity, BottomCarton.Safety(Force.FromPoundsForce(1), Force.Zero));
        Assert.Equal(double.PositiveInfinity, BottomCarton.Safety(Force.Zero, Force.Zero));
        Assert.Equal(1, BottomCarton.SafeLayers(Force.Zero, Mass.FromPounds(25)));
    }

    [Fact]
    public void Removing_a_layer_never_lowers_safety() =>
        Gen.Select(Gen.Double[1, 2000], Gen.Double[1, 80], Gen.Int[2, 30], Gen.Double[0, 500]).Sample((usable, carton, layers, top) =>
        {
            double With(int count) => BottomCarton.Safety(
                Force.FromPoundsForce(usable),
                BottomCarton.LoadOnBottom(Mass.FromPounds(carton), count, Force.FromPoundsForce(top)));
            Assert.True(With(layers - 1) >= With(layers));
        });

    [Fact]
    public void Safe_layers_are_the_most_that_keep_the_wanted_safety() =>
        Gen.Select(Gen.Double[1, 2000], Gen.Double[1, 80], Gen.Double[1, 6]).Sample((usable, pounds, wanted) =>
        {
            var strength = Force.FromPoundsForce(usable);
            var carton = Mass.FromPounds(pounds);
            var layers = BottomCarton.SafeLayers(strength, carton, wanted);
            Assert.True(BottomCarton.Safety(strength, BottomCarton.LoadOnBottom(carton, layers)) >= wanted * (1 - 1e-8));
            Assert.True(BottomCarton.Safety(strength, BottomCarton.LoadOnBottom(carton, layers + 1)) < wanted * (1 + 1e-8));
        });

    [Fact]
    public void What_no_stack_has_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.LoadOnBottom(Mass.FromPounds(25), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.LoadOnBottom(Mass.FromPounds(-25), 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.SafeLayers(Force.FromPoundsForce(100), Mass.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.SafeLayers(Force.FromPoundsForce(-1), Mass.FromPounds(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.SafeLayers(Force.FromPoundsForce(100), Mass.FromPounds(1), 0));
    }

    [Fact]
    public void A_feather_on_a_strong_carton_does_not_run_over() =>
        Assert.Equal(int.MaxValue, BottomCarton.SafeLayers(Force.FromPoundsForce(1e9), Mass.FromNanograms(1)));
}
