using CsCheck;
using Fettle.Engineering.Statistics;

namespace Fettle.Engineering.Tests.Statistics;

public class BetaRateTests
{
    // Robinson's series on empirical Bayes with batting averages, 2015: prior Beta(78.661, 224.875).
    [Theory]
    [InlineData(300, 1000, .2905)]
    [InlineData(4, 10, .264)]
    [InlineData(2930, 8173, .355)]
    [InlineData(516, 3028, .178)]
    public void Few_trials_are_drawn_to_the_usual_rate_and_many_stay(int hits, int atBats, double estimate)
    {
        var prior = new BetaRate(78.661, 224.875);
        Assert.Equal(.259, prior.Mean, 3);
        Assert.InRange(prior.After(hits, atBats).Mean, estimate - 5e-4, estimate + 5e-4);
    }

    [Fact]
    public void A_prior_worth_three_hundred_trials_weighs_as_three_hundred_trials()
    {
        // The same author's book: Beta(81, 219), 100 of 300: 181/600.
        Assert.Equal(181.0 / 600, new BetaRate(81, 219).After(100, 300).Mean, 14);
        var other = new BetaRate(101.4, 287.3);
        Assert.Equal(.2890, other.After(300, 1000).Mean, 4);
        Assert.Equal(.2644, other.After(4, 10).Mean, 4);
    }

    [Fact]
    public void The_rat_data_are_the_published_ones()
    {
        Assert.Equal(71, RatTumours.Groups.Count);
        Assert.Equal(267, RatTumours.Groups.Sum(g => g.Successes));
        Assert.Equal(1739, RatTumours.Groups.Sum(g => g.Trials));
    }

    [Fact]
    public void Moments_of_the_first_seventy_experiments_give_the_books_prior()
    {
        // Bayesian Data Analysis, chapter 5: mean .136, sd .103, alpha 1.4, beta 8.6.
        var rates = RatTumours.Groups.Take(70).Select(g => (double)g.Successes / g.Trials).ToArray();
        var mean = rates.Average();
        var deviation = Math.Sqrt(rates.Sum(r => (r - mean) * (r - mean)) / (rates.Length - 1));
        Assert.Equal(.13601, mean, 5);
        Assert.Equal(.10349, deviation, 5);
        var prior = BetaRate.FromMoments(mean, deviation);
        Assert.Equal(1.356, prior.Alpha, 3);
        Assert.Equal(8.615, prior.Beta, 3);
        Assert.Equal(mean, prior.Mean, 12);
        Assert.Equal(deviation, prior.Deviation, 12);
        Assert.Equal(.223, prior.After(4, 14).Mean, 3);
    }

    [Fact]
    public void The_current_experiment_after_the_books_rounded_prior()
    {
        var current = new BetaRate(1.4, 8.6).After(4, 14);
        Assert.Equal((5.4, 18.6), (current.Alpha, current.Beta));
        Assert.Equal(.225, current.Mean, 3);
        Assert.Equal(.0835, current.Deviation, 4);
        var credible = current.Credible();
        Assert.Equal(.0854, credible.Low, 4);
        Assert.Equal(.4078, credible.High, 4);
    }

    [Fact]
    public void The_likeliest_prior_of_all_seventy_one()
    {
        var prior = BetaRate.MostLikely(RatTumours.Groups);
        Assert.NotNull(prior);
        Close.To(2.3416, prior.Value.Alpha, 1e-4);
        Close.To(14.1148, prior.Value.Beta, 1e-4);
        Assert.Equal(.20822, prior.Value.After(4, 14).Mean, 5);
        Assert.Equal(.06423, prior.Value.After(0, 20).Mean, 5);
    }

