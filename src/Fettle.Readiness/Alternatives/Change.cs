using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Alternatives;

/// <summary>Kinds of change, for comparing what two builds ask of the dock.</summary>
[Flags]
internal enum Changes
{
    None = 0,
    Pattern = 1,
    Platforms = 2,
    Stack = 4,
    NotStackable = 8,
    Stackable = 16,
    Film = 32,
    Boards = 64,
    Sleeve = 128,
    Loose = 256,
    Deck = 512,
    TopCap = 1024,
    SlipSheets = 2048,
    Straps = 4096,
    Partitions = 8192,
    Requests = 16384,
    Platform = 32768,
    Fastening = 65536,
    Class = 131072,

    /// <summary>The second of two things that the carrier can be asked for.</summary>
    OtherRequests = 262144,

    /// <summary>What the shipper alone can say yes to.</summary>
    Promises = NotStackable | Stackable | Loose | Class,
}

/// <summary>What a build changes, by kind and in a clerk's words.</summary>
internal static class Change
{
    public static Changes Of(Candidate candidate, HandlingUnit unit)
    {
        var build = candidate.Build;
        if (build.Loose)
            return Changes.Loose;
        var line = candidate.Lines[0];
        var (had, now) = (unit.Protection, line.Protection);
        return (build.PerLayer is null ? 0 : Changes.Pattern)
            | (build.Deck is null ? 0 : Changes.Deck)
            | (now.TopCap != had.TopCap ? Changes.TopCap : 0)
            | (now.SlipSheets != had.SlipSheets ? Changes.SlipSheets : 0)
            | (now.Straps != had.Straps ? Changes.Straps : 0)
            | (line.Partitions != unit.Partitions ? Changes.Partitions : 0)
            | (line.Requests == unit.Requests ? 0 : build.Prefer == Preference.None ? Changes.Requests : Changes.OtherRequests)
            | (build.Deck is null && (line.Platform?.Condition, line.Platform?.TreatmentMark) != (unit.Platform?.Condition, unit.Platform?.TreatmentMark) ? Changes.Platform : 0)
            | (line.Contents is MachineryContents or CrateContents && line.Contents != unit.Contents ? Changes.Fastening : 0)
            | (line.DeclaredClass != unit.DeclaredClass ? Changes.Class : 0)
            | (candidate.Lines.Sum(line => line.Quantity) == unit.Quantity ? 0 : Changes.Platforms)
            | (build.Stack is null ? 0 : Changes.Stack)
            | (unit.Stackable && candidate.Lines.Any(line => !line.Stackable) ? Changes.NotStackable : 0)
            | (!unit.Stackable && candidate.Lines.Any(line => line.Stackable) ? Changes.Stackable : 0)
            | (now.WrapTurns > had.WrapTurns || now.WrapOverPlatform != had.WrapOverPlatform ? Changes.Film : 0)
            | (now.CornerBoards != had.CornerBoards ? Changes.Boards : 0)
            | (now.Sleeve != had.Sleeve ? Changes.Sleeve : 0);
    }

