using MathNet.Numerics.Distributions;

namespace Fettle.Engineering.Statistics;

/// <summary>
/// Wilson's score interval for a rate seen as successes out of trials (E. B. Wilson, Journal of the American Statistical
/// Association 22, 1927). It stays sensible with few trials and with none or all successful, which is why the scorecards
/// show it. See docs/engineering/small-samples.md.
/// </summary>
public static class Wilson
{
    /// <summary>Both ends, with equal chances of missing on either side. Without trials: anything from 0 to 1.</summary>
    /// <param name="successes">Zero to <paramref name="trials"/>.</param>
    /// <param name="trials">Zero or more.</param>
    /// <param name="confidence">Between 0 and 1, .95 by default.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Interval Interval(int successes, int trials, double confidence = .95) =>
        Score(successes, trials, (1 + Require.Probability(confidence)) / 2);

    /// <summary>The rate is at least this, with the given one-sided confidence. Without trials: 0.</summary>
    /// <inheritdoc cref="Interval" path="/param|/exception"/>
    public static double AtLeast(int successes, int trials, double confidence = .95) =>
        Score(successes, trials, Require.Probability(confidence)).Low;

    /// <summary>The rate is at most this, with the given one-sided confidence. Without trials: 1.</summary>
    /// <inheritdoc cref="Interval" path="/param|/exception"/>
    public static double AtMost(int successes, int trials, double confidence = .95) =>
        Score(successes, trials, Require.Probability(confidence)).High;

    private static Interval Score(int successes, int trials, double quantile)
    {
        Trials.Check(successes, trials);
        if (trials == 0)
            return Statistics.Interval.Anything;
        double n = trials;
        var p = successes / n;
        var z = Normal.InvCDF(0, 1, quantile);
        var shrink = 1 + (z * z / n);
        var centre = (p + (z * z / (2 * n))) / shrink;
        var half = z / shrink * Math.Sqrt((p * (1 - p) / n) + (z * z / (4 * n * n)));
        // With none or all successful the end is exactly 0 or 1; only rounding says otherwise.
        return new(
            successes == 0 ? 0 : Math.Clamp(centre - half, 0, 1),
            successes == trials ? 1 : Math.Clamp(centre + half, 0, 1));
    }
}
