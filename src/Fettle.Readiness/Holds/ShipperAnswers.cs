using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Photos;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Holds;

/// <summary>The shipper declared the line anew. What was declared first stays in the pickup and in <see cref="HoldPlaced"/>.</summary>
/// <param name="HandlingUnit">The line as it is declared now, under its old reference and quantity.</param>
/// <param name="Findings">What the check says about it under the rules in force then.</param>
/// <param name="RuleSet">Those rules.</param>
public sealed record HoldDeclarationCorrected(
    Guid HoldId,
    Guid CorrectionId,
    HandlingUnit HandlingUnit,
    IReadOnlyList<Finding> Findings,
    Verdict Verdict,
    RuleSetVersion RuleSet,
    Actor By,
    DateTimeOffset At) : HoldEvent;

/// <summary>The shipper asks that it may travel as it is.</summary>
public sealed record HoldExceptionRequested(Guid HoldId, Guid RequestId, string Reason, Actor By, DateTimeOffset At) : HoldEvent;

/// <summary>The shipper says that the hold is wrong.</summary>
/// <param name="Evidence">What shows it, in the shipper's words.</param>
public sealed record HoldDisputed(Guid HoldId, Guid DisputeId, string Evidence, IReadOnlyList<PhotoProof> Photos, Actor By, DateTimeOffset At) : HoldEvent;

/// <param name="Lane">The pickup's.</param>
/// <param name="Rules">In force now.</param>
public sealed record CorrectDeclaration(Guid CorrectionId, HandlingUnit HandlingUnit, Lane Lane, RuleSet Rules, Actor By, DateTimeOffset At);

public sealed record RequestException(Guid RequestId, string Reason, Actor By, DateTimeOffset At);

public sealed record DisputeHold(Guid DisputeId, string Evidence, IReadOnlyList<PhotoProof> Photos, Actor By, DateTimeOffset At);

public sealed partial record Hold
{
    public static Decision<HoldEvent> Decide(Hold? state, CorrectDeclaration command)
    {
        if (state?.Corrections.Any(correction => correction.CorrectionId == command.CorrectionId) == true)
            return Decision<HoldEvent>.Accept();
        if (OnlyWhileOpen(state) is { } closed)
            return Decision<HoldEvent>.Refuse(closed);
        var declared = state!.DeclaredNow();
        if (command.HandlingUnit.Reference != declared.Reference || command.HandlingUnit.Quantity != declared.Quantity)
            return Decision<HoldEvent>.Refuse(new OtherFreight());
        if (command.HandlingUnit == declared)
            return Decision<HoldEvent>.Refuse(new NothingCorrected());
        if (state.Corrections.Count >= MostCorrections)
            return Decision<HoldEvent>.Refuse(new TooManyCorrections());
        var result = ReadinessCheck.Run(command.HandlingUnit, command.Lane, command.Rules, state.Placed.Units);
        return Decision<HoldEvent>.Accept(new HoldDeclarationCorrected(
            state.Id, command.CorrectionId, command.HandlingUnit, result.Findings, result.Verdict, command.Rules.Identity, command.By, command.At));
    }

    public static Decision<HoldEvent> Decide(Hold? state, RequestException command)
    {
        if (state?.ExceptionRequests.Any(request => request.RequestId == command.RequestId) == true)
            return Decision<HoldEvent>.Accept();
        if (OnlyWhileOpen(state) is { } closed)
            return Decision<HoldEvent>.Refuse(closed);
        if (state!.ExceptionRequests.Count + state.Disputes.Count >= MostAnswers)
            return Decision<HoldEvent>.Refuse(new TooManyMessages());
        return Decision<HoldEvent>.Accept(new HoldExceptionRequested(state.Id, command.RequestId, command.Reason, command.By, command.At));
    }

    public static Decision<HoldEvent> Decide(Hold? state, DisputeHold command)
    {
        if (state?.Disputes.Any(dispute => dispute.DisputeId == command.DisputeId) == true)
            return Decision<HoldEvent>.Accept();
        if (OnlyWhileOpen(state) is { } closed)
            return Decision<HoldEvent>.Refuse(closed);
        if (state!.ExceptionRequests.Count + state.Disputes.Count >= MostAnswers)
            return Decision<HoldEvent>.Refuse(new TooManyMessages());
        return Decision<HoldEvent>.Accept(new HoldDisputed(state.Id, command.DisputeId, command.Evidence, command.Photos, command.By, command.At));
    }
}

/// <summary>A correction says what the same freight is like, not that there is other freight.</summary>
public sealed record OtherFreight : Refusal
{
    public override string Code => "other-freight";

    public override Phrase Message => Phrase.Of($"A correction keeps the line's name and number of units: labels hang on them. For other freight declare another pickup.");
}

public sealed record NothingCorrected : Refusal
{
    public override string Code => "nothing-corrected";

    public override Phrase Message => Phrase.Of($"Nothing differs from what is declared. Change a figure first.");
}

public sealed record TooManyCorrections : Refusal
{
    public override string Code => "too-many-corrections";

    public override Phrase Message => Phrase.Of($"This line has been corrected as often as it can be. Telephone the terminal.");
}
