using System.Diagnostics;
using Fettle.Web.Parties;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using Fettle.Web.Store.Postgres;
using JasperFx;
using Marten;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;

namespace Fettle.Web.Tests.Crash;

/// <summary>The portal with nothing configured, on its own PostgreSQL server, when one of the two dies.</summary>
[Collection(nameof(OneAtATime))]
public sealed class PrivateServerTests : IAsyncLifetime
{
    private static readonly Shipper Kept = new() { Id = new("00000000-0000-7000-8000-000000000077"), Name = "Tallow Lane Candles", Email = "dock@tallow.example", Sites = [] };

    private readonly PrivatePostgresOptions options = new() { DataFolder = Leftovers.NewFolder() };

    private string Cluster => Path.Combine(options.DataFolder, "cluster");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public async ValueTask DisposeAsync() => Assert.True(await PrivatePostgres.DestroyAsync(options, NullLogger.Instance, CancellationToken.None));

    [Fact]
    public async Task A_killed_portal_comes_up_again_with_its_data()
    {
        await using (var first = await StartAsync())
        {
            await KeepAsync();
            await first.KillAsync();
        }

        await using var second = await StartAsync();

        Assert.Equal(Kept.Name, await KeptAsync());
        TestContext.Current.TestOutputHelper?.WriteLine($"Answered again after {second.Started.Elapsed.TotalSeconds:0.0} s");
    }

    [Fact]
    public async Task A_killed_database_server_is_started_again_and_the_portal_goes_on()
    {
        await using var node = await StartAsync();
        await KeepAsync();
        var down = Stopwatch.StartNew();
        var killed = Postmaster.Read(Cluster)!;
        using (var postmaster = Process.GetProcessById(killed.Pid))
            postmaster.Kill();

        await Yard.UntilAsync(() => Task.FromResult(Postmaster.Read(Cluster) is { } now && now.Pid != killed.Pid && now.IsAlive()), () => $"{node.Output}");
        await node.BecomesHealthyAsync();

        Assert.False(node.HasExited);
        Assert.Equal(Kept.Name, await KeptAsync());
        TestContext.Current.TestOutputHelper?.WriteLine($"Answered again after {down.Elapsed.TotalSeconds:0.0} s");
    }

    [Fact]
    public async Task Told_to_stop_it_stops_its_server_too_within_fifteen_seconds()
    {
        await using var node = await StartAsync();
        var server = Postmaster.Read(Cluster)!;
        Assert.True(server.IsAlive());
        var told = Stopwatch.StartNew();

        Assert.Equal(0, await node.TerminateAsync());

        Assert.InRange(told.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(15));
        Assert.False(server.IsAlive());
    }

    [Fact]
    public async Task Data_that_these_migrations_did_not_make_is_refused_with_its_folder_named_and_no_server_left_running()
    {
        Postmaster server;
        await using (var earlier = await PrivatePostgres.StartAsync(options, NullLogger.Instance, Cancel))
        {
            await Migrator.ApplyAsync(earlier.ConnectionString, [Migration.All[0] with { Sql = "select 1;" }], Cancel);
            server = Postmaster.Read(Cluster)!;
        }

        var ended = await Node.RunAsync($"--Fettle:Database:DataFolder={options.DataFolder}");

        Assert.Equal(1, ended.ExitCode);
        Assert.StartsWith("Migration 0001_initial.sql is not the one that was applied to this database", ended.Errors, StringComparison.Ordinal);
        Assert.EndsWith($"Or move the folder {options.DataFolder} away to start with a new database.", ended.Errors, StringComparison.Ordinal);
        Assert.False(server.IsAlive());
        Assert.Null(Postmaster.Read(Cluster));
    }

    private Task<Node> StartAsync() => Node.StartAsync($"--Fettle:Database:DataFolder={options.DataFolder}", "--Fettle:Demo:Load=false");

    private async Task KeepAsync()
    {
        await using var store = Store();
        await using var session = store.LightweightSession();
        session.Insert(Kept);
        await session.SaveChangesAsync(Cancel);
    }

    private async Task<string?> KeptAsync()
    {
        await using var store = Store();
        await using var session = store.QuerySession();
        return (await session.LoadAsync<Shipper>(Kept.Id, Cancel))?.Name;
    }

    private DocumentStore Store() => DocumentStore.For(marten =>
    {
        marten.Connection(new NpgsqlConnectionStringBuilder
        {
            Host = "127.0.0.1",
            Port = Postmaster.Read(Cluster)!.Port,
            Username = "fettle",
            Password = File.ReadAllText(Path.Combine(options.DataFolder, "password")).Trim(),
            Database = options.Database,
            Pooling = false,
        }.ConnectionString);
        StoreSetup.Configure(marten);
        marten.AutoCreateSchemaObjects = AutoCreate.None;
    });
}
