using JasperFx.Metadata;

namespace Fettle.Web.Pickups;

/// <summary>
/// Work that a submission leaves for the background: to open the holds and to write the notices. Saved with the submission,
/// so that it cannot be forgotten when the process ends in between; done once, however often it is tried.
/// </summary>
public sealed class FollowUp : IVersioned
{
    /// <summary>The pickup's id.</summary>
    public Guid Id { get; set; }

    public required DateTimeOffset DueAt { get; set; }

    public DateTimeOffset? DoneAt { get; set; }

    public Guid Version { get; set; }
}
