namespace Fettle.Readiness.Scorecards;

/// <summary>One account's figures over a period, with all that is shown, printed and answered about it.</summary>
public sealed record AccountEvidence : AccountFigures
{
    /// <summary>
    /// What it looks at in cells of lines that are divided; of those that are not (<see cref="Facet.All"/>) it tells every count.
    /// </summary>
    public static readonly IReadOnlyList<Tallied> Counts =
    [
        Tallied.Lines, Tallied.Units, Tallied.Ready, Tallied.Held, Tallied.Stackable, Tallied.Carries, Tallied.StackTested, Tallied.StackHeld, Tallied.CarriedFreight, Tallied.CarriedClean,
        Tallied.Travelled, Tallied.TravelledDamaged, Tallied.UnderClaim, Tallied.ClaimedCents, Tallied.ClaimPaidCents,
    ];

    private AccountEvidence(AccountFigures figures)
        : base(figures)
    {
    }

    /// <summary>By lane and product, the surest to carry another unit first.</summary>
    public required IReadOnlyList<FreightEvidence> Freight { get; init; }

    /// <summary>The commonest first.</summary>
    public required IReadOnlyList<FindingScore> Findings { get; init; }

    /// <summary>Most lines first.</summary>
    public required IReadOnlyList<GroupScore<Guid>> Sites { get; init; }

    /// <summary>Most lines first; the empty name for lines of which it was not told.</summary>
    public required IReadOnlyList<GroupScore<string>> Builders { get; init; }

    /// <summary>From one account's cells of the period.</summary>
    /// <param name="cells">Those of one facet and key are added up. Of lines that are divided <see cref="Counts"/> are enough.</param>
    /// <param name="book">What is usual among the accounts beside it.</param>
    public static new AccountEvidence Of(Period period, IReadOnlyCollection<AccountCell> cells, AccountBook book)
    {
        var byFacet = cells.ToLookup(cell => cell.Facet);
        var bySite = byFacet[Facet.Stops].Select(cell => (cell.SiteId, Stops: CellKeys.ReadStops(cell.Key), cell.Tally)).ToArray();
        var byBuilder = byFacet[Facet.Builder].Select(cell => (Read: CellKeys.ReadBuilder(cell.Key), cell.Tally)).ToArray();
        var freight = byFacet[Facet.Freight]
            .GroupBy(cell => cell.Key, cell => cell.Tally, StringComparer.Ordinal)
            .Select(group =>
            {
                var (lane, product) = CellKeys.ReadFreight(group.Key);
                var sum = Tally.Sum(group);
                return new FreightEvidence(lane, product, sum, StackEvidence.Of(sum, book));
            })
            .OrderByDescending(row => row.Evidence.Rank)
            .ThenByDescending(row => row.Tally[Tallied.Lines])
            .ThenBy(row => row.Lane.Destination, StringComparer.Ordinal)
            .ThenBy(row => row.Product.Key, StringComparer.Ordinal)
            .ThenBy(row => row.Lane.TerminalId)
            .ThenBy(row => row.Lane.Miles);
        var byCode = StopsOf(bySite.Select(cell => (cell.Stops, cell.Tally))).SelectMany(count => count.Stops.Select(code => (code, count.Lines)))
            .GroupBy(pair => pair.code, pair => pair.Lines, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.Sum(), StringComparer.Ordinal);
        var findings = byFacet[Facet.Finding]
            .Select(cell => (CellKeys.ReadFinding(cell.Key).Code, cell.Tally))
            .Where(cell => cell.Code.Length > 0)
            .GroupBy(cell => cell.Code, cell => cell.Tally, StringComparer.Ordinal)
            .Select(group => new FindingScore(group.Key, Tally.Sum(group), byCode.GetValueOrDefault(group.Key)))
            .OrderByDescending(finding => finding.Stopped).ThenByDescending(finding => finding.Tally[Tallied.Lines]).ThenBy(finding => finding.Code, StringComparer.Ordinal);
        return new(AccountFigures.Of(period, cells, book))
        {
            Freight = [.. freight],
            Findings = [.. findings],
            Sites = Groups(bySite, book),
            Builders = Groups(byBuilder.Select(cell => (cell.Read.Builder, cell.Read.Stops, cell.Tally)), book),
        };
    }

