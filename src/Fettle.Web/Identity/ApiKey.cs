using Fettle.Readiness;
using JasperFx.Metadata;

namespace Fettle.Web.Identity;

/// <summary>What a machine signs in with. The key itself is shown once and not kept.</summary>
public sealed class ApiKey : IVersioned
{
    public Guid Id { get; set; }

    /// <summary>What it is for: "Warehouse system, Bramblewick". Named as the actor of what is done with it.</summary>
    public required string Name { get; set; }

    /// <summary>How the key begins, to tell keys apart in a list.</summary>
    public required string Prefix { get; set; }

    /// <summary>SHA-256 of the whole key, in hexadecimal. A key is 256 random bits, so nothing slower is needed.</summary>
    public required string Hash { get; set; }

    public required Rights Rights { get; set; }

    public required Actor CreatedBy { get; set; }

    public required DateTimeOffset CreatedAt { get; set; }

    public Actor? RevokedBy { get; set; }

    public DateTimeOffset? RevokedAt { get; set; }

    public Guid Version { get; set; }
}

/// <summary>When a key was last used, to the minute. Apart from <see cref="ApiKey"/>, so that use never gets in the way of revoking.</summary>
/// <param name="Id">The key's id.</param>
public sealed record ApiKeyUse(Guid Id, DateTimeOffset At);