    [Fact]
    public void The_hierarchical_belief_about_the_prior_is_the_books()
    {
        // Bayesian Data Analysis, chapter 5 (from memory; arithmetic agrees): with p(α, β) ∝ (α + β)^(−5/2) the mode in
        // (log α/β, log (α + β)) is (−1.79, 2.74), and the posterior means of α and β are 2.40 and 14.3.
        var grid = new List<(double LogOdds, double LogTrials, BetaRate Prior, double Log)>();
        for (var logOdds = -2.4; logOdds <= -1.2; logOdds += .01)
        {
            for (var logTrials = 1.0; logTrials <= 6; logTrials += .05)
            {
                var (trials, mean) = (Math.Exp(logTrials), 1 / (1 + Math.Exp(-logOdds)));
                var prior = new BetaRate(mean * trials, (1 - mean) * trials);
                grid.Add((logOdds, logTrials, prior, Math.Log(prior.Alpha * prior.Beta) - 2.5 * logTrials + prior.LogLikelihood(RatTumours.Groups)));
            }
        }

        var top = grid.MaxBy(g => g.Log);
        Assert.Equal(-1.79, top.LogOdds, .02);
        Assert.Equal(2.74, top.LogTrials, .06);
        var whole = grid.Sum(g => Math.Exp(g.Log - top.Log));
        Assert.Equal(2.40, grid.Sum(g => Math.Exp(g.Log - top.Log) * g.Prior.Alpha) / whole, 2);
        Assert.Equal(14.3, grid.Sum(g => Math.Exp(g.Log - top.Log) * g.Prior.Beta) / whole, 1);
    }

