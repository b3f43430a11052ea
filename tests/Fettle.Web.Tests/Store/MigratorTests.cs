using Fettle.Testing;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using Npgsql;

namespace Fettle.Web.Tests.Store;

/// <summary>How files are applied; the files here are made up for it.</summary>
public sealed class MigratorTests : IAsyncLifetime
{
    private static readonly Migration First = new("0001_docks.sql", "create table docks (name text); insert into docks values ('Kiln Road');");
    private static readonly Migration Second = new("0002_doors.sql", "alter table docks add doors int not null default 1;");

    private string database = "";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => database = await TestPostgres.CreateDatabaseAsync();

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public async Task Each_file_is_applied_once_and_in_order()
    {
        Assert.Equal(["0001_docks.sql", "0002_doors.sql"], await Migrator.ApplyAsync(database, [Second, First], Cancel));
        Assert.Empty(await Migrator.ApplyAsync(database, [First, Second], Cancel));

        Assert.Equal(1L, await ScalarAsync("select count(*) from docks"));
        Assert.Equal($"0001_docks.sql {First.Sha256}, 0002_doors.sql {Second.Sha256}", await ScalarAsync("select string_agg(name || ' ' || sha256, ', ' order by name) from fettle.applied_migrations"));
    }

    [Fact]
    public async Task A_later_version_applies_only_what_is_new()
    {
        await Migrator.ApplyAsync(database, [First], Cancel);

        Assert.Equal(["0002_doors.sql"], await Migrator.PendingAsync(database, [First, Second], Cancel));
        Assert.Equal(["0002_doors.sql"], await Migrator.ApplyAsync(database, [First, Second], Cancel));
        Assert.Empty(await Migrator.PendingAsync(database, [First, Second], Cancel));
    }

    [Fact]
    public async Task An_earlier_version_finds_nothing_to_do_in_a_database_that_is_ahead()
    {
        await Migrator.ApplyAsync(database, [First, Second], Cancel);

        Assert.Empty(await Migrator.PendingAsync(database, [First], Cancel));
        Assert.Empty(await Migrator.ApplyAsync(database, [First], Cancel));
    }

    [Fact]
    public async Task A_changed_file_is_refused_in_one_sentence_and_nothing_is_applied()
    {
        await Migrator.ApplyAsync(database, [First], Cancel);
        var changed = First with { Sql = First.Sql + "-- one more" };

        var refused = await Assert.ThrowsAsync<DatabaseUnusableException>(() => Migrator.ApplyAsync(database, [changed, Second], Cancel));

        Assert.Equal("Migration 0001_docks.sql is not the one that was applied to this database: put the file back as it was, and write what is to change as the next migration.", refused.Message);
        Assert.Equal(1L, await ScalarAsync("select count(*) from fettle.applied_migrations"));
        await Assert.ThrowsAsync<DatabaseUnusableException>(() => Migrator.PendingAsync(database, [changed], Cancel));
    }

    [Fact]
    public async Task A_file_that_fails_leaves_nothing_behind_not_even_what_came_before_it()
    {
        var broken = new Migration("0002_broken.sql", "create table gates (name text); alter table quays add doors int;");

        var refused = await Assert.ThrowsAsync<DatabaseUnusableException>(() => Migrator.ApplyAsync(database, [First, broken], Cancel));

        Assert.Equal("Migration 0002_broken.sql cannot be applied (relation \"quays\" does not exist); nothing was changed.", refused.Message);
        Assert.Equal(DBNull.Value, await ScalarAsync("select coalesce(to_regclass('docks'), to_regclass('gates'), to_regclass('fettle.applied_migrations'))::text"));
    }

    [Fact]
    public async Task An_empty_database_lacks_every_file_and_is_not_touched_by_asking()
    {
        Assert.Equal(["0001_docks.sql", "0002_doors.sql"], await Migrator.PendingAsync(database, [First, Second], Cancel));
        Assert.Equal(DBNull.Value, await ScalarAsync("select to_regnamespace('fettle')::text"));
    }

    [Fact]
    public async Task A_node_that_may_only_read_can_tell_that_nothing_is_missing()
    {
        await Migrator.ApplyAsync(database, [First], Cancel);
        var reader = new NpgsqlConnectionStringBuilder(database) { Options = "-c default_transaction_read_only=on" }.ConnectionString;

        Assert.Empty(await Migrator.PendingAsync(reader, [First], Cancel));
    }

    [Fact]
    public async Task It_brings_the_job_servers_tables_too()
    {
        await Migrator.ApplyAsync(database, [], Cancel);

        Assert.Equal("hangfire.job", await ScalarAsync("select to_regclass('hangfire.job')::text"));
    }

    [Fact]
    public async Task Four_that_come_at_once_to_an_empty_database_leave_it_migrated_once()
    {
        for (var round = 1; round <= 10; round++)
        {
            var empty = await TestPostgres.CreateDatabaseAsync();

            var applied = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => Migrator.ApplyAsync(empty, Migration.All, Cancel))));

            var worked = Assert.Single(applied, names => names.Count > 0);
            Assert.Equal(Migration.All.Select(migration => migration.Name), worked);
            Assert.Empty(await Migrator.PendingAsync(empty, Migration.All, Cancel));
        }
    }

    private async Task<object?> ScalarAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(database);
        await connection.OpenAsync(Cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(Cancel);
    }
}
