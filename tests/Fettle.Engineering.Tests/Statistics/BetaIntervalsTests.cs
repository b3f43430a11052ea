using CsCheck;
using Fettle.Engineering.Statistics;

namespace Fettle.Engineering.Tests.Statistics;

public class BetaIntervalsTests
{
    // Values of R's binom package, as quoted in the tests of statsmodels.
    [Theory]
    [InlineData(18, 20, .716146742695748, .97862751197755)]
    [InlineData(4, 20, .07152005247873, .40822576251693)]
    public void Jeffreys_agrees_with_published_software(int successes, int trials, double low, double high)
    {
        var interval = Jeffreys.Interval(successes, trials);
        Close.To(low, interval.Low, 1e-7);
        Close.To(high, interval.High, 1e-7);
    }

    [Theory]
    [InlineData(18, 20, .6830172859809, .9876514728297)]
    [InlineData(4, 20, .05733399705, .43661400299667)]
    public void Clopper_and_Pearson_agree_with_published_software(int successes, int trials, double low, double high)
    {
        var interval = ClopperPearson.Interval(successes, trials);
        Close.To(low, interval.Low, 1e-7);
        Close.To(high, interval.High, 1e-7);
    }

    [Fact]
    public void Without_a_failure_the_cautious_end_has_a_closed_form() =>
        // (α/2)^(1/n), the "rule of three" for small samples.
        Gen.Int[1, 400].Sample(n =>
        {
            Close.To(Math.Pow(.025, 1.0 / n), ClopperPearson.Interval(n, n).Low, 1e-7);
            Assert.Equal(1, ClopperPearson.Interval(n, n).High);
            Assert.Equal(0, ClopperPearson.Interval(0, n).Low);
        });

    [Fact]
    public void The_cautious_interval_holds_the_others() =>
        Gen.Int[1, 300].SelectMany(n => Gen.Select(Gen.Const(n), Gen.Int[0, n])).Sample((n, x) =>
        {
            var cautious = ClopperPearson.Interval(x, n);
            var jeffreys = Jeffreys.Interval(x, n);
            Assert.True(cautious.Low <= jeffreys.Low + 1e-9 && cautious.High >= jeffreys.High - 1e-9);
            Assert.True(cautious.Contains((double)x / n) && jeffreys.Contains((double)x / n));
        });

    [Fact]
    public void Without_trials_little_is_known()
    {
        Assert.Equal(Interval.Anything, ClopperPearson.Interval(0, 0));
        Assert.Equal(Interval.Anything, Jeffreys.Interval(0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ClopperPearson.Interval(2, 1));
    }
}
