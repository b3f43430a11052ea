using System.Data.Common;
using Marten;
using Npgsql;

namespace Fettle.Web.Store;

/// <summary>
/// An advisory lock of PostgreSQL, held by one node at a time on a connection of its own: when the node dies its
/// connection ends, and the lock is free again.
/// </summary>
public sealed class NodeLock : IAsyncDisposable
{
    private readonly NpgsqlConnection connection;
    private readonly long key;

    private NodeLock(NpgsqlConnection connection, long key)
    {
        this.connection = connection;
        this.key = key;
    }

    /// <summary>Waits until it is free.</summary>
    public static async Task<NodeLock> TakeAsync(IDocumentStore store, long key, CancellationToken cancel) =>
        (await OpenAsync(store, "select true from pg_advisory_lock($1)", key, cancel))!;

    /// <summary>Null when another node holds it.</summary>
    public static Task<NodeLock?> TryTakeAsync(IDocumentStore store, long key, CancellationToken cancel) =>
        OpenAsync(store, "select pg_try_advisory_lock($1)", key, cancel);

    private static async Task<NodeLock?> OpenAsync(IDocumentStore store, string take, long key, CancellationToken cancel)
    {
        var connection = store.Storage.Database.CreateConnection();
        try
        {
            await connection.OpenAsync(cancel);
            if (await ScalarAsync(connection, take, key, cancel) is true)
                return new(connection, key);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }

        await connection.DisposeAsync();
        return null;
    }

    public async ValueTask DisposeAsync()
    {
        try
        {
            // A pooled connection outlives its return: the lock has to be given back in so many words.
            await ScalarAsync(connection, "select pg_advisory_unlock($1)", key, CancellationToken.None);
        }
        catch (DbException)
        {
            // The connection is gone, and the lock with it.
        }

        await connection.DisposeAsync();
    }

    private static async Task<object?> ScalarAsync(NpgsqlConnection connection, string sql, long key, CancellationToken cancel)
    {
        // No time-out: another node may be at it for as long as a year of history takes.
        await using var command = new NpgsqlCommand(sql, connection) { Parameters = { new() { Value = key } }, CommandTimeout = 0 };
        return await command.ExecuteScalarAsync(cancel);
    }
}
