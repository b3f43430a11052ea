using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Holds;

public abstract record HoldEvent;

/// <summary>Held freight of one line, what was said and offered about it, and what was decided.</summary>
/// <param name="Decided">The decision in force; null while none was made.</param>
public sealed partial record Hold(Guid Id, HoldPlaced Placed, HoldDecided? Decided)
{
    // What one hold keeps, so that nobody can make it too large to be read. Our choice, no source.
    public const int MostMessages = 200;
    public const int MostOffers = 20;
    public const int MostAnswers = 20;
    public const int MostCorrections = 20;
    public const int MostDecisions = 50;

    /// <summary>Nothing is decided. Freight to be rebuilt is decided about, and still waits: <see cref="AwaitsInspection"/>.</summary>
    public bool IsOpen => Decided is null;

    /// <summary>It is to be rebuilt here, and nobody has inspected it since.</summary>
    public bool AwaitsInspection => Decided is { Decision: HoldDecision.Rework } rework && Inspections.All(inspection => inspection.At < rework.At);

    /// <summary>Who must act, and by when; null when nobody must.</summary>
    public HoldTurn? Turn { get; init; }

    /// <summary>All decisions, oldest first; the last one is in force.</summary>
    public IReadOnlyList<HoldDecided> Decisions { get; init; } = [];

    public IReadOnlyList<HoldMessageSent> Messages { get; init; } = [];

    public IReadOnlyList<ReworkOffered> Offers { get; init; } = [];

    public IReadOnlyList<ReworkOfferWithdrawn> Withdrawn { get; init; } = [];

    public ReworkAuthorised? Authorised { get; init; }

    public IReadOnlyList<HoldDeclarationCorrected> Corrections { get; init; } = [];

    public IReadOnlyList<HoldExceptionRequested> ExceptionRequests { get; init; } = [];

    public IReadOnlyList<HoldDisputed> Disputes { get; init; } = [];

    public IReadOnlyList<HoldInspected> Inspections { get; init; } = [];

    public HoldHours Hours() => Placed.Hours ?? HoldHours.Usual;

    /// <summary>The line as the shipper declares it now.</summary>
    public HandlingUnit DeclaredNow() => Corrections.Count > 0 ? Corrections[^1].HandlingUnit : Placed.HandlingUnit;

    /// <summary>What is found about it now.</summary>
    public IReadOnlyList<Finding> FoundNow() => Corrections.Count > 0 ? Corrections[^1].Findings : Placed.Findings;

    public static Hold? Evolve(Hold? state, HoldEvent happened)
    {
        var next = happened switch
        {
            HoldPlaced placed => new Hold(placed.HoldId, placed, null),
            HoldMessageSent message => state! with { Messages = [.. state.Messages, message] },
            ReworkOffered offered => state! with { Offers = [.. state.Offers, offered] },
            ReworkOfferWithdrawn withdrawn => state! with { Withdrawn = [.. state.Withdrawn, withdrawn] },
            ReworkAuthorised authorised => state! with { Authorised = authorised },
            HoldDeclarationCorrected corrected => state! with { Corrections = [.. state.Corrections, corrected] },
            HoldExceptionRequested requested => state! with { ExceptionRequests = [.. state.ExceptionRequests, requested] },
            HoldDisputed disputed => state! with { Disputes = [.. state.Disputes, disputed] },
            HoldDecided decided => state! with { Decided = decided, Decisions = [.. state.Decisions, decided] },
            HoldInspected inspected => state! with { Inspections = [.. state.Inspections, inspected] },
            HoldReminded or HoldEscalated => state!,
            _ => throw new InvalidOperationException($"A hold does not know {happened.GetType().Name}."),
        };
        return next with { Turn = HoldTurn.After(state?.Turn, happened, next.Hours(), next.Placed.DecideBy) };
    }
}
