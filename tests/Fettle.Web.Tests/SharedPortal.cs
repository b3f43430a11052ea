using System.Collections.Concurrent;
using System.Net;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Pickups;
using Fettle.Web.Tests;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Browser = Fettle.Web.Tests.Identity.Browser;

[assembly: AssemblyFixture(typeof(SharedPortal))]

namespace Fettle.Web.Tests;

/// <summary>
/// One whole portal for all tests that look only at what they made themselves. It runs no background jobs: a test calls the
/// ones it wants. People and machines sign in once each.
/// </summary>
public sealed class SharedPortal : IAsyncDisposable
{
    private readonly Lazy<Task<Portal>> portal = new(() => Portal.StartAsync(
        runsJobs: false,
        // Everybody in the tests comes from one address.
        settings: new Dictionary<string, string?> { ["Fettle:SignIn:TriesForOneAddress"] = "100000" }));
    private readonly ConcurrentDictionary<string, Lazy<Task<HttpClient>>> machines = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Lazy<Task<Browser>>> people = new(StringComparer.Ordinal);

    public Task<Portal> PortalAsync() => portal.Value;

    public Task<HttpClient> ClerkAsync() => MachineAsync(nameof(Testing.Parties.Clerk), parties => parties.Clerk);

    public Task<HttpClient> OtherClerkAsync() => MachineAsync(nameof(Testing.Parties.OtherClerk), parties => parties.OtherClerk);

    public Task<HttpClient> ReviewerAsync() => MachineAsync(nameof(Testing.Parties.Reviewer), parties => parties.Reviewer);

    public Task<HttpClient> AnonymousAsync() => MachineAsync("", _ => null);

    /// <summary>The browser in which that person is signed in.</summary>
    /// <param name="name">The part of the sign-in name before the @: "clara".</param>
    public Task<Browser> PersonAsync(string name) => people.GetOrAdd(name, _ => new(async () =>
    {
        var browser = new Browser((await PortalAsync()).Anonymous());
        var answer = await browser.SignInAsync($"{name}@fettle.example", Portal.Password);
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        return browser;
    })).Value;

    /// <summary>Declares and submits a pickup of the clerk's, and opens its holds.</summary>
    public async Task<IReadOnlyList<Hold>> HeldAsync()
    {
        var clerk = await ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var id = Guid.Parse(declared.Json.At("id")!);
        var submitted = await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new System.Text.Json.Nodes.JsonObject());
        Assert.Equal(HttpStatusCode.Created, submitted.Status);
        return await OpenHoldsAsync(id);
    }

    /// <summary>Runs what a submission left for the background.</summary>
    public async Task<IReadOnlyList<Hold>> OpenHoldsAsync(Guid pickup)
    {
        var services = (await PortalAsync()).Services;
        await services.GetRequiredService<FollowUpJob>().RunAsync(pickup, CancellationToken.None);
        await using var session = services.GetRequiredService<IDocumentStore>().QuerySession();
        return await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickup).ToListAsync();
    }

    public async Task<Draft> DraftAsync(Guid pickup)
    {
        await using var session = (await PortalAsync()).Store.QuerySession();
        return await session.LoadAsync<Draft>(pickup) ?? throw new InvalidOperationException($"There is no draft {pickup}.");
    }

    public async ValueTask DisposeAsync()
    {
        if (portal.IsValueCreated)
            await (await portal.Value).DisposeAsync();
    }

    private Task<HttpClient> MachineAsync(string name, Func<Testing.Parties, Rights?> rights) => machines.GetOrAdd(name, _ => new(async () =>
    {
        var running = await PortalAsync();
        return await running.ApiAsync(rights(running.Parties));
    })).Value;
}
