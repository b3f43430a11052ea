using Fettle.Readiness.Claims;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Store;
using JasperFx;
using Marten;
using Marten.Events;
using Npgsql;
using SessionOptions = Marten.Services.SessionOptions;

namespace Fettle.Web.Scorecards;

/// <summary>Counts lines and cells anew from all events, for when what is counted has changed.</summary>
public static class ScorecardRebuild
{
    /// <summary>Events read at a time: some megabytes.</summary>
    private const int Page = 1000;

    /// <summary>The command: rebuilds, and says so on the console.</summary>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(string connectionString)
    {
        await using var store = DocumentStore.For(options =>
        {
            options.Connection(connectionString);
            StoreSetup.Configure(options);
            options.AutoCreateSchemaObjects = AutoCreate.None;
        });
        var events = await RunAsync(store, CancellationToken.None);
        Console.WriteLine($"The scorecards were counted anew from {events} events.");
        return 0;
    }

    /// <summary>
    /// All in one transaction: until it is done everybody reads what was there before, and whoever hands in or decides
    /// meanwhile waits and is counted after it.
    /// </summary>
    /// <returns>Events read.</returns>
    public static async Task<int> RunAsync(IDocumentStore store, CancellationToken cancel)
    {
        await using var connection = store.Storage.Database.CreateConnection();
        await connection.OpenAsync(cancel);
        await using var transaction = await connection.BeginTransactionAsync(cancel);
        const string Tables = "fettle.score_cells, fettle.mt_doc_linerecord, fettle.mt_doc_lineofhold";
        await using (var clear = new NpgsqlCommand($"lock table {Tables} in exclusive mode; {string.Join("; ", Tables.Split(", ").Select(table => $"delete from {table}"))}", connection, transaction))
        {
            clear.CommandTimeout = 0;
            await clear.ExecuteNonQueryAsync(cancel);
        }

        var (projection, count, last) = (new ScorecardProjection(), 0, 0L);
        while (true)
        {
            await using var session = store.LightweightSession(SessionOptions.ForTransaction(transaction));
            var events = await session.Events.QueryAllRawEvents()
                .Where(e => e.Sequence > last && e.EventTypesAre(typeof(PickupSubmitted), typeof(OutcomeRecorded), typeof(InspectionRecorded), typeof(HoldPlaced), typeof(HoldDecided), typeof(ClaimFiled), typeof(ClaimAnswered), typeof(ClaimWithdrawn)))
                .OrderBy(e => e.Sequence)
                .Take(Page)
                .ToListAsync(cancel);
            if (events.Count == 0)
                break;
            await projection.ApplyAsync(session, events, cancel);
            await session.SaveChangesAsync(cancel);
            (count, last) = (count + events.Count, events[^1].Sequence);
        }

        await transaction.CommitAsync(cancel);
        return count;
    }
}
