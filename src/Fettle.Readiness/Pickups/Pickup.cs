using System.Text.Json.Serialization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Pickups;

/// <summary>One truck's visit to one site: who, where, when. What is picked up is the <see cref="Declaration"/>.</summary>
/// <param name="Number">What people call it on the telephone: "P-4K7Q2M".</param>
/// <param name="Destination">The consignee's name and town.</param>
public sealed record PickupHeader(
    string Number,
    Guid ShipperId,
    Guid SiteId,
    Guid CarrierId,
    Guid TerminalId,
    string Destination,
    PickupWindow Window,
    Equipment Equipment)
{
    /// <summary>Street, town and postal code of the consignee, for papers; null when only <see cref="Destination"/> is known.</summary>
    // Left out when null: every event holds a header, and most consignees are known to their carrier.
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? ConsigneeAddress { get; init; }
}

/// <param name="TimeZone">IANA name of the site's time zone, in which the clock times were meant.</param>
public sealed record PickupWindow(DateTimeOffset From, DateTimeOffset To, string TimeZone);

public enum Equipment
{
    Van53,
    Van48,
    Pup28,
    Straight26,
    Liftgate,
}

/// <summary>How one line was judged when it was submitted: what never changes afterwards, whatever rules come later.</summary>
/// <param name="CarriesLikeUnit">By calculation it could carry another like itself.</param>
public sealed record UnitJudgement(
    string Reference,
    int Quantity,
    Verdict Verdict,
    IReadOnlyList<Finding> Findings,
    bool CarriesLikeUnit,
    Mass? TopLoadCapacity)
{
    public static UnitJudgement Of(UnitResult result) => new(
        result.Reference,
        result.Quantity,
        result.Verdict,
        result.Findings,
        result.Measures.CarriesLikeUnit,
        result.Measures.TopLoadCapacity);
}

public abstract record PickupEvent;

/// <summary>The shipper handed the declaration in, as it was judged in that moment.</summary>
/// <param name="Findings">About the pickup as a whole.</param>
/// <param name="Numbers">One for each physical unit, line after line.</param>
/// <param name="ExceptionRequest">Why the carrier should take freight that the check would hold; null when nothing is held or nothing was asked.</param>
public sealed record PickupSubmitted(
    Guid PickupId,
    PickupHeader Header,
    Declaration Declaration,
    IReadOnlyList<UnitNumber> Numbers,
    RuleSetVersion RuleSet,
    IReadOnlyList<UnitJudgement> Units,
    IReadOnlyList<Finding> Findings,
    string? ExceptionRequest,
    Actor By,
    DateTimeOffset At) : PickupEvent
{
    public Verdict Verdict => CheckResult.Of(Units.Select(unit => unit.Verdict), Findings);
}

/// <summary>Somebody at the terminal saw the freight come in.</summary>
public sealed record FreightArrived(Guid PickupId, Actor By, DateTimeOffset At) : PickupEvent;

