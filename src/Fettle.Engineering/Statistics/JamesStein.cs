namespace Fettle.Engineering.Statistics;

/// <summary>
/// The James-Stein estimator in the form of Efron and Morris, "Stein's paradox in statistics", Scientific American 236,
/// 1977: several means of the same precision, each moved towards their common mean.
/// </summary>
/// <param name="GrandMean">Mean of the means.</param>
/// <param name="Kept">Share c of its distance from the grand mean that each keeps, 0 to 1.</param>
/// <param name="Estimates">The shrunken means, in the order given.</param>
public sealed record JamesStein(double GrandMean, double Kept, IReadOnlyList<double> Estimates)
{
    /// <summary>
    /// Shrinks the means: c = 1 − (k − 3) · σ² / Σ(y − ȳ)², no less than zero (the positive part, which is never worse).
    /// </summary>
    /// <param name="means">Four or more means.</param>
    /// <param name="variance">Variance σ² of each, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is not a number, or there are fewer than four means.</exception>
    public static JamesStein Shrink(IReadOnlyList<double> means, double variance)
    {
        Require.AtLeast(4, means.Count, nameof(means));
        Require.NotNegative(variance);
        var grand = means.Average(m => Require.Finite(m));
        var spread = means.Sum(m => (m - grand) * (m - grand));
        var kept = spread == 0 ? 0 : Math.Max(0, 1 - ((means.Count - 3) * variance / spread));
        return new JamesStein(grand, kept, [.. means.Select(m => grand + (kept * (m - grand)))]);
    }
}
