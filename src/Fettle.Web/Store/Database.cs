using System.Net.Sockets;
using Fettle.Web.Store.Migrations;
using Fettle.Web.Store.Postgres;
using Npgsql;

namespace Fettle.Web.Store;

/// <summary>The database of this process: one that was configured, or a private server that lives as long as the process.</summary>
public sealed class Database : IAsyncDisposable
{
    /// <summary>Marten's, the store's, oldest.</summary>
    private static readonly Version OldestServer = new(14, 0);

    private readonly PrivatePostgres? server;

    private Database(string connectionString, string dataFolder, PrivatePostgres? server)
    {
        ConnectionString = connectionString;
        DataFolder = dataFolder;
        this.server = server;
    }

    public string ConnectionString { get; }

    /// <summary>Where this installation keeps files, such as mail that has no server to go to.</summary>
    public string DataFolder { get; }

    public bool IsPrivate => server is not null;

    /// <summary>Opens the database and sees to it that its schema is the one that this version works with.</summary>
    /// <param name="migrate">Bring the schema up to date, whatever the settings say.</param>
    /// <returns>Null when no database can be had; why has been said on the console.</returns>
    public static async Task<Database?> OpenAsync(WebApplicationBuilder builder, Settings settings, bool migrate)
    {
        Database? database = null;
        try
        {
            database = await FindAsync(builder, settings.Database);
            await database.PrepareAsync(migrate || (settings.Database.Migrate ?? database.IsPrivate));
            return database;
        }
        catch (Exception e) when (e is PostgresUnavailableException or DatabaseUnusableException)
        {
            if (database is not null)
                await database.DisposeAsync();
            await Console.Error.WriteLineAsync(e.Message);
            return null;
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (server is not null)
            await server.DisposeAsync();
    }

    private static async Task<Database> FindAsync(WebApplicationBuilder builder, DatabaseSettings settings)
    {
        var folder = settings.DataFolder ?? PrivatePostgresOptions.DefaultDataFolder(builder.Environment.ContentRootPath);
        if (builder.Configuration.GetConnectionString("Fettle") is { Length: > 0 } configured)
        {
            await AssertUsableAsync(configured);
            return new(configured, folder, null);
        }

        using var logging = LoggerFactory.Create(log => log.AddConfiguration(builder.Configuration.GetSection("Logging")).AddSimpleConsole(console => console.SingleLine = true));
        var options = new PrivatePostgresOptions { DataFolder = folder, BinFolder = settings.BinFolder };
        var server = await PrivatePostgres.StartAsync(options, logging.CreateLogger<PrivatePostgres>(), CancellationToken.None);
        return new(server.ConnectionString, folder, server);
    }

    private static async Task AssertUsableAsync(string connectionString)
    {
        const string Advice = "check ConnectionStrings:Fettle, or leave it out and Fettle starts a server of its own.";
        try
        {
            await using var connection = new NpgsqlConnection(connectionString);
            await connection.OpenAsync();
            if (Complaint(connection.PostgreSqlVersion) is { } complaint)
                throw new DatabaseUnusableException(complaint);
        }
        catch (ArgumentException e)
        {
            throw new DatabaseUnusableException($"The configured connection string cannot be read ({e.Message.ReplaceLineEndings(" ")}): {Advice}", e);
        }
        catch (Exception e) when (e is NpgsqlException or SocketException or TimeoutException)
        {
            var asked = new NpgsqlConnectionStringBuilder(connectionString);
            var why = e is PostgresException said ? said.MessageText : (e.InnerException ?? e).Message;
            throw new DatabaseUnusableException($"The configured database {asked.Database} at {asked.Host}:{asked.Port} cannot be opened ({why.ReplaceLineEndings(" ").TrimEnd('.')}): {Advice}", e);
        }
    }

    /// <summary>What is wrong with a server of this version; null when nothing is.</summary>
    internal static string? Complaint(Version server) => server >= OldestServer
        ? null
        : $"The configured database runs on PostgreSQL {server.ToString(2)} and Fettle needs {OldestServer.Major} or later: name a newer server in ConnectionStrings:Fettle, or leave it out and Fettle starts one of its own.";

    private async Task PrepareAsync(bool migrate)
    {
        var doing = migrate ? "brought up to date" : "read";
        try
        {
            if (migrate)
            {
                foreach (var applied in await Migrator.ApplyAsync(ConnectionString, Migration.All, CancellationToken.None))
                    Console.WriteLine($"Applied {applied}");
                return;
            }

            var pending = await Migrator.PendingAsync(ConnectionString, Migration.All, CancellationToken.None);
            if (pending.Count > 0)
                throw new DatabaseUnusableException($"The configured database lacks {string.Join(", ", pending)}: run this program once with the word migrate, or set Fettle:Database:Migrate to true.");
        }
        catch (NpgsqlException e)
        {
            throw new DatabaseUnusableException($"The schema of the database cannot be {doing} ({(e is PostgresException said ? said.MessageText : e.Message)}).", e);
        }
        catch (DatabaseUnusableException e) when (IsPrivate)
        {
            throw new DatabaseUnusableException($"{e.Message.TrimEnd('.')}. Or move the folder {DataFolder} away to start with a new database.", e);
        }
    }
}
