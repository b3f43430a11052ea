using System.Globalization;
using System.Net.Http.Headers;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.Store;
using JasperFx;
using Marten;

namespace Fettle.Web.Tests.Crash;

/// <summary>What nodes have in common: a database with the invented parties and an API key, and a mail server.</summary>
internal sealed class Yard : IAsyncDisposable
{
    private readonly string key;
    private readonly DocumentStore store;

    private Yard(string database, string key, MailCatcher mail)
    {
        Database = database;
        this.key = key;
        Mail = mail;
        store = DocumentStore.For(options =>
        {
            options.Connection(database);
            StoreSetup.Configure(options);
            options.AutoCreateSchemaObjects = AutoCreate.None;
        });
    }

    public string Database { get; }

    public MailCatcher Mail { get; }

    public static async Task<Yard> OpenAsync()
    {
        var database = await TestPostgres.CreateDatabaseAsync();
        await using var portal = await Portal.StartAsync(runsJobs: false, database);
        using var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        return new(database, clerk.DefaultRequestHeaders.Authorization!.Parameter!, await MailCatcher.StartAsync());
    }

    /// <summary>Starts a node that takes over after seconds rather than minutes what another left.</summary>
    /// <param name="role">"web", "worker" or "both".</param>
    public Task<Node> StartNodeAsync(string role) => Node.StartAsync(
        "--role", role,
        $"--ConnectionStrings:Fettle={Database}",
        $"--Fettle:Smtp:Host={Mail.Host}",
        $"--Fettle:Smtp:Port={Mail.Port.ToString(CultureInfo.InvariantCulture)}",
        "--Fettle:Smtp:Security=none",
        "--Fettle:Demo:Load=false",
        "--Fettle:Smtp:PatienceSeconds=2",
        "--Fettle:Jobs:SweepSeconds=2",
        "--Fettle:Jobs:WritingSeconds=4");

    /// <summary>The clerk's warehouse system, calling that node.</summary>
    public HttpClient ClientOf(Node node)
    {
        var client = new HttpClient { BaseAddress = node.Address };
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return client;
    }

    /// <summary>Every notice about the pickup, oldest first.</summary>
    public async Task<IReadOnlyList<Notice>> NoticesAsync(Guid pickup)
    {
        await using var session = store.QuerySession();
        return await session.Query<Notice>().Where(notice => notice.PickupId == pickup).OrderBy(notice => notice.CreatedAt).ToListAsync();
    }

    public async Task<IReadOnlyList<Hold>> HoldsAsync(Guid pickup)
    {
        await using var session = store.QuerySession();
        return await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickup).ToListAsync();
    }

    /// <summary>Events of the hold's own stream: 1 when it was opened once.</summary>
    public async Task<int> EventsOfAsync(Hold hold)
    {
        await using var session = store.QuerySession();
        return (await session.Events.FetchStreamAsync(hold.Id)).Count;
    }

    /// <summary>Pickups that were submitted, however far they got.</summary>
    public async Task<IReadOnlyList<Guid>> SubmittedAsync()
    {
        await using var session = store.QuerySession();
        return await session.Query<FollowUp>().Select(followUp => followUp.Id).ToListAsync();
    }

    /// <summary>Waits until all notices of the pickup are sent, and gives them.</summary>
    public async Task<IReadOnlyList<Notice>> AllSentAsync(Guid pickup, int expected = 2)
    {
        IReadOnlyList<Notice> notices = [];
        await UntilAsync(
            async () =>
            {
                notices = await NoticesAsync(pickup);
                return notices.Count >= expected && notices.All(notice => notice.State == NoticeState.Sent);
            },
            () => $"notices of {pickup}: {string.Join(", ", notices.Select(notice => $"{notice.Kind} {notice.State} {notice.LastError}"))}");
        return notices;
    }

    public static async Task UntilAsync(Func<Task<bool>> isSo, Func<string> otherwise)
    {
        using var patience = new CancellationTokenSource(Node.Patience);
        while (!await isSo())
        {
            if (patience.IsCancellationRequested)
                throw new TimeoutException($"Waited in vain, {otherwise()}");
            await Task.Delay(100);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await store.DisposeAsync();
        await Mail.DisposeAsync();
    }
}
