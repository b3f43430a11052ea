using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Hangfire;
using Hangfire.States;
using Marten;

namespace Fettle.Web.Jobs;

/// <summary>Finds work that is due and that nobody is doing: a hint was lost, a process died, a mail server was down.</summary>
public sealed class SweepJob(IDocumentStore store, TimeProvider clock, DueWork due, JobStorage jobs)
{
    public const string Id = "sweep";

    private const int AtOnce = 200;

    public async Task RunAsync(CancellationToken cancel)
    {
        // What waits in the queue is due as well: to name it again would only make the queue longer.
        if (jobs.GetMonitoringApi().EnqueuedCount(EnqueuedState.DefaultQueue) >= AtOnce)
            return;
        var now = clock.GetUtcNow();
        await using var session = store.QuerySession();
        var followUps = await session.Query<FollowUp>()
            .Where(followUp => followUp.DoneAt == null && followUp.DueAt <= now)
            .OrderBy(followUp => followUp.DueAt).Take(AtOnce).Select(followUp => followUp.Id).ToListAsync(cancel);
        foreach (var pickup in followUps)
            due.FollowUp(pickup);
        var notices = await session.Query<Notice>()
            .Where(notice => (notice.State == NoticeState.Due && notice.DueAt <= now) || (notice.State == NoticeState.Sending && notice.SendingUntil <= now))
            .OrderBy(notice => notice.DueAt).Take(AtOnce).Select(notice => notice.Id).ToListAsync(cancel);
        foreach (var notice in notices)
            due.Notice(notice);
        var previews = await session.Query<RulePreview>()
            .Where(preview => preview.State == RulePreviewState.Due || (preview.State == RulePreviewState.Running && preview.RunningUntil <= now))
            .OrderBy(preview => preview.AskedAt).Take(AtOnce).Select(preview => preview.Id).ToListAsync(cancel);
        foreach (var preview in previews)
            due.RulePreview(preview);
    }
}
