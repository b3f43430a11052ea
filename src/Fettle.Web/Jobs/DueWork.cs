using Fettle.Web.Catalogue;
using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Hangfire;

namespace Fettle.Web.Jobs;

/// <summary>
/// Says to the job server that something is due. Only a hint, given after the transaction in which the work itself was
/// saved: when it is lost, <see cref="SweepJob"/> finds the work within its next round.
/// </summary>
public sealed class DueWork(IBackgroundJobClient jobs, ILogger<DueWork> log)
{
    public void FollowUp(Guid pickupId) => Hint(() => jobs.Enqueue<FollowUpJob>(job => job.RunAsync(pickupId, CancellationToken.None)));

    public void Notice(Guid noticeId) => Hint(() => jobs.Enqueue<SendNoticeJob>(job => job.RunAsync(noticeId, CancellationToken.None)));

    public void RulePreview(Guid previewId) => Hint(() => jobs.Enqueue<RulePreviewJob>(job => job.RunAsync(previewId, CancellationToken.None)));

    /// <summary>A carrier's rules have changed, or will.</summary>
    public void RecheckBuilds(Guid carrierId) => Hint(() => jobs.Enqueue<RecheckBuildsJob>(job => job.RunForAsync(carrierId, CancellationToken.None)));

    private void Hint(Action enqueue)
    {
        try
        {
            enqueue();
        }
        catch (Exception e)
        {
            log.LogWarning(e, "A job could not be enqueued; the next sweep will find its work.");
        }
    }
}
