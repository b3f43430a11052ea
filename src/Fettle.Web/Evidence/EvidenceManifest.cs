using Fettle.Readiness.Evidence;

namespace Fettle.Web.Evidence;

/// <summary>What a file of evidence says of itself: manifest.json. Its own SHA-256 is in seal.sha256, in the form that sha256sum reads.</summary>
/// <param name="Head">Hash of the last link: what mails carry.</param>
/// <param name="Files">Everything else in the ZIP but the records, with its SHA-256: photos, the summary.</param>
/// <param name="Removed">Photos that are chained and no longer kept.</param>
public sealed record EvidenceManifest(
    string Format,
    Guid PickupId,
    string Number,
    string Origin,
    string Head,
    IReadOnlyList<ChainLink> Links,
    IReadOnlyList<EvidenceFilePart> Files,
    IReadOnlyList<EvidenceRemoval> Removed)
{
    public const string Version = "fettle evidence 1";
}

/// <param name="Name">In the ZIP.</param>
/// <param name="PhotoId">Null for what is no photo.</param>
public sealed record EvidenceFilePart(string Name, string Sha256, long Bytes, Guid? PhotoId);

/// <param name="On">When it was removed.</param>
public sealed record EvidenceRemoval(Guid PhotoId, string Sha256, DateTimeOffset On, string Why);
