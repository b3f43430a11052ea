using System.Text.Json;
using Fettle.Readiness.Evidence;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Papers;
using Fettle.Web.Photos;
using Fettle.Web.Store;
using Marten;
using Npgsql;

namespace Fettle.Web.Evidence;

/// <summary>Reads all that the file of a pickup holds, and chains what has come since it was last looked at.</summary>
public sealed class EvidenceDesk(IDocumentStore store, ILogger<EvidenceDesk> log)
{
    private const int Tries = 5;

    /// <summary>
    /// Chains what is new and tells the head: what a mail carries at its foot. When what was chained earlier is no longer as
    /// it was, the head is still the old one, and the log says what does not agree.
    /// </summary>
    public async Task<EvidenceHead> HeadAsync(Guid pickupId, CancellationToken cancel)
    {
        var (chain, _) = await SealAsync(pickupId, [], cancel);
        return new(chain.Links.Count, Chain.Head(pickupId, chain.Links));
    }

    /// <summary>The chain after sealing, and every record of the pickup as it is now, by its source.</summary>
    /// <param name="notes">Facts to be kept and chained with the rest; one that is there already is not added again.</param>
    public async Task<(EvidenceChain Chain, IReadOnlyDictionary<string, EvidenceRecord> Records)> SealAsync(Guid pickupId, IReadOnlyList<EvidenceRecord> notes, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            // A session whose save failed stays poisoned: each attempt has its own.
            await using var session = store.LightweightSession();
            var chain = await session.LoadAsync<EvidenceChain>(pickupId, cancel) ?? new() { Id = pickupId };
            var kept = chain.Notes.Select(note => note.Source).ToHashSet(StringComparer.Ordinal);
            var photos = await session.Query<Photo>().Where(photo => photo.PickupId == pickupId).OrderBy(photo => photo.At).ThenBy(photo => photo.Id).ToListAsync(cancel);
            IReadOnlyList<EvidenceRecord> allNotes =
            [
                .. chain.Notes,
                .. photos.Select(photo => EvidenceNotes.Kept(photo.Id, photo.Sha256, photo.TakenAt, photo.At, photo.By.Name)).Concat(notes).Where(note => kept.Add(note.Source)),
            ];
            IReadOnlyList<EvidenceRecord> records = [.. await EventsAsync(session, chain, cancel), .. allNotes];
            var (links, faults) = Chain.Seal(pickupId, chain.Links, records);
            foreach (var fault in faults)
                log.LogCritical("The file of pickup {Pickup} does not agree with its chain: record {Number}, {What} of {At}, is {Fault}", pickupId, fault.Number, fault.What, fault.At, fault.Kind);
            var bySource = records.ToDictionary(record => record.Source, StringComparer.Ordinal);
            if (links.Count == chain.Links.Count)
                return (chain, bySource);
            chain.Links = links;
            chain.Notes = allNotes;
            session.Store(chain);
            try
            {
                await session.SaveChangesAsync(cancel);
                return (chain, bySource);
            }
            catch (Exception raced) when (attempt < Tries && Streams.IsRace(raced))
            {
            }
        }
    }

    /// <summary>The whole file as a ZIP.</summary>
    public async Task<byte[]> FileAsync(Pickup pickup, CancellationToken cancel)
    {
        var (chain, records) = await SealAsync(pickup.Id, [], cancel);
        // As it is now: what no longer agrees with the chain is found by whoever checks the file.
        IReadOnlyList<byte[]> lines = [.. chain.Links.Select(link => records.GetValueOrDefault(link.Source)?.Line(link.Number)).OfType<byte[]>()];
        await using var session = store.QuerySession();
        var freight = await PaperDesk.FreightAsync(session, pickup, cancel);
        var removed = EvidenceNotes.Removals(chain.Notes);
        List<(string, byte[], Guid?)> files = [(EvidenceZip.Summary, EvidenceSummary.Write(freight, chain), null)];
        foreach (var photo in EvidenceNotes.PhotosOf(chain.Notes).Except(removed.Select(removal => removal.PhotoId)))
        {
            if (await session.BytesAsync(photo, thumbnail: false, cancel) is { } bytes)
                files.Add(($"photos/{photo:D}.jpg", bytes, photo));
        }

        return EvidenceZip.Write(pickup.Id, pickup.Header.Number, chain.Links, lines, files, removed);
    }

    /// <summary>Events of the pickup and of all that belongs to it, in the order in which the store numbered them, as they are stored: not read into types and written again.</summary>
    private static async Task<IReadOnlyList<EvidenceRecord>> EventsAsync(IQuerySession session, EvidenceChain chain, CancellationToken cancel)
    {
        var streams = (await StreamsAsync(session, chain.Id, cancel))
            // Also those that are chained: a document that was taken away must not hide its events.
            .Concat(chain.Links.Where(link => link.Source.StartsWith("event:", StringComparison.Ordinal)).Select(link => Guid.Parse(link.Source.Split(':')[1])))
            .Distinct().ToArray();
        var records = new List<EvidenceRecord>();
        await using var command = new NpgsqlCommand($"select stream_id, version, type, timestamp, data::text from {StoreSetup.Schema}.mt_events where stream_id = any($1) order by seq_id");
        command.Parameters.AddWithValue(streams);
        await using var reader = await session.ExecuteReaderAsync(command, cancel);
        while (await reader.ReadAsync(cancel))
        {
            var data = reader.GetString(4);
            records.Add(EvidenceRecord.OfEvent(reader.GetGuid(0), reader.GetInt64(1), reader.GetString(2), HappenedAt(data) ?? reader.GetFieldValue<DateTimeOffset>(3), data));
        }

        return records;
    }

    /// <summary>Ids of the pickup's own stream and of those about it.</summary>
    private static async Task<IReadOnlyList<Guid>> StreamsAsync(IQuerySession session, Guid pickupId, CancellationToken cancel) =>
    [
        pickupId,
        .. await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickupId).Select(hold => hold.Id).ToListAsync(cancel),
        .. await session.Query<Inspection>().Where(inspection => inspection.Recorded.PickupId == pickupId).Select(inspection => inspection.Id).ToListAsync(cancel),
    ];

    /// <summary>Events say themselves when they happened; when one was stored is another thing.</summary>
    private static DateTimeOffset? HappenedAt(string data)
    {
        using var json = JsonDocument.Parse(data);
        return json.RootElement.TryGetProperty("at", out var at) && at.TryGetDateTimeOffset(out var moment) ? moment : null;
    }
}
