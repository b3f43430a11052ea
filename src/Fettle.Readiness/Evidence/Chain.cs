using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Fettle.Readiness.Evidence;

/// <summary>A record's place in the chain. Links are added at the end and never changed.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Hash">SHA-256 over the link before and this record's line, 64 small hexadecimal digits.</param>
public sealed record ChainLink(int Number, string Source, string Kind, DateTimeOffset At, string Hash);

public enum FaultKind
{
    /// <summary>What is there is not what was chained.</summary>
    Changed,

    Missing,

    /// <summary>It was never chained.</summary>
    Added,

    /// <summary>It is as it was chained, at another place.</summary>
    Reordered,
}

/// <summary>Where a file and its chain do not agree.</summary>
/// <param name="Number">In the chain; for what was added its line in the file.</param>
/// <param name="What">Kind of the record, or as much of it as can be read.</param>
/// <param name="At">Null when it cannot be read.</param>
public sealed record ChainFault(FaultKind Kind, int Number, string What, DateTimeOffset? At);

/// <summary>
/// Links a pickup's records so that none can be changed, taken out, put in or moved unnoticed by whoever knows the last
/// link's hash, the head. Link n is SHA-256 over the 32 bytes of link n−1 and the bytes of line n; link 0 is SHA-256 over
/// "fettle evidence 1", a line feed and the pickup's id.
/// </summary>
public static class Chain
{
    /// <summary>Tries to find a line's place anew, after which a file is only said to differ: one made to keep us busy is not worth more.</summary>
    private const int MostTries = 1_000_000;

    /// <summary>Link 0 of a pickup: what the first record is chained to.</summary>
    public static string Origin(Guid pickupId) => Hex(SHA256.HashData(Encoding.ASCII.GetBytes($"fettle evidence 1\n{pickupId:D}")));

    public static string Hash(string previous, ReadOnlySpan<byte> line)
    {
        var both = new byte[SHA256.HashSizeInBytes + line.Length];
        Convert.FromHexString(previous, both, out _, out _);
        line.CopyTo(both.AsSpan(SHA256.HashSizeInBytes));
        return Hex(SHA256.HashData(both));
    }

    public static string Head(Guid pickupId, IReadOnlyList<ChainLink> links) => links.Count == 0 ? Origin(pickupId) : links[^1].Hash;

    /// <summary>
    /// Adds links for records that have none, after those that have: the order in which records come to be seen is the
    /// chain's, and a record that another transaction committed late never slips in between.
    /// </summary>
    /// <param name="links">All so far.</param>
    /// <param name="records">All there are; new ones in the order in which they are to be linked.</param>
    /// <returns>The links, and where those so far do not agree with the records. When they do not, nothing is added: a chain that is broken must not grow sound again.</returns>
    public static (IReadOnlyList<ChainLink> Links, IReadOnlyList<ChainFault> Faults) Seal(Guid pickupId, IReadOnlyList<ChainLink> links, IReadOnlyList<EvidenceRecord> records)
    {
        var bySource = records.ToDictionary(record => record.Source, StringComparer.Ordinal);
        var previous = Origin(pickupId);
        var faults = new List<ChainFault>();
        foreach (var link in links)
        {
            if (!bySource.Remove(link.Source, out var record))
                faults.Add(Of(FaultKind.Missing, link));
            else if (Hash(previous, record.Line(link.Number)) != link.Hash)
                faults.Add(Of(FaultKind.Changed, link));
            previous = link.Hash;
        }

        if (faults.Count > 0)
            return (links, faults);
        List<ChainLink> all = [.. links];
        foreach (var record in records.Where(record => bySource.ContainsKey(record.Source)))
        {
            previous = Hash(previous, record.Line(all.Count + 1));
            all.Add(new(all.Count + 1, record.Source, record.Kind, record.At, previous));
        }

        return (all, faults);
    }

    /// <summary>Compares lines of a file with the chain that was written beside them.</summary>
    public static IReadOnlyList<ChainFault> Compare(Guid pickupId, IReadOnlyList<ChainLink> links, IReadOnlyList<ReadOnlyMemory<byte>> lines)
    {
        // Which link each line is, if any. A line at its own place is looked for there first.
        var linkOf = new int?[lines.Count];
        var taken = new bool[links.Count];
        var tries = 0;
        for (var line = 0; line < Math.Min(lines.Count, links.Count); line++)
            Try(line, line);
        for (var line = 0; line < lines.Count; line++)
        {
            for (var link = 0; linkOf[line] is null && link < links.Count; link++)
            {
                if (!taken[link] && ++tries <= MostTries)
                    Try(line, link);
            }
        }

        var faults = new List<ChainFault>();
        // Where the matched lines do not rise, somebody has moved one.
        var highest = -1;
        foreach (var link in linkOf.OfType<int>())
        {
            if (link < highest)
                faults.Add(Of(FaultKind.Reordered, links[link]));
            highest = Math.Max(highest, link);
        }

        // A line that is no link, between the neighbours of a link that has no line, is that link's, changed.
        var unmatched = Enumerable.Range(0, lines.Count).Where(line => linkOf[line] is null).ToHashSet();
        for (var link = 0; link < links.Count; link++)
        {
            if (taken[link])
                continue;
            var after = Array.FindLastIndex(linkOf, at => at is { } found && found < link);
            var before = Array.FindIndex(linkOf, at => at is { } found && found > link);
            var changed = unmatched.Where(line => line > after && (before < 0 || line < before)).Order().Select(line => (int?)line).FirstOrDefault();
            if (changed is { } found)
                unmatched.Remove(found);
            faults.Add(Of(changed is null ? FaultKind.Missing : FaultKind.Changed, links[link]));
        }

        faults.AddRange(unmatched.Order().Select(line => Added(line, lines[line])));
        return faults;

        void Try(int line, int link)
        {
            var previous = link == 0 ? Origin(pickupId) : links[link - 1].Hash;
            if (Hash(previous, lines[line].Span) != links[link].Hash)
                return;
            linkOf[line] = link;
            taken[link] = true;
        }
    }

    private static ChainFault Of(FaultKind kind, ChainLink link) => new(kind, link.Number, link.Kind, link.At);

    private static ChainFault Added(int line, ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var read = JsonDocument.Parse(bytes);
            return new(
                FaultKind.Added,
                line + 1,
                read.RootElement.GetProperty("kind").GetString() ?? "",
                read.RootElement.GetProperty("at").TryGetDateTimeOffset(out var at) ? at : null);
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return new(FaultKind.Added, line + 1, "", null);
        }
    }

    private static string Hex(byte[] hash) => Convert.ToHexStringLower(hash);
}
