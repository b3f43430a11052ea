namespace Fettle.Engineering.Statistics;

/// <summary>Cases among those with and those without some feature, within one stratum: alike in all that is held constant.</summary>
/// <param name="CasesWith">Cases among those with it, 0 to <paramref name="With"/>.</param>
/// <param name="With">All with it, 0 or more.</param>
/// <param name="CasesWithout">Cases among those without it, 0 to <paramref name="Without"/>.</param>
/// <param name="Without">All without it, 0 or more.</param>
public readonly record struct Stratum(int CasesWith, int With, int CasesWithout, int Without)
{
    /// <summary>Everybody in the stratum.</summary>
    public double All => (double)With + Without;

    /// <summary>The strata thrown together, as if nothing had been held constant.</summary>
    /// <exception cref="OverflowException">A sum is beyond what counts can be.</exception>
    public static Stratum Crude(IEnumerable<Stratum> strata) => strata.Aggregate(default(Stratum), (sum, stratum) => checked(new Stratum(
        sum.CasesWith + stratum.CasesWith,
        sum.With + stratum.With,
        sum.CasesWithout + stratum.CasesWithout,
        sum.Without + stratum.Without)));

    /// <exception cref="ArgumentOutOfRangeException">A count is out of its range.</exception>
    internal void Check()
    {
        Trials.Check(CasesWith, With);
        Trials.Check(CasesWithout, Without);
    }
}
