using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;

namespace Fettle.Readiness.Holds;

public abstract record HoldEvent;

/// <summary>Freight of one line must not move until the terminal decides.</summary>
/// <param name="Number">The pickup's number and the line's reference: "P-4K7Q2M/A1".</param>
/// <param name="Reason">Composed from the findings that stop it.</param>
/// <param name="DecideBy">When the truck would leave without it: the end of the pickup window.</param>
public sealed record HoldPlaced(
    Guid HoldId,
    Guid PickupId,
    string Number,
    PickupHeader Pickup,
    HandlingUnit HandlingUnit,
    UnitSystem Units,
    IReadOnlyList<Finding> Findings,
    Phrase Reason,
    string? ExceptionRequest,
    Actor DeclaredBy,
    DateTimeOffset DecideBy,
    DateTimeOffset At) : HoldEvent;

/// <summary>The terminal decided. A decision is never edited.</summary>
public sealed record HoldDecided(Guid HoldId, Guid DecisionId, HoldDecision Decision, string Reason, Actor By, DateTimeOffset At) : HoldEvent;

public enum HoldDecision
{
    /// <summary>The freight conforms after all.</summary>
    Release,

    /// <summary>It does not conform, and travels all the same for a stated reason.</summary>
    ReleaseAsException,

    /// <summary>It is rebuilt at the terminal.</summary>
    Rework,

    /// <summary>It goes back to the shipper.</summary>
    Return,

    /// <summary>The carrier does not take it.</summary>
    Refuse,
}

/// <summary>Held freight of one line, and what was decided about it.</summary>
public sealed record Hold(Guid Id, HoldPlaced Placed, HoldDecided? Decided)
{
    public bool IsOpen => Decided is null;

    public static Hold? Evolve(Hold? state, HoldEvent happened) => happened switch
    {
        HoldPlaced placed => new(placed.HoldId, placed, null),
        HoldDecided decided => state! with { Decided = decided },
        _ => throw new InvalidOperationException($"A hold does not know {happened.GetType().Name}."),
    };

    /// <summary>The holds that a submission calls for, one for each line that the check stops. Ids are given by the caller, so that placing them twice is noticed.</summary>
    public static IReadOnlyList<HoldPlaced> Place(Pickup pickup, Func<string, Guid> idOf, DateTimeOffset at) =>
    [
        .. from unit in pickup.Units
           where unit.Verdict == Verdict.Hold
           let line = pickup.Declaration.HandlingUnits.Single(line => line.Reference == unit.Reference)
           let stops = unit.Findings.Where(finding => finding.Severity == Severity.Stop).ToArray()
           select new HoldPlaced(
               idOf(unit.Reference),
               pickup.Id,
               $"{pickup.Header.Number}/{unit.Reference}",
               pickup.Header,
               line,
               pickup.Declaration.Units,
               unit.Findings,
               Phrase.Join(" ", [.. stops.Select(stop => stop.Message)]),
               pickup.ExceptionRequest,
               pickup.SubmittedBy,
               pickup.Header.Window.To,
               at),
    ];

    public static Decision<HoldEvent> Decide(Hold? state, DecideHold command)
    {
        if (state is null)
            return Decision<HoldEvent>.Refuse(new NoSuchHold());
        if (state.Decided is { } decided)
            return Decision<HoldEvent>.Refuse(new AlreadyDecided(decided));
        return Decision<HoldEvent>.Accept(new HoldDecided(state.Id, command.DecisionId, command.Decision, command.Reason, command.By, command.At));
    }
}

/// <param name="Reason">Why, in the reviewer's words; never empty.</param>
public sealed record DecideHold(Guid DecisionId, HoldDecision Decision, string Reason, Actor By, DateTimeOffset At);

public sealed record NoSuchHold : Refusal
{
    public override string Code => "no-such-hold";

    public override Phrase Message => Phrase.Of($"There is no such hold.");
}

/// <summary>Somebody else was quicker.</summary>
public sealed record AlreadyDecided(HoldDecided Decision) : Refusal
{
    public override string Code => "already-decided";

    public override Phrase Message => Phrase.Of($"{Decision.By.Name} has already decided this hold.");
}
