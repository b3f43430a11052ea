using Fettle.Readiness.Claims;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;

namespace Fettle.Readiness.Scorecards;

/// <summary>Which line of which pickup: what everything known about freight of a line is hung on.</summary>
public readonly record struct LineKey(Guid PickupId, string Reference);

/// <summary>Something that the record of a line is made of. Facts come from events; the accounts desk knows nothing else.</summary>
public abstract record LineFact(LineKey Line);

/// <summary>The line was handed in, judged as it was in that moment.</summary>
/// <param name="PickupNumber">What people call the pickup.</param>
/// <param name="Lane">From where to where; see <see cref="Scorecards.Lane"/>.</param>
/// <param name="Product">What it holds, told alike for alike freight.</param>
/// <param name="Commodity">What is compared with it when rules are judged.</param>
/// <param name="Builder">Who built it; empty when not told.</param>
/// <param name="Quantity">Units that the line stands for, 1 or more.</param>
/// <param name="Stops">Codes of the findings that stop it, each once, in order of their letters.</param>
/// <param name="Findings">Codes of all stops and cautions about it or its pickup, each once, in order of their letters.</param>
public sealed record LineDeclared(
    LineKey Line,
    string PickupNumber,
    Guid CarrierId,
    Guid ShipperId,
    Guid SiteId,
    Lane Lane,
    Product Product,
    Commodity Commodity,
    string Builder,
    int Quantity,
    Verdict Verdict,
    bool Stackable,
    bool CarriesLikeUnit,
    IReadOnlyList<string> Stops,
    IReadOnlyList<string> Findings,
    DateTimeOffset At) : LineFact(Line);

/// <summary>It was held.</summary>
public sealed record LineHeld(LineKey Line, Guid HoldId, DateTimeOffset At) : LineFact(Line);

/// <summary>A hold of it was decided; the latest decision of a hold counts.</summary>
public sealed record LineDecided(LineKey Line, Guid HoldId, HoldDecision Decision, DateTimeOffset At) : LineFact(Line);

/// <summary>An inspection tried whether it carries another unit; the latest trial counts.</summary>
public sealed record LineStackTested(LineKey Line, bool Held, DateTimeOffset At) : LineFact(Line);

/// <summary>How it arrived; a later report takes the place of an earlier one.</summary>
/// <param name="Parts">Together the line's units, as far as they were reported.</param>
public sealed record LineDelivered(LineKey Line, IReadOnlyList<DeliveredPart> Parts, DateTimeOffset At) : LineFact(Line);

/// <param name="Count">Units that arrived so, 1 or more.</param>
/// <param name="CarriedFreight">Another unit rode on top; null when nobody said.</param>
public sealed record DeliveredPart(int Count, OutcomeKind Kind, bool? CarriedFreight);

/// <summary>A claim was filed for some of it.</summary>
/// <param name="Cents">US cents asked for this line, 1 or more.</param>
public sealed record LineClaimed(LineKey Line, Guid ClaimId, long Cents, DateTimeOffset At) : LineFact(Line);

/// <summary>The carrier answered a claim for it; the latest answer counts.</summary>
/// <param name="Cents">US cents offered or paid for this line; nought when no sum was named.</param>
public sealed record LineClaimAnswered(LineKey Line, Guid ClaimId, ClaimAnswer Answer, long Cents, DateTimeOffset At) : LineFact(Line);

/// <summary>The shipper took the claim back, as if it had never been filed.</summary>
public sealed record LineClaimWithdrawn(LineKey Line, Guid ClaimId, DateTimeOffset At) : LineFact(Line);