    public static Phrase InWords(Candidate candidate, HandlingUnit unit)
    {
        var (build, lines) = (candidate.Build, candidate.Lines);
        var kinds = Of(candidate, unit);
        var parts = new List<Phrase>();
        if (kinds.HasFlag(Changes.Loose))
            parts.Add(lines[0].Quantity == 1
                ? Phrase.Of($"Ship the carton loose, without a pallet")
                : Phrase.Of($"Ship the {Counted.Cartons(lines[0].Quantity)} loose, without a pallet"));
        if (build.Deck is { Platform: var deck })
            parts.Add((lines.Sum(line => line.Quantity), deck.Rating) switch
            {
                (1, { } rating) => Phrase.Of($"Put it on a pallet of {deck.Length} × {deck.Width}, rated {rating}"),
                (1, null) => Phrase.Of($"Put it on a pallet of {deck.Length} × {deck.Width}"),
                (_, { } rating) => Phrase.Of($"Put them on pallets of {deck.Length} × {deck.Width}, rated {rating}"),
                (_, null) => Phrase.Of($"Put them on pallets of {deck.Length} × {deck.Width}"),
            });
        if (build.PerLayer is { } perLayer)
            parts.Add(Phrase.Of($"Stack {Counted.Cartons(perLayer)} a layer, all on the deck"));
        if ((build.PerLayer is not null || build.Platforms is not null) && unit.Contents is CartonContents)
        {
            var pallets = lines.Sum(line => line.Quantity);
            parts.Add(pallets == unit.Quantity
                ? Phrase.Of($"Keep {Counted.Pallets(pallets)} ({Layers(lines)})")
                : Phrase.Of($"Spread the load over {Counted.Pallets(pallets)} instead of {unit.Quantity} ({Layers(lines)})"));
        }

        if (build.Stack == StackKind.Column)
            parts.Add(Phrase.Of($"Stack straight columns instead of interlocked layers"));
        if (build.Stack == StackKind.Interlocked)
            parts.Add(Phrase.Of($"Interlock the layers instead of straight columns"));
        var (had, now) = (unit.Protection, lines[0].Protection);
        if (kinds.HasFlag(Changes.Platform))
            parts.Add(lines[0].Platform!.TreatmentMark != unit.Platform!.TreatmentMark
                ? Phrase.Of($"Put it on a sound pallet with the treatment mark on its wood")
                : Phrase.Of($"Put it on a sound pallet"));
        if (kinds.HasFlag(Changes.Fastening))
            parts.Add(unit.Contents is CrateContents
                ? Phrase.Of($"Block and brace what is in the crate")
                : Phrase.Of($"Bolt or strap it to what it stands on"));
        if (kinds.HasFlag(Changes.Partitions))
            parts.Add(Phrase.Of($"Put partitions into the cartons"));
        if (kinds.HasFlag(Changes.Film))
            parts.Add((now.WrapTurns > had.WrapTurns, now.WrapOverPlatform && !had.WrapOverPlatform) switch
            {
                (true, true) => Phrase.Of($"Wrap {Counted.FullTurns(now.WrapTurns)}, down over the pallet"),
                (true, false) => Phrase.Of($"Wrap {Counted.FullTurns(now.WrapTurns)}"),
                (false, _) => Phrase.Of($"Bring the film down over the pallet"),
            });
        if (kinds.HasFlag(Changes.Boards))
            parts.Add(Phrase.Of($"Put corner boards down to the pallet"));
        if (kinds.HasFlag(Changes.Sleeve))
            parts.Add(Phrase.Of($"Put a corrugated sleeve round the load"));
        if (kinds.HasFlag(Changes.SlipSheets))
            parts.Add(Phrase.Of($"Lay slip sheets between the layers"));
        if (kinds.HasFlag(Changes.TopCap))
            parts.Add(Phrase.Of($"Put a cap on top"));
        if (kinds.HasFlag(Changes.Straps))
            parts.Add(Phrase.Of($"Strap it {Counted.Times(now.Straps)}"));
        if ((kinds & (Changes.Requests | Changes.OtherRequests)) != Changes.None)
            parts.Add(Phrase.Of($"Ask the carrier for {Asked(lines[0].Requests, unit.Requests)}"));
        if (kinds.HasFlag(Changes.Class))
            parts.Add(Phrase.Of($"Declare class {lines[0].DeclaredClass!.Value.ToString("0.#", System.Globalization.CultureInfo.InvariantCulture)}"));
        if (kinds.HasFlag(Changes.Stackable))
            parts.Add(Phrase.Of($"Declare it stackable"));
        if (kinds.HasFlag(Changes.NotStackable))
            parts.Add(lines.All(line => !line.Stackable)
                ? Phrase.Of($"Declare it not stackable")
                : Phrase.Of($"Declare the one with an unfinished layer not stackable"));
        return Phrase.Join(". ", parts);
    }

    /// <summary>What is asked for now and was not before.</summary>
    private static Phrase Asked(Requests now, Requests had)
    {
        var asked = new List<Phrase>(3);
        if (now.Decking && !had.Decking)
            asked.Add(Phrase.Of($"decking"));
        if (now.Airbags && !had.Airbags)
            asked.Add(Phrase.Of($"airbags"));
        if (now.Strap && !had.Strap)
            asked.Add(Phrase.Of($"a strap to the wall"));
        if (now.Bulkhead && !had.Bulkhead)
            asked.Add(Phrase.Of($"a bulkhead panel"));
        return Phrase.Join(", ", asked);
    }

    private static Phrase Layers(IReadOnlyList<HandlingUnit> lines) => Phrase.Join(" + ", [.. lines
        .Select(line => (line.Quantity, Cartons: (CartonContents)line.Contents))
        .Select(line => line.Cartons.TopLayer > 0
            ? Phrase.Of($"{line.Quantity} × {Counted.Layers(line.Cartons.Layers)} and {Counted.Cartons(line.Cartons.TopLayer)} on top")
            : line.Cartons.Layers == 1
                ? Phrase.Of($"{line.Quantity} × {Counted.Layers(1)} of {line.Cartons.PerLayer}")
                : Phrase.Of($"{line.Quantity} × {Counted.Layers(line.Cartons.Layers)}"))]);
}
