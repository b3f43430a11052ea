using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Marten;
using Marten.Linq;

namespace Fettle.Web.Boards;

/// <summary>
/// The board's lists. A column's count and its rows come from one query, so that they can never disagree: to count is to ask
/// the same with another ending.
/// </summary>
public static class BoardList
{
    private const int NearHours = 2;
    private const int SoonHours = 24;
    private const double MuchFloor = 100;

    /// <summary>Freight that nobody has seen is looked for so many days, our choice: later it is a matter for the telephone, and the list stays short.</summary>
    private const int UnseenDays = 3;

    /// <param name="today">The day at the terminal.</param>
    public static IQueryable<DockPickup> Pickups(IQuerySession session, Caller caller, BoardFilter filter, BoardColumn column, DateTimeOffset now, (DateTimeOffset From, DateTimeOffset To) today)
    {
        Guid[] terminals = [.. caller.Rights.TerminalIds];
        var rows = session.Query<DockPickup>().Where(pickup => terminals.Contains(pickup.TerminalId) && pickup.CarrierId == caller.Rights.CarrierId);
        var unseenFrom = today.From.AddDays(-UnseenDays);
        rows = column switch
        {
            BoardColumn.Floor => rows.Where(pickup => pickup.IsHere),
            BoardColumn.Unseen => rows.Where(pickup => !pickup.IsHere && !pickup.IsGone && pickup.WindowTo < today.From && pickup.WindowTo >= unseenFrom),
            _ => rows.Where(pickup => !pickup.IsHere && !pickup.IsGone && pickup.WindowFrom < today.To && pickup.WindowTo >= today.From),
        };
        if (filter.Shipper is { } shipper)
            rows = rows.Where(pickup => pickup.ShipperId == shipper);
        if (filter.Reason is { } reason)
            rows = rows.Where(pickup => pickup.Stops.Contains(reason));
        if (filter.AgeHours is { } age && now.AddHours(-age) is var before)
            rows = rows.Where(pickup => pickup.Since <= before);
        var (near, soon) = (now.AddHours(NearHours), now.AddHours(SoonHours));
        return filter.Urgency switch
        {
            BoardUrgency.Deadline => rows.Where(pickup => pickup.WindowTo <= near),
            BoardUrgency.Window => rows.Where(pickup => pickup.WindowTo <= soon),
            BoardUrgency.Fragile => rows.Where(pickup => pickup.Fragile),
            BoardUrgency.Space => rows.Where(pickup => pickup.FloorSquareFeet >= MuchFloor),
            null => rows,
        };
    }

    public static IQueryable<HeldUnit> Held(IQuerySession session, Caller caller, BoardFilter filter, BoardColumn column, DateTimeOffset now)
    {
        Guid[] terminals = [.. caller.Rights.TerminalIds];
        var rows = session.Query<HeldUnit>().Where(unit => terminals.Contains(unit.TerminalId) && unit.CarrierId == caller.Rights.CarrierId && unit.Waits);
        if (column == BoardColumn.Overdue)
            rows = rows.Where(unit => unit.DueBy < now);
        if (filter.Shipper is { } shipper)
            rows = rows.Where(unit => unit.ShipperId == shipper);
        if (filter.Reason is { } reason)
            rows = rows.Where(unit => unit.Stops.Contains(reason));
        if (filter.AgeHours is { } age && now.AddHours(-age) is var before)
            rows = rows.Where(unit => unit.HeldSince <= before);
        var (near, soon) = (now.AddHours(NearHours), now.AddHours(SoonHours));
        return filter.Urgency switch
        {
            BoardUrgency.Deadline => rows.Where(unit => unit.DueBy <= near),
            BoardUrgency.Window => rows.Where(unit => unit.WindowTo <= soon),
            BoardUrgency.Fragile => rows.Where(unit => unit.Fragile),
            BoardUrgency.Space => rows.Where(unit => unit.FloorSquareFeet >= MuchFloor),
            null => rows,
        };
    }

    /// <summary>One page of a list, what is most urgent first.</summary>
    public static Task<IReadOnlyList<HeldUnit>> PageAsync(IQueryable<HeldUnit> rows, int page, CancellationToken cancel) =>
        rows.OrderBy(unit => unit.DueBy).ThenBy(unit => unit.HeldSince).ThenBy(unit => unit.Id)
            .Skip((page - 1) * BoardFilter.PageSize).Take(BoardFilter.PageSize).ToListAsync(cancel);

    /// <inheritdoc cref="PageAsync(IQueryable{HeldUnit}, int, CancellationToken)"/>
    public static Task<IReadOnlyList<DockPickup>> PageAsync(IQueryable<DockPickup> rows, int page, CancellationToken cancel) =>
        rows.OrderBy(pickup => pickup.WindowTo).ThenBy(pickup => pickup.Id)
            .Skip((page - 1) * BoardFilter.PageSize).Take(BoardFilter.PageSize).ToListAsync(cancel);
}
