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

    public static string KeptSource(Guid photoId) => $"photo:{photoId:D}";

    public static string RemovedSource(Guid photoId) => $"photo-removed:{photoId:D}";
}
