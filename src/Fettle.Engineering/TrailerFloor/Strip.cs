namespace Fettle.Engineering.TrailerFloor;

/// <summary>One way in which a kind of unit may stand: so wide across the trailer, so long along it.</summary>
internal readonly record struct Stance(int Kind, long Across, long Along);

/// <summary>
/// Units on a floor of a given width in whole numbers: nanometres divided by what all sides have in common. The width is the
/// most of it that units side by side can fill.
/// </summary>
internal sealed class Strip
{
    /// <summary>More distinct sums than this are not worth listing.</summary>
    private const int MostSums = 5_000;

    public Strip(long width, IReadOnlyList<(long Length, long Width, int Count, bool MayTurn)> kinds)
    {
        Counts = [.. kinds.Select(k => k.Count)];
        Total = Counts.Sum();
        Area = kinds.Aggregate(Int128.Zero, (sum, k) => sum + (Int128)k.Length * k.Width * k.Count);
        Stances = [.. kinds.SelectMany((k, index) => k.Count == 0 ? []
            : k.MayTurn && k.Length != k.Width ? (Stance[])[new(index, k.Width, k.Length), new(index, k.Length, k.Width)]
            : [new(index, k.Width, k.Length)]).Where(s => s.Across <= width)];
        AcrossSums = SumsUpTo(width, s => s.Across);
        Width = AcrossSums is { } sums ? sums[^1] : width;
    }

    public long Width { get; }

    /// <summary>Units of each kind.</summary>
    public int[] Counts { get; }

    public int Total { get; }

    /// <summary>Of all footprints.</summary>
    public Int128 Area { get; }

    /// <summary>All ways in which a unit fits across the floor.</summary>
    public Stance[] Stances { get; }

    /// <summary>Widths that units side by side can fill, from 0; null when there are too many.</summary>
    public long[]? AcrossSums { get; }

    /// <summary>Lengths up to a limit that units end to end can fill, from 0; null when there are too many.</summary>
    public long[]? AlongSums(long limit) => SumsUpTo(limit, s => s.Along);

    /// <summary>Sums of sides of different units up to a limit, each unit counted once in one of its stances.</summary>
    private long[]? SumsUpTo(long limit, Func<Stance, long> side)
    {
        var reached = new HashSet<long> { 0 };
        for (var kind = 0; kind < Counts.Length; kind++)
        {
            long[] sides = [.. Stances.Where(s => s.Kind == kind).Select(side).Distinct()];
            for (var unit = 0; unit < Counts[kind]; unit++)
            {
                long[] more = [.. reached.SelectMany(_ => sides, (sum, s) => sum + s).Where(sum => sum <= limit && !reached.Contains(sum))];
                if (more.Length == 0)
                    break;
                reached.UnionWith(more);
                if (reached.Count > MostSums)
                    return null;
            }
        }

        return [.. reached.Order()];
    }
}

/// <summary>One unit placed in a <see cref="Strip"/>: a stance, how far along and how far across.</summary>
internal readonly record struct Standing(Stance Stance, long Along, long Across);
