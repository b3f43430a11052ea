using MathNet.Numerics.Distributions;

namespace Fettle.Engineering.Statistics;

/// <summary>A ratio that several strata have in common.</summary>
/// <param name="Value">Above zero; 1 when the feature makes no difference.</param>
/// <param name="LogDeviation">Standard deviation of its natural logarithm.</param>
public readonly record struct CommonRatio(double Value, double LogDeviation)
{
    /// <summary>Both ends, from the normal distribution of the logarithm.</summary>
    /// <param name="confidence">Between 0 and 1, .95 by default.</param>
    public Interval Interval(double confidence = .95)
    {
        var reach = Math.Exp(Normal.InvCDF(0, 1, (1 + Require.Probability(confidence)) / 2) * LogDeviation);
        return new Interval(Value / reach, Value * reach);
    }
}

/// <summary>
/// How much oftener cases are with a feature than without it, within strata and then over all of them (Mantel and Haenszel,
/// Journal of the National Cancer Institute 22, 1959): comparing only like with like keeps a difference between strata from
/// passing for an effect of the feature. It stays right with many strata of few. See docs/engineering/common-ratio.md.
/// </summary>
public static class MantelHaenszel
{
    /// <summary>
    /// The common ratio of risks, with the variance of its logarithm after Greenland and Robins, Biometrics 41, 1985. In one
    /// stratum it is the plain ratio with Katz's interval.
    /// </summary>
    /// <param name="strata">Those without anybody on one side say nothing and may be among them.</param>
    /// <returns>Null when the strata cannot tell: no case on one side or on both wherever both sides have anybody.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A count is out of its range.</exception>
    public static CommonRatio? RiskRatio(IEnumerable<Stratum> strata)
    {
        double above = 0, below = 0, spread = 0;
        foreach (var stratum in strata)
        {
            stratum.Check();
            var all = stratum.All;
            if (all == 0)
                continue;
            double a = stratum.CasesWith, n1 = stratum.With, c = stratum.CasesWithout, n0 = stratum.Without;
            above += a * n0 / all;
            below += c * n1 / all;
            spread += (((a + c) * n1 * n0) - (a * c * all)) / (all * all);
        }

        // Rounding may leave a variance of exactly nothing a hair below it.
        return above == 0 || below == 0 ? null : new CommonRatio(above / below, Math.Sqrt(Math.Max(0, spread / (above * below))));
    }

    /// <summary>
    /// The common ratio of odds, with the variance of its logarithm after Robins, Breslow and Greenland, Biometrics 42, 1986.
    /// In one stratum it is the plain ratio with Woolf's interval; with matched pairs it is McNemar's.
    /// </summary>
    /// <inheritdoc cref="RiskRatio" path="/param|/exception"/>
    /// <returns>Null when the strata cannot tell: in none of them a case with it beside a non-case without, or the reverse.</returns>
    public static CommonRatio? OddsRatio(IEnumerable<Stratum> strata)
    {
        double above = 0, below = 0, forAbove = 0, forBoth = 0, forBelow = 0;
        foreach (var stratum in strata)
        {
            stratum.Check();
            var all = stratum.All;
            if (all == 0)
                continue;
            double a = stratum.CasesWith, b = stratum.With - stratum.CasesWith, c = stratum.CasesWithout, d = stratum.Without - stratum.CasesWithout;
            var (p, q, r, s) = ((a + d) / all, (b + c) / all, a * d / all, b * c / all);
            above += r;
            below += s;
            forAbove += p * r;
            forBoth += (p * s) + (q * r);
            forBelow += q * s;
        }

        if (above == 0 || below == 0)
            return null;
        var variance = (forAbove / (2 * above * above)) + (forBoth / (2 * above * below)) + (forBelow / (2 * below * below));
        return new CommonRatio(above / below, Math.Sqrt(variance));
    }
}
