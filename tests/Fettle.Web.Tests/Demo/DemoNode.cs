using Fettle.Testing;
using Fettle.Web.Demo;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Demo;

/// <summary>What the loader of one node works with, on a database that several may share. It runs no jobs.</summary>
internal sealed class DemoNode : IAsyncDisposable
{
    private static readonly Lazy<Task<string>> Migrated = new(MigrateAsync);

    private readonly ServiceProvider services;

    private DemoNode(ServiceProvider services) => this.services = services;

    public IDocumentStore Store => services.GetRequiredService<IDocumentStore>();

    public PartyLoader Parties => services.GetRequiredService<PartyLoader>();

    public HistoryLoader History => services.GetRequiredService<HistoryLoader>();

    public T Get<T>()
        where T : notnull => services.GetRequiredService<T>();

    /// <summary>A new database that has the schema and nothing else.</summary>
    public static async Task<string> DatabaseAsync() => await TestPostgres.CopyDatabaseAsync(await Migrated.Value);

    public static DemoNode On(string connectionString, Scenario scenario, DemoSettings? settings = null) => new(
        new ServiceCollection()
            .AddLogging()
            .AddSingleton(TimeProvider.System)
            .AddStore(connectionString, migrate: false)
            .AddJobs(connectionString, runsJobs: false)
            .AddPickups()
            .AddRuleSets()
            .AddHolds()
            .AddOutcomes().AddClaims()
            .AddInspections()
            .AddDockVisits()
            .AddSingleton(new Settings())
            .AddPeople()
            .AddSingleton(scenario)
            .AddSingleton(settings ?? new DemoSettings())
            .AddSingleton<PartyLoader>()
            .AddSingleton<HistoryLoader>()
            .BuildServiceProvider());

    /// <summary>A start of the whole: parties, then history.</summary>
    public async Task LoadAsync()
    {
        Assert.NotNull(await Parties.SettleAsync(TestContext.Current.CancellationToken));
        await History.RunAsync(TestContext.Current.CancellationToken);
    }

    public async Task<User?> FindUserAsync(string userName)
    {
        await using var scope = services.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<UserDirectory>().FindByNameAsync(userName);
    }

    public async Task<bool> CheckPasswordAsync(User user, string password)
    {
        await using var scope = services.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<UserDirectory>().CheckPasswordAsync(user, password);
    }

    public ValueTask DisposeAsync() => services.DisposeAsync();

    private static async Task<string> MigrateAsync()
    {
        var connection = await TestPostgres.CreateDatabaseAsync();
        await Migrator.ApplyAsync(connection, Migration.All, TestContext.Current.CancellationToken);
        return connection;
    }
}