    [Fact]
    public void Likelihood_is_that_of_the_beta_binomial()
    {
        // By hand: under Beta(1, 1) three of three has 1 · 2 · 3 / (2 · 3 · 4) = 1/4 chance, and one of two (uncounted order) 1 · 1 / (2 · 3) = 1/6.
        Assert.Equal(Math.Log(1 / 4.0), BetaRate.Uniform.LogLikelihood([(3, 3)]), 12);
        Assert.Equal(Math.Log(1 / 24.0), BetaRate.Uniform.LogLikelihood([(3, 3), (1, 2)]), 12);
        // Many factors: 1 / (n + 1) for all of n.
        Assert.Equal(-Math.Log(101), BetaRate.Uniform.LogLikelihood([(100, 100)]), 9);
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaRate.Uniform.LogLikelihood([(3, 2)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BetaRate(0, 1).LogLikelihood([(1, 2)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BetaRate(1, 0).LogLikelihood([(1, 2)]));
    }

    [Fact]
    public void Likelihood_is_factor_for_factor_that_of_groups_short_and_long() =>
        Gen.Select(Gen.Double[-6, 6], Gen.Double[-6, 6], Gen.Int[0, 60].SelectMany(x => Gen.Int[x, 2000].Select(n => (Successes: x, Trials: n))).Array[0, 20]).Sample((a, b, groups) =>
        {
            var prior = new BetaRate(Math.Pow(10, a), Math.Pow(10, b));
            // Whole numbers first: a tiny prior added to them and taken off again would be another.
            double sum = 0, size = 1;
            foreach (var (x, n) in groups)
            {
                for (var i = 0; i < n; i++)
                {
                    var (above, below) = (i < x ? Math.Log(prior.Alpha + i) : Math.Log(prior.Beta + (i - x)), Math.Log(prior.Alpha + prior.Beta + i));
                    (sum, size) = (sum + above - below, size + Math.Abs(above) + Math.Abs(below));
                }
            }

            // Of gamma functions of a strong prior, z ln z large, the difference is what is left: some of their last digits are lost.
            var strong = prior.Alpha + prior.Beta + 2000;
            Assert.Equal(sum, prior.LogLikelihood(groups), (1e-13 * size * Math.Sqrt(1 + groups.Length)) + (1e-15 * strong * Math.Log(strong) * (1 + groups.Length)));
        });

    [Fact]
    public void A_coarser_search_comes_near_the_same_prior()
    {
        var prior = BetaRate.MostLikely(RatTumours.Groups, 1e-3)!.Value;
        Close.To(2.3416 / (2.3416 + 14.1148), prior.Mean, 2e-3);
        Close.To(2.3416 + 14.1148, prior.Alpha + prior.Beta, .05);
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaRate.MostLikely(RatTumours.Groups, 0));
    }

    [Fact]
    public void Groups_that_differ_no_more_than_chance_shrink_to_their_common_rate()
    {
        var prior = BetaRate.MostLikely([(10, 100), (10, 100), (10, 100)]);
        Assert.NotNull(prior);
        Assert.True(prior.Value.Alpha + prior.Value.Beta > 1e4);
        Assert.Equal(.1, prior.Value.Mean, 5);
        Assert.Equal(.1, prior.Value.After(5, 10).Mean, 2);
    }

    [Fact]
    public void What_says_nothing_about_a_prior_gives_none()
    {
        Assert.Null(BetaRate.MostLikely([]));
        Assert.Null(BetaRate.MostLikely([(3, 10)]));
        Assert.Null(BetaRate.MostLikely([(3, 10), (0, 0)]));
        Assert.Null(BetaRate.MostLikely([(0, 10), (0, 20)]));
        Assert.Null(BetaRate.MostLikely([(10, 10), (20, 20)]));
    }

    [Fact]
    public void The_likeliest_prior_is_on_top_of_its_hill() =>
        Gen.Int[0, 12].SelectMany(x => Gen.Int[x, 40].Select(n => (Successes: x, Trials: n))).Array[2, 12].Sample(
            groups =>
            {
                if (BetaRate.MostLikely(groups) is not { } best)
                    return;
                double Likelihood(BetaRate prior)
                {
                    double sum = 0;
                    foreach (var (x, n) in groups)
                    {
                        for (var i = 0; i < x; i++)
                            sum += Math.Log(prior.Alpha + i);
                        for (var i = 0; i < n - x; i++)
                            sum += Math.Log(prior.Beta + i);
                        for (var i = 0; i < n; i++)
                            sum -= Math.Log(prior.Alpha + prior.Beta + i);
                    }

                    return sum;
                }

                var top = Likelihood(best);
                foreach (var (a, b) in new[] { (1.05, 1.0), (1.0, 1.05), (0.95, 1.0), (1.0, 0.95), (1.05, 1.05), (0.95, 0.95) })
                {
                    // At the edges of the search (priors of a thousandth or a million trials) the hill may go on.
                    if (best.Alpha + best.Beta is > 2e-3 and < 9e5)
                        Assert.True(Likelihood(new BetaRate(best.Alpha * a, best.Beta * b)) <= top + 1e-9);
                }
            },
            iter: 60);

    [Fact]
    public void Shrinking_moves_every_rate_towards_the_mean_and_keeps_their_order_at_equal_trials() =>
        Gen.Select(Gen.Double[.5, 50], Gen.Double[.5, 50], Gen.Int[1, 200]).SelectMany((a, b, n) => Gen.Select(Gen.Const((a, b, n)), Gen.Int[0, n - 1])).Sample((prior, x) =>
        {
            var rate = new BetaRate(prior.a, prior.b);
            var after = rate.After(x, prior.n).Mean;
            var seen = (double)x / prior.n;
            Assert.InRange(after, Math.Min(seen, rate.Mean) - 1e-12, Math.Max(seen, rate.Mean) + 1e-12);
            Assert.True(rate.After(x + 1, prior.n).Mean > after);
        });

    [Fact]
    public void Moments_that_no_beta_distribution_has_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaRate.FromMoments(.5, .5));
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaRate.FromMoments(0, .1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaRate.FromMoments(.5, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => BetaRate.Uniform.After(3, 2));
    }

    [Fact]
    public void A_quantile_is_the_librarys_wherever_it_was_looked_for() =>
        // Trials from a thousandth to a million, so that the guess is good, poor and useless. Math.NET's own search, over all rates, beside it.
        Gen.Select(Gen.Double[-7, 14], Gen.Double[-9, 9], Gen.Double[.001, .999]).Sample(
            (logTrials, odds, p) =>
            {
                var (trials, mean) = (Math.Exp(logTrials), 1 / (1 + Math.Exp(-odds)));
                var rate = new BetaRate(trials * mean, trials * (1 - mean));
                Assert.InRange(rate.Quantile(p) - MathNet.Numerics.Distributions.Beta.InvCDF(rate.Alpha, rate.Beta, p), -1e-9, 1e-9);
            },
            iter: 2_000);

    [Fact]
    public void The_uniform_belief_after_all_successes_has_a_closed_form() =>
        // Beta(n + 1, 1): the quantile is p^(1 / (n + 1)).
        Gen.Select(Gen.Int[0, 500], Gen.Double[.001, .999]).Sample((n, p) =>
            Close.To(Math.Pow(p, 1.0 / (n + 1)), BetaRate.Uniform.After(n, n).Quantile(p), 1e-7));
}
