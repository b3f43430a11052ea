using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Holds;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Photos;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Inspections;

/// <summary>Records what was found, with its photos, exactly once; makes a hold of it when the reviewer says so.</summary>
public sealed class InspectionDesk(IDocumentStore store, CarrierRuleBook rules, DueWork due)
{
    /// <summary>
    /// Records an inspection, photos and all, in one transaction. The same id again, for the same freight, gives the first
    /// inspection back, whatever came with it.
    /// </summary>
    /// <param name="alongside">What else is saved with it, given the inspection as it will be.</param>
    public async Task<(Inspection? Inspection, Refusal? Refusal)> RecordAsync(
        Pickup pickup,
        ReadInspection read,
        IReadOnlyList<ReadPhoto> photos,
        Actor by,
        DateTimeOffset at,
        Action<IDocumentSession, Inspection>? alongside,
        CancellationToken cancel)
    {
        var inForce = await rules.InForceAsync(pickup.Header.CarrierId, at, cancel);
        Hold? hold;
        await using (var session = store.QuerySession())
        {
            // The id comes from outside: what is stored under it already must be an inspection.
            if (await session.Events.FetchStreamStateAsync(read.Id, cancel) is not null && await session.LoadAsync<Inspection>(read.Id, cancel) is null)
                return (null, new InspectionIdTaken());
            hold = await LatestHoldAsync(session, pickup.Id, read.Reference, cancel);
        }

        Photo[] kept = [.. photos.Select(photo => Photo.Of(photo, read.Id, pickup.Id, pickup.Header, read.Reference, by, read.TakenAt, at)).DistinctBy(photo => photo.Id)];
        var command = new RecordInspection(
            read.Id, pickup, read.Reference, read.Index, read.Sscc, read.Measured, read.Damage, read.StackTest, read.Alike, read.Note, [.. kept.Select(photo => photo.Proof)], hold, inForce, by, read.TakenAt, at);
        var decision = await store.DecideAsync<Inspection, InspectionEvent>(
            read.Id,
            state => Inspection.Decide(state, command),
            (session, events) =>
            {
                var inspection = events.Aggregate(default(Inspection), Inspection.Evolve)!;
                foreach (var (photo, bytes) in kept.Zip(photos.DistinctBy(photo => photo.SentSha256)))
                    session.Keep(photo, bytes.Picture, bytes.Thumbnail);
                if (hold is not null && inspection.HoldId == hold.Id)
                    Note(session, hold, inspection);
                alongside?.Invoke(session, inspection);
            },
            cancel);
        return decision.Refusal switch
        {
            null => (decision.Events.Aggregate(default(Inspection), Inspection.Evolve), null),
            InspectionRecordedBefore { First: var first } when first.Recorded.PickupId == pickup.Id && first.Recorded.Reference == read.Reference => (first, null),
            var refusal => (null, refusal),
        };
    }

    /// <summary>Adds a photo to a recorded inspection. The same photo again is there once.</summary>
    public async Task<(Photo? Photo, Refusal? Refusal)> PhotographAsync(Inspection inspection, ReadPhoto read, Actor by, DateTimeOffset takenAt, DateTimeOffset at, Action<IDocumentSession, Photo>? alongside, CancellationToken cancel)
    {
        var recorded = inspection.Recorded;
        var photo = Photo.Of(read, inspection.Id, recorded.PickupId, recorded.Pickup, recorded.Reference, by, takenAt, at);
        var decision = await store.DecideAsync<Inspection, InspectionEvent>(
            inspection.Id,
            state => Inspection.Decide(state, new AddPhoto(photo.Proof, by, at)),
            (session, _) =>
            {
                session.Keep(photo, read.Picture, read.Thumbnail);
                alongside?.Invoke(session, photo);
            },
            cancel);
        if (decision.Refusal is { } refusal)
            return (null, refusal);
        if (decision.Events.Count > 0)
            return (photo, null);
        await using var first = store.QuerySession();
        return (await first.LoadAsync<Photo>(photo.Id, cancel), null);
    }

