using CsCheck;
using Fettle.Engineering.Statistics;

namespace Fettle.Engineering.Tests.Statistics;

public class WilsonTests
{
    // R's binom package as quoted in the tests of statsmodels; the last row is arithmetic.
    [Theory]
    [InlineData(18, 20, .6989663547715128, .972133518786232)]
    [InlineData(4, 20, .0806576625797981, .4160174322518935)]
    [InlineData(4, 200, .00780442641634947, .05028708690582643)]
    [InlineData(19, 38, .348499283643951, .651500716356049)]
    [InlineData(0, 10, 0, .2775327998628892)]
    public void Agrees_with_published_software(int successes, int trials, double low, double high)
    {
        var interval = Wilson.Interval(successes, trials);
        Assert.Equal(low, interval.Low, 1e-12);
        Assert.Equal(high, interval.High, 1e-12);
    }

    // Newcombe, Statistics in Medicine 17, 1998 (from memory; arithmetic agrees).
    [Theory]
    [InlineData(81, 263, .2553, .3662)]
    [InlineData(15, 148, .0624, .1605)]
    [InlineData(0, 20, .0000, .1611)]
    [InlineData(1, 29, .0061, .1718)]
    public void Agrees_with_Newcombes_table(int successes, int trials, double low, double high)
    {
        var interval = Wilson.Interval(successes, trials);
        Assert.Equal(low, interval.Low, 4);
        Assert.Equal(high, interval.High, 4);
    }

    [Fact]
    public void Agrees_with_R_on_a_hundred_of_two_hundred()
    {
        // R, package DescTools.
        Assert.Equal(.4313609, Wilson.Interval(100, 200).Low, 7);
        Assert.Equal(.5686391, Wilson.Interval(100, 200).High, 7);
        Assert.Equal(.442235, Wilson.AtLeast(100, 200), 6);
        Assert.Equal(.557765, Wilson.AtMost(100, 200), 6);
    }

    [Fact]
    public void Without_trials_anything_is_possible()
    {
        Assert.Equal(new Interval(0, 1), Wilson.Interval(0, 0));
        Assert.Equal(0, Wilson.AtLeast(0, 0));
        Assert.Equal(1, Wilson.AtMost(0, 0));
    }

    [Fact]
    public void None_and_all_reach_the_ends()
    {
        for (var n = 1; n < 200; n++)
        {
            Assert.Equal(0, Wilson.Interval(0, n).Low);
            Assert.Equal(1, Wilson.Interval(n, n).High);
        }
    }

    [Fact]
    public void Holds_the_rate_and_mirrors_failures() =>
        Gen.Int[1, 5000].SelectMany(n => Gen.Select(Gen.Const(n), Gen.Int[0, n], Gen.Double[.5, .999])).Sample((n, x, confidence) =>
        {
            var seen = Wilson.Interval(x, n, confidence);
            Assert.True(seen.Contains((double)x / n));
            Assert.InRange(seen.Low, 0, seen.High);
            Assert.InRange(seen.High, seen.Low, 1);
            var failures = Wilson.Interval(n - x, n, confidence);
            Assert.Equal(seen.Low, 1 - failures.High, 1e-12);
            Assert.Equal(seen.High, 1 - failures.Low, 1e-12);
            Assert.True(Wilson.AtLeast(x, n, confidence) >= seen.Low);
            Assert.True(Wilson.AtMost(x, n, confidence) <= seen.High);
        });

    [Fact]
    public void More_evidence_of_the_same_rate_is_surer() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[0, 40], Gen.Int[2, 20]).Sample((n, extra, times) =>
            Assert.True(Wilson.Interval(n * times, (n + extra) * times).Width < Wilson.Interval(n, n + extra).Width));

    [Theory]
    [InlineData(-1, 10, .95)]
    [InlineData(11, 10, .95)]
    [InlineData(0, -1, .95)]
    [InlineData(1, 10, 0)]
    [InlineData(1, 10, 1)]
    [InlineData(1, 10, double.NaN)]
    public void Impossible_counts_and_confidences_are_refused(int successes, int trials, double confidence) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Wilson.Interval(successes, trials, confidence));
}
