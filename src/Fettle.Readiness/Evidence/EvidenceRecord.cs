using System.Globalization;
using System.Text.Json;

namespace Fettle.Readiness.Evidence;

/// <summary>One thing that the file of a pickup holds: an event, a photo that was kept, a removal.</summary>
/// <param name="Source">What it is, once for ever: "event:" with stream and version, "photo:" with its id.</param>
/// <param name="Kind">What happened, in one word: "pickup_submitted".</param>
/// <param name="At">When it happened.</param>
/// <param name="Data">The JSON of it, in any order of keys.</param>
public sealed record EvidenceRecord(string Source, string Kind, DateTimeOffset At, string Data)
{
    /// <summary>The exact bytes that are chained and written into the file: one line of canonical JSON, without its line end.</summary>
    /// <param name="number">The record's place in the chain, from 1.</param>
    public byte[] Line(int number)
    {
        using var data = JsonDocument.Parse(Data);
        return Canonical.Bytes(new { number, source = Source, kind = Kind, at = Written(At), data = data.RootElement });
    }

    public static EvidenceRecord OfEvent(Guid stream, long version, string kind, DateTimeOffset at, string data) =>
        new(string.Create(CultureInfo.InvariantCulture, $"event:{stream:D}:{version}"), kind, at, data);

    /// <summary>UTC, to the microsecond, as a database keeps it.</summary>
    public static string Written(DateTimeOffset at) => at.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture);
}
