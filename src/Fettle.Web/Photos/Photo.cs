using Fettle.Readiness;
using Fettle.Readiness.Photos;
using Fettle.Readiness.Pickups;
using Fettle.Web.Store;

namespace Fettle.Web.Photos;

/// <summary>
/// A photo of freight, as it was written anew by us: no metadata, nothing behind its end. The bytes are in a table of their
/// own (<see cref="PhotoStorage"/>), saved in the same transaction, so that listing photos does not read pictures.
/// </summary>
public sealed record Photo
{
    /// <summary>Written so, whatever was sent.</summary>
    public const string Jpeg = "image/jpeg";

    public Guid Id { get; init; }

    public required Guid PickupId { get; init; }

    /// <summary>Whose freight it shows decides who may see it.</summary>
    public required PickupHeader Pickup { get; init; }

    /// <summary>The line that it shows; null when it shows the pickup as a whole.</summary>
    public string? Reference { get; init; }

    /// <summary>Of the stored bytes, in lower-case hexadecimal.</summary>
    public required string Sha256 { get; init; }

    public required string MediaType { get; init; }

    /// <summary>In pixels, turned upright.</summary>
    public required int Width { get; init; }

    public required int Height { get; init; }

    /// <summary>How many bytes are stored.</summary>
    public required int Bytes { get; init; }

    /// <summary>When it was taken, as the device says.</summary>
    public required DateTimeOffset TakenAt { get; init; }

    /// <summary>When it arrived.</summary>
    public required DateTimeOffset At { get; init; }

    public required Actor By { get; init; }

    public PhotoProof Proof => new(Id, Sha256);

    /// <summary>Its id follows from what it belongs to and what was sent: the same picture twice is one photo.</summary>
    /// <param name="about">The inspection, visit or dispute that it belongs to.</param>
    public static Photo Of(ReadPhoto read, Guid about, Guid pickupId, PickupHeader pickup, string? reference, Actor by, DateTimeOffset takenAt, DateTimeOffset at) => new()
    {
        Id = StableId.From("photo", about, read.SentSha256),
        PickupId = pickupId,
        Pickup = pickup,
        Reference = reference,
        Sha256 = read.Sha256,
        MediaType = Jpeg,
        Width = read.Width,
        Height = read.Height,
        Bytes = read.Picture.Length,
        TakenAt = takenAt,
        At = at,
        By = by,
    };
}
