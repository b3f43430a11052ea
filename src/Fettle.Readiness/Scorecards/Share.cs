using Fettle.Engineering.Statistics;

namespace Fettle.Readiness.Scorecards;

/// <summary>A share of lines, with how sure it is.</summary>
/// <param name="Part">Of them.</param>
/// <param name="Whole">Lines looked at.</param>
/// <param name="Belief">What is believed of it; null for a share of all accounts together, which nothing moves.</param>
public sealed record Share(long Part, long Whole, BetaRate? Belief)
{
    /// <summary>Below this many lines a share is shown with the words that it is too few to say; our choice.</summary>
    public const int Least = 10;

    private const double Confidence = .95;

    /// <summary>There are lines enough to say something.</summary>
    public bool IsEnough => Whole >= Least;

    /// <summary>What was seen, 0 to 1; null when nothing was.</summary>
    public double? Seen => Whole == 0 ? null : Part / (double)Whole;

    /// <summary>0 to 1: moved towards what is usual among accounts, the more the fewer lines there are.</summary>
    public double Estimate => Belief?.Mean ?? Seen ?? 0;

    /// <summary>
    /// Where it plausibly lies, 95 %: the credible interval of the same belief, or Wilson's interval. Worked out each time it
    /// is read: of the many shares of an account few are shown.
    /// </summary>
    public Interval Interval => Belief?.Credible(Confidence) ?? Wilson.Interval(checked((int)Part), checked((int)Whole), Confidence);

    /// <summary>Its lower end alone, at half the work: what shares are ranked by.</summary>
    public double Low => Belief?.Quantile((1 - Confidence) / 2) ?? Interval.Low;

    /// <param name="usual">What is believed before an account is looked at.</param>
    public static Share Of(long part, long whole, BetaRate usual) => new(part, whole, usual.After(checked((int)part), checked((int)whole)));

    /// <summary>A share of all accounts together.</summary>
    public static Share Plain(long part, long whole) => new(part, whole, null);
}
