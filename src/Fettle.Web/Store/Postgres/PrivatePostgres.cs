using System.ComponentModel;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Npgsql;

namespace Fettle.Web.Store.Postgres;

/// <summary>
/// A PostgreSQL server of the portal's own, so that a fresh clone runs with no configuration: loopback only, a random
/// free port, a random password, data that survives restarts. It is stopped when disposed. Should it die it is started
/// again on the same port; should we die it runs on, and the next start on the folder stops it first.
/// How and why: <c>docs/decisions/0003-embedded-postgresql.md</c>.
/// </summary>
public sealed class PrivatePostgres : IAsyncDisposable
{
    private const string Superuser = "postgres";
    private const string Owner = "fettle";
    private const int MaxConnections = 300;
    private const int StartTries = 10;
    private const long LogLimitBytes = 5_000_000;
    private static readonly TimeSpan WatchInterval = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan LeftoverPatience = TimeSpan.FromSeconds(60);

    private readonly PrivatePostgresOptions _options;
    private readonly Folder _folder;
    private readonly FileStream _lock;
    private readonly ServerAccount _account;
    private readonly ServerBinaries _binaries;
    private readonly string _password;
    private readonly ILogger _log;
    private readonly CancellationTokenSource _stopping = new();
    private int _port;
    private Task _watch = Task.CompletedTask;

    private PrivatePostgres(
        PrivatePostgresOptions options, Folder folder, FileStream folderLock, ServerAccount account, ServerBinaries binaries,
        string password, ILogger log) =>
        (_options, _folder, _lock, _account, _binaries, _password, _log) =
        (options, folder, folderLock, account, binaries, password, log);

    /// <summary>Leads to <see cref="PrivatePostgresOptions.Database"/> as its owner, who is no superuser.</summary>
    public string ConnectionString => ConnectionTo(Owner, _options.Database);

    /// <summary>The server's version, such as 15.</summary>
    public int MajorVersion => _binaries.Major;

    /// <summary>Starts the server on its data folder, which is made on first use. Takes a second or two; a few more on first use.</summary>
    /// <exception cref="PostgresUnavailableException">With one sentence that says what to do.</exception>
    public static async Task<PrivatePostgres> StartAsync(PrivatePostgresOptions options, ILogger log, CancellationToken cancel)
    {
        var folder = new Folder(Path.GetFullPath(options.DataFolder));
        var account = ServerAccount.Current();
        var folderLock = await folder.TakeAsync(account, cancel);
        try
        {
            var binaries = await ServerBinaries.FindAsync(options.BinFolder, folder.ClusterMajor(), account, folder.Root, log, cancel);
            var password = folder.ClusterMajor() is null
                ? await CreateClusterAsync(options, folder, account, binaries, log, cancel)
                : folder.ReadPassword();
            var server = new PrivatePostgres(options, folder, folderLock, account, binaries, password, log);
            await server.StopLeftoverAsync(cancel);
            await server.LaunchAsync(port: null, cancel);
            try
            {
                await server.CreateOwnerAsync(cancel);
                await server.CreateDatabaseAsync(options.Database, cancel);
            }
            catch
            {
                await server.StopAsync(CancellationToken.None);
                throw;
            }
            server._watch = server.WatchAsync();
            log.LogInformation("Private PostgreSQL {Major} on port {Port}, data in {Folder}", binaries.Major, server._port, folder.Root);
            return server;
        }
        catch
        {
            await folderLock.DisposeAsync();
            throw;
        }
    }

    /// <summary>Stops whatever an application that was killed left running on the folder, and deletes the folder with all its data.</summary>
    /// <returns>False, with nothing touched, when a living application holds the folder.</returns>
    public static async Task<bool> DestroyAsync(PrivatePostgresOptions options, ILogger log, CancellationToken cancel)
    {
        var folder = new Folder(Path.GetFullPath(options.DataFolder));
        if (!Directory.Exists(folder.Root))
            return true;
        var account = ServerAccount.Current();
        FileStream folderLock;
        try
        {
            folderLock = await folder.TakeAsync(account, cancel);
        }
        catch (PostgresUnavailableException)
        {
            return false;
        }
        await using (folderLock)
        {
            if (Postmaster.Read(folder.Cluster) is { } running && running.IsAlive())
            {
                var binaries = await ServerBinaries.FindAsync(options.BinFolder, folder.ClusterMajor(), account, folder.Root, log, cancel);
                await new PrivatePostgres(options, folder, folderLock, account, binaries, folder.ReadPassword(), log).StopLeftoverAsync(cancel);
            }
        }
        Directory.Delete(folder.Root, recursive: true);
        return true;
    }

