using Fettle.Engineering.Statistics;

namespace Fettle.Readiness.Scorecards;

/// <summary>One week as it is told on the Monday after, kept as it was then.</summary>
/// <param name="Monday">On which the week begins.</param>
/// <param name="Accounts">Those with freight in the week, most held lines first.</param>
public sealed record WeekDigest(DateOnly Monday, IReadOnlyList<AccountWeek> Accounts)
{
    /// <summary>The weeks before that a week is compared with.</summary>
    public const int Before = 12;

    public long Lines => Accounts.Sum(account => account.Now.Lines);

    public long Ready => Accounts.Sum(account => account.Now.Ready);

    public long Held => Lines - Ready;

    public double FeetSaved => Accounts.Sum(account => account.FeetSaved);

    /// <summary>All accounts together, the week itself last.</summary>
    public IReadOnlyList<WeekCount> Weeks =>
    [
        .. Enumerable.Range(0, Before + 1).Select(i => Monday.AddDays(7 * (i - Before))).Select(monday =>
        {
            WeekCount[] same = [.. Accounts.Select(account => account.Weeks.First(week => week.Monday == monday))];
            return new WeekCount(monday, same.Sum(week => week.Lines), same.Sum(week => week.Ready));
        }),
    ];

    /// <param name="accounts">In any order; those without freight in the week are left out.</param>
    public static WeekDigest Of(DateOnly monday, IEnumerable<AccountWeek> accounts) =>
        new(monday, [.. accounts.Where(account => account.Now.Lines > 0).OrderByDescending(account => account.Now.Held).ThenByDescending(account => account.Now.Lines).ThenBy(account => account.Name, StringComparer.Ordinal)]);
}

/// <param name="Ready">Lines that nothing stopped, of those.</param>
public sealed record WeekCount(DateOnly Monday, long Lines, long Ready)
{
    public long Held => Lines - Ready;
}

public enum WeekTrend
{
    /// <summary>Too few lines, now or before, to compare.</summary>
    TooFew,
    Better,
    AsUsual,
    Worse,
}

/// <summary>One account's week beside the weeks before.</summary>
/// <param name="Weeks">One more than <see cref="WeekDigest.Before"/>, in order, the week itself last.</param>
/// <param name="Habits">That would have let most of the week's held lines pass.</param>
/// <param name="FeetSaved">Linear feet of trailer that stacking saves of the week's pickups, as far as they are planned.</param>
public sealed record AccountWeek(Guid ShipperId, string Name, IReadOnlyList<WeekCount> Weeks, Habits Habits, double FeetSaved)
{
    public WeekCount Now => Weeks[^1];

    /// <summary>
    /// Unusual when the share of the weeks before lies outside what this week's lines leave plausible (Wilson, 95 %): most
    /// weeks of most accounts are as usual, and are not made a story of.
    /// </summary>
    public WeekTrend Trend
    {
        get
        {
            var (lines, ready) = (Weeks.SkipLast(1).Sum(week => week.Lines), Weeks.SkipLast(1).Sum(week => week.Ready));
            if (Now.Lines < Share.Least || lines < Share.Least)
                return WeekTrend.TooFew;
            var (usual, now) = (ready / (double)lines, Wilson.Interval(checked((int)Now.Ready), checked((int)Now.Lines)));
            return usual < now.Low ? WeekTrend.Better : usual > now.High ? WeekTrend.Worse : WeekTrend.AsUsual;
        }
    }

    /// <param name="counts">Weeks in any order; those without freight need not be among them.</param>
    public static AccountWeek Of(Guid shipperId, string name, DateOnly monday, IEnumerable<WeekCount> counts, Habits habits, double feetSaved)
    {
        var byWeek = counts.ToDictionary(week => week.Monday);
        return new(
            shipperId,
            name,
            [.. Enumerable.Range(0, WeekDigest.Before + 1).Select(i => monday.AddDays(7 * (i - WeekDigest.Before))).Select(week => byWeek.GetValueOrDefault(week) ?? new(week, 0, 0))],
            habits,
            feetSaved);
    }
}
