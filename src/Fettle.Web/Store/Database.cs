using Fettle.Web.Store.Postgres;

namespace Fettle.Web.Store;

/// <summary>The database of this process: one that was configured, or a private server that lives as long as the process.</summary>
public sealed class Database : IAsyncDisposable
{
    private readonly PrivatePostgres? server;

    private Database(string connectionString, bool migrates, string dataFolder, PrivatePostgres? server)
    {
        ConnectionString = connectionString;
        Migrates = migrates;
        DataFolder = dataFolder;
        this.server = server;
    }

    public string ConnectionString { get; }

    /// <summary>The schema is brought up to date at start.</summary>
    public bool Migrates { get; }

    /// <summary>Where this installation keeps files, such as mail that has no server to go to.</summary>
    public string DataFolder { get; }

    public bool IsPrivate => server is not null;

    /// <summary>Null when no database can be had; why has been said on the console.</summary>
    public static async Task<Database?> OpenAsync(WebApplicationBuilder builder, Settings settings)
    {
        var folder = settings.Database.DataFolder ?? PrivatePostgresOptions.DefaultDataFolder(builder.Environment.ContentRootPath);
        if (builder.Configuration.GetConnectionString("Fettle") is { Length: > 0 } configured)
            return new(configured, settings.Database.Migrate ?? false, folder, null);
        using var logging = LoggerFactory.Create(log => log.AddConfiguration(builder.Configuration.GetSection("Logging")).AddSimpleConsole(console => console.SingleLine = true));
        try
        {
            var options = new PrivatePostgresOptions { DataFolder = folder, BinFolder = settings.Database.BinFolder };
            var server = await PrivatePostgres.StartAsync(options, logging.CreateLogger<PrivatePostgres>(), CancellationToken.None);
            return new(server.ConnectionString, settings.Database.Migrate ?? true, folder, server);
        }
        catch (PostgresUnavailableException e)
        {
            await Console.Error.WriteLineAsync(e.Message);
            return null;
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (server is not null)
            await server.DisposeAsync();
    }
}
