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

/// <summary>One account with what is shown of it beside others.</summary>
public sealed record ComparedAccount(Shipper Shipper, AccountFigures Figures);

/// <summary>Reads accounts for whoever may see them.</summary>
public sealed class AccountDesk(IDocumentStore store)
{
    /// <summary>An account of the caller's carrier; null when it is none of theirs.</summary>
    public async Task<Account?> AccountAsync(Rights rights, Guid shipperId, Period period, CancellationToken cancel) => MaySee(rights, shipperId)
        ? await ReadAsync(new(rights.CarrierId, [shipperId], null, period), shipperId, BookAsync(rights, period, cancel), cancel)
        : null;

    /// <summary>Several of them beside each other, in the order asked for; null when any is none of theirs.</summary>
    public async Task<IReadOnlyList<ComparedAccount>?> CompareAsync(Rights rights, IReadOnlyList<Guid> shipperIds, Period period, CancellationToken cancel)
    {
        if (!shipperIds.All(id => MaySee(rights, id)))
            return null;
        var (book, cells) = (BookAsync(rights, period, cancel), store.CellsAsync(new(rights.CarrierId, shipperIds, null, period), AccountFigures.Facets, cancel));
        await Task.WhenAll(book, cells);
        await using var session = store.QuerySession();
        var shippers = (await session.LoadManyAsync<Shipper>(cancel, [.. shipperIds])).ToDictionary(shipper => shipper.Id);
        var accounts = new List<ComparedAccount>();
        foreach (var id in shipperIds)
        {
            if (!shippers.TryGetValue(id, out var shipper))
                return null;
            accounts.Add(new(shipper, AccountFigures.Of(period, [.. (await cells)[id]], await book)));
        }

        return accounts;
    }

    /// <summary>The shipper's own, from the docks that the caller works at, at all carriers; nothing of anybody else goes into it.</summary>
    public async Task<Account?> OwnAsync(Rights rights, Period period, CancellationToken cancel) =>
        rights is { Role: Role.ShipperClerk, ShipperId: { } shipperId }
            ? await ReadAsync(new(null, [shipperId], [.. rights.SiteIds], period), shipperId, Task.FromResult(AccountBook.None), cancel)
            : null;

    private static bool MaySee(Rights rights, Guid shipperId) => rights.Role == Role.AccountManager && rights.AccountShipperIds.Contains(shipperId);

    /// <summary>What is usual is told by the whole book, the accounts that are looked at included.</summary>
    private async Task<AccountBook> BookAsync(Rights rights, Period period, CancellationToken cancel) =>
        AccountBook.Of([.. (await store.AccountsAsync(new(rights.CarrierId, [.. rights.AccountShipperIds], null, period), cancel)).Values]);

    private async Task<Account?> ReadAsync(Scope scope, Guid shipperId, Task<AccountBook> book, CancellationToken cancel)
    {
        var cells = store.CellsAsync(scope, cancel);
        await Task.WhenAll(book, cells);
        await using var session = store.QuerySession();
        return await session.LoadAsync<Shipper>(shipperId, cancel) is { } shipper
            ? new(shipper, AccountEvidence.Of(scope.Period, await cells, await book), await PlaceNames.OfAsync(session, [shipper], cancel))
            : null;
    }
}
