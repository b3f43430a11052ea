namespace Fettle.Readiness.Photos;

/// <summary>A photo named in an event, with what proves that it is still the same picture.</summary>
/// <param name="Sha256">Of the stored bytes, 64 hexadecimal digits in capitals.</param>
public sealed record PhotoProof(Guid PhotoId, string Sha256);
