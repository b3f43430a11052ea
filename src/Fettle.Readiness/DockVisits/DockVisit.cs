using Fettle.Readiness.Catalogue;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Photos;

namespace Fettle.Readiness.DockVisits;

public abstract record DockVisitEvent;

/// <summary>A shipper asks the carrier to come and look at freight as prepared.</summary>
/// <param name="Number">What people call it on the telephone: "V-4K7Q2M".</param>
/// <param name="Builds">The shipper's standard builds that it is about; none when it is about freight in general.</param>
/// <param name="Preferred">When it suits, in the clerk's words; null when any time does.</param>
public sealed record DockVisitAsked(
    Guid VisitId,
    string Number,
    Guid ShipperId,
    Guid SiteId,
    Guid CarrierId,
    Guid TerminalId,
    string Question,
    IReadOnlyList<VisitedBuild> Builds,
    string? Preferred,
    Actor By,
    DateTimeOffset At) : DockVisitEvent;

/// <summary>The terminal says when somebody comes. Said again, it moves the visit.</summary>
/// <param name="Visitor">Who comes.</param>
public sealed record DockVisitPlanned(Guid VisitId, DateTimeOffset From, DateTimeOffset To, string Visitor, string? Note, Actor By, DateTimeOffset At) : DockVisitEvent;

/// <summary>Nobody comes, for a reason; or the shipper no longer needs it.</summary>
public sealed record DockVisitCalledOff(Guid VisitId, string Reason, Actor By, DateTimeOffset At) : DockVisitEvent;

/// <summary>What was agreed at the dock. Never edited: concluded again, the later one holds and the earlier stays readable.</summary>
/// <param name="Agreed">What travels and what does not, and why, in the visitor's words.</param>
/// <param name="Verdicts">One for each build that was judged.</param>
public sealed record DockVisitConcluded(Guid VisitId, string Agreed, IReadOnlyList<VisitVerdict> Verdicts, IReadOnlyList<PhotoProof> Photos, Actor By, DateTimeOffset At) : DockVisitEvent;

/// <summary>A build as it stood in the catalogue when the visit was asked for.</summary>
public sealed record VisitedBuild(Guid EntryId, string Name, HandlingUnit Unit);

/// <param name="Why">Never empty.</param>
public sealed record VisitVerdict(Guid EntryId, string Name, bool Approved, string Why);

/// <summary>A visit to a shipper's dock.</summary>
/// <param name="Revision">Things that happened so far: whoever changes it says which they saw.</param>
public sealed record DockVisit(Guid Id, DockVisitAsked Asked, DockVisitPlanned? Planned, DockVisitCalledOff? CalledOff, IReadOnlyList<DockVisitConcluded> Conclusions, int Revision)
{
    public DockVisitConcluded? Concluded => Conclusions.Count == 0 ? null : Conclusions[^1];

    public DockVisitState State => Concluded is not null ? DockVisitState.Concluded
        : CalledOff is not null ? DockVisitState.CalledOff
        : Planned is not null ? DockVisitState.Planned
        : DockVisitState.Asked;

    public static DockVisit? Evolve(DockVisit? state, DockVisitEvent happened) => happened switch
    {
        DockVisitAsked asked => new(asked.VisitId, asked, null, null, [], 1),
        DockVisitPlanned planned => state! with { Planned = planned, Revision = state.Revision + 1 },
        DockVisitCalledOff off => state! with { CalledOff = off, Revision = state.Revision + 1 },
        DockVisitConcluded concluded => state! with { Conclusions = [.. state.Conclusions, concluded], Revision = state.Revision + 1 },
        _ => throw new InvalidOperationException($"A dock visit does not know {happened.GetType().Name}."),
    };

    public static Decision<DockVisitEvent> Decide(DockVisit? state, AskForVisit command) => state is null
        ? Decision<DockVisitEvent>.Accept(new DockVisitAsked(
            command.VisitId, command.Number, command.ShipperId, command.SiteId, command.CarrierId, command.TerminalId, command.Question.Trim(), command.Builds, Trimmed(command.Preferred), command.By, command.At))
        // The form came twice.
        : Decision<DockVisitEvent>.Accept();

    public static Decision<DockVisitEvent> Decide(DockVisit? state, PlanVisit command)
    {
        if (Stands(state, command.Seen) is { } refusal)
            return Decision<DockVisitEvent>.Refuse(refusal);
        if (command.To <= command.From || command.To <= command.At)
            return Decision<DockVisitEvent>.Refuse(new VisitIsPast());
        return Decision<DockVisitEvent>.Accept(new DockVisitPlanned(state!.Id, command.From, command.To, command.Visitor.Trim(), Trimmed(command.Note), command.By, command.At));
    }

