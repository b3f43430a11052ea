using System.Text.Json.Serialization;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Holds;

namespace Fettle.Readiness.Scorecards;

/// <summary>All that is known of one line of a submitted pickup. A line of identical units is one observation, not many.</summary>
/// <param name="Holds">In the order in which they were placed.</param>
/// <param name="StackTest">Whether it carried another unit when an inspection tried; null when none did.</param>
/// <param name="Delivered">Empty until an outcome is reported.</param>
public sealed record ScoredLine(
    LineDeclared Declared,
    IReadOnlyList<LineHold> Holds,
    LineStackTested? StackTest,
    LineDelivered? Delivered)
{
    /// <summary>In the order in which they were filed.</summary>
    public IReadOnlyList<LineClaim> Claims { get; init; } = [];

    /// <summary>
    /// The line after another fact; null when nothing was handed in that the fact could be about. A fact heard twice changes
    /// nothing, and facts about different things may come in any order.
    /// </summary>
    public static ScoredLine? Evolve(ScoredLine? state, LineFact fact) => (state, fact) switch
    {
        (null, LineDeclared declared) => new(declared, [], null, null),
        (null, _) => null,
        (_, LineDeclared) => state,
        (_, LineHeld held) => state.Holds.Any(hold => hold.HoldId == held.HoldId)
            ? state
            : state with { Holds = [.. state.Holds, new(held.HoldId, held.At, null, null)] },
        (_, LineDecided decided) => state with
        {
            Holds = [.. state.Holds.Select(hold => hold.HoldId == decided.HoldId ? hold.After(decided) : hold)],
        },
        (_, LineStackTested tested) => state.StackTest?.At > tested.At ? state : state with { StackTest = tested },
        (_, LineDelivered delivered) => state.Delivered?.At > delivered.At ? state : state with { Delivered = delivered },
        (_, LineClaimed claimed) => state.Claims.Any(claim => claim.ClaimId == claimed.ClaimId)
            ? state
            : state with { Claims = [.. state.Claims, new(claimed.ClaimId, claimed.Cents, null, 0, null, IsWithdrawn: false)] },
        (_, LineClaimAnswered answered) => state with
        {
            Claims = [.. state.Claims.Select(claim => claim.ClaimId == answered.ClaimId ? claim.After(answered) : claim)],
        },
        (_, LineClaimWithdrawn withdrawn) => state with
        {
            Claims = [.. state.Claims.Select(claim => claim.ClaimId == withdrawn.ClaimId ? claim with { IsWithdrawn = true } : claim)],
        },
        _ => throw new InvalidOperationException($"A line does not know {fact.GetType().Name}."),
    };

    /// <summary>It was rebuilt, or did not travel: what arrived, if anything, was not what had been declared.</summary>
    [JsonIgnore]
    public bool ChangedBeforeTravel => Holds.Any(hold => hold.Became is HoldDecision.Rework or HoldDecision.Return or HoldDecision.Refuse);
}

/// <param name="Decision">The last; null until it is decided.</param>
/// <param name="ReworkAt">When rework was last decided; null when it never was.</param>
public sealed record LineHold(Guid HoldId, DateTimeOffset At, HoldDecision? Decision, DateTimeOffset? DecidedAt, DateTimeOffset? ReworkAt = null)
{
    /// <summary>What became of the freight, for counting it once: rebuilt and then released is rebuilt.</summary>
    [JsonIgnore]
    public HoldDecision? Became => Decision is HoldDecision.Release or HoldDecision.ReleaseAsException && ReworkAt < DecidedAt ? HoldDecision.Rework : Decision;

    /// <summary>Decisions may be heard of in any order; the latest counts.</summary>
    public LineHold After(LineDecided decided)
    {
        var rework = decided.Decision == HoldDecision.Rework && !(ReworkAt > decided.At) ? decided.At : ReworkAt;
        return DecidedAt > decided.At ? this with { ReworkAt = rework } : this with { Decision = decided.Decision, DecidedAt = decided.At, ReworkAt = rework };
    }

    /// <summary>Whole minutes from placing to decision, 0 or more; null until it is decided.</summary>
    [JsonIgnore]
    public long? Minutes => DecidedAt is { } decided ? Math.Max(0, (long)(decided - At).TotalMinutes) : null;
}

/// <summary>What a claim asks for one line, and what became of it.</summary>
/// <param name="Cents">Asked, US cents.</param>
/// <param name="Answer">The carrier's last; null until there is one.</param>
/// <param name="AnsweredCents">Offered or paid with it, US cents.</param>
public sealed record LineClaim(Guid ClaimId, long Cents, ClaimAnswer? Answer, long AnsweredCents, DateTimeOffset? AnsweredAt, bool IsWithdrawn)
{
    /// <summary>Answers may be heard of in any order; the latest counts.</summary>
    public LineClaim After(LineClaimAnswered answered) =>
        AnsweredAt > answered.At ? this : this with { Answer = answered.Answer, AnsweredCents = answered.Cents, AnsweredAt = answered.At };
}
