using Fettle.Engineering.Statistics;

namespace Fettle.Readiness.Scorecards;

/// <summary>A share of lines, with how sure it is.</summary>
/// <param name="Part">Of them.</param>
/// <param name="Whole">Lines looked at.</param>
/// <param name="Estimate">0 to 1: moved towards what is usual among accounts, the more the fewer lines there are.</param>
/// <param name="Interval">Where it plausibly lies, 95 %: the credible interval of the same belief.</param>
public sealed record Share(long Part, long Whole, double Estimate, Interval Interval)
{
    /// <summary>Below this many lines a share is shown with the words that it is too few to say; our choice.</summary>
    public const int Least = 10;

    /// <summary>There are lines enough to say something.</summary>
    public bool IsEnough => Whole >= Least;

    /// <summary>What was seen, 0 to 1; null when nothing was.</summary>
    public double? Seen => Whole == 0 ? null : Part / (double)Whole;

    /// <param name="usual">What is believed before an account is looked at.</param>
    public static Share Of(long part, long whole, BetaRate usual)
    {
        var belief = usual.After(checked((int)part), checked((int)whole));
        return new(part, whole, belief.Mean, belief.Credible());
    }

    /// <summary>A share of all accounts together, which nothing moves: Wilson's interval.</summary>
    public static Share Plain(long part, long whole) => new(
        part,
        whole,
        whole == 0 ? 0 : part / (double)whole,
        Wilson.Interval(checked((int)part), checked((int)whole)));
}
