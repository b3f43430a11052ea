using Fettle.Readiness;
using Fettle.Readiness.DockVisits;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Photos;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.DockVisits;

/// <summary>Visits are asked for, planned, called off and concluded here; who must be told is saved with it.</summary>
public sealed class DockVisitDesk(IDocumentStore store, DueWork due)
{
    public Task<Decision<DockVisitEvent>> AskAsync(AskForVisit command, CancellationToken cancel, NoticeState notices = NoticeState.Due) =>
        DecideAsync(command.VisitId, state => DockVisit.Decide(state, command), command.ShipperId, command.CarrierId, [], command.At, notices, cancel);

    public Task<Decision<DockVisitEvent>> PlanAsync(DockVisit visit, PlanVisit command, CancellationToken cancel, NoticeState notices = NoticeState.Due) =>
        DecideAsync(visit.Id, state => DockVisit.Decide(state, command), visit.Asked.ShipperId, visit.Asked.CarrierId, [], command.At, notices, cancel);

    public Task<Decision<DockVisitEvent>> CallOffAsync(DockVisit visit, CallVisitOff command, CancellationToken cancel) =>
        DecideAsync(visit.Id, state => DockVisit.Decide(state, command), visit.Asked.ShipperId, visit.Asked.CarrierId, [], command.At, NoticeState.Due, cancel);

    /// <param name="photos">Kept with the conclusion or not at all.</param>
    public Task<Decision<DockVisitEvent>> ConcludeAsync(DockVisit visit, ConcludeVisit command, IReadOnlyList<ReadPhoto> photos, CancellationToken cancel, NoticeState notices = NoticeState.Due)
    {
        (Photo Photo, ReadPhoto Read)[] kept = [.. photos.Select(read => (PhotoOf(visit, read, command.By, command.At), read)).DistinctBy(pair => pair.Item1.Id)];
        command = command with { Photos = [.. kept.Select(pair => pair.Photo.Proof)] };
        return DecideAsync(visit.Id, state => DockVisit.Decide(state, command), visit.Asked.ShipperId, visit.Asked.CarrierId, kept, command.At, notices, cancel);
    }

    private async Task<Decision<DockVisitEvent>> DecideAsync(
        Guid id, Func<DockVisit?, Decision<DockVisitEvent>> decide, Guid shipperId, Guid carrierId, (Photo Photo, ReadPhoto Read)[] photos, DateTimeOffset at, NoticeState notices, CancellationToken cancel)
    {
        Shipper shipper;
        Carrier carrier;
        await using (var session = store.QuerySession())
        {
            shipper = await session.LoadAsync<Shipper>(shipperId, cancel) ?? throw new InvalidOperationException($"There is no shipper {shipperId}.");
            carrier = await session.LoadAsync<Carrier>(carrierId, cancel) ?? throw new InvalidOperationException($"There is no carrier {carrierId}.");
        }

        Notice? owed = null;
        DockVisit? before = null;
        var decision = await store.DecideAsync<DockVisit, DockVisitEvent>(
            id,
            state => decide(before = state),
            (session, events) =>
            {
                foreach (var (photo, read) in photos)
                    session.Keep(photo, read.Picture, read.Thumbnail);
                var after = events.Aggregate(before, DockVisit.Evolve)!;
                owed = Owed(after, events[^1], shipper, carrier, at, notices);
                session.Insert(owed);
            },
            cancel);
        if (decision.Refusal is null && decision.Events.Count > 0 && notices == NoticeState.Due)
            due.Notice(owed!.Id);
        return decision;
    }

    /// <summary>The terminal is told of what the shipper does, and the shipper of what the terminal does.</summary>
    private static Notice Owed(DockVisit visit, DockVisitEvent happened, Shipper shipper, Carrier carrier, DateTimeOffset at, NoticeState state)
    {
        var (kind, by) = happened switch
        {
            DockVisitAsked asked => (NoticeKind.DockVisitAsked, asked.By),
            DockVisitPlanned planned => (NoticeKind.DockVisitPlanned, planned.By),
            DockVisitCalledOff off => (NoticeKind.DockVisitCalledOff, off.By),
            DockVisitConcluded concluded => (NoticeKind.DockVisitConcluded, concluded.By),
            _ => throw new InvalidOperationException($"Nobody is told of {happened.GetType().Name}."),
        };
        var terminal = carrier.Terminals.Single(terminal => terminal.Id == visit.Asked.TerminalId);
        var toTerminal = kind == NoticeKind.DockVisitAsked || (kind == NoticeKind.DockVisitCalledOff && by == visit.Asked.By);
        return new()
        {
            Id = StableId.From("notice", kind, visit.Id, visit.Revision),
            Kind = kind,
            PickupId = Guid.Empty,
            VisitId = visit.Id,
            VisitRevision = visit.Revision,
            About = visit.Asked.Number,
            To = toTerminal ? terminal.Email : shipper.Email,
            ToName = toTerminal ? $"{carrier.Name}, {terminal.Name}" : shipper.Name,
            ShipperId = visit.Asked.ShipperId,
            SiteId = visit.Asked.SiteId,
            CarrierId = visit.Asked.CarrierId,
            TerminalId = visit.Asked.TerminalId,
            CreatedAt = at,
            DueAt = at,
            State = state,
        };
    }

    /// <summary>A photo belongs to the visit, and is seen by whoever may see that.</summary>
    private static Photo PhotoOf(DockVisit visit, ReadPhoto read, Actor by, DateTimeOffset at) => Photo.Of(
        read,
        visit.Id,
        visit.Id,
        new(
            visit.Asked.Number,
            visit.Asked.ShipperId,
            visit.Asked.SiteId,
            visit.Asked.CarrierId,
            visit.Asked.TerminalId,
            "",
            new(visit.Planned?.From ?? at, visit.Planned?.To ?? at, "UTC"),
            default),
        null,
        by,
        at,
        at);
}
