using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Inspections;

/// <summary>What the check says about freight as it was found, and which of it nobody knew.</summary>
public static class Recheck
{
    /// <summary>The findings about the unit as found, gravest first, with what only eyes and a trial can tell.</summary>
    /// <param name="typedIn">The units of the declaration.</param>
    public static IReadOnlyList<Finding> Findings(HandlingUnit declared, HandlingUnit found, IReadOnlyList<SeenDamage> damage, StackTest? test, Lane lane, RuleSet rules, UnitSystem? typedIn = null)
    {
        if (found.Platform is { } deck && damage.Any(seen => seen.Kind == DamageKind.BrokenPlatform))
            found = found with { Platform = deck with { Condition = PlatformCondition.Damaged } };
        var result = ReadinessCheck.Run(found, lane, rules, typedIn);
        var known = ReadinessCheck.Run(declared, lane, rules).Findings.Where(finding => FindingCodes.IsContradiction(finding.Code)).Select(finding => finding.Code).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. result.Findings
                .Select(finding => FindingCodes.IsContradiction(finding.Code) && !known.Contains(finding.Code) ? AsMeasured(finding, found, result.Measures) : finding)
                .Concat(Seen(found, damage, rules))
                .Concat(Tried(declared, test, rules))
                .OrderByDescending(finding => finding.Severity),
        ];
    }

    /// <summary>
    /// The hold that whatever is found belongs to, where it is decided about: an open one, or one whose freight was not let
    /// go. Null where none is, or where the freight was released.
    /// </summary>
    /// <param name="hold">The line's latest hold; null when there was none.</param>
    public static Hold? Covering(Hold? hold) =>
        hold?.Decided?.Decision is HoldDecision.Release or HoldDecision.ReleaseAsException ? null : hold;

    /// <summary>
    /// Stops that nobody knew when the freight was let through, or knew as less than they are: why a new hold is proposed. None
    /// where a hold covers the freight.
    /// </summary>
    /// <param name="declared">What the check found when the line was submitted.</param>
    /// <param name="hold">The line's latest hold. Its freight was let through as it was declared at last: what a correction took back nobody knew.</param>
    public static IReadOnlyList<Finding> NewStops(IReadOnlyList<Finding> found, IReadOnlyList<Finding> declared, Hold? hold)
    {
        if (Covering(hold) is not null)
            return [];
        var known = hold?.FoundNow() ?? declared;
        return [.. found.Where(finding => finding.Severity == Severity.Stop && !known.Any(before => Covers(before, finding)))];
    }

    /// <summary>The same was known, and as at least so bad: further past its limit, it is another matter.</summary>
    private static bool Covers(Finding known, Finding stop)
    {
        if (known.Severity != Severity.Stop || known.Code != stop.Code || known.Subject != stop.Subject)
            return false;
        var (before, now, limit) = (Figure(known.Measured), Figure(stop.Measured), Figure(stop.Limit));
        var worse = (now - before) * now.CompareTo(limit);
        return worse <= 1e-9 * Math.Abs(now);

        static double Figure(Quantity quantity) => quantity.In(UnitSystem.Imperial).Value;
    }

    /// <summary>Why it should be held, for the shipper, the carrier and a claims handler: what differs, then what stops it.</summary>
    public static Phrase Reason(InspectionRecorded recorded) => Phrase.Join(
        " ",
        [.. recorded.Differences.Select(Sentence), .. recorded.NewStops.Select(stop => stop.Message)]);

    /// <summary>"Height: 52 in measured, 48 in declared."</summary>
    public static Phrase Sentence(Difference difference) =>
        Phrase.Of($"{Phrase.Word(Title(difference.Subject))}: {difference.Measured} measured, {difference.Declared} declared.");

    /// <summary>What a subject is called.</summary>
    public static string Title(string subject) => subject switch
    {
        "outer.length" => "Length",
        "outer.width" => "Width",
        "outer.height" => "Height",
        "grossWeight" => "Gross weight",
        "overhang.ends" => "Overhang at the ends",
        "overhang.sides" => "Overhang at the sides",
        "protection.wrapTurns" => "Turns of film",
        "protection.wrapOverPlatform" => "Film",
        "protection.cornerBoards" => "Corner boards",
        _ => throw new ArgumentOutOfRangeException(nameof(subject), subject, "Nobody measures that."),
    };

    /// <summary>Figures of which one was measured do not contradict each other: there is something else on the platform than was declared.</summary>
    private static Finding AsMeasured(Finding finding, HandlingUnit found, Measures measures) => finding with
    {
        Message = finding.Code == FindingCodes.WeightMismatch && measures.ComputedGrossWeight is { } computed
            ? Phrase.Of($"It weighs {found.GrossWeight}, and what was declared to be on it adds up to {computed}: {(found.GrossWeight - computed).Abs()} apart. More, less or something else is on it than was declared.")
            : Phrase.Of($"The contents that were declared do not make up the size that was measured, or do not stand as they should."),
        Cure = Phrase.Of($"Ask the shipper what is on it, and have the declaration put right before it moves."),
    };

    private static IEnumerable<Finding> Seen(HandlingUnit found, IReadOnlyList<SeenDamage> damage, RuleSet rules)
    {
        // A broken platform is the platform rule's.
        var seen = damage.Where(one => one.Kind != DamageKind.BrokenPlatform || found.Platform is null).ToArray();
        if (seen.Length == 0)
            yield break;
        yield return new(
            FindingCodes.DamageSeen,
            rules.Inspection.DamageSeverity,
            "damage",
            Quantity.Pieces(seen.Length),
            Quantity.Pieces(0),
            Basis.CommonPractice("damage is written down before freight moves on, or nobody can tell where it happened"),
            Phrase.Of($"Damage was seen at the terminal: {Phrase.Join("; ", [.. seen.Select(Words)])}."),
            Phrase.Of($"Photograph it, tell the shipper, and put it right or write it on the papers before it moves."),
            Finding.Comparison(Quantity.Pieces(seen.Length), Quantity.Pieces(0)),
            rules.Identity);
    }

    private static IEnumerable<Finding> Tried(HandlingUnit declared, StackTest? test, RuleSet rules)
    {
        if (test != StackTest.Failed || !declared.Stackable)
            yield break;
        yield return new(
            FindingCodes.StackTest,
            rules.Inspection.StackTestSeverity,
            "stackTest",
            Quantity.Pieces(0),
            Quantity.Pieces(1),
            Basis.CommonPractice("what is declared stackable bears another unit like itself"),
            Phrase.Of($"It is declared stackable and did not bear another unit when that was tried at the terminal."),
            Phrase.Of($"Put nothing on it: have it declared not stackable, or rebuilt so that it bears."),
            Finding.Comparison(Quantity.Pieces(0), Quantity.Pieces(1)),
            rules.Identity);
    }

    /// <summary>"crushed, at a corner (two cartons open)".</summary>
    public static Phrase Words(SeenDamage damage)
    {
        var (what, where) = (Phrase.Word(Word(damage.Kind)), Phrase.Word(Word(damage.Where)));
        return damage.Note is { } note ? Phrase.Of($"{what}, {where} ({note})") : Phrase.Of($"{what}, {where}");
    }

    public static string Word(DamageKind kind) => kind switch
    {
        DamageKind.Crushed => "crushed",
        DamageKind.Torn => "torn",
        DamageKind.Pierced => "a hole",
        DamageKind.Wet => "wet",
        DamageKind.Leaking => "leaking",
        DamageKind.Shifted => "leaning or shifted",
        DamageKind.BrokenPlatform => "pallet broken",
        DamageKind.Other => "other damage",
    };

    public static string Word(DamageSpot spot) => spot switch
    {
        DamageSpot.Top => "on top",
        DamageSpot.End => "at an end",
        DamageSpot.Side => "at a side",
        DamageSpot.Corner => "at a corner",
        DamageSpot.Bottom => "at the bottom",
        DamageSpot.AllOver => "all over",
    };
}