    /// <summary>Makes a database in UTF-8, unless it is there already.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="cancel">Ends the wait.</param>
    /// <param name="template">A database to copy, which nobody may be connected to meanwhile; null for an empty one.</param>
    /// <returns>Its connection string, as the owner.</returns>
    public async Task<string> CreateDatabaseAsync(string name, CancellationToken cancel, string? template = null)
    {
        await using var source = NpgsqlDataSource.Create(ConnectionTo(Superuser, "postgres"));
        await using var exists = source.CreateCommand("select exists (select from pg_database where datname = $1)");
        exists.Parameters.AddWithValue(name);
        if (await exists.ExecuteScalarAsync(cancel) is not true)
        {
            await using var create = source.CreateCommand($"create database {Quoted(name)} owner {Owner} template {Quoted(template ?? "template1")}");
            await create.ExecuteNonQueryAsync(cancel);
        }
        return ConnectionTo(Owner, name);
    }

    /// <summary>Stops the server: sessions are cut, what was committed is kept.</summary>
    public async ValueTask DisposeAsync()
    {
        if (_stopping.IsCancellationRequested)
            return;
        await _stopping.CancelAsync();
        await _watch;
        await StopAsync(CancellationToken.None);
        await _lock.DisposeAsync();
        _stopping.Dispose();
    }

    /// <summary>Lets go of the folder and leaves the server running, as the system does for a process that is killed. For tests of the next start.</summary>
    internal async Task AbandonAsync()
    {
        await _stopping.CancelAsync();
        await _watch;
        await _lock.DisposeAsync();
    }

    private static string Quoted(string identifier) => $"\"{identifier.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private string ConnectionTo(string user, string database, int? port = null) => new NpgsqlConnectionStringBuilder
    {
        Host = IPAddress.Loopback.ToString(),
        Port = port ?? _port,
        Username = user,
        Password = _password,
        Database = database,
        SslMode = SslMode.Disable,
        Timeout = 15,
        CommandTimeout = 30,
        MaxPoolSize = _options.MaxPoolSize,
        Pooling = user == Owner,
    }.ConnectionString;

    /// <summary>
    /// Makes the cluster under another name and renames it when it is whole, so that one cut short is never started.
    /// </summary>
    private static async Task<string> CreateClusterAsync(
        PrivatePostgresOptions options, Folder folder, ServerAccount account, ServerBinaries binaries, ILogger log, CancellationToken cancel)
    {
        log.LogInformation("Making a private PostgreSQL {Major} data folder in {Folder}", binaries.Major, folder.Root);
        var password = folder.WritePassword();
        await account.OwnAsync(folder.Password, cancel);
        if (Directory.Exists(folder.Unfinished))
            Directory.Delete(folder.Unfinished, recursive: true);
        // Byte order everywhere, and letters known as Unicode has them, whatever the machine's own locale is.
        string[] locale = binaries.Major >= 17 ? ["--locale-provider=builtin", "--builtin-locale=C.UTF-8", "--locale=C"]
            : OperatingSystem.IsLinux() ? ["--locale=C.UTF-8"]
            : ["--locale=C"];
        string[] arguments =
        [
            "-D", folder.Unfinished, "-U", Superuser, $"--pwfile={folder.Password}", "--auth=scram-sha-256", "--encoding=UTF8",
            .. locale, .. options.Durable ? Array.Empty<string>() : ["--no-sync"],
        ];
        var run = await account.RunAsync(binaries.Tool("initdb"), arguments, folder.Root, binaries.Libraries, cancel);
        if (run.ExitCode != 0)
            throw new PostgresUnavailableException(
                $"PostgreSQL could not make its data folder in {folder.Root} ({run.LastLine}): choose another with Fettle:Postgres:DataFolder, "
                + "or set ConnectionStrings:Fettle to a server you have.");
        Directory.Move(folder.Unfinished, folder.Cluster);
        return password;
    }

