using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Web.Demo;
using Fettle.Web.Notices;
using Marten;

namespace Fettle.Web.Holds;

/// <summary>
/// Reminds whoever must act about held freight before their time ends, and tells those who answer for them afterwards. What
/// is due follows from each hold and the moment alone: running twice, late, or while somebody decides changes nothing.
/// </summary>
public sealed class WatchHoldsJob(IDocumentStore store, HoldDesk desk, TimeProvider clock, ILogger<WatchHoldsJob> log)
{
    public const string Id = "watch-holds";

    private const int AtOnce = 500;

    public async Task RunAsync(CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        IReadOnlyList<Guid> due;
        await using (var session = store.QuerySession())
        {
            // A demo year that is being loaded decides its own holds.
            if (await session.LoadAsync<DemoLoad>(DemoLoad.OnlyId, cancel) is { FinishedAt: null })
                return;
            due = await session.Query<HeldUnit>()
                .Where(unit => unit.WatchFrom <= now)
                .OrderBy(unit => unit.WatchFrom).Take(AtOnce).Select(unit => unit.Id).ToListAsync(cancel);
        }

        foreach (var id in due)
        {
            try
            {
                await WatchAsync(id, now, cancel);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // One hold whose parties are gone must not keep the others from being watched.
                log.LogError(e, "Hold {Hold} could not be watched", id);
            }
        }
    }

    /// <returns>What happened now; nothing when it was not due, or somebody was quicker.</returns>
    public async Task<IReadOnlyList<HoldEvent>> WatchAsync(Guid id, DateTimeOffset now, CancellationToken cancel)
    {
        Hold? hold;
        await using (var session = store.QuerySession())
            hold = await session.LoadAsync<Hold>(id, cancel);
        if (hold is null)
            return [];
        return (await desk.DecideAsync(hold, state => Hold.Decide(state, new WatchHold(now)), null, NoticeState.Due, cancel)).Events;
    }
}
