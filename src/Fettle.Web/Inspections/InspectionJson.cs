using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Inspections;
using Fettle.Web.Declarations;
using Fettle.Web.Photos;

namespace Fettle.Web.Inspections;

/// <summary>What was found about one line at the terminal. What is left out was not looked at, and stays as declared.</summary>
public sealed record InspectionJson
{
    /// <summary>A random UUID, made where the inspection is written down.</summary>
    public Guid? Id { get; init; }

    public Guid? PickupId { get; init; }

    /// <summary>Name of the declared line.</summary>
    public string? Reference { get; init; }

    /// <summary>Which of the line's units, from 1.</summary>
    public int? Index { get; init; }

    /// <summary>What was scanned from it.</summary>
    public string? Sscc { get; init; }

    /// <summary>"imperial" or "metric"; as declared when left out.</summary>
    public string? Units { get; init; }

    public MeasuredJson? Measured { get; init; }

    /// <summary>Harm that was seen, at most 10.</summary>
    public IReadOnlyList<DamageJson?>? Damage { get; init; }

    /// <summary>Another unit set on top for a trial: "not-tried", "held" or "failed".</summary>
    public string? StackTest { get; init; }

    /// <summary>How many alike were looked at; 1 when left out.</summary>
    public int? Alike { get; init; }

    /// <summary>At most 1,000 characters.</summary>
    public string? Note { get; init; }

    /// <summary>When it was written down; now when left out.</summary>
    public DateTimeOffset? TakenAt { get; init; }

    internal InspectionForm Form() => new()
    {
        Id = Id?.ToString(),
        Reference = Reference,
        Index = Writing.TextOf(Index),
        Sscc = Sscc,
        Measured = new()
        {
            Length = Writing.TextOf(Measured?.Length),
            Width = Writing.TextOf(Measured?.Width),
            Height = Writing.TextOf(Measured?.Height),
            GrossWeight = Writing.TextOf(Measured?.GrossWeight),
            OverhangAtEnds = Writing.TextOf(Measured?.OverhangAtEnds),
            OverhangAtSides = Writing.TextOf(Measured?.OverhangAtSides),
            WrapTurns = Writing.TextOf(Measured?.WrapTurns),
            WrapOverPlatform = Measured?.WrapOverPlatform switch { null => null, true => "yes", false => "no" },
            CornerBoards = Measured?.CornerBoards,
        },
        // One more than may be is enough to be told of.
        Damage = [.. (Damage ?? []).Take(InspectionReading.MostDamage + 1).Select(damage => new DamageForm { Kind = damage?.Kind ?? "?", Where = damage?.Where ?? "?", Note = damage?.Note })],
        StackTest = StackTest,
        Alike = Writing.TextOf(Alike),
        Note = Note,
        TakenAt = TakenAt?.ToString("O", CultureInfo.InvariantCulture),
    };
}

/// <param name="Length">Greatest outside length, platform and everything that sticks out included.</param>
/// <param name="GrossWeight">Scale reading, platform included.</param>
/// <param name="OverhangAtEnds">The most past the deck at either end, where forks enter.</param>
/// <param name="OverhangAtSides">The most past the deck at either side.</param>
/// <param name="WrapTurns">Full turns of film at the thinnest place.</param>
/// <param name="CornerBoards">"none", "partial" (end above the platform) or "to-platform".</param>
public sealed record MeasuredJson(
    double? Length,
    double? Width,
    double? Height,
    double? GrossWeight,
    double? OverhangAtEnds,
    double? OverhangAtSides,
    int? WrapTurns,
    bool? WrapOverPlatform,
    string? CornerBoards);

/// <param name="Kind">"crushed", "torn", "pierced", "wet", "leaking", "shifted", "broken-platform" or "other".</param>
/// <param name="Where">"top", "end", "side", "corner", "bottom" or "all-over".</param>
/// <param name="Note">At most 200 characters.</param>
public sealed record DamageJson(string? Kind, string? Where, string? Note);

/// <param name="Declared">The line as it was declared.</param>
/// <param name="Found">As declared, but for what was measured past its tolerance.</param>
/// <param name="Differences">What was measured past its tolerance.</param>
/// <param name="Findings">What the check says about the unit as found.</param>
/// <param name="Verdict">"ready", "ready-with-cautions" or "hold".</param>
/// <param name="ProposedHold">Why it should be held, when something stops it that nobody knew; null else, and once it is held.</param>
/// <param name="HoldId">The hold that it belongs to; null when there is none.</param>
/// <param name="TakenAt">When it was written down.</param>
/// <param name="RecordedAt">When it arrived.</param>
public sealed record InspectionAnswer(
    Guid Id,
    Guid PickupId,
    string PickupNumber,
    string Reference,
    int? Index,
    string? Sscc,
    UnitJson Declared,
    UnitJson Found,
    IReadOnlyList<DifferenceAnswer> Differences,
    IReadOnlyList<FindingAnswer> Findings,
    string Verdict,
    string? ProposedHold,
    Guid? HoldId,
    IReadOnlyList<DamageJson> Damage,
    string? StackTest,
    int Alike,
    string? Note,
    IReadOnlyList<PhotoProofAnswer> Photos,
    string By,
    DateTimeOffset TakenAt,
    DateTimeOffset RecordedAt)
{
    public static InspectionAnswer Of(Inspection inspection)
    {
        var recorded = inspection.Recorded;
        return new(
            inspection.Id,
            recorded.PickupId,
            recorded.Pickup.Number,
            recorded.Reference,
            recorded.Index,
            recorded.Sscc?.Value,
            UnitJson.Of(recorded.Declared, recorded.Units),
            UnitJson.Of(recorded.Found, recorded.Units),
            [.. recorded.Differences.Select(difference => DifferenceAnswer.Of(difference, recorded.Units))],
            [.. recorded.Findings.Select(finding => FindingAnswer.Of(finding, recorded.Units))],
            recorded.Verdict.Word(),
            inspection.ProposesHold ? Recheck.Reason(recorded).Say(recorded.Units) : null,
            inspection.HoldId,
            [.. recorded.Damage.Select(damage => new DamageJson(damage.Kind.Word(), damage.Where.Word(), damage.Note))],
            recorded.StackTest?.Word(),
            recorded.Alike,
            recorded.Note,
            [.. inspection.Photos.Select(photo => new PhotoProofAnswer(photo.PhotoId, photo.Sha256))],
            recorded.By.Name,
            recorded.TakenAt,
            recorded.At);
    }
}

/// <param name="Subject">What differs: "outer.height", "grossWeight", "overhang.ends", "protection.wrapTurns" …</param>
/// <param name="Apart">How much more was measured than declared; negative for less, null for what is no figure.</param>
/// <param name="Allowed">The tolerance.</param>
public sealed record DifferenceAnswer(string Subject, string Declared, string Measured, Quantity? Apart, Quantity? Allowed)
{
    public static DifferenceAnswer Of(Difference difference, UnitSystem units) => new(
        difference.Subject, difference.Declared.Say(units), difference.Measured.Say(units), difference.Apart?.In(units), difference.Allowed?.In(units));
}

public sealed record PhotoProofAnswer(Guid Id, string Sha256);
