using MathNet.Numerics.Distributions;

namespace Fettle.Engineering.Statistics;

/// <summary>
/// Clopper and Pearson's interval (Biometrika 26, 1934): never misses more often than it says, and is wide for it. For when
/// a contract asks for the cautious figure.
/// </summary>
public static class ClopperPearson
{
    /// <summary>Both ends. Without trials: anything from 0 to 1.</summary>
    /// <inheritdoc cref="Wilson.Interval" path="/param|/exception"/>
    public static Interval Interval(int successes, int trials, double confidence = .95)
    {
        Trials.Check(successes, trials);
        var tail = (1 - Require.Probability(confidence)) / 2;
        return new(
            successes == 0 ? 0 : Beta.InvCDF(successes, trials - successes + 1, tail),
            successes == trials ? 1 : Beta.InvCDF(successes + 1, trials - successes, 1 - tail));
    }
}
