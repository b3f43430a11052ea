using Fettle.Web.Jobs;
using Npgsql;

namespace Fettle.Web.Store.Migrations;

/// <summary>
/// Brings a database's schema up to date. What was applied is written down in <c>fettle.applied_migrations</c>, so that
/// each file runs once; several nodes may come at once, one works and the others wait and find it done.
/// </summary>
public static class Migrator
{
    /// <summary>Any number will do for PostgreSQL's advisory locks, if nobody else in the database uses it: "fettle" in ASCII.</summary>
    private const long Lock = 0x66_65_74_74_6C_65;

    private const string Book = """
        create schema if not exists fettle;
        create table fettle.applied_migrations (
            name text primary key,
            sha256 text not null,
            applied_at timestamptz not null default now()
        );
        """;

    /// <summary>Applies what is missing, all of it or, when one file fails, nothing; then brings the job server's own tables up to date.</summary>
    /// <returns>The names of the files that were applied now, in order.</returns>
    /// <exception cref="DatabaseUnusableException">A file was changed after it had been applied, or cannot be applied.</exception>
    public static async Task<IReadOnlyList<string>> ApplyAsync(string connectionString, IReadOnlyList<Migration> migrations, CancellationToken cancel)
    {
        await using var source = NpgsqlDataSource.Create(OneAtATime(connectionString));
        await using var connection = await source.OpenConnectionAsync(cancel);
        await using var transaction = await connection.BeginTransactionAsync(cancel);
        await RunAsync(connection, $"select pg_advisory_xact_lock({Lock})", cancel);
        if (!await HasBookAsync(connection, cancel))
            await RunAsync(connection, Book, cancel);
        var pending = await PendingAsync(connection, migrations, cancel);
        foreach (var migration in pending)
        {
            try
            {
                await RunAsync(connection, migration.Sql, cancel);
            }
            catch (PostgresException e)
            {
                throw new DatabaseUnusableException($"Migration {migration.Name} cannot be applied ({e.MessageText}); nothing was changed.", e);
            }

            await using var note = new NpgsqlCommand("insert into fettle.applied_migrations (name, sha256) values ($1, $2)", connection)
            {
                Parameters = { new() { Value = migration.Name }, new() { Value = migration.Sha256 } },
            };
            await note.ExecuteNonQueryAsync(cancel);
        }

        // Hangfire brings its own schema, with connections and transactions of its own: done while others still wait.
        JobSetup.PrepareSchema(connectionString);
        await transaction.CommitAsync(cancel);
        return [.. pending.Select(migration => migration.Name)];
    }

    /// <summary>Names of what is still to be applied. Nothing is changed, and no more than reading is asked of the account.</summary>
    /// <exception cref="DatabaseUnusableException">A file was changed after it had been applied.</exception>
    public static async Task<IReadOnlyList<string>> PendingAsync(string connectionString, IReadOnlyList<Migration> migrations, CancellationToken cancel)
    {
        await using var source = NpgsqlDataSource.Create(OneAtATime(connectionString));
        await using var connection = await source.OpenConnectionAsync(cancel);
        var pending = await HasBookAsync(connection, cancel) ? await PendingAsync(connection, migrations, cancel) : migrations;
        return [.. pending.Select(migration => migration.Name)];
    }

    private static async Task<bool> HasBookAsync(NpgsqlConnection connection, CancellationToken cancel)
    {
        await using var exists = new NpgsqlCommand("select to_regclass('fettle.applied_migrations') is not null", connection);
        return await exists.ExecuteScalarAsync(cancel) is true;
    }

    private static async Task<IReadOnlyList<Migration>> PendingAsync(NpgsqlConnection connection, IReadOnlyList<Migration> migrations, CancellationToken cancel)
    {
        var applied = new Dictionary<string, string>();
        await using (var read = new NpgsqlCommand("select name, sha256 from fettle.applied_migrations", connection))
        await using (var rows = await read.ExecuteReaderAsync(cancel))
        {
            while (await rows.ReadAsync(cancel))
                applied.Add(rows.GetString(0), rows.GetString(1));
        }

        // What is written there and not here came with a later version of the portal, which may run beside this one.
        if (migrations.FirstOrDefault(migration => applied.TryGetValue(migration.Name, out var sha256) && sha256 != migration.Sha256) is { } changed)
            throw new DatabaseUnusableException($"Migration {changed.Name} is not the one that was applied to this database: put the file back as it was, and write what is to change as the next migration.");
        return [.. migrations.Where(migration => !applied.ContainsKey(migration.Name)).OrderBy(migration => migration.Name, StringComparer.Ordinal)];
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(cancel);
    }

    /// <summary>No limit on how long a migration takes, or on how long to wait for another node's.</summary>
    private static string OneAtATime(string connectionString) =>
        new NpgsqlConnectionStringBuilder(connectionString) { ApplicationName = "fettle-migrations", Pooling = false, CommandTimeout = 0 }.ConnectionString;
}
