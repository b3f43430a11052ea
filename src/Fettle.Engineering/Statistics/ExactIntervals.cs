using MathNet.Numerics.Distributions;

namespace Fettle.Engineering.Statistics;

/// <summary>Jeffreys' interval: what is believed of a rate that nothing was known of. Narrower than Wilson's at the ends.</summary>
public static class JeffreysInterval
{
    /// <summary>Both ends, equal tails of Beta(x + ½, n − x + ½); 0 with no success and 1 with no failure, as is usual.</summary>
    /// <inheritdoc cref="Wilson.Interval" path="/param|/exception"/>
    public static Interval Of(int successes, int trials, double confidence = .95)
    {
        var credible = BetaRate.Jeffreys.After(successes, trials).Credible(confidence);
        return new Interval(successes == 0 ? 0 : credible.Low, successes == trials ? 1 : credible.High);
    }
}

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
