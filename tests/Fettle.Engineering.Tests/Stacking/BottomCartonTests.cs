using CsCheck;
using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Stacking;

public class BottomCartonTests
{
    [Fact]
    public void The_worked_carton_bears_ten_above_itself_and_not_eleven()
    {
        // Worked from the handbook's factors: 269.89 lb left, cartons of 25 lb.
        var carton = Mass.FromPounds(25);
        var usable = Force.FromPoundsForce(269.89);
        Close.To(250, BottomCarton.LoadOnBottom(carton, 11).PoundsForce, Close.Arithmetic);
        Close.To(269.89 / 250, BottomCarton.Safety(usable, BottomCarton.LoadOnBottom(carton, 11)), Close.Arithmetic);
        Assert.True(BottomCarton.Safety(usable, BottomCarton.LoadOnBottom(carton, 12)) < 1);
        Close.To(19.89, BottomCarton.Spare(usable, BottomCarton.LoadOnBottom(carton, 11), 1).PoundsForce, Close.Arithmetic);
        Assert.Equal(Force.Zero, BottomCarton.Spare(usable, BottomCarton.LoadOnBottom(carton, 12), 1));
    }

    [Fact]
    public void The_rule_of_thumb_of_three_and_a_half_allows_seven_layers()
    {
        // 562.266 lb / 3.5 = 160.65 lb: 150 lb above the lowest, and not 175.
        double Safety(int layers) => BottomCarton.Safety(Force.FromPoundsForce(562.266), BottomCarton.LoadOnBottom(Mass.FromPounds(25), layers));
        Assert.Equal((true, false), (Safety(7) >= 3.5, Safety(8) >= 3.5));
    }

    [Fact]
    public void A_carton_alone_bears_nothing()
    {
        Assert.Equal(Force.Zero, BottomCarton.LoadOnBottom(Mass.FromPounds(25), 1));
        Assert.Equal(double.PositiveInfinity, BottomCarton.Safety(Force.FromPoundsForce(1), Force.Zero));
        Assert.Equal(double.PositiveInfinity, BottomCarton.Safety(Force.Zero, Force.Zero));
        Assert.Equal(Force.FromPoundsForce(100), BottomCarton.Spare(Force.FromPoundsForce(150), Force.Zero, 1.5));
    }

    [Fact]
    public void Removing_a_layer_never_lowers_safety() =>
        Gen.Select(Gen.Double[1, 2000], Gen.Double[1, 80], Gen.Int[2, 30]).Sample((usable, carton, layers) =>
        {
            double With(int count) => BottomCarton.Safety(Force.FromPoundsForce(usable), BottomCarton.LoadOnBottom(Mass.FromPounds(carton), count));
            Assert.True(With(layers - 1) >= With(layers));
        });

    [Fact]
    public void What_is_spare_is_the_most_that_keeps_the_wanted_safety() =>
        Gen.Select(Gen.Double[1, 2000], Gen.Double[1, 80], Gen.Int[1, 30], Gen.Double[1, 6]).Sample((usable, pounds, layers, wanted) =>
        {
            var strength = Force.FromPoundsForce(usable);
            var load = BottomCarton.LoadOnBottom(Mass.FromPounds(pounds), layers);
            var spare = BottomCarton.Spare(strength, load, wanted);
            if (spare == Force.Zero)
                Assert.True(BottomCarton.Safety(strength, load) <= wanted * (1 + 1e-8));
            else
                Close.To(wanted, BottomCarton.Safety(strength, load + spare), 1e-8);
        });

    [Fact]
    public void What_no_stack_has_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.LoadOnBottom(Mass.FromPounds(25), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.LoadOnBottom(Mass.FromPounds(-25), 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => BottomCarton.Spare(Force.FromPoundsForce(100), Force.Zero, 0));
    }
}
