using System.Text.Json.Serialization;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;

namespace Fettle.Readiness.Claims;

/// <summary>
/// The shipper asks the carrier to pay for freight that was recorded damaged, missing or not taken at delivery. Written into
/// the pickup's own record, beside what was declared and how it was delivered.
/// </summary>
/// <param name="Number">What people call it on the telephone: "C-4K7Q2M".</param>
/// <param name="OutcomeId">The record of delivery that it rests on, as the shipper saw it.</param>
/// <param name="FiledOn">The day, where the freight was picked up.</param>
/// <param name="Lines">One for each line of the declaration that something is asked for.</param>
/// <param name="Grounds">What happened and how the sum comes about, in the shipper's words.</param>
/// <param name="FileBy">Last day for a claim, as the record of delivery has it.</param>
/// <param name="AcknowledgeBy">Last day for the carrier to say that it has the claim.</param>
/// <param name="AnswerBy">Last day for the carrier to pay, offer or disallow.</param>
public sealed record ClaimFiled(
    Guid PickupId,
    Guid ClaimId,
    string Number,
    Guid OutcomeId,
    DateOnly FiledOn,
    IReadOnlyList<ClaimedLine> Lines,
    string Grounds,
    DateOnly FileBy,
    DateOnly AcknowledgeBy,
    DateOnly AnswerBy,
    Actor By,
    DateTimeOffset At) : PickupEvent
{
    /// <summary>After the last day: whether it is too late the carrier's tariff and the law say, not Fettle.</summary>
    [JsonIgnore]
    public bool IsLate => FiledOn > FileBy;

    [JsonIgnore]
    public Money Total => Money.Dollars(Lines.Sum(line => line.Amount.Amount));
}

/// <param name="Reference">The line of the declaration.</param>
/// <param name="Count">So many of its units, 1 or more.</param>
/// <param name="Amount">For all of them together, above nothing.</param>
public sealed record ClaimedLine(string Reference, int Count, Money Amount);

/// <summary>The carrier answers in writing.</summary>
/// <param name="AnsweredOn">The day of the carrier's letter, from which times are counted.</param>
/// <param name="Lines">What is offered or paid for each line claimed: the sum divided in proportion to what was asked. Nought for each when no sum is named.</param>
/// <param name="Reason">Never missing when a claim is disallowed, or less is paid than was asked and nobody agreed to it.</param>
/// <param name="SuitBy">Last day to bring a suit by the carrier's terms, when it is disallowed; else null.</param>
public sealed record ClaimAnswered(
    Guid PickupId,
    Guid ClaimId,
    Guid AnswerId,
    ClaimAnswer Answer,
    DateOnly AnsweredOn,
    IReadOnlyList<ClaimedLine> Lines,
    string? Reason,
    DateOnly? SuitBy,
    Actor By,
    DateTimeOffset At) : PickupEvent
{
    [JsonIgnore]
    public Money Total => Money.Dollars(Lines.Sum(line => line.Amount.Amount));
}

public enum ClaimAnswer
{
    /// <summary>The carrier has it, and looks into it.</summary>
    Acknowledged,

    /// <summary>So much would be paid. No disallowance: the time for a suit does not begin (49 USC 14706(e)).</summary>
    Offered,

    /// <summary>Not a cent, for a reason.</summary>
    Disallowed,

    /// <summary>So much is paid, which ends it.</summary>
    Paid,
}

/// <summary>The shipper takes what was offered.</summary>
/// <param name="AnswerId">The offer.</param>
/// <param name="Amount">That of the offer, written again so that it stands beside the name of whoever agreed to it.</param>
public sealed record ClaimOfferAccepted(Guid PickupId, Guid ClaimId, Guid AnswerId, Money Amount, Actor By, DateTimeOffset At) : PickupEvent;

/// <summary>The shipper asks for nothing any more.</summary>
/// <param name="Lines">Those of the claim.</param>
public sealed record ClaimWithdrawn(Guid PickupId, Guid ClaimId, IReadOnlyList<ClaimedLine> Lines, string Reason, Actor By, DateTimeOffset At) : PickupEvent;

