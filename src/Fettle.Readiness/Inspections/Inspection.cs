using System.Text.Json.Serialization;
using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Photos;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Inspections;

public abstract record InspectionEvent;

/// <summary>Somebody at the terminal looked at freight of one line, and this is what they found. Never edited.</summary>
/// <param name="InspectionId">Made on the device that it was written on, so that a form which is sent twice is recorded once.</param>
/// <param name="Reference">The line's.</param>
/// <param name="Index">Which of the line's alike units, from 1; null when nobody told them apart.</param>
/// <param name="Sscc">The number that was scanned from it; null when none was.</param>
/// <param name="Declared">The line as it is declared, with whatever was corrected since.</param>
/// <param name="Units">The family of units that the declaration is read in.</param>
/// <param name="Found">As declared, but for what was measured past its tolerance.</param>
/// <param name="Differences">What was measured past its tolerance.</param>
/// <param name="Findings">What the check finds about <paramref name="Found"/>.</param>
/// <param name="NewStops">Those of them that stop it and that nobody knew: why a hold is proposed. Empty when none is.</param>
/// <param name="Allowed">The tolerances that it was measured against.</param>
/// <param name="Alike">How many alike were looked at, 1 or more.</param>
/// <param name="Photos">Those sent with the form; what comes later is an event of its own.</param>
/// <param name="HoldId">The hold that the line was under; null when it was under none.</param>
/// <param name="TakenAt">When it was written down, by the device's clock.</param>
/// <param name="At">When it arrived.</param>
public sealed record InspectionRecorded(
    Guid InspectionId,
    Guid PickupId,
    PickupHeader Pickup,
    string Reference,
    int? Index,
    Sscc? Sscc,
    HandlingUnit Declared,
    UnitSystem Units,
    Measurement Measured,
    HandlingUnit Found,
    IReadOnlyList<Difference> Differences,
    IReadOnlyList<Finding> Findings,
    IReadOnlyList<Finding> NewStops,
    RuleSetVersion RuleSet,
    InspectionLimits Allowed,
    Verdict Verdict,
    IReadOnlyList<SeenDamage> Damage,
    StackTest? StackTest,
    int Alike,
    string? Note,
    IReadOnlyList<PhotoProof> Photos,
    Guid? HoldId,
    Actor By,
    DateTimeOffset TakenAt,
    DateTimeOffset At) : InspectionEvent;

/// <summary>A photo was added to it.</summary>
public sealed record InspectionPhotographed(Guid InspectionId, PhotoProof Photo, Actor By, DateTimeOffset At) : InspectionEvent;

/// <summary>What was found became a hold.</summary>
public sealed record InspectionLedToHold(Guid InspectionId, Guid HoldId, Actor By, DateTimeOffset At) : InspectionEvent;

/// <summary>What was found at the terminal about freight of one line.</summary>
/// <param name="Photos">All, in the order in which they came.</param>
/// <param name="HoldId">The hold that it belongs to: one that was there, or the one that came of it.</param>
public sealed record Inspection(Guid Id, InspectionRecorded Recorded, IReadOnlyList<PhotoProof> Photos, Guid? HoldId, bool LedToHold)
{
    /// <summary>Enough to show four sides of several units, and what is wrong.</summary>
    public const int MostPhotos = 24;

    /// <summary>Something stops it that nobody knew, and no hold has come of it yet.</summary>
    [JsonIgnore]
    public bool ProposesHold => Recorded.NewStops.Count > 0 && !LedToHold;

    public static Inspection? Evolve(Inspection? state, InspectionEvent happened) => happened switch
    {
        InspectionRecorded e => new(e.InspectionId, e, e.Photos, e.HoldId, LedToHold: false),
        InspectionPhotographed e => state! with { Photos = [.. state.Photos, e.Photo] },
        InspectionLedToHold e => state! with { HoldId = e.HoldId, LedToHold = true },
        _ => throw new InvalidOperationException($"An inspection does not know {happened.GetType().Name}."),
    };

    /// <summary>What a line is measured against: as declared, or as the shipper has corrected it since. Null when there is no such line.</summary>
    /// <param name="hold">The line's latest hold.</param>
    public static HandlingUnit? DeclaredOf(Pickup pickup, string reference, Hold? hold) =>
        hold is { Corrections: [.., var corrected] } ? corrected.HandlingUnit : pickup.Declaration.HandlingUnits.SingleOrDefault(line => line.Reference == reference);

