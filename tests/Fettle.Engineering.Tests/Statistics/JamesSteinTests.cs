using CsCheck;
using Fettle.Engineering.Statistics;

namespace Fettle.Engineering.Tests.Statistics;

public class JamesSteinTests
{
    [Fact]
    public void The_eighteen_batters_of_1970_keep_a_fifth_of_their_differences()
    {
        // Efron and Morris, "Stein's paradox in statistics", Scientific American 236, 1977: hits in 45 at bats; c = .212.
        double[] means = [.. new[] { 18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7 }.Select(hits => hits / 45.0)];
        var grand = means.Average();
        var shrunk = JamesStein.Shrink(means, grand * (1 - grand) / 45);
        Assert.Equal(.265432, shrunk.GrandMean, 6);
        Assert.Equal(.21165, shrunk.Kept, 5);
        Assert.Equal(.212, shrunk.Kept, 3);
        Assert.Equal(.294, shrunk.Estimates[0], 3);
        Assert.Equal(.242, shrunk.Estimates[^1], 3);
    }

    [Fact]
    public void Means_that_differ_less_than_chance_become_one_mean()
    {
        var shrunk = JamesStein.Shrink([.50, .51, .49, .50], 1);
        Assert.Equal(0, shrunk.Kept);
        Assert.All(shrunk.Estimates, e => Assert.Equal(.5, e, 12));
        Assert.All(JamesStein.Shrink([.3, .3, .3, .3], 0).Estimates, e => Assert.Equal(.3, e, 12));
    }

    [Fact]
    public void The_grand_mean_and_the_order_stay() =>
        Gen.Select(Gen.Double[0, 1].Array[4, 30], Gen.Double[0, .1]).Sample((means, variance) =>
        {
            var shrunk = JamesStein.Shrink(means, variance);
            Assert.Equal(means.Average(), shrunk.Estimates.Average(), 9);
            for (var i = 1; i < means.Length; i++)
                Assert.True((means[i] - means[i - 1]) * (shrunk.Estimates[i] - shrunk.Estimates[i - 1]) >= -1e-12);
        });

    [Fact]
    public void Three_means_are_too_few() => Assert.Throws<ArgumentOutOfRangeException>(() => JamesStein.Shrink([.1, .2, .3], .01));

    [Fact]
    public void A_variance_below_zero_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => JamesStein.Shrink([.1, .2, .3, .4], -.01));

    [Fact]
    public void An_interval_holds_what_lies_between_its_ends_and_nothing_else() =>
        Assert.Equal([false, true, true, true, false], new[] { .1, .2, .3, .4, .5 }.Select(new Interval(.2, .4).Contains));
}
