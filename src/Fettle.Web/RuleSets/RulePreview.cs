using Fettle.Readiness;
using Fettle.Readiness.RuleSets;
using JasperFx.Metadata;

namespace Fettle.Web.RuleSets;

/// <summary>
/// What a draft would have done to the freight of the last 90 days. Asked for by a person, counted in the background, kept
/// with the moment and the rules that it speaks of: how late or how often it is counted changes nothing.
/// </summary>
public sealed class RulePreview : IVersioned
{
    public static readonly TimeSpan Span = TimeSpan.FromDays(90);

    /// <summary>A run that has not been heard of for so long has died; the next takes its place.</summary>
    public static readonly TimeSpan Lease = TimeSpan.FromMinutes(1);

    public Guid Id { get; set; }

    public required Guid CarrierId { get; set; }

    /// <summary>The draft as it was.</summary>
    public required RuleSet Rules { get; set; }

    /// <summary>What it is compared with: the rules in force when it was asked for.</summary>
    public required RuleSet Against { get; set; }

    /// <summary>The revision of the draft: a later one makes this preview old.</summary>
    public required int Revision { get; set; }

    public required Actor AskedBy { get; set; }

    /// <summary>Freight submitted in the 90 days before this is counted.</summary>
    public required DateTimeOffset AskedAt { get; set; }

    public DateTimeOffset Since => AskedAt - Span;

    public RulePreviewState State { get; set; }

    /// <summary>Of the run that is counting: another one leaves it alone.</summary>
    public Guid? Run { get; set; }

    /// <summary>When the run counts as dead, unless it is heard of before.</summary>
    public DateTimeOffset? RunningUntil { get; set; }

    /// <summary>Pickups counted so far, of <see cref="All"/>.</summary>
    public int Counted { get; set; }

    public int All { get; set; }

    public RuleEffect? Effect { get; set; }

    public DateTimeOffset? EndedAt { get; set; }

    public Guid Version { get; set; }

    public bool IsOpen => State is RulePreviewState.Due or RulePreviewState.Running;
}

public enum RulePreviewState
{
    Due,
    Running,
    Done,
    Cancelled,
}