    public static Decision<InspectionEvent> Decide(Inspection? state, RecordInspection command)
    {
        if (state is not null)
            return Decision<InspectionEvent>.Refuse(new InspectionRecordedBefore(state));
        var declared = DeclaredOf(command.Pickup, command.Reference, command.Hold);
        if (declared is null || command.Index < 1 || command.Index > declared.Quantity)
            return Decision<InspectionEvent>.Refuse(new NoSuchUnit());
        var allowed = command.Rules.Inspection;
        var differences = Comparison.Of(declared, command.Measured, allowed).Where(compared => compared.IsBeyond).Select(compared => compared.Difference).ToArray();
        var found = Comparison.Found(declared, command.Measured, allowed);
        var findings = Recheck.Findings(declared, found, command.Damage, command.StackTest, command.Pickup.Declaration.Lane, command.Rules, command.Pickup.Declaration.Units);
        var judged = command.Pickup.Units.Single(unit => unit.Reference == command.Reference);
        return Decision<InspectionEvent>.Accept(new InspectionRecorded(
            command.InspectionId,
            command.Pickup.Id,
            command.Pickup.Header,
            command.Reference,
            command.Index,
            command.Sscc,
            declared,
            command.Pickup.Declaration.Units,
            command.Measured,
            found,
            differences,
            findings,
            Recheck.NewStops(findings, judged.Findings, command.Hold),
            command.Rules.Identity,
            allowed,
            ReadinessCheck.VerdictOf(findings),
            command.Damage,
            command.StackTest,
            command.Alike,
            command.Note,
            command.Photos,
            Recheck.Covering(command.Hold)?.Id,
            command.By,
            command.TakenAt,
            command.At));
    }

    /// <summary>A photo that is there already changes nothing.</summary>
    public static Decision<InspectionEvent> Decide(Inspection? state, AddPhoto command)
    {
        if (state is null)
            return Decision<InspectionEvent>.Refuse(new NoSuchInspection());
        if (state.Photos.Any(photo => photo.PhotoId == command.Photo.PhotoId))
            return Decision<InspectionEvent>.Accept([]);
        return state.Photos.Count >= MostPhotos
            ? Decision<InspectionEvent>.Refuse(new TooManyPhotos())
            : Decision<InspectionEvent>.Accept(new InspectionPhotographed(state.Id, command.Photo, command.By, command.At));
    }

    /// <summary>Pressing twice holds it once.</summary>
    public static Decision<InspectionEvent> Decide(Inspection? state, HoldFound command)
    {
        if (state is null)
            return Decision<InspectionEvent>.Refuse(new NoSuchInspection());
        if (state.LedToHold)
            return Decision<InspectionEvent>.Accept([]);
        return state.ProposesHold
            ? Decision<InspectionEvent>.Accept(new InspectionLedToHold(state.Id, command.HoldId, command.By, command.At))
            : Decision<InspectionEvent>.Refuse(new NothingToHold());
    }
}

/// <param name="Hold">The line's latest hold; null when there was none.</param>
/// <param name="Rules">The carrier's in force now.</param>
public sealed record RecordInspection(
    Guid InspectionId,
    Pickup Pickup,
    string Reference,
    int? Index,
    Sscc? Sscc,
    Measurement Measured,
    IReadOnlyList<SeenDamage> Damage,
    StackTest? StackTest,
    int Alike,
    string? Note,
    IReadOnlyList<PhotoProof> Photos,
    Hold? Hold,
    RuleSet Rules,
    Actor By,
    DateTimeOffset TakenAt,
    DateTimeOffset At);

public sealed record AddPhoto(PhotoProof Photo, Actor By, DateTimeOffset At);

/// <param name="HoldId">Of the hold that is placed with it.</param>
public sealed record HoldFound(Guid HoldId, Actor By, DateTimeOffset At);

/// <summary>The same inspection came a second time: the answer is the first one's.</summary>
public sealed record InspectionRecordedBefore(Inspection First) : Refusal
{
    public override string Code => "already-recorded";

    public override Phrase Message => Phrase.Of($"{First.Recorded.By.Name} has already recorded an inspection with this id.");
}

/// <summary>The id belongs to something else that is stored.</summary>
public sealed record InspectionIdTaken : Refusal
{
    public override string Code => "id-taken";

    public override Phrase Message => Phrase.Of($"This id is taken. Make a new one: a random UUID.");
}

public sealed record NoSuchInspection : Refusal
{
    public override string Code => "no-such-inspection";

    public override Phrase Message => Phrase.Of($"There is no such inspection.");
}

public sealed record NoSuchUnit : Refusal
{
    public override string Code => "no-such-unit";

    public override Phrase Message => Phrase.Of($"This pickup has no such handling unit.");
}

public sealed record TooManyPhotos : Refusal
{
    public override string Code => "too-many-photos";

    public override Phrase Message => Phrase.Of($"An inspection has at most {Inspection.MostPhotos} photos.");
}

public sealed record NothingToHold : Refusal
{
    public override string Code => "nothing-to-hold";

    public override Phrase Message => Phrase.Of($"Nothing was found that calls for a new hold.");
}
