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

        private readonly int[] having;
        private readonly int[] more;

        public Rising(int[] counts)
        {
            having = [.. Enumerable.Range(0, Math.Min(First, counts.DefaultIfEmpty().Max())).Select(i => counts.Count(count => count > i))];
            more = [.. counts.Where(count => count > First)];
        }

        /// <summary>Logarithm of the product of (a)ₓ over all counts x.</summary>
        /// <param name="a">Above zero.</param>
        public double Log(double a)
        {
            double sum = 0;
            for (var i = 0; i < having.Length; i++)
                sum += having[i] * Math.Log(a + i);
            if (more.Length == 0)
                return sum;
            // The first factors are in the sum already, of the longer counts too.
            var begun = LogGamma(a + First);
            foreach (var count in more)
                sum += LogGamma(a + count) - begun;
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
