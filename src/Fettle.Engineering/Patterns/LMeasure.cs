namespace Fettle.Engineering.Patterns;

/// <summary>
/// <see cref="LayerBound.ByMeasure"/> for L-shaped pieces. Sizes for the carton's sides that suit one side of a piece turn all
/// its sides into lengths; the measure of the piece is then that of its two rectangles, one upon the other.
/// </summary>
internal sealed class LMeasure(CartonSums sums)
{
    /// <summary>Sizes for the carton's sides, and what each rank comes to in them.</summary>
    private readonly record struct Scale(long Length, long Width, int[] Sides);

    private readonly List<Scale> scales = [];
    private readonly int[]?[] scalesOf = new int[sums.Count][];

    /// <summary>The most cartons, not more than <paramref name="most"/>, that no pair of scales rules out.</summary>
    public int Bound(LPiece piece, int most)
    {
        ReadOnlySpan<int> along = [.. ScalesOf(piece.X), .. ScalesOf(piece.InnerX)];
        ReadOnlySpan<int> across = [.. ScalesOf(piece.Y), .. ScalesOf(piece.InnerY)];
        while (most > 0 && !Possible(piece, most, along, across))
            most--;
        return most;
    }

    private bool Possible(LPiece piece, int cartons, ReadOnlySpan<int> along, ReadOnlySpan<int> across)
    {
        var range = new TurnRange(cartons);
        foreach (var i in along)
        {
            var a = scales[i];
            var (full, inner) = ((long)a.Sides[piece.X], (long)a.Sides[piece.InnerX]);
            foreach (var j in across)
            {
                var b = scales[j];
                var whole = full * b.Sides[piece.InnerY] + inner * (b.Sides[piece.Y] - b.Sides[piece.InnerY]);
                if (!range.Narrow(a.Length * b.Width, a.Width * b.Length, whole))
                    return false;
            }
        }

        return true;
    }

    private int[] ScalesOf(int rank)
    {
        if (scalesOf[rank] is { } known)
            return known;
        var indices = new List<int>();
        foreach (var scale in sums.PartitionsOf(rank).Scales)
        {
            var index = scales.FindIndex(s => s.Length == scale.Length && s.Width == scale.Width);
            if (index < 0)
            {
                index = scales.Count;
                var sides = new int[sums.Count];
                for (var r = 0; r < sums.Count; r++)
                    sides[r] = (int)sums.PartitionsOf(r).Side(scale.Length, scale.Width);
                scales.Add(new Scale(scale.Length, scale.Width, sides));
            }

            indices.Add(index);
        }

        return scalesOf[rank] = [.. indices];
    }
}