    /// <summary>
    /// A server that a killed application left running is stopped rather than taken over: its sessions and locks go with it,
    /// and there is one way to start. That it answers to this folder's password proves that it is ours.
    /// </summary>
    private async Task StopLeftoverAsync(CancellationToken cancel)
    {
        using var patience = new CancellationTokenSource(LeftoverPatience);
        while (Postmaster.Read(_folder.Cluster) is { } running && running.IsAlive())
        {
            if (await AnswersAsync(running.Port, cancel))
            {
                _log.LogInformation("Stopping the PostgreSQL server that an earlier run left behind, process {Pid}", running.Pid);
                await StopAsync(cancel);
            }
            else if (patience.IsCancellationRequested)
            {
                throw new PostgresUnavailableException(
                    $"A PostgreSQL server, process {running.Pid}, holds {_folder.Root} and does not answer: stop that process and start Fettle again.");
            }
            else
            {
                await Task.Delay(200, cancel);
            }
        }
        // What is left of the lock file names a dead process, or a number that another program now has,
        // for which PostgreSQL would refuse to start.
        File.Delete(Postmaster.LockFile(_folder.Cluster));
    }

    private async Task<bool> AnswersAsync(int port, CancellationToken cancel)
    {
        try
        {
            await using var connection = new NpgsqlConnection(ConnectionTo(Superuser, "postgres", port));
            await connection.OpenAsync(cancel);
            return true;
        }
        catch (NpgsqlException)
        {
            return false;
        }
    }

