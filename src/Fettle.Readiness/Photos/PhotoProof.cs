namespace Fettle.Readiness.Photos;

/// <summary>A photo that somebody points to, with the hash of its bytes: another picture put in its place is noticed.</summary>
/// <param name="Sha256">In lower-case hexadecimal, 64 characters.</param>
public sealed record PhotoProof(Guid PhotoId, string Sha256);