    private static GroupScore<T>[] Groups<T>(IEnumerable<(T Group, IReadOnlyList<string> Stops, Tally Tally)> cells, AccountBook book)
        where T : notnull, IComparable<T> =>
    [
        .. from cell in cells
           group cell by cell.Group into own
           let tally = Tally.Sum(own.Select(cell => cell.Tally))
           orderby tally[Tallied.Lines] descending, own.Key
           select new GroupScore<T>(own.Key, tally, Share.Of(tally[Tallied.Ready], tally[Tallied.Lines], book.Ready), Habits.Of(StopsOf(own.Select(cell => (cell.Stops, cell.Tally))))),
    ];
}

/// <summary>A cell of one account, over as much time as its period has, or one week of it.</summary>
/// <param name="SiteId">Of the cells of <see cref="Facet.Stops"/>, which sites are told by; others may have their sites added up and none here.</param>
/// <param name="Since">As <see cref="Cell.Since"/> has it, where weeks are counted.</param>
public sealed record AccountCell(Guid SiteId, Facet Facet, DateOnly Since, string Key, Tally Tally);

/// <param name="Monday">On which the week begins.</param>
public sealed record WeekScore(DateOnly Monday, Tally Tally)
{
    /// <summary>Share that nothing stopped, 0 to 1; null without freight.</summary>
    public double? Ready => Tally[Tallied.Lines] == 0 ? null : Tally[Tallied.Ready] / (double)Tally[Tallied.Lines];
}

/// <param name="Tally">Of the lines with the finding.</param>
/// <param name="Stopped">Of them, lines that it stopped.</param>
public sealed record FindingScore(string Code, Tally Tally, long Stopped);

/// <summary>What one site built, or one person.</summary>
/// <param name="Habits">That would help most there.</param>
public sealed record GroupScore<T>(T Group, Tally Tally, Share Ready, Habits Habits);

public enum TroubleKind
{
    /// <summary>Too few lines to say.</summary>
    TooFew,

    /// <summary>Nothing stands out.</summary>
    None,

    /// <summary>Never to make one finding would let more lines pass than anything else.</summary>
    Stopped,

    /// <summary>What travelled as declared arrives damaged oftener than is usual.</summary>
    Damaged,
}

/// <summary>What costs an account most.</summary>
/// <param name="Code">The finding, when it is one; else null.</param>
/// <param name="Lines">Lines that it costs.</param>
/// <param name="Among">Of so many: held lines for a finding, lines that travelled for damage, else all lines.</param>
public sealed record Trouble(TroubleKind Kind, string? Code, long Lines, long Among)
{
    /// <summary>Held less often than this is no trouble; our choice.</summary>
    public const double LeastShare = .03;

    /// <summary>
    /// Damage comes first where it is plainly more than usual (the whole interval above the usual rate), since a damaged load
    /// costs more than a held one; else the finding without which most lines would pass.
    /// </summary>
    public static Trouble Of(Tally tally, Habits habits, Share damaged, AccountBook book)
    {
        if (tally[Tallied.Lines] < Share.Least)
            return new(TroubleKind.TooFew, null, 0, tally[Tallied.Lines]);
        if (damaged.IsEnough && book.Accounts > 1 && damaged.Low > book.Damaged.Mean)
            return new(TroubleKind.Damaged, null, damaged.Part, damaged.Whole);
        return habits.Best is [var worst, ..] && worst.Stopped >= LeastShare * tally[Tallied.Lines]
            ? new(TroubleKind.Stopped, worst.Code, worst.Stopped, habits.Held)
            : new(TroubleKind.None, null, habits.Held, tally[Tallied.Lines]);
    }
}