    /// <summary>Starts the server on the given port, or on a free one. Tries again when the port was snatched, or a dead server's children are still leaving.</summary>
    private async Task LaunchAsync(int? port, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            _port = port ?? FreePort();
            var settings = string.Create(CultureInfo.InvariantCulture,
                $"-p {_port} -c listen_addresses=127.0.0.1 -c unix_socket_directories= -c max_connections={MaxConnections} -c log_timezone=UTC -c timezone=UTC");
            if (!_options.Durable)
                settings += " -c fsync=off -c synchronous_commit=off -c full_page_writes=off";
            _folder.TrimLog(LogLimitBytes);
            var run = await _account.RunAsync(
                _binaries.Tool("pg_ctl"), ["start", "-D", _folder.Cluster, "-l", _folder.Log, "-w", "-t", "60", "-o", settings],
                _folder.Root, _binaries.Libraries, cancel);
            if (run.ExitCode == 0)
                return;
            if (attempt == StartTries)
                throw new PostgresUnavailableException(
                    $"PostgreSQL did not start on {_folder.Root} ({_folder.LastFatal() ?? run.LastLine}): read {_folder.Log}, "
                    + "or set ConnectionStrings:Fettle to a server you have.");
            _log.LogDebug("PostgreSQL did not start, attempt {Attempt}: {Reason}", attempt, _folder.LastFatal() ?? run.LastLine);
            await Task.Delay(500, cancel);
        }
    }

    /// <summary>Starts the server again, on the port that everyone knows, when it has been killed.</summary>
    private async Task WatchAsync()
    {
        var cancel = _stopping.Token;
        while (!cancel.IsCancellationRequested)
        {
            try
            {
                await Task.Delay(WatchInterval, cancel);
                if (Postmaster.Read(_folder.Cluster) is { } running && running.IsAlive())
                    continue;
                _log.LogWarning("The private PostgreSQL server died; starting it again");
                File.Delete(Postmaster.LockFile(_folder.Cluster));
                // Not to be cut short: a server whose start nobody awaits could not be stopped.
                await LaunchAsync(_port, CancellationToken.None);
            }
            catch (OperationCanceledException)
            {
                return;
            }
            catch (Exception failure) when (failure is PostgresUnavailableException or IOException or UnauthorizedAccessException or Win32Exception)
            {
                _log.LogError(failure, "The private PostgreSQL server is down");
            }
        }
    }

    private async Task StopAsync(CancellationToken cancel)
    {
        foreach (var mode in new[] { "fast", "immediate" })
        {
            if (Postmaster.Read(_folder.Cluster) is not { } running || !running.IsAlive())
                return;
            await _account.RunAsync(
                _binaries.Tool("pg_ctl"), ["stop", "-D", _folder.Cluster, "-m", mode, "-w", "-t", "30"], _folder.Root, _binaries.Libraries, cancel);
        }
    }

    private async Task CreateOwnerAsync(CancellationToken cancel)
    {
        await using var source = NpgsqlDataSource.Create(ConnectionTo(Superuser, "postgres"));
        // The password is our own hexadecimal, so it needs no quoting, which "create role" would not take as a parameter.
        await using var create = source.CreateCommand($"""
            do $$ begin
                if not exists (select from pg_roles where rolname = '{Owner}') then
                    create role {Owner} login password '{_password}';
                end if;
            end $$
            """);
        await create.ExecuteNonQueryAsync(cancel);
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>What the data folder holds.</summary>
    private sealed record Folder(string Root)
    {
        public string Cluster => Path.Combine(Root, "cluster");
        public string Unfinished => Path.Combine(Root, "cluster.unfinished");
        public string Password => Path.Combine(Root, "password");
        public string Log => Path.Combine(Root, "server.log");

        /// <summary>Takes the folder for this process alone; the system lets go of it however the process ends.</summary>
        public async Task<FileStream> TakeAsync(ServerAccount account, CancellationToken cancel)
        {
            try
            {
                if (!Directory.CreateDirectory(Root).EnumerateFileSystemInfos().Any())
                    await account.OwnAsync(Root, cancel);
            }
            catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
            {
                throw Unusable("cannot be made", refused);
            }
            if (!await account.ReachesAsync(Root, cancel))
                throw Unusable($"is out of reach for the account {account.Name} that the server runs under, since one of its parent folders is closed");
            try
            {
                return new FileStream(Path.Combine(Root, "lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (UnauthorizedAccessException refused)
            {
                throw Unusable("cannot be written", refused);
            }
            catch (IOException taken)
            {
                throw new PostgresUnavailableException(
                    $"Another Fettle is already running on {Root}: stop it, or set ConnectionStrings:Fettle so that both share one server.", taken);
            }
        }

        /// <summary>The major version that made the cluster; null when there is no cluster yet.</summary>
        public int? ClusterMajor()
        {
            var version = Path.Combine(Cluster, "PG_VERSION");
            return File.Exists(version) ? int.Parse(File.ReadAllText(version), CultureInfo.InvariantCulture) : null;
        }

        public string WritePassword()
        {
            File.Delete(Password);
            var password = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(24));
            var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
                options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            using var writer = new StreamWriter(Password, options);
            writer.Write(password);
            return password;
        }

        public string ReadPassword()
        {
            try
            {
                return File.ReadAllText(Password).Trim();
            }
            catch (FileNotFoundException missing)
            {
                throw new PostgresUnavailableException(
                    $"The data folder {Root} has lost its password file: put it back, or move the folder away to start with a new database.", missing);
            }
        }

        private PostgresUnavailableException Unusable(string why, Exception? cause = null) => new(
            $"The data folder {Root} {why}: choose another with Fettle:Postgres:DataFolder, or set ConnectionStrings:Fettle to a server you have.",
            cause);

        public void TrimLog(long limit)
        {
            if (File.Exists(Log) && new FileInfo(Log).Length > limit)
                File.Move(Log, Log + ".old", overwrite: true);
        }

        /// <summary>The server's own last word on why it did not start; null when it said nothing.</summary>
        public string? LastFatal()
        {
            if (!File.Exists(Log))
                return null;
            using var reader = new StreamReader(new FileStream(Log, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
            return reader.ReadToEnd().Split('\n').LastOrDefault(line => line.Contains("FATAL:", StringComparison.Ordinal))?.Trim();
        }
    }
}
