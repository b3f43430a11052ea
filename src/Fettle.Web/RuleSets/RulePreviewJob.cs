using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.RuleSets;

/// <summary>
/// Judges stored declarations again and counts. A run takes the preview with a lease that each step renews; it stops when
/// somebody cancels, and when another run has taken over. Nothing is saved but the preview itself.
/// </summary>
public sealed class RulePreviewJob(IDocumentStore store, TimeProvider clock)
{
    /// <summary>Pickups read at once. Between two such steps somebody can cancel.</summary>
    public const int Step = 400;

    public async Task RunAsync(Guid previewId, CancellationToken cancel)
    {
        var run = Guid.CreateVersion7(clock.GetUtcNow());
        if (await TakeAsync(previewId, run, cancel) is not { } preview)
            return;
        Guid[] pickups;
        await using (var session = store.QuerySession())
        {
            var (since, until) = (preview.Since, preview.AskedAt);
            pickups =
            [
                .. await session.Query<Pickup>()
                    .Where(pickup => pickup.Header.CarrierId == preview.CarrierId && pickup.SubmittedAt > since && pickup.SubmittedAt <= until)
                    .Select(pickup => pickup.Id).ToListAsync(cancel),
            ];
        }

        var comparison = new RuleComparison(preview.Against, preview.Rules);
        var effect = RuleEffect.None;
        var counted = 0;
        var all = Environment.ProcessorCount;
        foreach (var wave in pickups.Chunk(Step * all))
        {
            // Each thread reads and judges its own share.
            var shares = await Task.WhenAll(wave.Chunk(Step).Select(share => Task.Run(() => CountAsync(share, comparison, cancel), cancel)));
            effect = RuleEffect.Sum([effect, .. shares]);
            counted += wave.Length;
            if (await StepAsync(previewId, run, mine => (mine.Counted, mine.All) = (counted, pickups.Length), cancel) is null)
                return;
        }

        await StepAsync(
            previewId,
            run,
            mine =>
            {
                (mine.Counted, mine.All, mine.Effect) = (counted, pickups.Length, effect);
                (mine.State, mine.EndedAt, mine.RunningUntil) = (RulePreviewState.Done, clock.GetUtcNow(), null);
            },
            cancel);
    }

    private async Task<RuleEffect> CountAsync(Guid[] pickups, RuleComparison comparison, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var read = await session.LoadManyAsync<Pickup>(cancel, pickups);
        return comparison.Of(read.Select(pickup => (pickup.Header.ShipperId, pickup.Declaration)));
    }

    /// <summary>Null when it is done, cancelled, gone, or being counted by a run that is alive.</summary>
    private Task<RulePreview?> TakeAsync(Guid previewId, Guid run, CancellationToken cancel) => ChangeAsync(
        previewId,
        preview => preview.State == RulePreviewState.Due || (preview.State == RulePreviewState.Running && preview.RunningUntil <= clock.GetUtcNow()),
        preview => (preview.State, preview.Run) = (RulePreviewState.Running, run),
        cancel);

    private Task<RulePreview?> StepAsync(Guid previewId, Guid run, Action<RulePreview> change, CancellationToken cancel) =>
        ChangeAsync(previewId, preview => preview.State == RulePreviewState.Running && preview.Run == run, change, cancel);

    /// <summary>Reads it as it is now, and changes it if it is still ours to change.</summary>
    private async Task<RulePreview?> ChangeAsync(Guid previewId, Func<RulePreview, bool> isOurs, Action<RulePreview> change, CancellationToken cancel)
    {
        while (true)
        {
            await using var session = store.LightweightSession();
            if (await session.LoadAsync<RulePreview>(previewId, cancel) is not { } preview || !isOurs(preview))
                return null;
            preview.RunningUntil = clock.GetUtcNow() + RulePreview.Lease;
            change(preview);
            session.Store(preview);
            try
            {
                await session.SaveChangesAsync(cancel);
                return preview;
            }
            catch (Exception raced) when (Streams.IsRace(raced))
            {
                // Cancelled or taken in this moment: look again.
            }
        }
    }
}
