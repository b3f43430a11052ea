using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Identity;
using Fettle.Web.Scorecards;
using Fettle.Web.Store;
using Marten;
using Lane = Fettle.Readiness.Scorecards.Lane;

namespace Fettle.Web.FloorUse;

/// <summary>What the freight of one account takes of trailers, and what stacking it is worth.</summary>
/// <param name="Pickups">That have been planned.</param>
/// <param name="Waiting">Pickups that the background has not planned yet.</param>
public sealed record AccountFloor(Period Period, IReadOnlyList<PickupFloor> Pickups, int Waiting, Worth Worth)
{
    /// <summary>Lanes by how much stacking saves on them, the most first.</summary>
    public IReadOnlyList<LaneFloor> Lanes(DateOnly today) =>
    [
        .. Pickups.GroupBy(pickup => pickup.Lane)
            .Select(lane => new LaneFloor(lane.Key, Worth.Of([.. lane], Period, today, Worth.Terms)))
            .OrderByDescending(lane => lane.Worth.Saved).ThenByDescending(lane => lane.Worth.Pickups).ThenBy(lane => lane.Lane.Destination, StringComparer.Ordinal),
    ];

    /// <summary>The same, of one lane alone.</summary>
    public AccountFloor On(Lane lane, DateOnly today)
    {
        PickupFloor[] own = [.. Pickups.Where(pickup => pickup.Lane == lane)];
        return this with { Pickups = own, Waiting = 0, Worth = Worth.Of(own, Period, today, Worth.Terms) };
    }

    /// <summary>
    /// The pickup that saves as much as the middle one of those that save anything; of none that do, the latest. Null when
    /// none is small enough to be drawn legibly.
    /// </summary>
    public PickupFloor? Typical()
    {
        PickupFloor[] drawn = [.. Pickups.Where(pickup => pickup is { Taken: not null, Units: <= MostDrawn }).OrderBy(pickup => pickup.Taken!.SavedByStacking).ThenBy(pickup => pickup.On).ThenBy(pickup => pickup.PickupId)];
        PickupFloor[] saving = [.. drawn.Where(pickup => pickup.Taken!.SavedByStacking > Engineering.Units.Length.Zero)];
        return saving.Length > 0 ? saving[saving.Length / 2] : drawn.MaxBy(pickup => pickup.On);
    }

    private const int MostDrawn = 60;
}

public sealed record LaneFloor(Lane Lane, Worth Worth)
{
    public Guid Id => FloorUseDesk.IdOf(Lane);
}

/// <summary>Adds up what the background has planned, for whoever may see it.</summary>
public sealed class FloorUseDesk(IDocumentStore store, Settings settings, TimeProvider clock)
{
    /// <summary>By which a lane is named in an address.</summary>
    public static Guid IdOf(Lane lane) => StableId.From("lane", lane.TerminalId, lane.Destination, lane.Miles);

    /// <summary>
    /// An account manager sees their accounts' freight at their carrier; a clerk their own shipper's from their own docks, at
    /// all carriers. Null for anybody else and anything else.
    /// </summary>
    public static Scope? ScopeOf(Rights rights, Guid shipperId, Period period) => rights switch
    {
        { Role: Role.AccountManager, CarrierId: { } carrier } when rights.AccountShipperIds.Contains(shipperId) => new(carrier, [shipperId], null, period),
        { Role: Role.ShipperClerk } when rights.ShipperId == shipperId => new(null, [shipperId], [.. rights.SiteIds], period),
        _ => null,
    };

    public DateOnly Today => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    public Period PeriodOf(int? months) => Period.Last(AccountFilter.MonthsOf(months), Today);

    public async Task<AccountFloor> OfAsync(Scope scope, CancellationToken cancel)
    {
        var shipper = scope.ShipperIds.Single();
        var (from, until) = (At(scope.Period.From), At(scope.Period.Until));
        await using var session = store.QuerySession();
        // What an earlier way planned waits to be planned again, and is in no figure meanwhile.
        var uses = session.Query<PickupFloorUse>().Where(use => use.ShipperId == shipper && use.At >= from && use.At < until && use.Method == PickupFloorUse.CurrentMethod);
        var pickups = session.Query<Pickup>().Where(pickup => pickup.Header.ShipperId == shipper && pickup.SubmittedAt >= from && pickup.SubmittedAt < until);
        if (scope.CarrierId is { } carrier)
        {
            uses = uses.Where(use => use.CarrierId == carrier);
            pickups = pickups.Where(pickup => pickup.Header.CarrierId == carrier);
        }

        if (scope.SiteIds is { } only)
        {
            Guid[] sites = [.. only];
            uses = uses.Where(use => sites.Contains(use.SiteId));
            pickups = pickups.Where(pickup => sites.Contains(pickup.Header.SiteId));
        }

        // Counted first: a pickup that is handed in meanwhile is then not said to be planned already.
        var all = await pickups.CountAsync(cancel);
        PickupFloor[] floors = [.. (await uses.ToListAsync(cancel)).Select(use => use.Floor)];
        return new(scope.Period, floors, Math.Max(0, all - floors.Length), Worth.Of(floors, scope.Period, Today, settings.Worth.Terms));
    }

    private static DateTimeOffset At(DateOnly day) => new(day.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero);
}
