using Fettle.Readiness;
using Fettle.Readiness.Pickups;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Boards;

/// <summary>Reads the board, and notes what comes in.</summary>
public sealed class BoardDesk(IDocumentStore store, TimeProvider clock)
{
    public async Task<BoardView> ReadAsync(Caller caller, BoardFilter filter, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var now = clock.GetUtcNow();
        var carrier = caller.Rights.CarrierId is { } id ? await session.LoadAsync<Carrier>(id, cancel) : null;
        Terminal[] terminals = [.. carrier?.Terminals.Where(terminal => caller.Rights.TerminalIds.Contains(terminal.Id)) ?? []];
        var today = Today(terminals, now);
        var counts = new Dictionary<BoardColumn, int>();
        foreach (var column in Enum.GetValues<BoardColumn>())
        {
            counts[column] = IsOfHolds(column)
                ? await BoardList.Held(session, caller, filter, column, now).CountAsync(cancel)
                : await BoardList.Pickups(session, caller, filter, column, now, today).CountAsync(cancel);
        }

        // Somebody else may have emptied the last page.
        var pages = Math.Max(1, (counts[filter.Column] + BoardFilter.PageSize - 1) / BoardFilter.PageSize);
        filter = filter with { Page = Math.Min(filter.Page, pages) };
        return new(
            filter,
            counts,
            pages,
            IsOfHolds(filter.Column) ? await BoardList.PageAsync(BoardList.Held(session, caller, filter, filter.Column, now), filter.Page, cancel) : [],
            IsOfHolds(filter.Column) ? [] : await BoardList.PageAsync(BoardList.Pickups(session, caller, filter, filter.Column, now, today), filter.Page, cancel),
            await ShippersAsync(session, caller, filter, now, today, cancel),
            terminals.ToDictionary(terminal => terminal.Id, terminal => terminal.TimeZone),
            now);
    }

    /// <summary>The shippers of what is on the board, by name: whom else the portal knows is no business of this terminal.</summary>
    private static async Task<IReadOnlyList<(Guid Id, string Name)>> ShippersAsync(
        IQuerySession session, Caller caller, BoardFilter filter, DateTimeOffset now, (DateTimeOffset From, DateTimeOffset To) today, CancellationToken cancel)
    {
        var all = new BoardFilter(filter.Column, null, null, null, null, 1);
        var ids = new HashSet<Guid>(await BoardList.Held(session, caller, all, BoardColumn.Held, now).Select(unit => unit.ShipperId).Distinct().ToListAsync(cancel));
        foreach (var column in Enum.GetValues<BoardColumn>().Where(column => !IsOfHolds(column)))
            ids.UnionWith(await BoardList.Pickups(session, caller, all, column, now, today).Select(pickup => pickup.ShipperId).Distinct().ToListAsync(cancel));
        var shippers = await session.LoadManyAsync<Shipper>(cancel, [.. ids]);
        return [.. shippers.OrderBy(shipper => shipper.Name, StringComparer.CurrentCulture).Select(shipper => (shipper.Id, shipper.Name))];
    }

    /// <summary>Somebody saw the freight come in. Pressed twice it is noted once.</summary>
    public Task<Decision<PickupEvent>> NoteArrivalAsync(Guid pickup, Actor by, DateTimeOffset at, CancellationToken cancel)
    {
        var command = new NoteArrival(by, at);
        return store.DecideAsync<Pickup, PickupEvent>(pickup, state => Pickup.Decide(state, command), (_, _) => { }, cancel);
    }

    public static bool IsOfHolds(BoardColumn column) => column is BoardColumn.Held or BoardColumn.Overdue;

    /// <summary>The day where the terminals are; where they differ, the first one's.</summary>
    private static (DateTimeOffset From, DateTimeOffset To) Today(Terminal[] terminals, DateTimeOffset now)
    {
        var zone = terminals.Length > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(terminals[0].TimeZone, out var known) ? known : TimeZoneInfo.Utc;
        var day = TimeZoneInfo.ConvertTime(now, zone).Date;
        return (At(day), At(day.AddDays(1)));

        DateTimeOffset At(DateTime local) => new DateTimeOffset(local, zone.GetUtcOffset(local)).ToUniversalTime();
    }
}

/// <param name="Filter">As it was applied: the page is one that there is.</param>
/// <param name="Counts">Of every column under the same filter.</param>
/// <param name="Shippers">Those whose freight is on the board in any column, by name.</param>
/// <param name="TimeZones">Of each terminal: a board has one clock, that on the wall.</param>
public sealed record BoardView(
    BoardFilter Filter,
    IReadOnlyDictionary<BoardColumn, int> Counts,
    int Pages,
    IReadOnlyList<HeldUnit> Held,
    IReadOnlyList<DockPickup> Pickups,
    IReadOnlyList<(Guid Id, string Name)> Shippers,
    IReadOnlyDictionary<Guid, string> TimeZones,
    DateTimeOffset Now)
{
    /// <param name="dock">The time zone of the freight's dock, for a terminal that its carrier has no more.</param>
    public string TimeZoneOf(Guid terminal, string dock) => TimeZones.GetValueOrDefault(terminal, dock);

    public string? ShipperOf(Guid id) => Shippers.FirstOrDefault(shipper => shipper.Id == id).Name;
}
