using System.Diagnostics;
using System.Globalization;
using Fettle.Web.Store.Postgres;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;

namespace Fettle.Web.Tests.Postgres;

/// <summary>Each test has a server and a data folder of its own, since it breaks them.</summary>
public sealed class PrivatePostgresTests : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private readonly PrivatePostgresOptions _options = new()
    {
        DataFolder = Path.Combine(Path.GetTempPath(), "fettle-private", Path.GetRandomFileName()),
        Durable = false,
    };

    private string Cluster => Path.Combine(_options.DataFolder, "cluster");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync() =>
        Assert.True(await PrivatePostgres.DestroyAsync(_options, NullLogger.Instance, CancellationToken.None));

    [Fact]
    public async Task It_starts_on_an_empty_folder_and_serves_its_database_to_an_owner_who_is_no_superuser()
    {
        await using var server = await StartAsync();

        Assert.Equal("fettle", await ScalarAsync(server, "select current_database()"));
        Assert.Equal("off", await ScalarAsync(server, "select current_setting('is_superuser')"));
        Assert.Equal("UTF8", await ScalarAsync(server, "select current_setting('server_encoding')"));
        await ScalarAsync(server, "create schema freight");
    }

    [Fact]
    public async Task It_listens_on_loopback_alone_and_wants_its_password()
    {
        await using var server = await StartAsync();

        // Lines five and six of the lock file: the socket folder and the address listened on.
        Assert.Equal(["", "127.0.0.1"], File.ReadLines(Postmaster.LockFile(Cluster)).Skip(4).Take(2));
        var wrong = new NpgsqlConnectionStringBuilder(server.ConnectionString) { Password = "guess", Pooling = false };
        await using var connection = new NpgsqlConnection(wrong.ConnectionString);
        var refused = await Assert.ThrowsAsync<PostgresException>(() => connection.OpenAsync(Cancel));
        Assert.Equal(PostgresErrorCodes.InvalidPassword, refused.SqlState);
    }

    [Fact]
    public async Task Its_password_file_is_closed_to_others()
    {
        await using var server = await StartAsync();
        var password = new FileInfo(Path.Combine(_options.DataFolder, "password"));

        Assert.Equal(48, password.Length);
        // On Windows the local application data folder is its user's already.
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, password.UnixFileMode);
    }

    [Fact]
    public async Task A_restart_keeps_the_data()
    {
        await using (var first = await StartAsync())
            await KeepAsync(first, "before the restart");

        await using var second = await StartAsync();

        Assert.Equal("before the restart", await KeptAsync(second));
    }

    [Fact]
    public async Task Disposing_stops_the_server()
    {
        var server = await StartAsync();
        var running = Running();
        Assert.True(running.IsAlive());

        await server.DisposeAsync();

        Assert.False(running.IsAlive());
    }

    [Fact]
    public async Task A_server_that_is_killed_is_started_again_at_the_same_address_with_what_it_had_committed()
    {
        await using var server = await StartAsync(_options with { Durable = true });
        await KeepAsync(server, "committed");
        var address = server.ConnectionString;

        using (var postmaster = Process.GetProcessById(Running().Pid))
            postmaster.Kill();

        Assert.Equal("committed", await EventuallyKeptAsync(server));
        Assert.Equal(address, server.ConnectionString);
    }

    [Fact]
    public async Task A_killed_server_with_a_stale_lock_file_starts_with_its_data()
    {
        var lockFile = Postmaster.LockFile(Cluster);
        string[] stale;
        await using (var first = await StartAsync(_options with { Durable = true }))
        {
            await KeepAsync(first, "committed");
            stale = await File.ReadAllLinesAsync(lockFile, Cancel);
        }
        await File.WriteAllLinesAsync(lockFile, stale, Cancel);

        await using var second = await StartAsync();

        Assert.Equal("committed", await KeptAsync(second));
    }

    [Fact]
    public async Task A_stale_lock_file_whose_process_number_now_belongs_to_another_program_does_no_harm()
    {
        var lockFile = Postmaster.LockFile(Cluster);
        string[] stale;
        await using (var first = await StartAsync())
        {
            await KeepAsync(first, "committed");
            stale = await File.ReadAllLinesAsync(lockFile, Cancel);
        }
        using var innocent = Process.Start(new ProcessStartInfo("sleep", "60"))!;
        try
        {
            stale[0] = innocent.Id.ToString(CultureInfo.InvariantCulture);
            await File.WriteAllLinesAsync(lockFile, stale, Cancel);

            await using var second = await StartAsync();

            Assert.Equal("committed", await KeptAsync(second));
            Assert.False(innocent.HasExited);
        }
        finally
        {
            innocent.Kill();
        }
    }

    [Fact]
    public async Task A_server_left_running_by_a_killed_application_is_replaced_and_its_data_kept()
    {
        Postmaster left;
        await using (var first = await StartAsync())
        {
            await KeepAsync(first, "before the kill");
            left = Running();
            // What a killed application leaves: a live server, and the folder's lock let go by the system.
            await first.AbandonAsync();
        }
        Assert.True(left.IsAlive());

        await using var second = await StartAsync();

        Assert.False(left.IsAlive());
        Assert.Equal("before the kill", await KeptAsync(second));
    }

    [Fact]
    public async Task A_second_application_on_the_same_folder_is_told_so_in_one_sentence()
    {
        await using var first = await StartAsync();

        var refused = await Assert.ThrowsAsync<PostgresUnavailableException>(() => StartAsync());

        Assert.StartsWith($"Another Fettle is already running on {_options.DataFolder}", refused.Message, StringComparison.Ordinal);
        Assert.Contains("ConnectionStrings:Fettle", refused.Message, StringComparison.Ordinal);
        Assert.Equal("fettle", await ScalarAsync(first, "select current_database()"));
    }

    [Fact]
    public async Task A_configured_folder_without_a_server_is_named_in_one_sentence()
    {
        var refused = await Assert.ThrowsAsync<PostgresUnavailableException>(() => StartAsync(_options with { BinFolder = "/no/such/bin" }));

        Assert.Contains("/no/such/bin", refused.Message, StringComparison.Ordinal);
        Assert.Contains("apt install postgresql", refused.Message, StringComparison.Ordinal);
        Assert.Contains("docker compose up", refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', refused.Message);
    }

    [Fact]
    public async Task Data_of_another_major_version_is_refused_with_both_versions_named()
    {
        int present;
        await using (var server = await StartAsync())
            present = server.MajorVersion;
        var version = Path.Combine(Cluster, "PG_VERSION");
        await File.WriteAllTextAsync(version, "9\n", Cancel);

        var refused = await Assert.ThrowsAsync<PostgresUnavailableException>(() => StartAsync());

        Assert.Contains($"made by PostgreSQL 9 but this machine has PostgreSQL {present}", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_first_start_that_was_cut_short_is_begun_again()
    {
        await using (await StartAsync())
        {
        }
        Directory.Move(Cluster, Path.Combine(_options.DataFolder, "cluster.unfinished"));

        await using var server = await StartAsync();

        Assert.Equal("fettle", await ScalarAsync(server, "select current_database()"));
    }

    [Fact]
    public async Task Concurrent_first_starts_leave_one_server_and_refuse_the_rest()
    {
        var starts = Enumerable.Range(0, 4).Select(_ => Task.Run(() => StartAsync(), Cancel)).ToList();
        await Task.WhenAll(starts.Select(start => start.ContinueWith(_ => { }, Cancel, TaskContinuationOptions.None, TaskScheduler.Default)));

        var started = Assert.Single(starts, start => start.IsCompletedSuccessfully);
        Assert.All(starts.Where(start => start != started), start => Assert.IsType<PostgresUnavailableException>(start.Exception!.InnerException));
        await (await started).DisposeAsync();
    }

    private Task<PrivatePostgres> StartAsync(PrivatePostgresOptions? options = null) =>
        PrivatePostgres.StartAsync(options ?? _options, NullLogger.Instance, Cancel);

    private static async Task<object?> ScalarAsync(PrivatePostgres server, string sql)
    {
        await using var connection = new NpgsqlConnection(server.ConnectionString);
        await connection.OpenAsync(Cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(Cancel);
    }

    private static Task<object?> KeepAsync(PrivatePostgres server, string word) =>
        ScalarAsync(server, $"create table kept (word text not null); insert into kept values ('{word}')");

    private static Task<object?> KeptAsync(PrivatePostgres server) => ScalarAsync(server, "select word from kept");

    private static async Task<object?> EventuallyKeptAsync(PrivatePostgres server)
    {
        var waited = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                return await KeptAsync(server);
            }
            catch (NpgsqlException) when (waited.Elapsed < Patience)
            {
                await Task.Delay(100, Cancel);
            }
        }
    }

    private Postmaster Running() => Postmaster.Read(Cluster)!;
}
