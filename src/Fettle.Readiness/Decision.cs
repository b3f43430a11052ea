using Fettle.Readiness.Findings;

namespace Fettle.Readiness;

/// <summary>What came of a command: events that say what happened, or the reason why nothing did.</summary>
public sealed record Decision<TEvent>
{
    private Decision(IReadOnlyList<TEvent> events, Refusal? refusal)
    {
        Events = events;
        Refusal = refusal;
    }

    /// <summary>Empty when refused.</summary>
    public IReadOnlyList<TEvent> Events { get; }

    /// <summary>Null when accepted.</summary>
    public Refusal? Refusal { get; }

#pragma warning disable CA1000 // The two ways to make one read best on the type itself.
    public static Decision<TEvent> Accept(params IReadOnlyList<TEvent> events) => new(events, null);

    public static Decision<TEvent> Refuse(Refusal refusal) => new([], refusal);
#pragma warning restore CA1000
}

/// <summary>A reason why a command was not carried out: expected, and told to the person. One record a reason, beside its decider.</summary>
public abstract record Refusal
{
    /// <summary>A short word that never changes, the last part of the problem's type in the API.</summary>
    public abstract string Code { get; }

    /// <summary>What a person reads.</summary>
    public abstract Phrase Message { get; }
}

/// <summary>Who did something, named as they were named at the time.</summary>
public sealed record Actor(Guid Id, string Name);
