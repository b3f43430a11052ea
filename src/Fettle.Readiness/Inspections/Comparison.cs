using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Inspections;

/// <summary>One measured thing beside what was declared.</summary>
/// <param name="IsBeyond">Past the tolerance. On it is not past it; what has no tolerance differs when it is not the same.</param>
public sealed record Compared(Difference Difference, bool IsBeyond);

/// <summary>
/// Measured beside declared. A figure within its tolerance changes nothing: the declaration stands, so that what two tapes
/// argue about makes no finding.
/// </summary>
public static class Comparison
{
    /// <summary>All that was measured, in the order of the form.</summary>
    public static IReadOnlyList<Compared> Of(HandlingUnit declared, Measurement measured, InspectionLimits allowed)
    {
        List<Compared> all = [];
        Size("outer.length", declared.Outer.Length, measured.Length);
        Size("outer.width", declared.Outer.Width, measured.Width);
        Size("outer.height", declared.Outer.Height, measured.Height);
        if (measured.GrossWeight is { } weight)
            all.Add(Apart("grossWeight", declared.GrossWeight, weight, weight - declared.GrossWeight, WeightAllowed(declared.GrossWeight, allowed)));
        if (declared.Platform is not null)
        {
            var over = LoadShape.Of(declared).Overhang;
            Size("overhang.ends", over.Front, measured.OverhangAtEnds);
            Size("overhang.sides", over.Left, measured.OverhangAtSides);
        }

        if (measured.WrapTurns is { } turns)
            all.Add(new(
                new("protection.wrapTurns", Turns(declared.Protection.WrapTurns), Turns(turns), Quantity.Pieces(turns - declared.Protection.WrapTurns), Quantity.Pieces(0)),
                turns != declared.Protection.WrapTurns));
        if (measured.WrapOverPlatform is { } over2)
            all.Add(Word("protection.wrapOverPlatform", Tied(declared.Protection.WrapOverPlatform), Tied(over2)));
        if (measured.CornerBoards is { } boards)
            all.Add(Word("protection.cornerBoards", Boards(declared.Protection.CornerBoards), Boards(boards)));
        return all;

        void Size(string subject, Length was, Length? now)
        {
            if (now is { } size)
                all.Add(Apart(subject, was, size, size - was, allowed.Length));
        }
    }

    /// <summary>How far a scale reading may be from a declared weight.</summary>
    public static Mass WeightAllowed(Mass declared, InspectionLimits allowed) =>
        Mass.Max(allowed.Weight, declared * (allowed.WeightPercent / 100));

    /// <summary>The unit as it was found: as declared, but for what was measured past its tolerance.</summary>
    public static HandlingUnit Found(HandlingUnit declared, Measurement measured, InspectionLimits allowed)
    {
        var beyond = Of(declared, measured, allowed).Where(compared => compared.IsBeyond).Select(compared => compared.Difference.Subject).ToHashSet(StringComparer.Ordinal);
        var outer = declared.Outer;
        var protection = declared.Protection;
        return declared with
        {
            Outer = new(
                Along(outer.Length, "outer.length", measured.Length, declared.Platform?.Length, "overhang.ends", measured.OverhangAtEnds),
                Along(outer.Width, "outer.width", measured.Width, declared.Platform?.Width, "overhang.sides", measured.OverhangAtSides),
                Either("outer.height", outer.Height, measured.Height)),
            GrossWeight = Either("grossWeight", declared.GrossWeight, measured.GrossWeight),
            Protection = protection with
            {
                WrapTurns = measured.WrapTurns ?? protection.WrapTurns,
                WrapOverPlatform = measured.WrapOverPlatform ?? protection.WrapOverPlatform,
                CornerBoards = measured.CornerBoards ?? protection.CornerBoards,
            },
        };

        T Either<T>(string subject, T was, T? now)
            where T : struct => beyond.Contains(subject) ? now!.Value : was;

        // What goes past the deck makes the unit at least so long; where nobody measured the length, at most twice that longer.
        Length Along(Length was, string subject, Length? now, Length? deck, string overSubject, Length? over)
        {
            var side = Either(subject, was, now);
            if (deck is not { } platform || !beyond.Contains(overSubject))
                return side;
            side = Length.Max(side, platform + over!.Value);
            return now is null ? Length.Min(side, platform + (over.Value * 2)) : side;
        }
    }

    private static Compared Apart(string subject, Quantity was, Quantity now, Length apart, Length allowed) =>
        new(new(subject, Phrase.Of($"{was}"), Phrase.Of($"{now}"), apart, allowed), apart.Abs() > allowed);

    private static Compared Apart(string subject, Quantity was, Quantity now, Mass apart, Mass allowed) =>
        new(new(subject, Phrase.Of($"{was}"), Phrase.Of($"{now}"), apart, allowed), apart.Abs() > allowed);

    private static Compared Word(string subject, string was, string now) =>
        new(new(subject, Phrase.Word(was), Phrase.Word(now), null, null), was != now);

    private static Phrase Turns(int turns) => turns == 1 ? Phrase.Of($"{turns} turn") : Phrase.Of($"{turns} turns");

    private static string Tied(bool over) => over ? "over the pallet" : "not over the pallet";

    private static string Boards(CornerBoards boards) => boards switch
    {
        CornerBoards.None => "none",
        CornerBoards.Partial => "end above the pallet",
        CornerBoards.ToPlatform => "down to the pallet",
    };
}
