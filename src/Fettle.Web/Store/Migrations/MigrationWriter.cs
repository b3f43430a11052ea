using System.Globalization;
using System.Text.RegularExpressions;
using Fettle.Web.Store.Postgres;
using JasperFx;
using Marten;
using Microsoft.Extensions.Logging.Abstractions;
using Weasel.Core.Migrations;

namespace Fettle.Web.Store.Migrations;

/// <summary>For whoever changes a document: writes the next file of <c>migrations/</c>, by comparing the code with what the files so far make.</summary>
public static partial class MigrationWriter
{
    /// <summary>The command: writes the file in this checkout and says so on the console.</summary>
    /// <param name="what">What the change is, in small letters: "photo_hashes".</param>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunAsync(string what)
    {
        if (!Words().IsMatch(what))
            return await FailAsync($"\"{what}\" cannot be part of a file name here: use small letters, digits and underscores.");
        if (Folder() is not { } folder)
            return await FailAsync("A migration is written into a checkout's migrations folder, and this program does not run from a checkout.");
        var scratch = new PrivatePostgresOptions { DataFolder = Path.Combine(Path.GetTempPath(), "fettle-migration", Path.GetRandomFileName()), Durable = false };
        try
        {
            string? script;
            await using (var server = await PrivatePostgres.StartAsync(scratch, NullLogger.Instance, CancellationToken.None))
            {
                await Migrator.ApplyAsync(server.ConnectionString, Migration.All, CancellationToken.None);
                script = await DifferenceAsync(server.ConnectionString);
            }

            if (script is null)
            {
                Console.WriteLine("The migrations make exactly the schema that the code wants: there is nothing to write.");
                return 0;
            }

            var path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"{Migration.All.Count + 1:0000}_{what}.sql"));
            await File.WriteAllTextAsync(path, script);
            Console.WriteLine($"Written: {path}. Read it before it is committed; docs and rules are in migrations/README.md.");
            return 0;
        }
        catch (Exception e) when (e is PostgresUnavailableException or DatabaseUnusableException)
        {
            return await FailAsync(e.Message);
        }
        finally
        {
            await PrivatePostgres.DestroyAsync(scratch, NullLogger.Instance, CancellationToken.None);
        }
    }

    /// <summary>The SQL that takes a database to the schema that the code wants; null when it has it.</summary>
    internal static async Task<string?> DifferenceAsync(string connectionString)
    {
        await using var store = DocumentStore.For(options =>
        {
            options.Connection(connectionString);
            StoreSetup.Configure(options);
            options.AutoCreateSchemaObjects = AutoCreate.CreateOrUpdate;
        });
        var file = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".sql");
        try
        {
            // Also writes the way back, beside it and with "drop" in its name. Fettle does not go back.
            await store.Storage.Database.WriteMigrationFileAsync(file);
            var script = (await File.ReadAllTextAsync(file)).ReplaceLineEndings("\n").Trim();
            return script.Length > 0 ? script + "\n" : null;
        }
        finally
        {
            File.Delete(file);
            File.Delete(Path.ChangeExtension(file, ".drop.sql"));
        }
    }

    private static string? Folder()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var migrations = Path.Combine(folder.FullName, "migrations");
            if (File.Exists(Path.Combine(migrations, "README.md")))
                return migrations;
        }

        return null;
    }

    private static async Task<int> FailAsync(string why)
    {
        await Console.Error.WriteLineAsync(why);
        return 1;
    }

    [GeneratedRegex("^[a-z0-9_]+$")]
    private static partial Regex Words();
}
