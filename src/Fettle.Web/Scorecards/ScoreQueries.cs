using Fettle.Readiness.Declarations;
using Fettle.Readiness.Scorecards;
using Marten;
using Npgsql;

namespace Fettle.Web.Scorecards;

/// <summary>Whose lines are looked at.</summary>
/// <param name="CarrierId">Null for all carriers, which only a shipper sees together.</param>
/// <param name="SiteIds">Null for all sites of those shippers.</param>
public sealed record Scope(Guid? CarrierId, IReadOnlyCollection<Guid> ShipperIds, IReadOnlyCollection<Guid>? SiteIds, Period Period);

/// <summary>Sums over cells. Each asks for as few rows as the page shows, however much freight is behind them.</summary>
public static class ScoreQueries
{
    private const string Within = """
        from fettle.score_cells
        where shipper_id = any(@shippers) and (@carrier is null or carrier_id = @carrier) and (@sites is null or site_id = any(@sites))
          and since >= @from and since < @until
        """;

    // The parts of a key of CellKeys.Freight.
    private const string Terminal = "split_part(key, E'\\n', 1)";
    private const string Destination = "split_part(key, E'\\n', 2)";

    /// <summary>What each shipper's lines count for; those without any are not among them.</summary>
    public static Task<IReadOnlyDictionary<Guid, Tally>> AccountsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select shipper_id, {CellTable.Sums} {Within} and facet = 'All' group by shipper_id order by shipper_id",
        scope,
        async rows =>
        {
            var accounts = new Dictionary<Guid, Tally>();
            while (await rows.ReadAsync(cancel))
                accounts.Add(rows.GetGuid(0), CellTable.Read(rows, 1));
            return (IReadOnlyDictionary<Guid, Tally>)accounts;
        },
        cancel);

    /// <summary>Each shipper's lines over time: all of them, and those that nothing stopped.</summary>
    /// <param name="facet"><see cref="Facet.Week"/> by week, <see cref="Facet.All"/> by month.</param>
    public static Task<ILookup<Guid, (DateOnly Since, long Lines, long Ready)>> RunAsync(this IDocumentStore store, Scope scope, Facet facet, CancellationToken cancel) => ReadAsync(
        store,
        // A week that a month ends in is two cells: each is of the week's Monday.
        $"select shipper_id, {(facet == Facet.Week ? "date_trunc('week', since)::date" : "since")}, sum(lines)::bigint, sum(ready)::bigint {Within} and facet = '{facet}' group by 1, 2 order by 1, 2",
        scope,
        async rows =>
        {
            var run = new List<(Guid Shipper, (DateOnly, long, long) Span)>();
            while (await rows.ReadAsync(cancel))
                run.Add((rows.GetGuid(0), (rows.GetFieldValue<DateOnly>(1), rows.GetInt64(2), rows.GetInt64(3))));
            return run.ToLookup(span => span.Shipper, span => span.Span);
        },
        cancel);

    /// <summary>The destinations of lanes that there is freight on.</summary>
    public static Task<IReadOnlyList<string>> DestinationsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select distinct {Destination} {Within} and facet = 'Freight'",
        scope,
        async rows =>
        {
            var destinations = new List<string>();
            while (await rows.ReadAsync(cancel))
                destinations.Add(rows.GetString(0));
            return (IReadOnlyList<string>)destinations;
        },
        cancel);

    /// <summary>Each shipper's lines by month, on the lanes that begin at one of some terminals or end at one of some destinations.</summary>
    public static Task<ILookup<Guid, (DateOnly Month, Tally Tally)>> OnLanesAsync(this IDocumentStore store, Scope scope, IReadOnlyCollection<Guid> terminalIds, IReadOnlyCollection<string> destinations, CancellationToken cancel) => ReadAsync(
        store,
        $"""
        select shipper_id, since, {CellTable.Sums} {Within} and facet = 'Freight' and ({Terminal} = any(@terminals) or {Destination} = any(@destinations))
        group by shipper_id, since order by shipper_id, since
        """,
        scope,
        async rows =>
        {
            var months = new List<(Guid Shipper, (DateOnly, Tally) Month)>();
            while (await rows.ReadAsync(cancel))
                months.Add((rows.GetGuid(0), (rows.GetFieldValue<DateOnly>(1), CellTable.Read(rows, 2))));
            return months.ToLookup(month => month.Shipper, month => month.Month);
        },
        cancel,
        Texts("terminals", terminalIds.Select(id => id.ToString())),
        Texts("destinations", destinations));

    /// <summary>All cells of one account, months added up.</summary>
    public static async Task<IReadOnlyList<AccountCell>> CellsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) =>
        [.. (await store.CellsAsync(scope, Enum.GetValues<Facet>(), cancel)).SelectMany(account => account)];

    /// <summary>
    /// Cells of each shipper, months added up, and sites where no figure is told by site. Of lines that are divided only
    /// <see cref="AccountEvidence.Counts"/> are read.
    /// </summary>
    public static async Task<ILookup<Guid, AccountCell>> CellsAsync(this IDocumentStore store, Scope scope, IReadOnlyList<Facet> facets, CancellationToken cancel)
    {
        var cells = await Task.WhenAll(facets
            .GroupBy(facet => facet == Facet.All)
            .Select(some => CellsAsync(store, scope, [.. some], some.Key ? Tally.All : AccountEvidence.Counts, cancel)));
        return cells.SelectMany(some => some).ToLookup(cell => cell.Shipper, cell => cell.Cell);
    }

    private static Task<List<(Guid Shipper, AccountCell Cell)>> CellsAsync(IDocumentStore store, Scope scope, IReadOnlyList<Facet> facets, IReadOnlyList<Tallied> counts, CancellationToken cancel) => ReadAsync(
        store,
        $"""
        select shipper_id, case facet when 'Stops' then site_id end, facet, case facet when 'Week' then since end, key, {CellTable.SumsOf(counts)}
        {Within} and facet = any(@facets)
        group by 1, 2, 3, 4, 5
        """,
        scope,
        async rows =>
        {
            var cells = new List<(Guid Shipper, AccountCell Cell)>();
            while (await rows.ReadAsync(cancel))
            {
                var site = rows.IsDBNull(1) ? Guid.Empty : rows.GetGuid(1);
                var since = rows.IsDBNull(3) ? scope.Period.From : rows.GetFieldValue<DateOnly>(3);
                cells.Add((rows.GetGuid(0), new(site, Enum.Parse<Facet>(rows.GetString(2)), since, rows.GetString(4), CellTable.Read(rows, 5, counts))));
            }

            return cells;
        },
        cancel,
        Texts("facets", facets.Select(facet => facet.ToString())));

    /// <summary>What findings go with, over all these shippers.</summary>
    public static Task<RuleEffects> RuleEffectsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select key, {CellTable.SumsOf(RuleEffects.Counts)} {Within} and facet = 'Finding' group by key order by key",
        scope,
        async rows =>
        {
            var cells = new List<(Commodity, MileBand, string, Tally)>();
            while (await rows.ReadAsync(cancel))
            {
                var (commodity, miles, code) = CellKeys.ReadFinding(rows.GetString(0));
                cells.Add((commodity, miles, code, CellTable.Read(rows, 1, RuleEffects.Counts)));
            }

            return RuleEffects.Of(cells);
        },
        cancel);

    private static NpgsqlParameter Texts(string name, IEnumerable<string> texts) =>
        new(name, NpgsqlTypes.NpgsqlDbType.Array | NpgsqlTypes.NpgsqlDbType.Text) { Value = texts.ToArray() };

    private static async Task<T> ReadAsync<T>(IDocumentStore store, string sql, Scope scope, Func<NpgsqlDataReader, Task<T>> read, CancellationToken cancel, params NpgsqlParameter[] more)
    {
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.Add(new("shippers", NpgsqlTypes.NpgsqlDbType.Array | NpgsqlTypes.NpgsqlDbType.Uuid) { Value = scope.ShipperIds.ToArray() });
        command.Parameters.Add(new("carrier", NpgsqlTypes.NpgsqlDbType.Uuid) { Value = (object?)scope.CarrierId ?? DBNull.Value });
        command.Parameters.Add(new("sites", NpgsqlTypes.NpgsqlDbType.Array | NpgsqlTypes.NpgsqlDbType.Uuid) { Value = (object?)scope.SiteIds?.ToArray() ?? DBNull.Value });
        command.Parameters.Add(new("from", NpgsqlTypes.NpgsqlDbType.Date) { Value = scope.Period.From });
        command.Parameters.Add(new("until", NpgsqlTypes.NpgsqlDbType.Date) { Value = scope.Period.Until });
        command.Parameters.AddRange(more);
        await using var rows = await command.ExecuteReaderAsync(cancel);
        return await read(rows);
    }
}
