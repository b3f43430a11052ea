using Fettle.Readiness.Scorecards;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;

namespace Fettle.Web.Scorecards;

public static class ScorecardSetup
{
    public static IServiceCollection AddScorecards(this IServiceCollection services) => services.AddSingleton<AccountDesk>();
}

/// <summary>One account with all that its page, its sheet and the API tell of it.</summary>
public sealed record Account(Shipper Shipper, AccountEvidence Evidence, PlaceNames Places);

/// <summary>Reads accounts for whoever may see them.</summary>
public sealed class AccountDesk(IDocumentStore store)
{
    /// <summary>An account of the caller's carrier; null when it is none of theirs.</summary>
    public async Task<Account?> AccountAsync(Rights rights, Guid shipperId, Period period, CancellationToken cancel) =>
        await AccountsAsync(rights, [shipperId], period, cancel) is [var account] ? account : null;

    /// <summary>Several of them, in the order asked for; null when any is none of theirs.</summary>
    public async Task<IReadOnlyList<Account>?> AccountsAsync(Rights rights, IReadOnlyList<Guid> shipperIds, Period period, CancellationToken cancel)
    {
        if (rights.Role != Role.AccountManager || shipperIds.Any(id => !rights.AccountShipperIds.Contains(id)))
            return null;
        // What is usual is told by the whole book, these accounts included.
        var book = AccountBook.Of([.. (await store.AccountsAsync(new(rights.CarrierId, [.. rights.AccountShipperIds], null, period), cancel)).Values]);
        var accounts = new List<Account>();
        foreach (var id in shipperIds)
        {
            if (await ReadAsync(new(rights.CarrierId, [id], null, period), id, book, cancel) is not { } account)
                return null;
            accounts.Add(account);
        }

        return accounts;
    }

    /// <summary>The shipper's own, from the docks that the caller works at, at all carriers; nothing of anybody else goes into it.</summary>
    public async Task<Account?> OwnAsync(Rights rights, Period period, CancellationToken cancel) =>
        rights is { Role: Role.ShipperClerk, ShipperId: { } shipperId }
            ? await ReadAsync(new(null, [shipperId], [.. rights.SiteIds], period), shipperId, AccountBook.None, cancel)
            : null;

    private async Task<Account?> ReadAsync(Scope scope, Guid shipperId, AccountBook book, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Shipper>(shipperId, cancel) is not { } shipper)
            return null;
        var evidence = AccountEvidence.Of(scope.Period, await store.CellsAsync(scope, cancel), book);
        return new(shipper, evidence, await PlaceNames.OfAsync(session, [shipper], cancel));
    }
}
