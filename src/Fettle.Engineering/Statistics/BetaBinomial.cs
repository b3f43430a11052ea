namespace Fettle.Engineering.Statistics;

/// <summary>
/// What groups showed, arranged so that its likelihood under one prior after another is quick: counts that begin alike share
/// what is alike. The beta-binomial likelihood of a group is (α)ₓ (β)ₙ₋ₓ / (α + β)ₙ, where (a)ₓ = a (a + 1) … (a + x − 1).
/// </summary>
internal sealed class BetaBinomial
{
    private readonly Rising successes, failures, trials;

    /// <param name="groups">Successes and trials of each.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count is out of its range.</exception>
    public BetaBinomial(IReadOnlyCollection<(int Successes, int Trials)> groups)
    {
        foreach (var (x, n) in groups)
            Trials.Check(x, n);
        successes = new([.. groups.Select(group => group.Successes)]);
        failures = new([.. groups.Select(group => group.Trials - group.Successes)]);
        trials = new([.. groups.Select(group => group.Trials)]);
    }

    /// <summary>Logarithm of the likelihood, binomial coefficients left out.</summary>
    public double LogLikelihood(BetaRate prior) => LogLikelihoodOfMean(prior) - trials.Log(prior.Alpha + prior.Beta);

    /// <summary>The same without what priors that count for equally many trials have in common.</summary>
    public double LogLikelihoodOfMean(BetaRate prior) => successes.Log(prior.Alpha) + failures.Log(prior.Beta);

    /// <summary>Products of rising factors, one a count.</summary>
    private sealed class Rising
    {
        // From here on Stirling's series has its digits.
        private const int First = 20;

        // So many factors of up to 10³⁰ have a product.
        private const int Together = 10;

        private readonly List<(int From, int Until, int Times)> begun = [];
        private readonly int[] more;

        public Rising(int[] counts)
        {
            more = [.. counts.Where(count => count > First)];
            for (var i = 0; i < First && Array.Exists(counts, count => count > i); i++)
            {
                var times = counts.Count(count => count > i);
                if (i % Together > 0 && begun[^1].Times == times)
                    begun[^1] = begun[^1] with { Until = i + 1 };
                else
                    begun.Add((i, i + 1, times));
            }
        }

        /// <summary>Logarithm of the product of (a)ₓ over all counts x.</summary>
        /// <param name="a">Above zero.</param>
        public double Log(double a)
        {
            double sum = 0;
            foreach (var (from, until, times) in begun)
            {
                double product = 1;
                for (var i = from; i < until; i++)
                    product *= a + i;
                sum += times * Math.Log(product);
            }

            if (more.Length == 0)
                return sum;
            // The first factors are in the sum already, of the longer counts too.
            sum -= more.Length * LogGamma(a + First);
            foreach (var count in more)
                sum += LogGamma(a + count);
            return sum;
        }

        /// <summary>Logarithm of the gamma function by Stirling's series (Abramowitz and Stegun 6.1.41), within 1e-14 from 20 on.</summary>
        private static double LogGamma(double z)
        {
            const double HalfLogTwoPi = .91893853320467274178;
            var inverse = 1 / z;
            var square = inverse * inverse;
            var series = inverse * ((1 / 12d) - (square * ((1 / 360d) - (square * ((1 / 1260d) - (square * (1 / 1680d)))))));
            return ((z - .5) * Math.Log(z)) - z + HalfLogTwoPi + series;
        }
    }
}
