using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Holds;

/// <summary>The terminal decided. A decision is never edited: a later one takes its place and says so.</summary>
/// <param name="Supersedes">The decision whose place it takes; null for the first.</param>
/// <param name="Exception">What goes with a release as an exception; null for every other decision.</param>
public sealed record HoldDecided(
    Guid HoldId,
    Guid DecisionId,
    HoldDecision Decision,
    string Reason,
    Actor By,
    DateTimeOffset At,
    Guid? Supersedes = null,
    ExceptionTerms? Exception = null) : HoldEvent;

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

/// <summary>On which terms freight travels though it does not conform.</summary>
/// <param name="Number">"X-" and the hold's number: what people write on papers.</param>
/// <param name="AcceptedBy">Who takes the risk on: a person or a company, by name.</param>
/// <param name="Risk">Which risk.</param>
/// <param name="Until">The exception ends then, whether or not the freight has arrived.</param>
/// <param name="Conditions">What must be kept to on the way.</param>
public sealed record ExceptionTerms(string Number, string AcceptedBy, string Risk, DateTimeOffset Until, string Conditions);

/// <summary>Held freight was inspected, after rework or while a decision is awaited.</summary>
/// <param name="Verdict">What the check says of the freight as found.</param>
public sealed record HoldInspected(Guid HoldId, Guid InspectionId, Verdict Verdict, Actor By, DateTimeOffset At) : HoldEvent;

/// <param name="Reason">Why, in the reviewer's words; never empty.</param>
/// <param name="Supersedes">The decision that the reviewer has read and overrides; null to decide an open hold.</param>
/// <param name="Exception">Given with a release as an exception and with no other; its number is put in here.</param>
public sealed record DecideHold(
    Guid DecisionId,
    HoldDecision Decision,
    string Reason,
    Actor By,
    DateTimeOffset At,
    Guid? Supersedes = null,
    ExceptionTerms? Exception = null);

public sealed record NoteInspection(Guid InspectionId, Verdict Verdict, Actor By, DateTimeOffset At);

public sealed partial record Hold
{
    public static Decision<HoldEvent> Decide(Hold? state, DecideHold command)
    {
        if (state is null)
            return Decision<HoldEvent>.Refuse(new NoSuchHold());
        if (state.Decisions.Any(decision => decision.DecisionId == command.DecisionId))
            return Decision<HoldEvent>.Accept();
        // Whoever supersedes names what they read: a decision made meanwhile is not overridden unread.
        if (state.Decided is { } decided && decided.DecisionId != command.Supersedes)
            return Decision<HoldEvent>.Refuse(new AlreadyDecided(decided));
        if (state.Decided is null && command.Supersedes is not null)
            return Decision<HoldEvent>.Refuse(new NothingToSupersede());
        if (command.Decision == HoldDecision.ReleaseAsException && command.Exception is null)
            return Decision<HoldEvent>.Refuse(new NoExceptionTerms());
        if (state.Decisions.Count >= MostDecisions)
            return Decision<HoldEvent>.Refuse(new TooManyDecisions());
        return Decision<HoldEvent>.Accept(new HoldDecided(
            state.Id,
            command.DecisionId,
            command.Decision,
            command.Reason,
            command.By,
            command.At,
            command.Supersedes,
            command.Decision == HoldDecision.ReleaseAsException ? command.Exception! with { Number = state.ExceptionNumber() } : null));
    }

    public string ExceptionNumber() => $"X-{Placed.Number}";

    /// <summary>An inspection is a fact: it is noted whatever state the hold is in.</summary>
    public static Decision<HoldEvent> Decide(Hold? state, NoteInspection command)
    {
        if (state is null)
            return Decision<HoldEvent>.Refuse(new NoSuchHold());
        if (state.Inspections.Any(inspection => inspection.InspectionId == command.InspectionId))
            return Decision<HoldEvent>.Accept();
        return Decision<HoldEvent>.Accept(new HoldInspected(state.Id, command.InspectionId, command.Verdict, command.By, command.At));
    }

    /// <summary>After a decision there is nothing to answer: another decision comes first.</summary>
    private static Refusal? OnlyWhileOpen(Hold? state) => state switch
    {
        null => new NoSuchHold(),
        { Decided: { } decided } => new AlreadyDecided(decided),
        _ => null,
    };
}

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

public sealed record NothingToSupersede : Refusal
{
    public override string Code => "nothing-to-supersede";

    public override Phrase Message => Phrase.Of($"This hold has no decision yet that another could take the place of.");
}

public sealed record NoExceptionTerms : Refusal
{
    public override string Code => "no-exception-terms";

    public override Phrase Message => Phrase.Of($"For a release as an exception say who accepts which risk, until when, and on which conditions.");
}

public sealed record TooManyDecisions : Refusal
{
    public override string Code => "too-many-decisions";

    public override Phrase Message => Phrase.Of($"This hold has been decided as often as it can be.");
}