    /// <summary>
    /// Makes a hold of what was found, with its reason written out. When somebody has held the line meanwhile the inspection
    /// goes to that hold: one line is held once. The hold's id is that of the line's next hold, so that of two inspections held
    /// in one moment the second meets the first one's hold.
    /// </summary>
    public async Task<(Guid? HoldId, Refusal? Refusal)> HoldAsync(Inspection inspection, Actor by, DateTimeOffset at, Action<IDocumentSession, Guid>? alongside, CancellationToken cancel)
    {
        if (inspection.LedToHold)
            return (inspection.HoldId, null);
        try
        {
            return await HoldOnceAsync(inspection, by, at, alongside, cancel);
        }
        catch (Exception raced) when (Streams.IsRace(raced))
        {
            // The line was held in this moment: now its hold is there to be found.
            return await HoldOnceAsync(inspection, by, at, alongside, cancel);
        }
    }

    private async Task<(Guid? HoldId, Refusal? Refusal)> HoldOnceAsync(Inspection inspection, Actor by, DateTimeOffset at, Action<IDocumentSession, Guid>? alongside, CancellationToken cancel)
    {
        var recorded = inspection.Recorded;
        Pickup pickup;
        IReadOnlyList<Hold> holds;
        await using (var session = store.QuerySession())
        {
            pickup = await session.LoadAsync<Pickup>(recorded.PickupId, cancel) ?? throw new InvalidOperationException($"There is no pickup {recorded.PickupId}.");
            holds = await HoldsAsync(session, recorded.PickupId, recorded.Reference, cancel);
        }

        var open = holds.LastOrDefault(hold => hold.IsOpen);
        var limits = (await rules.InForceAsync(pickup.Header.CarrierId, at, cancel)).Hold;
        var placed = open is null
            ? Hold.PlaceOn(new(StableId.From("hold", pickup.Id, recorded.Reference, holds.Count), inspection.Id, pickup, recorded.Found, recorded.Findings, limits, holds, by, at))
            : null;
        if (open is null && placed is null)
            return (null, new NothingToHold());
        var holdId = open?.Id ?? placed!.HoldId;
        IReadOnlyList<Notice> owed = [];
        if (placed is not null)
        {
            placed = placed with { Reason = Recheck.Reason(recorded) };
            await using var session = store.QuerySession();
            owed = HoldNotices.Owed(placed, placed, await HoldReaders.LoadAsync(session, placed, cancel), NoticeState.Due);
        }

        var decision = await store.DecideAsync<Inspection, InspectionEvent>(
            inspection.Id,
            state => Inspection.Decide(state, new HoldFound(holdId, by, at)),
            (session, events) =>
            {
                if (placed is not null)
                    session.Events.StartStream<Hold>(holdId, placed);
                else
                    Note(session, open!, inspection);
                session.Insert(owed.ToArray());
                alongside?.Invoke(session, holdId);
            },
            cancel);
        if (decision.Refusal is { } refusal)
            return (null, refusal);
        if (decision.Events.Count > 0)
        {
            foreach (var notice in owed)
                due.Notice(notice.Id);
            return (holdId, null);
        }

        await using var winner = store.QuerySession();
        return ((await winner.LoadAsync<Inspection>(inspection.Id, cancel))!.HoldId, null);
    }

    /// <summary>All holds of a line, oldest first.</summary>
    public static async Task<IReadOnlyList<Hold>> HoldsAsync(IQuerySession session, Guid pickupId, string reference, CancellationToken cancel) =>
        [.. (await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickupId).ToListAsync(cancel)).Where(hold => hold.Placed.HandlingUnit.Reference == reference).OrderBy(hold => hold.Placed.At)];

    public static async Task<Hold?> LatestHoldAsync(IQuerySession session, Guid pickupId, string reference, CancellationToken cancel) =>
        await HoldsAsync(session, pickupId, reference, cancel) is [.., var last] ? last : null;

    /// <summary>All inspections of a line, latest first.</summary>
    public static async Task<IReadOnlyList<Inspection>> OfLineAsync(IQuerySession session, Guid pickupId, string reference, CancellationToken cancel) =>
        [.. (await session.Query<Inspection>().Where(inspection => inspection.Recorded.PickupId == pickupId).ToListAsync(cancel)).Where(inspection => inspection.Recorded.Reference == reference).OrderByDescending(inspection => inspection.Recorded.At)];

    /// <summary>The hold knows of the inspection from the same moment on.</summary>
    private static void Note(IDocumentSession session, Hold hold, Inspection inspection)
    {
        var recorded = inspection.Recorded;
        foreach (var noted in Hold.Decide(hold, new NoteInspection(inspection.Id, recorded.Verdict, recorded.By, recorded.At)).Events)
            session.Events.Append(hold.Id, noted);
    }
}
