using Fettle.Readiness.Declarations;
using Fettle.Readiness.Scorecards;
using Marten;
using Npgsql;
using Lane = Fettle.Readiness.Scorecards.Lane;

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

    /// <summary>What each shipper's lines count for; those without any are not among them.</summary>
    public static Task<IReadOnlyDictionary<Guid, Tally>> AccountsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select shipper_id, {CellTable.Sums} {Within} and facet = 'All' group by shipper_id",
        scope,
        async rows =>
        {
            var accounts = new Dictionary<Guid, Tally>();
            while (await rows.ReadAsync(cancel))
                accounts.Add(rows.GetGuid(0), CellTable.Read(rows, 1));
            return (IReadOnlyDictionary<Guid, Tally>)accounts;
        },
        cancel);

    /// <summary>Each shipper's lines by week: all of them, and those that nothing stopped.</summary>
    public static Task<ILookup<Guid, (DateOnly Monday, long Lines, long Ready)>> WeeksAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select shipper_id, since, sum(lines)::bigint, sum(ready)::bigint {Within} and facet = 'Week' group by shipper_id, since order by shipper_id, since",
        scope,
        async rows =>
        {
            var weeks = new List<(Guid Shipper, (DateOnly, long, long) Week)>();
            while (await rows.ReadAsync(cancel))
                weeks.Add((rows.GetGuid(0), (rows.GetFieldValue<DateOnly>(1), rows.GetInt64(2), rows.GetInt64(3))));
            return weeks.ToLookup(week => week.Shipper, week => week.Week);
        },
        cancel);

    /// <summary>Each shipper's lines by lane and month.</summary>
    public static Task<IReadOnlyList<(Guid Shipper, Lane Lane, DateOnly Month, Tally Tally)>> LanesAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select shipper_id, since, key, {CellTable.Sums} {Within} and facet = 'Freight' group by shipper_id, since, key",
        scope,
        async rows =>
        {
            var lanes = new List<(Guid, Lane, DateOnly, Tally)>();
            while (await rows.ReadAsync(cancel))
                lanes.Add((rows.GetGuid(0), CellKeys.ReadFreight(rows.GetString(2)).Lane, rows.GetFieldValue<DateOnly>(1), CellTable.Read(rows, 3)));
            return (IReadOnlyList<(Guid, Lane, DateOnly, Tally)>)lanes;
        },
        cancel);

    /// <summary>The cells of one account, months added up.</summary>
    public static Task<IReadOnlyList<AccountCell>> CellsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select site_id, facet, case facet when 'Week' then since else @from end, key, {CellTable.Sums} {Within} group by 1, 2, 3, 4",
        scope,
        async rows =>
        {
            var cells = new List<AccountCell>();
            while (await rows.ReadAsync(cancel))
                cells.Add(new(rows.GetGuid(0), Enum.Parse<Facet>(rows.GetString(1)), rows.GetFieldValue<DateOnly>(2), rows.GetString(3), CellTable.Read(rows, 4)));
            return (IReadOnlyList<AccountCell>)cells;
        },
        cancel);

    /// <summary>What findings go with, over all these shippers.</summary>
    public static Task<RuleEffects> RuleEffectsAsync(this IDocumentStore store, Scope scope, CancellationToken cancel) => ReadAsync(
        store,
        $"select key, {CellTable.Sums} {Within} and facet = 'Finding' group by key order by key",
        scope,
        async rows =>
        {
            var cells = new List<(Commodity, MileBand, string, Tally)>();
            while (await rows.ReadAsync(cancel))
            {
                var (commodity, miles, code) = CellKeys.ReadFinding(rows.GetString(0));
                cells.Add((commodity, miles, code, CellTable.Read(rows, 1)));
            }

            return RuleEffects.Of(cells);
        },
        cancel);

    private static async Task<T> ReadAsync<T>(IDocumentStore store, string sql, Scope scope, Func<NpgsqlDataReader, Task<T>> read, CancellationToken cancel)
    {
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.Add(new("shippers", NpgsqlTypes.NpgsqlDbType.Array | NpgsqlTypes.NpgsqlDbType.Uuid) { Value = scope.ShipperIds.ToArray() });
        command.Parameters.Add(new("carrier", NpgsqlTypes.NpgsqlDbType.Uuid) { Value = (object?)scope.CarrierId ?? DBNull.Value });
        command.Parameters.Add(new("sites", NpgsqlTypes.NpgsqlDbType.Array | NpgsqlTypes.NpgsqlDbType.Uuid) { Value = (object?)scope.SiteIds?.ToArray() ?? DBNull.Value });
        command.Parameters.Add(new("from", NpgsqlTypes.NpgsqlDbType.Date) { Value = scope.Period.From });
        command.Parameters.Add(new("until", NpgsqlTypes.NpgsqlDbType.Date) { Value = scope.Period.Until });
        await using var rows = await command.ExecuteReaderAsync(cancel);
        return await read(rows);
    }
}
