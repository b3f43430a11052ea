using Fettle.Readiness.Pickups;
using Fettle.Web.Demo;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.FloorUse;

/// <summary>
/// Plans the pickups that have no plan yet, a few seconds of work a minute: a year of history is taken in bit by bit and
/// slows nobody down. What is missing is read from the pickups themselves, so that nothing can be forgotten; what is planned
/// twice comes to the same.
/// </summary>
public sealed class FloorUseJob(IDocumentStore store, TimeProvider clock)
{
    public const string Id = "floor-use";

    /// <summary>Most that one run plans, and how long it may be at it.</summary>
    public const int Most = 300;

    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(12);

    /// <summary>Any number that nobody else in this database locks.</summary>
    private const long LockKey = 0x46_65_74_74_6C_65_07;

    /// <returns>How many were planned.</returns>
    public async Task<int> RunAsync(CancellationToken cancel)
    {
        // Another node is at it.
        await using var alone = await NodeLock.TryTakeAsync(store, LockKey, cancel);
        if (alone is null)
            return 0;
        await using var session = store.QuerySession();
        if (await session.LoadAsync<DemoLoad>(DemoLoad.OnlyId, cancel) is { FinishedAt: null })
            return 0;
        var began = clock.GetTimestamp();
        var done = 0;
        foreach (var id in await MissingAsync(session, cancel))
        {
            if (clock.GetElapsedTime(began) > Longest)
                break;
            await PlanAsync(id, cancel);
            done++;
        }

        return done;
    }

    /// <summary>One pickup; nothing when there is none.</summary>
    public async Task PlanAsync(Guid pickupId, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<Pickup>(pickupId, cancel) is not { } pickup)
            return;
        session.Store(PickupFloorUse.Of(pickup));
        await session.SaveChangesAsync(cancel);
    }

    /// <summary>The latest first: ids of pickups made by people begin with their time.</summary>
    private static Task<IReadOnlyList<Guid>> MissingAsync(IQuerySession session, CancellationToken cancel) => session.QueryAsync<Guid>(
        """
        select pickup.id from fettle.mt_doc_pickup as pickup
        where not exists (select 1 from fettle.mt_doc_pickupflooruse as used where used.id = pickup.id and used.method = ?)
        order by pickup.id desc limit ?
        """,
        cancel,
        PickupFloorUse.CurrentMethod,
        Most);
}
