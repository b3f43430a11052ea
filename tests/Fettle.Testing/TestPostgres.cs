using System.Diagnostics;
using System.Globalization;
using Fettle.Web.Store.Postgres;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;

namespace Fettle.Testing;

/// <summary>
/// One private PostgreSQL server for the whole test process, started when first asked for and removed when the process
/// ends; a database of its own for whoever asks. What a killed test process left is removed by the next one.
/// </summary>
public static class TestPostgres
{
    private static readonly string Root = Path.Combine(Path.GetTempPath(), "fettle-tests");

    private static readonly PrivatePostgresOptions Options = new()
    {
        DataFolder = Path.Combine(Root, string.Create(CultureInfo.InvariantCulture, $"{Environment.ProcessId}-{Path.GetRandomFileName()}")),
        Durable = false,
        MaxPoolSize = 20,
    };

    /// <summary>The test runner calls an exit that takes 10 s a failure. What is not removed by then is removed by the next process.</summary>
    private static readonly TimeSpan LongestGoodbye = TimeSpan.FromSeconds(7);

    private static readonly Lazy<Task<PrivatePostgres>> Server = new(StartAsync);
    private static int _databases;

    /// <summary>A new, empty database, in some tens of milliseconds.</summary>
    /// <returns>Its connection string, with error details on.</returns>
    public static async Task<string> CreateDatabaseAsync()
    {
        var server = await Server.Value;
        var name = string.Create(CultureInfo.InvariantCulture, $"test_{Interlocked.Increment(ref _databases)}");
        return WithDetails(await server.CreateDatabaseAsync(name, CancellationToken.None));
    }

    /// <summary>A new database that starts as a copy of another, which nobody may be connected to meanwhile.</summary>
    /// <param name="original">A connection string that <see cref="CreateDatabaseAsync"/> gave.</param>
    public static async Task<string> CopyDatabaseAsync(string original)
    {
        var source = new NpgsqlConnectionStringBuilder(original).Database!;
        await using (var pooled = new NpgsqlConnection(original))
            NpgsqlConnection.ClearPool(pooled);
        var server = await Server.Value;
        var name = string.Create(CultureInfo.InvariantCulture, $"test_{Interlocked.Increment(ref _databases)}");
        return WithDetails(await server.CreateDatabaseAsync(name, CancellationToken.None, template: source));
    }

    private static string WithDetails(string connectionString) =>
        new NpgsqlConnectionStringBuilder(connectionString) { IncludeErrorDetail = true }.ConnectionString;

    private static async Task<PrivatePostgres> StartAsync()
    {
        foreach (var left in Directory.CreateDirectory(Root).EnumerateDirectories().Where(folder => !HasLivingMaker(folder)))
            await RemoveAsync(left);
        var server = await PrivatePostgres.StartAsync(Options, NullLogger.Instance, CancellationToken.None);
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Task.Run(async () =>
        {
            await server.DisposeAsync();
            await PrivatePostgres.DestroyAsync(Options, NullLogger.Instance, CancellationToken.None);
        }).Wait(LongestGoodbye);
        return server;
    }

    /// <summary>A folder is named after the process that made it.</summary>
    private static bool HasLivingMaker(DirectoryInfo folder)
    {
        if (!int.TryParse(folder.Name.Split('-')[0], CultureInfo.InvariantCulture, out var id))
            return false;
        try
        {
            using var maker = Process.GetProcessById(id);
            return true;
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    private static async Task RemoveAsync(DirectoryInfo left)
    {
        try
        {
            await PrivatePostgres.DestroyAsync(Options with { DataFolder = left.FullName }, NullLogger.Instance, CancellationToken.None);
        }
        catch (IOException)
        {
            // Another test process is removing the same one.
        }
    }
}
