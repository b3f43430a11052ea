namespace Fettle.Engineering.Patterns;

/// <summary>Layers made of at most two blocks, each with all its cartons one way: good enough where cartons are very small for the floor.</summary>
internal static class Blocks
{
    /// <summary>The best one or two blocks side by side, at most <see cref="PatternFinder.LargestLayer"/> cartons of them.</summary>
    public static IEnumerable<Box> Best(Floor floor)
    {
        var best = (Count: 0L, Cut: 0L, Across: false);
        foreach (var across in (ReadOnlySpan<bool>)[false, true])
        {
            var (length, width) = across ? (floor.Width, floor.Length) : (floor.Length, floor.Width);
            // The block with cartons along comes first: the other order is the same layer turned half round.
            var most = Math.Min(length / floor.CartonLength, PatternFinder.LargestLayer);
            for (var columns = 0L; columns <= most; columns++)
            {
                var cut = columns * floor.CartonLength;
                var count = Count(cut, width, floor.Turns[0]) + Count(length - cut, width, floor.Turns[1]);
                if (count > best.Count)
                    best = (count, cut, across);
            }
        }

        var (first, second) = (floor.Turns[0], floor.Turns[1]);
        return best.Across
            ? Fill(0, floor.Width, floor.Length).Select(c => c.Swapped)
            : Fill(0, floor.Length, floor.Width);

        IEnumerable<Box> Fill(long from, long length, long width) =>
            Block(from, best.Cut, width, first).Concat(Block(best.Cut, length - best.Cut, width, second)).Take(PatternFinder.LargestLayer);
    }

    /// <summary>How many cartons a block takes; capped, so that it can be added up.</summary>
    private static long Count(long length, long width, (long Along, long Across) turn) =>
        Math.Min(length / turn.Along, 1_000_000_000) * Math.Min(width / turn.Across, 1_000_000_000);

    private static IEnumerable<Box> Block(long x, long length, long width, (long Along, long Across) turn)
    {
        for (var i = 0L; i < length / turn.Along; i++)
        {
            for (var j = 0L; j < width / turn.Across; j++)
                yield return new Box(x + i * turn.Along, j * turn.Across, turn.Along, turn.Across);
        }
    }
}
