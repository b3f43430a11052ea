namespace Fettle.Readiness.Scorecards;

/// <summary>One account's figures over a period: as many as are shown of it beside others.</summary>
/// <param name="Trouble">Its true trouble, which its page begins with.</param>
/// <param name="Ready">Lines that nothing stopped, of all.</param>
/// <param name="Clean">Lines that arrived clean, of those whose arrival is known.</param>
/// <param name="Damaged">Lines that arrived damaged, of those that travelled as declared.</param>
/// <param name="Weeks">Every week that has a day in the period, also those without freight; only days in the period count, so that they add up to it.</param>
public record AccountFigures(
    Period Period,
    Tally Tally,
    AccountBook Book,
    Trouble Trouble,
    Share Ready,
    Share Clean,
    Share Damaged,
    StackEvidence Stacking,
    Habits Habits,
    IReadOnlyList<WeekScore> Weeks)
{
    /// <summary>The cells that <see cref="Of"/> looks at.</summary>
    public static readonly IReadOnlyList<Facet> Facets = [Facet.All, Facet.Week, Facet.Stops];

    /// <summary>From one account's cells of the period.</summary>
    /// <param name="cells">Those of <see cref="Facets"/>, others or none besides; those of one facet and key are added up.</param>
    /// <param name="book">What is usual among the accounts beside it.</param>
    public static AccountFigures Of(Period period, IReadOnlyCollection<AccountCell> cells, AccountBook book)
    {
        var byFacet = cells.ToLookup(cell => cell.Facet);
        var tally = Tally.Sum(byFacet[Facet.All].Select(cell => cell.Tally));
        var weeks = byFacet[Facet.Week].GroupBy(cell => Scorecards.Weeks.Of(cell.Since), cell => cell.Tally).ToDictionary(week => week.Key, Tally.Sum);
        var habits = Habits.Of(StopsOf(byFacet[Facet.Stops].Select(cell => (CellKeys.ReadStops(cell.Key), cell.Tally))));
        var damaged = Share.Of(tally[Tallied.TravelledDamaged], tally[Tallied.Travelled], book.Damaged);
        return new(
            period,
            tally,
            book,
            Trouble.Of(tally, habits, damaged, book),
            Share.Of(tally[Tallied.Ready], tally[Tallied.Lines], book.Ready),
            Share.Of(tally[Tallied.Clean], tally[Tallied.Delivered], book.Clean),
            damaged,
            StackEvidence.Of(tally, book),
            habits,
            [.. period.WeeksTouched().Select(week => new WeekScore(week, weeks.GetValueOrDefault(week) ?? Tally.Zero))]);
    }

    protected static StopCount[] StopsOf(IEnumerable<(IReadOnlyList<string> Stops, Tally Tally)> cells) =>
        [.. cells.Select(cell => new StopCount(cell.Stops, cell.Tally[Tallied.Lines]))];
}
