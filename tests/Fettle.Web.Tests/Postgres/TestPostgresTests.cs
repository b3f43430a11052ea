using Fettle.Testing;
using Npgsql;

namespace Fettle.Web.Tests.Postgres;

public sealed class TestPostgresTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Each_database_is_empty_and_apart_from_the_others()
    {
        var databases = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => TestPostgres.CreateDatabaseAsync()));

        foreach (var database in databases)
            await ScalarAsync(database, "create table mine (only_once int)");
        Assert.Equal(4, databases.Select(database => new NpgsqlConnectionStringBuilder(database).Database).Distinct().Count());
    }

    [Fact]
    public async Task A_copy_starts_with_what_the_original_held_and_goes_its_own_way()
    {
        var original = await TestPostgres.CreateDatabaseAsync();
        await ScalarAsync(original, "create table pallets as select 1 as n");

        var copy = await TestPostgres.CopyDatabaseAsync(original);
        await ScalarAsync(copy, "insert into pallets values (2)");

        Assert.Equal(2L, await ScalarAsync(copy, "select count(*) from pallets"));
        Assert.Equal(1L, await ScalarAsync(original, "select count(*) from pallets"));
    }

    private static async Task<object?> ScalarAsync(string database, string sql)
    {
        await using var connection = new NpgsqlConnection(database);
        await connection.OpenAsync(Cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(Cancel);
    }
}
