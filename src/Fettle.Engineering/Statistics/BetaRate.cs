using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.RootFinding;

namespace Fettle.Engineering.Statistics;

/// <summary>
/// What is believed about a rate, as a beta distribution: of shippers before one is looked at, or of one shipper after its
/// freight was. Shrinks what few trials say towards what is usual. See docs/engineering/small-samples.md.
/// </summary>
/// <param name="Alpha">Above zero; reads as successes already seen.</param>
/// <param name="Beta">Above zero; reads as failures already seen.</param>
public readonly record struct BetaRate(double Alpha, double Beta)
{
    /// <summary>
    /// The most trials that a fitted prior may count for. Groups that differ no more than chance would make it infinite; at a
    /// million every estimate is the common rate for all practical purposes.
    /// </summary>
    public const double MostPriorTrials = 1e6;

    /// <summary>Every rate as likely as every other.</summary>
    public static readonly BetaRate Uniform = new(1, 1);

    /// <summary>Jeffreys' prior, which favours no scale of the rate.</summary>
    public static readonly BetaRate Jeffreys = new(.5, .5);

    /// <summary>Mean: the estimate of the rate.</summary>
    public double Mean => Alpha / (Alpha + Beta);

    /// <summary>Standard deviation.</summary>
    public double Deviation => Math.Sqrt(Alpha * Beta / ((Alpha + Beta) * (Alpha + Beta) * (Alpha + Beta + 1)));

    /// <summary>What is believed after some trials: successes and failures are added.</summary>
    /// <param name="successes">Zero to <paramref name="trials"/>.</param>
    /// <param name="trials">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count is out of its range.</exception>
    public BetaRate After(int successes, int trials)
    {
        Trials.Check(successes, trials);
        return new BetaRate(Alpha + successes, Beta + (trials - successes));
    }

    /// <summary>The rate lies below this with a probability.</summary>
    /// <param name="probability">Between 0 and 1.</param>
    public double Quantile(double probability)
    {
        var (a, b) = (Require.Positive(Alpha), Require.Positive(Beta));

        // The logarithm of the odds is nearly normal: looked for around where it would then be, the root takes a third of the
        // time. With very few trials it is not, and may lie elsewhere.
        var middle = SpecialFunctions.DiGamma(a) - SpecialFunctions.DiGamma(b);
        var deviation = Math.Sqrt((1 / a) + (1 / b) + (.5 / (a * a)) + (.5 / (b * b)));
        var guess = middle + (deviation * Normal.InvCDF(0, 1, Require.Probability(probability)));
        var (low, high) = (SpecialFunctions.Logistic(guess - (.3 * deviation)), SpecialFunctions.Logistic(guess + (.3 * deviation)));
        return Brent.TryFindRoot(rate => SpecialFunctions.BetaRegularized(a, b, rate) - probability, low, high, 1e-12, 100, out var found)
            ? found
            : MathNet.Numerics.Distributions.Beta.InvCDF(a, b, probability);
    }

    /// <summary>Credible interval with equal chances of missing on either side.</summary>
    /// <param name="confidence">Between 0 and 1, .95 by default.</param>
    public Interval Credible(double confidence = .95)
    {
        var tail = (1 - Require.Probability(confidence)) / 2;
        return new Interval(Quantile(tail), Quantile(1 - tail));
    }

    /// <summary>The beta distribution of a mean and standard deviation (method of moments).</summary>
    /// <param name="mean">Between 0 and 1.</param>
    /// <param name="deviation">Above zero and below √(mean · (1 − mean)).</param>
    /// <exception cref="ArgumentOutOfRangeException">No beta distribution has these.</exception>
    public static BetaRate FromMoments(double mean, double deviation)
    {
        Require.Probability(mean);
        var trials = (mean * (1 - mean) / (Require.Positive(deviation) * deviation)) - 1;
        if (!(trials > 0))
            throw new ArgumentOutOfRangeException(nameof(deviation), deviation, "No rate scatters so much about this mean.");
        return new BetaRate(mean * trials, (1 - mean) * trials);
    }

    /// <summary>
    /// The prior under which what the groups showed is likeliest: maximum likelihood of the beta-binomial, by climbing in the
    /// logarithms of mean odds and prior trials.
    /// </summary>
    /// <param name="groups">Successes and trials of each; those without trials say nothing.</param>
    /// <param name="within">How near, in those logarithms, the search comes to the top; above zero. A thousandth takes a quarter of the time.</param>
    /// <returns>
    /// The prior; null when the groups cannot tell: fewer than two with trials, or no success or no failure among them all.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">A count is out of its range.</exception>
    public static BetaRate? MostLikely(IEnumerable<(int Successes, int Trials)> groups, double within = 1e-7)
    {
        Require.Positive(within);
        var seen = new List<(int Successes, int Trials)>();
        long successes = 0, trials = 0;
        foreach (var (x, n) in groups)
        {
            Statistics.Trials.Check(x, n);
            if (n == 0)
                continue;
            seen.Add((x, n));
            (successes, trials) = (successes + x, trials + n);
        }

        if (seen.Count < 2 || successes == 0 || successes == trials)
            return null;

        // For each number of prior trials the best mean is found, and over those the best number: the surface has one hill
        // along either way, and golden section needs no slopes.
        var likelihood = new BetaBinomial(seen);
        var logTrials = Highest(log => likelihood.LogLikelihood(Best(Math.Exp(log))), Math.Log(1e-3), Math.Log(MostPriorTrials), within);
        return Best(Math.Exp(logTrials));

        BetaRate Best(double prior) => Of(Highest(odds => likelihood.LogLikelihoodOfMean(Of(odds, prior)), -14, 14, within), prior);

        static BetaRate Of(double odds, double prior)
        {
            var mean = SpecialFunctions.Logistic(odds);
            return new(mean * prior, (1 - mean) * prior);
        }
    }

    /// <summary>
    /// How likely this prior makes what groups showed, as a natural logarithm; the binomial coefficients, which are the same
    /// for every prior, are left out.
    /// </summary>
    /// <param name="groups">Successes and trials of each.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count is out of its range.</exception>
    public double LogLikelihood(IEnumerable<(int Successes, int Trials)> groups) =>
        new BetaBinomial([.. groups]).LogLikelihood(new(Require.Positive(Alpha), Require.Positive(Beta)));

    private static double Highest(Func<double, double> height, double low, double high, double within)
    {
        var golden = (Math.Sqrt(5) - 1) / 2;
        var (a, b) = (high - (golden * (high - low)), low + (golden * (high - low)));
        var (atA, atB) = (height(a), height(b));
        while (high - low > within)
        {
            if (atA >= atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - (golden * (high - low));
                atA = height(a);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + (golden * (high - low));
                atB = height(b);
            }
        }

        return (low + high) / 2;
    }
}
