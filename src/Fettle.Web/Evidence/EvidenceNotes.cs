using System.Text.Json;
using Fettle.Readiness.Evidence;

namespace Fettle.Web.Evidence;

/// <summary>Facts that no event stream has: they are chained and kept with the chain itself.</summary>
public static class EvidenceNotes
{
    public const string PhotoKept = "photo_kept";
    public const string PhotoRemoved = "photo_removed";
    public const string PersonalDataRemoved = "personal_data_removed";

    public static EvidenceRecord Kept(Guid photoId, string sha256, DateTimeOffset takenAt, DateTimeOffset at, string by) =>
        new(KeptSource(photoId), PhotoKept, at, JsonSerializer.Serialize(new { photoId, sha256 = sha256.ToLowerInvariant(), takenAt = EvidenceRecord.Written(takenAt), by }));

    public static EvidenceRecord Removed(Guid photoId, string sha256, DateTimeOffset at, string why) =>
        new(RemovedSource(photoId), PhotoRemoved, at, JsonSerializer.Serialize(new { photoId, sha256 = sha256.ToLowerInvariant(), why }));

    public static EvidenceRecord PersonalData(Guid pickupId, DateTimeOffset at, string what, string why) =>
        new($"personal-data:{pickupId:D}", PersonalDataRemoved, at, JsonSerializer.Serialize(new { what, why }));

    /// <summary>Every photo that was ever kept, in the order in which they were chained.</summary>
    public static IEnumerable<Guid> PhotosOf(IReadOnlyList<EvidenceRecord> notes) => notes.Where(note => note.Kind == PhotoKept).Select(note => IdIn(note.Source));

    public static IReadOnlyList<EvidenceRemoval> Removals(IReadOnlyList<EvidenceRecord> notes) =>
    [
        .. from note in notes
           where note.Kind == PhotoRemoved
           let said = JsonSerializer.Deserialize<Removal>(note.Data, JsonSerializerOptions.Web)!
           select new EvidenceRemoval(said.PhotoId, said.Sha256, note.At, said.Why),
    ];

    /// <summary>Whether a note is about what was taken out of the file and not about the freight.</summary>
    public static bool IsRemoval(string kind) => kind is PhotoRemoved or PersonalDataRemoved;

    private static Guid IdIn(string source) => Guid.Parse(source.AsSpan(source.IndexOf(':', StringComparison.Ordinal) + 1));

    private sealed record Removal(Guid PhotoId, string Sha256, string Why);

    public static string KeptSource(Guid photoId) => $"photo:{photoId:D}";

    public static string RemovedSource(Guid photoId) => $"photo-removed:{photoId:D}";
}