/// <summary>A submitted pickup.</summary>
/// <param name="Numbers">One for each physical unit, line after line.</param>
public sealed record Pickup(
    Guid Id,
    PickupHeader Header,
    Declaration Declaration,
    IReadOnlyList<UnitNumber> Numbers,
    RuleSetVersion RuleSet,
    IReadOnlyList<UnitJudgement> Units,
    IReadOnlyList<Finding> Findings,
    string? ExceptionRequest,
    Actor SubmittedBy,
    DateTimeOffset SubmittedAt)
{
    public Verdict Verdict => CheckResult.Of(Units.Select(unit => unit.Verdict), Findings);

    /// <summary>How it was delivered, as last recorded; null while nobody has said.</summary>
    public OutcomeRecorded? Outcome { get; init; }

    /// <summary>In the order in which they were filed.</summary>
    public IReadOnlyList<Claim> Claims { get; init; } = [];

    /// <summary>The shipper has filed a claim, whatever became of it.</summary>
    public bool HasClaim => Claims.Count > 0;

    /// <summary>The carrier still has something to do about one of them.</summary>
    public bool HasOpenClaim => Claims.Any(claim => claim.IsOpen);

    /// <summary>Null until somebody noted that the freight is at the terminal.</summary>
    public FreightArrived? Arrived { get; init; }

    public static Pickup? Evolve(Pickup? state, PickupEvent happened) => happened switch
    {
        PickupSubmitted e => new(e.PickupId, e.Header, e.Declaration, e.Numbers, e.RuleSet, e.Units, e.Findings, e.ExceptionRequest, e.By, e.At),
        OutcomeRecorded e => state! with { Outcome = e },
        FreightArrived e => state! with { Arrived = e },
        ClaimFiled or ClaimAnswered or ClaimOfferAccepted or ClaimWithdrawn => state! with { Claims = Claim.Evolve(state.Claims, happened) },
        _ => throw new InvalidOperationException($"A pickup does not know {happened.GetType().Name}."),
    };

    /// <summary>The claim of that id; null when it is none of this pickup's.</summary>
    public Claim? ClaimOf(Guid claimId) => Claims.FirstOrDefault(claim => claim.Id == claimId);

    /// <summary>Noted once; whoever presses second finds it noted.</summary>
    public static Decision<PickupEvent> Decide(Pickup? state, NoteArrival command) => state switch
    {
        null => Decision<PickupEvent>.Refuse(new NoSuchPickup()),
        { Arrived: not null } => Decision<PickupEvent>.Accept(),
        _ => Decision<PickupEvent>.Accept(new FreightArrived(state.Id, command.By, command.At)),
    };

    public static Decision<PickupEvent> Decide(Pickup? state, SubmitPickup command)
    {
        if (state is not null)
            return Decision<PickupEvent>.Refuse(new AlreadySubmitted(state.SubmittedBy, state.SubmittedAt));
        if (command.Declaration.HandlingUnits.Count == 0)
            return Decision<PickupEvent>.Refuse(new NothingDeclared());
        if (command.Declaration.HandlingUnits.Sum(line => line.Quantity) > UnitNumber.MostOfPickup)
            return Decision<PickupEvent>.Refuse(new TooManyUnits());
        if (!UnitNumber.Fit(command.Numbers, command.Declaration))
            throw new ArgumentException("Every declared unit has a number, in the order of the lines.", nameof(command));
        var result = ReadinessCheck.Run(command.Declaration, command.Rules);
        return Decision<PickupEvent>.Accept(new PickupSubmitted(
            command.PickupId,
            command.Header,
            command.Declaration,
            command.Numbers,
            result.RuleSet,
            [.. result.HandlingUnits.Select(UnitJudgement.Of)],
            result.Findings,
            result.Verdict == Verdict.Hold && !string.IsNullOrWhiteSpace(command.ExceptionRequest) ? command.ExceptionRequest.Trim() : null,
            command.By,
            command.At));
    }
}

/// <param name="Numbers">As <see cref="UnitNumber.For"/> makes them; not looked at when there are too many units.</param>
public sealed record SubmitPickup(
    Guid PickupId,
    PickupHeader Header,
    Declaration Declaration,
    IReadOnlyList<UnitNumber> Numbers,
    RuleSet Rules,
    string? ExceptionRequest,
    Actor By,
    DateTimeOffset At);

public sealed record NoteArrival(Actor By, DateTimeOffset At);

public sealed record AlreadySubmitted(Actor By, DateTimeOffset At) : Refusal
{
    public override string Code => "already-submitted";

    public override Phrase Message => Phrase.Of($"{By.Name} has already submitted this pickup.");
}

public sealed record ChangedMeanwhile : Refusal
{
    public override string Code => "changed-meanwhile";

    public override Phrase Message => Phrase.Of($"Somebody changed this pickup in the same moment. Read it again, then submit.");
}

public sealed record NothingDeclared : Refusal
{
    public override string Code => "nothing-declared";

    public override Phrase Message => Phrase.Of($"Declare at least one handling unit before submitting.");
}

public sealed record TooManyUnits : Refusal
{
    public override string Code => "too-many-units";

    public override Phrase Message => Phrase.Of($"A pickup has at most {UnitNumber.MostOfPickup} handling units, each with a number and a label. Submit the rest as another pickup.");
}
