using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

public class ForceTests
{
    [Fact]
    public void One_pound_force_is_the_weight_of_one_pound()
    {
        // Exact by definition: 0.45359237 kg × 9.80665 m/s² (standard gravity, 3rd CGPM, 1901).
        Close.To(4.4482216152605, Force.WeightOf(Mass.FromPounds(1)).Newtons, 1e-15);
        Close.To(1, Force.WeightOf(Mass.FromPounds(1)).PoundsForce, 1e-15);
        Close.To(4.4482216152605, Force.FromPoundsForce(1).Newtons, 1e-15);
        Assert.Equal("562.27 lbf", Force.FromPoundsForce(562.27).ToString());
    }

    [Fact]
    public void A_mass_held_is_the_mass_whose_weight_it_is() =>
        Gen.Double[0.01, 50_000].Sample(pounds =>
            Close.To(pounds, Force.WeightOf(Mass.FromPounds(pounds)).MassHeld().Pounds, 1e-9));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_not_finite_is_refused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Force.FromNewtons(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Force.FromPoundsForce(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Force.FromNewtons(1) * value);
    }

    [Fact]
    public void Dividing_by_nothing_and_running_over_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Force.FromNewtons(1) / 0);
        Assert.Throws<ArgumentOutOfRangeException>(() => Force.FromNewtons(double.MaxValue) + Force.FromNewtons(double.MaxValue));
    }

    [Fact]
    public void Forces_add_scale_and_compare()
    {
        var two = Force.FromNewtons(2);
        var three = Force.FromNewtons(3);
        Assert.Equal(Force.FromNewtons(5), two + three);
        Assert.Equal(Force.FromNewtons(-1), two - three);
        Assert.Equal(Force.FromNewtons(-2), -two);
        Assert.Equal(Force.FromNewtons(6), 2 * three);
        Assert.Equal(Force.FromNewtons(1.5), three / 2);
        Assert.Equal(1.5, three / two);
        Assert.True(two < three && three > two && two <= three && three >= two);
        Assert.True(two.CompareTo(three) < 0);
        Assert.Equal(three, Force.Max(two, three));
        Assert.Equal(two, Force.Min(two, three));
        Assert.Equal(Force.Zero, default);
    }

    [Fact]
    public void Json_brings_a_force_back_to_the_last_bit_that_sixteen_digits_hold()
    {
        var force = Force.FromPoundsForce(562.266);
        var json = JsonSerializer.Serialize(force);
        Assert.EndsWith("\"unit\":\"NEW\"}", json);
        Close.To(force.Newtons, JsonSerializer.Deserialize<Force>(json).Newtons, 1e-15);
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Force>("""{"value":1,"unit":"KGM"}"""));
    }
}
