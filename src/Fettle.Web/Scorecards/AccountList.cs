using Fettle.Readiness.Scorecards;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;

namespace Fettle.Web.Scorecards;

/// <summary>One account in the list.</summary>
/// <param name="Run">Lines and those that nothing stopped, by week or by month (<see cref="AccountList.ByWeek"/>); oldest first.</param>
public sealed record AccountRow(Guid Id, string Name, Tally Tally, StackEvidence Stacking, Share Ready, Share Damaged, IReadOnlyList<(DateOnly Since, long Lines, long Ready)> Run);

/// <summary>The accounts that somebody looks after.</summary>
/// <param name="Accounts">How many there are, shown or not.</param>
/// <param name="ByWeek">Runs are by week; else by month.</param>
public sealed record AccountList(Period Period, AccountBook Book, IReadOnlyList<AccountRow> Rows, int Accounts, bool ByWeek)
{
    /// <summary>
    /// Up to so many months are told by week. In a longer time a week is drawn two pixels wide, and seldom has lines enough to say
    /// anything.
    /// </summary>
    private const int LongestByWeek = 6;

    public static async Task<AccountList> OfAsync(IDocumentStore store, Rights rights, AccountFilter filter, DateOnly today, CancellationToken cancel)
    {
        var period = Period.Last(filter.Months, today);
        var scope = new Scope(rights.CarrierId, [.. rights.AccountShipperIds], null, period);
        await using var session = store.QuerySession();
        var shippers = await session.LoadManyAsync<Shipper>(cancel, [.. rights.AccountShipperIds]);
        var byWeek = filter.Lane.Length == 0 && period.Length <= LongestByWeek;
        var (tallies, run) = filter.Lane.Length == 0 ? await WholeAsync(store, scope, byWeek, cancel) : await OnLaneAsync(store, session, rights, scope, filter.Lane, cancel);
        // What is usual is so among all accounts, whichever are shown.
        var book = AccountBook.Of([.. tallies.Values]);
        var rows = shippers
            .Where(shipper => shipper.Name.Contains(filter.Name, StringComparison.OrdinalIgnoreCase))
            .Select(shipper => Row(shipper, tallies.GetValueOrDefault(shipper.Id) ?? Tally.Zero, book, run[shipper.Id]))
            .Where(row => row.Tally[Tallied.Lines] >= filter.Least && (filter.Lane.Length == 0 || row.Tally[Tallied.Lines] > 0));
        return new(period, book, AccountColumn.Find(filter.Sort).Order(rows, filter.Up), shippers.Count, byWeek);
    }

    private static AccountRow Row(Shipper shipper, Tally tally, AccountBook book, IEnumerable<(DateOnly, long, long)> run) => new(
        shipper.Id,
        shipper.Name,
        tally,
        StackEvidence.Of(tally, book),
        Share.Of(tally[Tallied.Ready], tally[Tallied.Lines], book.Ready),
        Share.Of(tally[Tallied.TravelledDamaged], tally[Tallied.Travelled], book.Damaged),
        [.. run]);

    private static async Task<(IReadOnlyDictionary<Guid, Tally> Tallies, ILookup<Guid, (DateOnly, long, long)> Run)> WholeAsync(IDocumentStore store, Scope scope, bool byWeek, CancellationToken cancel)
    {
        var (tallies, run) = (store.AccountsAsync(scope, cancel), store.RunAsync(scope, byWeek ? Facet.Week : Facet.All, cancel));
        await Task.WhenAll(tallies, run);
        return (await tallies, await run);
    }

    private static async Task<(IReadOnlyDictionary<Guid, Tally> Tallies, ILookup<Guid, (DateOnly, long, long)> Run)> OnLaneAsync(IDocumentStore store, IQuerySession session, Rights rights, Scope scope, string lane, CancellationToken cancel)
    {
        // Names are compared here and not by the database, whose idea of capital letters depends on how it was set up.
        var carrier = rights.CarrierId is { } id ? await session.LoadAsync<Carrier>(id, cancel) : null;
        Guid[] terminals = [.. (carrier?.Terminals ?? []).Where(terminal => terminal.Name.Contains(lane, StringComparison.OrdinalIgnoreCase)).Select(terminal => terminal.Id)];
        string[] destinations = [.. (await store.DestinationsAsync(scope, cancel)).Where(destination => destination.Contains(lane, StringComparison.OrdinalIgnoreCase))];
        var own = await store.OnLanesAsync(scope, terminals, destinations, cancel);
        return (
            own.ToDictionary(shipper => shipper.Key, shipper => Tally.Sum(shipper.Select(month => month.Tally))),
            own.SelectMany(shipper => shipper.Select(month => (Shipper: shipper.Key, month.Month, month.Tally)))
                .ToLookup(month => month.Shipper, month => (month.Month, month.Tally[Tallied.Lines], month.Tally[Tallied.Ready])));
    }
}

/// <summary>A column of the list and of its CSV.</summary>
public sealed record AccountColumn(string Key, string Title, Func<AccountRow, IComparable> Figure)
{
    /// <summary>Sorted by how surely freight carries another unit.</summary>
    public const string Usual = "stack";

    public static readonly IReadOnlyList<AccountColumn> All =
    [
        new("shipper", "Shipper", row => row.Name),
        new("units", "Units", row => row.Tally[Tallied.Units]),
        new("lines", "Lines", row => row.Tally[Tallied.Lines]),
        new("ready", "Nothing to stop", row => row.Ready.Low),
        new("stackable", "Declared stackable", row => row.Stacking.Declared.Low),
        new(Usual, "Carry a like unit", row => row.Stacking.Rank),
        new("damaged", "Arrive damaged", row => row.Damaged.Whole == 0 ? -1 : row.Damaged.Estimate),
        new("hours", "Hours held", row => row.Tally[Tallied.HeldMinutes]),
    ];

    /// <summary>The column of that key; the usual one when there is none.</summary>
    public static AccountColumn Find(string? key) => All.FirstOrDefault(column => column.Key == key) ?? All.Single(column => column.Key == Usual);

    public IReadOnlyList<AccountRow> Order(IEnumerable<AccountRow> rows, bool up) =>
        [.. (up ? rows.OrderBy(Figure) : rows.OrderByDescending(Figure)).ThenBy(row => row.Name, StringComparer.Ordinal)];
}
