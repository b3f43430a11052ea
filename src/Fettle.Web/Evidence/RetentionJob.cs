using System.Globalization;
using Fettle.Readiness.Evidence;
using Fettle.Readiness.Pickups;
using Fettle.Web.Notices;
using Fettle.Web.Photos;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Evidence;

/// <summary>
/// Removes photos and mails of pickups that are older than the settings ask for, never earlier. What is removed is first
/// said in the chain, so that the file tells "removed by retention" from "missing". May run twice, or be cut off anywhere.
/// </summary>
public sealed class RetentionJob(IDocumentStore store, EvidenceDesk desk, Settings settings, TimeProvider clock, ILogger<RetentionJob> log)
{
    public const string Id = "retention";

    public async Task RunAsync(CancellationToken cancel)
    {
        if (settings.Retention.Years is not { } years)
            return;
        var limit = clock.GetUtcNow().AddYears(-years);
        IReadOnlyList<Guid> old;
        await using (var session = store.QuerySession())
        {
            var submitted = await session.Query<Pickup>().Where(pickup => pickup.SubmittedAt < limit).OrderBy(pickup => pickup.SubmittedAt).Select(pickup => pickup.Id).ToListAsync(cancel);
            var emptied = await session.Query<EvidenceChain>().Where(chain => chain.EmptiedAt != null).Select(chain => chain.Id).ToListAsync(cancel);
            old = [.. submitted.Except(emptied)];
        }

        foreach (var pickup in old)
        {
            try
            {
                await EmptyAsync(pickup, years, limit, cancel);
            }
            catch (Exception raced) when (Streams.IsRace(raced))
            {
                // Somebody sealed or removed in this moment: the next round finds what is left.
                log.LogInformation(raced, "Pickup {Pickup} is left for the next round", pickup);
            }
        }
    }

    private async Task EmptyAsync(Guid pickupId, int years, DateTimeOffset limit, CancellationToken cancel)
    {
        var (chain, _) = await desk.SealAsync(pickupId, [], cancel);
        // What was removed earlier does not make the freight younger.
        if (chain.Links.Where(link => !EvidenceNotes.IsRemoval(link.Kind)).Any(link => link.At >= limit))
            return;
        await using var session = store.LightweightSession();
        var mails = await session.Query<Notice>().Where(notice => notice.PickupId == pickupId).ToListAsync(cancel);
        // A reminder that is still to go out, such as one before the time for a suit ends, says that the file is still needed.
        var now = clock.GetUtcNow();
        if (mails.Any(mail => mail.State == NoticeState.Due && mail.DueAt > now))
            return;
        var why = years == 1
            ? "photos and mails are kept for 1 year."
            : string.Create(CultureInfo.InvariantCulture, $"photos and mails are kept for {years} years.");
        var photos = await session.Query<Photo>().Where(photo => photo.PickupId == pickupId).ToListAsync(cancel);
        List<EvidenceRecord> notes = [.. photos.OrderBy(photo => photo.At).ThenBy(photo => photo.Id).Select(photo => EvidenceNotes.Removed(photo.Id, photo.Sha256, now, why))];
        if (mails.Count > 0)
            notes.Add(EvidenceNotes.PersonalData(pickupId, now, string.Create(CultureInfo.InvariantCulture, $"mails: {mails.Count}, with names and addresses"), why));
        (chain, _) = await desk.SealAsync(pickupId, notes, cancel);
        if (notes.Any(note => chain.Links.All(link => link.Source != note.Source)))
        {
            // The chain does not agree with the records, and so takes nothing up: nobody removes what may be needed to find out why.
            log.LogError("Nothing of pickup {Pickup} is removed: its file does not agree with its chain", pickupId);
            return;
        }

        session.Forget([.. photos.Select(photo => photo.Id)]);
        foreach (var mail in mails)
            session.Delete(mail);
        chain.EmptiedAt = now;
        session.Store(chain);
        await session.SaveChangesAsync(cancel);
    }
}