public enum ClaimState
{
    Filed,
    Acknowledged,
    Offered,

    /// <summary>The shipper takes the offer; it is still to be paid.</summary>
    Agreed,
    Disallowed,
    Paid,
    Withdrawn,
}

/// <summary>A claim and what became of it.</summary>
/// <param name="Revision">Things that happened so far: whoever changes it says which they saw.</param>
public sealed record Claim(ClaimFiled Filed, IReadOnlyList<ClaimAnswered> Answers, ClaimOfferAccepted? Agreed, ClaimWithdrawn? Withdrawn, int Revision)
{
    /// <summary>Claims of one pickup. Our choice: more than the lines of most.</summary>
    public const int Most = 20;

    /// <summary>Answers to one claim; our choice.</summary>
    public const int MostAnswers = 40;

    [JsonIgnore]
    public Guid Id => Filed.ClaimId;

    /// <summary>The last answer; null until there is one.</summary>
    [JsonIgnore]
    public ClaimAnswered? Answered => Answers.Count == 0 ? null : Answers[^1];

    /// <summary>The offer that the shipper may take; null when none stands.</summary>
    [JsonIgnore]
    public ClaimAnswered? Offer => State == ClaimState.Offered ? Answered : null;

    public ClaimState State => Withdrawn is not null ? ClaimState.Withdrawn
        : Answered is null ? ClaimState.Filed
        : Answered.Answer switch
        {
            ClaimAnswer.Acknowledged => ClaimState.Acknowledged,
            ClaimAnswer.Offered => Agreed?.AnswerId == Answered.AnswerId ? ClaimState.Agreed : ClaimState.Offered,
            ClaimAnswer.Disallowed => ClaimState.Disallowed,
            ClaimAnswer.Paid => ClaimState.Paid,
        };

    /// <summary>The carrier still has something to do.</summary>
    public bool IsOpen => State is ClaimState.Filed or ClaimState.Acknowledged or ClaimState.Offered or ClaimState.Agreed;

    /// <summary>Until when the carrier acknowledges, then answers; null when it owes neither.</summary>
    [JsonIgnore]
    public DateOnly? DueOn => State switch
    {
        ClaimState.Filed => Filed.AcknowledgeBy,
        ClaimState.Acknowledged => Filed.AnswerBy,
        _ => null,
    };

    /// <summary>
    /// Last day to bring a suit, from the first disallowance, whatever was offered after it; null when none was, or when the
    /// claim is paid or withdrawn.
    /// </summary>
    [JsonIgnore]
    public DateOnly? SuitBy => State is ClaimState.Paid or ClaimState.Withdrawn ? null : Answers.FirstOrDefault(answer => answer.SuitBy is not null)?.SuitBy;

    /// <summary>Who did the last thing.</summary>
    [JsonIgnore]
    public Actor LastBy => Withdrawn?.By ?? (State == ClaimState.Agreed ? Agreed!.By : Answered?.By ?? Filed.By);

    /// <summary>The claims of a pickup after something happened to one of them.</summary>
    public static IReadOnlyList<Claim> Evolve(IReadOnlyList<Claim> claims, PickupEvent happened)
    {
        return happened switch
        {
            ClaimFiled e => [.. claims, new(e, [], null, null, 1)],
            ClaimAnswered e => Change(e.ClaimId, claim => claim with { Answers = [.. claim.Answers, e] }),
            ClaimOfferAccepted e => Change(e.ClaimId, claim => claim with { Agreed = e }),
            ClaimWithdrawn e => Change(e.ClaimId, claim => claim with { Withdrawn = e }),
            _ => claims,
        };

        IReadOnlyList<Claim> Change(Guid id, Func<Claim, Claim> change) =>
            [.. claims.Select(claim => claim.Id == id ? change(claim) with { Revision = claim.Revision + 1 } : claim)];
    }
}
