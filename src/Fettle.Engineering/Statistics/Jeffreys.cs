namespace Fettle.Engineering.Statistics;

/// <summary>Jeffreys' interval: what is believed of a rate that nothing was known of. Narrower than Wilson's at the ends.</summary>
public static class Jeffreys
{
    /// <summary>Both ends, equal tails of Beta(x + ½, n − x + ½); 0 with no success and 1 with no failure, as is usual.</summary>
    /// <inheritdoc cref="Wilson.Interval" path="/param|/exception"/>
    public static Interval Interval(int successes, int trials, double confidence = .95)
    {
        var credible = BetaRate.Jeffreys.After(successes, trials).Credible(confidence);
        return new(successes == 0 ? 0 : credible.Low, successes == trials ? 1 : credible.High);
    }
}