    public static Decision<DockVisitEvent> Decide(DockVisit? state, CallVisitOff command) => Stands(state, command.Seen) is { } refusal
        ? Decision<DockVisitEvent>.Refuse(refusal)
        : Decision<DockVisitEvent>.Accept(new DockVisitCalledOff(state!.Id, command.Reason.Trim(), command.By, command.At));

    public static Decision<DockVisitEvent> Decide(DockVisit? state, ConcludeVisit command)
    {
        if (state is null)
            return Decision<DockVisitEvent>.Refuse(new NoSuchVisit());
        if (state.CalledOff is not null && state.Concluded is null)
            return Decision<DockVisitEvent>.Refuse(new VisitCalledOff(state.CalledOff));
        if (state.Revision != command.Seen)
            return Decision<DockVisitEvent>.Refuse(new VisitChanged(LastBy(state)));
        if (command.Verdicts.FirstOrDefault(verdict => state.Asked.Builds.All(build => build.EntryId != verdict.EntryId)) is { } stranger)
            return Decision<DockVisitEvent>.Refuse(new NotAskedAbout(stranger.Name));
        return Decision<DockVisitEvent>.Accept(new DockVisitConcluded(state.Id, command.Agreed.Trim(), command.Verdicts, command.Photos, command.By, command.At));
    }

    /// <summary>Why a visit cannot be planned or called off any more; null when it can.</summary>
    private static Refusal? Stands(DockVisit? state, int seen) => state switch
    {
        null => new NoSuchVisit(),
        { Concluded: { } concluded } => new VisitConcluded(concluded),
        { CalledOff: { } off } => new VisitCalledOff(off),
        _ when state.Revision != seen => new VisitChanged(LastBy(state)),
        _ => null,
    };

    private static Actor LastBy(DockVisit state) => state.Concluded?.By ?? state.CalledOff?.By ?? state.Planned?.By ?? state.Asked.By;

    private static string? Trimmed(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}

public enum DockVisitState
{
    Asked,
    Planned,
    Concluded,
    CalledOff,
}

public sealed record AskForVisit(
    Guid VisitId, string Number, Guid ShipperId, Guid SiteId, Guid CarrierId, Guid TerminalId, string Question, IReadOnlyList<VisitedBuild> Builds, string? Preferred, Actor By, DateTimeOffset At);

/// <param name="Seen">The revision that the person saw.</param>
public sealed record PlanVisit(int Seen, DateTimeOffset From, DateTimeOffset To, string Visitor, string? Note, Actor By, DateTimeOffset At);

/// <param name="Seen">The revision that the person saw.</param>
public sealed record CallVisitOff(int Seen, string Reason, Actor By, DateTimeOffset At);

/// <param name="Seen">The revision that the person saw.</param>
public sealed record ConcludeVisit(int Seen, string Agreed, IReadOnlyList<VisitVerdict> Verdicts, IReadOnlyList<PhotoProof> Photos, Actor By, DateTimeOffset At);

public sealed record NoSuchVisit : Refusal
{
    public override string Code => "no-such-visit";

    public override Phrase Message => Phrase.Of($"There is no such dock visit.");
}

public sealed record VisitIsPast : Refusal
{
    public override string Code => "visit-is-past";

    public override Phrase Message => Phrase.Of($"A visit begins before it ends, and ends after now.");
}

public sealed record VisitConcluded(DockVisitConcluded Conclusion) : Refusal
{
    public override string Code => "visit-concluded";

    public override Phrase Message => Phrase.Of($"{Conclusion.By.Name} has already written down what was agreed.");
}

public sealed record VisitCalledOff(DockVisitCalledOff Off) : Refusal
{
    public override string Code => "visit-called-off";

    public override Phrase Message => Phrase.Of($"{Off.By.Name} has called this visit off.");
}

/// <summary>Somebody else was quicker.</summary>
public sealed record VisitChanged(Actor By) : Refusal
{
    public override string Code => "visit-changed";

    public override Phrase Message => Phrase.Of($"{By.Name} changed this visit meanwhile. Read what stands now, then send yours again if it still holds.");
}

public sealed record NotAskedAbout(string Name) : Refusal
{
    public override string Code => "not-asked-about";

    public override Phrase Message => Phrase.Of($"The visit was not about {Name}.");
}
