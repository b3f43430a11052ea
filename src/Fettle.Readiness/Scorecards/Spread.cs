namespace Fettle.Readiness.Scorecards;

/// <summary>How figures are spread: one average would hide the bad weeks.</summary>
/// <param name="Count">How many figures.</param>
/// <param name="Least">The smallest.</param>
/// <param name="LowerQuartile">A quarter of them lies below.</param>
/// <param name="UpperQuartile">A quarter of them lies above.</param>
/// <param name="Most">The largest.</param>
public sealed record Spread(int Count, double Least, double LowerQuartile, double Median, double UpperQuartile, double Most)
{
    /// <summary>Below so many figures a spread is shown with the words that there are too few to say; our choice.</summary>
    public const int Enough = 8;

    public bool IsEnough => Count >= Enough;

    /// <summary>
    /// Quantiles lie between the two figures nearest to their place in order, in proportion: definition 7 of R. J. Hyndman and
    /// Y. Fan, "Sample quantiles in statistical packages", 1996, which spreadsheets use too.
    /// </summary>
    /// <returns>Null when there are no figures.</returns>
    public static Spread? Of(IEnumerable<double> figures)
    {
        double[] sorted = [.. figures.Order()];
        return sorted.Length == 0 ? null : new(sorted.Length, sorted[0], Quantile(sorted, .25), Quantile(sorted, .5), Quantile(sorted, .75), sorted[^1]);
    }

    private static double Quantile(double[] sorted, double share)
    {
        var place = (sorted.Length - 1) * share;
        var below = (int)place;
        var above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((place - below) * (sorted[above] - sorted[below]));
    }
}
