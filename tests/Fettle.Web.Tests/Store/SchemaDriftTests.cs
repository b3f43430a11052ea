using Fettle.Testing;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using JasperFx;
using Marten;
using Weasel.Core.Migrations;

namespace Fettle.Web.Tests.Store;

/// <summary>The files of migrations/ and the code that uses the tables agree.</summary>
public sealed class SchemaDriftTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_migrations_make_exactly_the_schema_that_the_code_wants()
    {
        var database = await TestPostgres.CreateDatabaseAsync();
        await Migrator.ApplyAsync(database, Migration.All, Cancel);

        var missing = await MigrationWriter.DifferenceAsync(database);

        Assert.True(missing is null, $"""
            A document, index or projection was changed and migrations/ was not. Write the next file with

                dotnet run --project src/Fettle.Web -- migration WHAT_CHANGED

            read it and commit it (migrations/README.md). It would hold:

            {missing}
            """);
        await using var store = StoreOf(database);
        await store.Storage.Database.AssertDatabaseMatchesConfigurationAsync(Cancel);
    }

    [Fact]
    public async Task A_database_that_lacks_something_is_found_out()
    {
        var database = await TestPostgres.CreateDatabaseAsync();
        await Migrator.ApplyAsync(database, [.. Migration.All, new("9999_damage.sql", "drop index fettle.mt_doc_notice_idx_due_at")], Cancel);

        Assert.Contains("mt_doc_notice_idx_due_at", await MigrationWriter.DifferenceAsync(database));
        await using var store = StoreOf(database);
        await Assert.ThrowsAnyAsync<Exception>(() => store.Storage.Database.AssertDatabaseMatchesConfigurationAsync(Cancel));
    }

    private static DocumentStore StoreOf(string database) => DocumentStore.For(options =>
    {
        options.Connection(database);
        StoreSetup.Configure(options);
        options.AutoCreateSchemaObjects = AutoCreate.None;
    });
}
