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

    /// <summary>What the shipper alone can say yes to.</summary>
    Promises = NotStackable | Stackable | Loose,
}

/// <summary>What a build changes, by kind and in a clerk's words.</summary>
internal static class Change
{
    public static Changes Of(Candidate candidate, HandlingUnit unit)
    {
        var build = candidate.Build;
        if (build.Loose)
            return Changes.Loose;
        var (had, now) = (unit.Protection, candidate.Lines[0].Protection);
        return (build.PerLayer is null ? 0 : Changes.Pattern)
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
        if (build.PerLayer is { } perLayer)
            parts.Add(Phrase.Of($"Stack {Counted.Cartons(perLayer)} a layer, all on the deck"));
        if (build.PerLayer is not null || build.Platforms is not null)
        {
            var pallets = lines.Sum(line => line.Quantity);
            parts.Add(pallets == unit.Quantity
                ? Phrase.Of($"Keep {Counted.Pallets(pallets)} ({Layers(lines)})")
                : Phrase.Of($"Spread the load over {Counted.Pallets(pallets)} instead of {unit.Quantity} ({Layers(lines)})"));
        }

        if (build.Stack == StackKind.Column)
            parts.Add(Phrase.Of($"Stack straight columns instead of interlocked layers"));
        var (had, now) = (unit.Protection, lines[0].Protection);
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
        if (kinds.HasFlag(Changes.Stackable))
            parts.Add(Phrase.Of($"Declare it stackable"));
        if (kinds.HasFlag(Changes.NotStackable))
            parts.Add(lines.All(line => !line.Stackable)
                ? Phrase.Of($"Declare it not stackable")
                : Phrase.Of($"Declare the one with an unfinished layer not stackable"));
        return Phrase.Join(". ", parts);
    }

    private static Phrase Layers(IReadOnlyList<HandlingUnit> lines) => Phrase.Join(" + ", [.. lines
        .Select(line => (line.Quantity, Cartons: (CartonContents)line.Contents))
        .Select(line => line.Cartons.TopLayer > 0
            ? Phrase.Of($"{line.Quantity} × {Counted.Layers(line.Cartons.Layers)} and {Counted.Cartons(line.Cartons.TopLayer)} on top")
            : line.Cartons.Layers == 1
                ? Phrase.Of($"{line.Quantity} × {Counted.Layers(1)} of {line.Cartons.PerLayer}")
                : Phrase.Of($"{line.Quantity} × {Counted.Layers(line.Cartons.Layers)}"))]);
}
