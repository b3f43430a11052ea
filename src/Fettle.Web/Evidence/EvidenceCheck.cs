using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Fettle.Readiness.Evidence;

namespace Fettle.Web.Evidence;

/// <summary>What comes of checking a file.</summary>
/// <param name="Problems">One sentence each; none when all agrees.</param>
/// <param name="Facts">What the file is, in sentences.</param>
public sealed record EvidenceFindings(IReadOnlyList<string> Problems, IReadOnlyList<string> Facts)
{
    public bool IsSound => Problems.Count == 0;
}

/// <summary>Holds a file against itself, and against a head that somebody has kept. English: it is read beside logs.</summary>
public static class EvidenceCheck
{
    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web) { RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true };

    /// <param name="files">As <see cref="EvidenceArchive"/> reads them.</param>
    /// <param name="head">From the foot of a mail; null to check the file by itself.</param>
    public static EvidenceFindings Of(IReadOnlyDictionary<string, byte[]> files, string? head)
    {
        if (!files.TryGetValue(EvidenceZip.Manifest, out var written) || Manifest(written) is not { } manifest)
            return new([$"{EvidenceZip.Manifest} is missing or cannot be read: this is no evidence of ours, or it is damaged."], []);
        var problems = new List<string>();
        var seal = $"{Convert.ToHexStringLower(SHA256.HashData(written))}  {EvidenceZip.Manifest}\n";
        if (!files.TryGetValue(EvidenceZip.Seal, out var sealedAs) || Encoding.ASCII.GetString(sealedAs) != seal)
            problems.Add($"{EvidenceZip.Manifest} is not the one that was sealed: it was changed, or {EvidenceZip.Seal} was.");
        if (manifest.Format != EvidenceManifest.Version || manifest.Origin != Chain.Origin(manifest.PickupId) || manifest.Head != Chain.Head(manifest.PickupId, manifest.Links)
            || !manifest.Links.Select((link, i) => link.Number == i + 1 && IsHash(link.Hash)).All(right => right))
            return new([.. problems, $"{EvidenceZip.Manifest} does not agree with itself: it was changed."], []);

        var lines = Lines(files.GetValueOrDefault(EvidenceZip.Records) ?? []);
        problems.AddRange(Chain.Compare(manifest.PickupId, manifest.Links, lines).Select(Sentence));
        CheckFiles(files, manifest, problems);
        CheckPhotos(manifest, lines, problems);
        var facts = Facts(manifest);
        CheckHead(manifest, head, problems, facts);
        return new(problems, facts);
    }

    private static void CheckFiles(IReadOnlyDictionary<string, byte[]> files, EvidenceManifest manifest, List<string> problems)
    {
        foreach (var part in manifest.Files)
        {
            if (!files.TryGetValue(part.Name, out var content))
                problems.Add($"{Name(part)} is missing.");
            else if (content.Length != part.Bytes || Convert.ToHexStringLower(SHA256.HashData(content)) != part.Sha256)
                problems.Add($"{Name(part)} was changed.");
        }

        foreach (var name in files.Keys.Except([EvidenceZip.Manifest, EvidenceZip.Seal, EvidenceZip.Records, .. manifest.Files.Select(part => part.Name)], StringComparer.Ordinal))
            problems.Add($"{name} was added: the manifest does not name it.");
    }

    /// <summary>Every photo that a record names by its hash is there, or was removed by retention, which a record says.</summary>
    private static void CheckPhotos(EvidenceManifest manifest, IReadOnlyList<ReadOnlyMemory<byte>> lines, List<string> problems)
    {
        var kept = manifest.Files.Where(part => part.PhotoId is not null).ToLookup(part => part.PhotoId!.Value, part => part.Sha256);
        var removed = manifest.Removed.ToLookup(removal => removal.PhotoId, removal => removal.Sha256);
        var (named, said) = (new HashSet<(Guid, string)>(), new HashSet<Guid>());
        foreach (var line in lines)
            Photos(line, named, said);
        foreach (var (photo, hash) in named)
        {
            if (kept[photo].Concat(removed[photo]).Contains(hash, StringComparer.OrdinalIgnoreCase))
                continue;
            problems.Add(kept.Contains(photo)
                ? $"Photo {photo} was changed: a record names it with the hash {hash.ToLowerInvariant()}."
                : $"Photo {photo} with the hash {hash.ToLowerInvariant()}, which a record names, is missing.");
        }

        foreach (var removal in manifest.Removed.Where(removal => !said.Contains(removal.PhotoId)))
            problems.Add($"Photo {removal.PhotoId} is called removed, but no record says so: it is missing.");
    }

    /// <summary>Wherever a record holds a photo's id and hash side by side.</summary>
    private static void Photos(ReadOnlyMemory<byte> line, HashSet<(Guid, string)> named, HashSet<Guid> removed)
    {
        try
        {
            using var json = JsonDocument.Parse(line);
            if (json.RootElement.ValueKind == JsonValueKind.Object && json.RootElement.TryGetProperty("kind", out var kind) && kind.ValueKind == JsonValueKind.String && kind.GetString() == EvidenceNotes.PhotoRemoved
                && json.RootElement.TryGetProperty("data", out var data) && Photo(data) is { } gone)
                removed.Add(gone.Id);
            Walk(json.RootElement);
        }
        catch (Exception unreadable) when (unreadable is JsonException or InvalidOperationException)
        {
            // It is named as changed or added already.
        }

        void Walk(JsonElement value)
        {
            if (value.ValueKind == JsonValueKind.Array)
            {
                foreach (var item in value.EnumerateArray())
                    Walk(item);
            }
            else if (value.ValueKind == JsonValueKind.Object)
            {
                if (Photo(value) is { } photo)
                    named.Add((photo.Id, photo.Hash));
                foreach (var property in value.EnumerateObject())
                    Walk(property.Value);
            }
        }

        static (Guid Id, string Hash)? Photo(JsonElement value) =>
            value.ValueKind == JsonValueKind.Object
            && value.TryGetProperty("photoId", out var id) && id.ValueKind == JsonValueKind.String && id.TryGetGuid(out var photo)
            && value.TryGetProperty("sha256", out var hash) && hash.ValueKind == JsonValueKind.String ? (photo, hash.GetString()!.ToLowerInvariant()) : null;
    }

    private static List<string> Facts(EvidenceManifest manifest) =>
    [
        $"Pickup {manifest.Number}: {Count(manifest.Links.Count, "record")}, {Count(manifest.Files.Count(part => part.PhotoId is not null), "photo")}.",
        .. manifest.Links.Count == 0 ? Array.Empty<string>() : [$"From {Moment(manifest.Links.Min(link => link.At))} to {Moment(manifest.Links.Max(link => link.At))}."],
        $"Head: {manifest.Head}",
        .. manifest.Removed.Select(removal => $"Photo {removal.PhotoId} was removed by retention on {removal.On.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}: {removal.Why}"),
    ];

    private static void CheckHead(EvidenceManifest manifest, string? head, List<string> problems, List<string> facts)
    {
        if (head is null)
            return;
        var wanted = head.Trim().ToLowerInvariant();
        if (manifest.Links.FirstOrDefault(link => link.Hash == wanted) is { } link)
            facts.Add($"The head given is that of record {link.Number} of {manifest.Links.Count}, {Words(link.Kind)} of {Moment(link.At)}: when it was written down, the file said the same up to there.");
        else if (manifest.Origin == wanted)
            facts.Add("The head given is that of this pickup before anything was recorded.");
        else
            problems.Add("The head given is not in this chain: the file does not say what it said then, or the head belongs to another pickup.");
    }

    private static string Sentence(ChainFault fault)
    {
        var what = $"{(fault.What.Length == 0 ? "unreadable" : Words(fault.What))}{(fault.At is { } at ? $" of {Moment(at)}" : "")}";
        return fault.Kind switch
        {
            FaultKind.Changed => $"Record {fault.Number}, {what}, was changed.",
            FaultKind.Missing => $"Record {fault.Number}, {what}, is missing.",
            FaultKind.Added => $"Line {fault.Number} of {EvidenceZip.Records}, {what}, was added: it is not in the chain.",
            FaultKind.Reordered => $"Record {fault.Number}, {what}, is not at its place.",
        };
    }

    private static EvidenceManifest? Manifest(byte[] json)
    {
        try
        {
            return JsonSerializer.Deserialize<EvidenceManifest>(json, Strict) is { } read && read.Links.All(link => link is not null) && read.Files.All(part => part is not null) && read.Removed.All(removal => removal is not null) ? read : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Each ends with a line feed; what comes after the last is a line too, one that nobody chained.</summary>
    private static List<ReadOnlyMemory<byte>> Lines(byte[] records)
    {
        var lines = new List<ReadOnlyMemory<byte>>();
        for (var start = 0; start < records.Length;)
        {
            var end = Array.IndexOf(records, (byte)'\n', start);
            lines.Add(records.AsMemory(start, (end < 0 ? records.Length : end) - start));
            start = end < 0 ? records.Length : end + 1;
        }

        return lines;
    }

    private static bool IsHash(string text) => text.Length == 64 && text.All(char.IsAsciiHexDigitLower);

    private static string Name(EvidenceFilePart part) => part.PhotoId is { } photo ? $"Photo {photo} ({part.Name})" : part.Name;

    private static string Words(string kind) => new([.. kind.Take(60).Select(c => c == '_' ? ' ' : c is >= ' ' and < (char)127 ? c : '?')]);

    private static string Moment(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);

    private static string Count(int count, string what) => count == 1 ? $"1 {what}" : string.Create(CultureInfo.InvariantCulture, $"{count} {what}s");
}
