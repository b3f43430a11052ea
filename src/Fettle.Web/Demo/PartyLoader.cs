using Fettle.Readiness.RuleSets;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Demo;

/// <summary>Settles the scenario's firms, people and API keys in a database that has none.</summary>
public sealed class PartyLoader(Scenario scenario, DemoSettings settings, IDocumentStore store, ApiKeys keys, IServiceScopeFactory scopes, TimeProvider clock, ILogger<PartyLoader> log)
{
    /// <summary>Any number that nobody else in this database locks.</summary>
    private const long LockKey = 0x46_65_74_74_6C_65_01;

    /// <summary>Does what is not done yet, one node after the other.</summary>
    /// <returns>The load, and the keys that can be told; null when the database has shippers that are not the demo's.</returns>
    public async Task<(DemoLoad Load, IReadOnlyList<ToldKey> Keys)?> SettleAsync(CancellationToken cancel)
    {
        await using var alone = await NodeLock.TakeAsync(store, LockKey, cancel);
        if (await BeginAsync(cancel) is not { } load)
            return null;
        await AddPeopleAsync(cancel);
        var told = await IssueKeysAsync(load, cancel);
        if (load.KeysIssuedAt is null)
        {
            load = load with { KeysIssuedAt = clock.GetUtcNow() };
            await using var session = store.LightweightSession();
            session.Store(load);
            await session.SaveChangesAsync(cancel);
        }

        return (load, told);
    }

    private async Task<DemoLoad?> BeginAsync(CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<DemoLoad>(DemoLoad.OnlyId, cancel) is { } begun)
            return begun;
        if (await session.Query<Shipper>().AnyAsync(cancel))
            return null;
        var load = new DemoLoad { StartedAt = clock.GetUtcNow() };
        session.Insert([.. scenario.Carriers.Select(carrier => carrier.Party())]);
        session.Insert([.. scenario.Shippers.Select(shipper => shipper.Party())]);
        session.Insert([.. CatalogueLoad.Entries(scenario, load.StartedAt)]);
        session.Insert(load);
        foreach (var carrier in scenario.Carriers.Where(carrier => carrier.Rules is not null))
            session.Events.StartStream<CarrierRules>(carrier.Id, scenario.RuleSetOf(carrier, History.BeginningOf(load.StartedAt)));
        await session.SaveChangesAsync(cancel);
        return load;
    }

    private async Task AddPeopleAsync(CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        var users = scope.ServiceProvider.GetRequiredService<UserDirectory>();
        var there = (await users.ListAsync(cancel)).Select(user => user.Id).ToHashSet();
        // One password for all, so one hash: hashing is slow on purpose.
        string? hash = null;
        foreach (var person in scenario.People.People.Where(person => !there.Contains(person.Id)))
        {
            var user = new User { Id = person.Id, UserName = person.UserName, Name = person.Name, Rights = scenario.RightsOf(person.Rights), Demo = true };
            user.PasswordHash = hash ??= users.PasswordHasher.HashPassword(user, scenario.People.Password);
            var result = await users.CreateAsync(user);
            if (!result.Succeeded)
                log.LogWarning("The demo sign-in {UserName} could not be made: {Result}", person.UserName, result);
        }
    }

    private async Task<IReadOnlyList<ToldKey>> IssueKeysAsync(DemoLoad load, CancellationToken cancel)
    {
        var by = scenario.People.People.First(person => person.Rights.Role == Role.Administrator).Actor;
        var told = new List<ToldKey>();
        foreach (var key in scenario.People.ApiKeys)
        {
            var rights = scenario.RightsOf(key.Rights);
            var (setting, given) = Given(key.Rights.Role);
            if (string.IsNullOrEmpty(given))
                told.Add(new(key, setting, load.KeysIssuedAt is null ? (await keys.IssueAsync(key.Name, rights, by, cancel)).Plain : null));
            else if (given.Length < ApiKeys.ShortestGiven)
                log.LogError("Fettle:Demo:{Setting} is shorter than {Shortest} characters and is not used", setting, ApiKeys.ShortestGiven);
            else if (await IsRevokedAsync(given, cancel))
                log.LogError("The key in Fettle:Demo:{Setting} was revoked and is not used", setting);
            else
            {
                await keys.IssueGivenAsync(given, key.Name, rights, by, cancel);
                told.Add(new(key, setting, given));
            }
        }

        return told;
    }

    private async Task<bool> IsRevokedAsync(string key, CancellationToken cancel)
    {
        var hash = ApiKeys.Hash(key);
        await using var session = store.QuerySession();
        return await session.Query<ApiKey>().AnyAsync(issued => issued.Hash == hash && issued.RevokedAt != null, cancel);
    }

    private (string Setting, string? Key) Given(Role role) => role switch
    {
        Role.ShipperClerk => (nameof(DemoSettings.ShipperKey), settings.ShipperKey),
        Role.TerminalReviewer => (nameof(DemoSettings.TerminalKey), settings.TerminalKey),
        Role.AccountManager => (nameof(DemoSettings.AccountKey), settings.AccountKey),
        Role.Administrator => throw new InvalidOperationException("An administrator has no API key."),
    };
}

/// <param name="Setting">What gives this key, under Fettle:Demo.</param>
/// <param name="Plain">Null when it was shown at an earlier start.</param>
public sealed record ToldKey(DemoApiKey Key, string Setting, string? Plain);
