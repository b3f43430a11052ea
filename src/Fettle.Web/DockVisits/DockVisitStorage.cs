using Fettle.Readiness.DockVisits;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using JasperFx.Events;
using JasperFx.Events.Projections;
using Marten;
using Marten.Events.Aggregation;

namespace Fettle.Web.DockVisits;

public static class DockVisitStorage
{
    public static void Configure(StoreOptions marten)
    {
        marten.Events.AddEventType<DockVisitAsked>();
        marten.Events.AddEventType<DockVisitPlanned>();
        marten.Events.AddEventType<DockVisitCalledOff>();
        marten.Events.AddEventType<DockVisitConcluded>();
        marten.Projections.Add(new DockVisitProjection(), ProjectionLifecycle.Inline);
        marten.Schema.For<DockVisit>()
            .Duplicate(visit => visit.Asked.ShipperId)
            .Duplicate(visit => visit.Asked.TerminalId)
            .UniqueIndex(NumberTaken.OfVisit, visit => visit.Asked.Number);
    }
}

public sealed partial class DockVisitProjection : SingleStreamProjection<DockVisit, Guid>
{
    public override DockVisit? Evolve(DockVisit? snapshot, Guid id, IEvent e) =>
        e.Data is DockVisitEvent happened ? DockVisit.Evolve(snapshot, happened) : snapshot;
}

public static class DockVisitList
{
    /// <summary>Which visits somebody may see; the database's side of <see cref="MaySee"/>.</summary>
    public static IQueryable<DockVisit> VisibleTo(IQueryable<DockVisit> visits, Caller caller)
    {
        var rights = caller.Rights;
        Guid[] sites = [.. rights.SiteIds];
        Guid[] terminals = [.. rights.TerminalIds];
        Guid[] accounts = [.. rights.AccountShipperIds];
        return caller.Role switch
        {
            Role.ShipperClerk => visits.Where(visit => visit.Asked.ShipperId == rights.ShipperId && sites.Contains(visit.Asked.SiteId)),
            Role.TerminalReviewer => visits.Where(visit => visit.Asked.CarrierId == rights.CarrierId && terminals.Contains(visit.Asked.TerminalId)),
            Role.AccountManager => visits.Where(visit => visit.Asked.CarrierId == rights.CarrierId && accounts.Contains(visit.Asked.ShipperId)),
            Role.Administrator => visits.Where(visit => rights.CarrierId == null || visit.Asked.CarrierId == rights.CarrierId),
        };
    }

    public static bool MaySee(DockVisit visit, Caller caller) => VisibleTo(new[] { visit }.AsQueryable(), caller).Any();

    /// <summary>What carriers' people have said about a shipper's standard builds.</summary>
    public static async Task<IReadOnlyList<BuildApproval>> ApprovalsAsync(IQuerySession session, Guid shipperId, CancellationToken cancel) =>
        BuildApproval.Of(await session.Query<DockVisit>().Where(visit => visit.Asked.ShipperId == shipperId).ToListAsync(cancel));
}
