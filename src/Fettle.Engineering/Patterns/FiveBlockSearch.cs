namespace Fettle.Engineering.Patterns;

/// <summary>
/// The most cartons found in rectangles of one family of <see cref="CartonSums"/>, by cutting each rectangle into at most
/// five (two cuts across each side, the middle block framed by the other four like the vanes of a pinwheel) and each of those
/// again (Morabito and Morales 1998; Birgin, Lobato and Morabito 2010). Guillotine cuts are the cases where blocks vanish.
/// Every rectangle is solved once for each depth, with bounds that end a search early. Not thread-safe; the work is capped,
/// so that any input ends.
/// </summary>
internal sealed class FiveBlockSearch
{
    /// <summary>Most layers are found with few cuts within cuts; the last depth is one at which the search ends by itself.</summary>
    private static ReadOnlySpan<byte> Depths => [1, 2, 3, 64];

    private readonly record struct Cut(short X1, short X2, short Y1, short Y2);

    private readonly CartonSums sums;
    private readonly int[] best;
    private readonly int[] bound;
    private readonly byte[] depthSearched;
    private readonly Cut[] cutOf;
    private long workLeft;

    public FiveBlockSearch(CartonSums sums, long work)
    {
        this.sums = sums;
        workLeft = work;
        var size = sums.Count * (sums.Count + 1) / 2;
        best = new int[size];
        bound = new int[size];
        depthSearched = new byte[size];
        cutOf = new Cut[size];
        Array.Fill(bound, -1);
    }

    /// <summary>No layer of this rectangle (ranks) holds more.</summary>
    public int Bound(int a, int b) => bound[Known(a, b)];

    /// <summary>
    /// Cartons placed in a rectangle (ranks). Stops as soon as <paramref name="wanted"/> are, or the bound is met, or the
    /// depths are searched, or the work allowed is used up.
    /// </summary>
    public int Most(int a, int b, int wanted = int.MaxValue, int depths = 4)
    {
        var found = best[Known(a, b)];
        foreach (var depth in Depths[..depths])
        {
            if (found >= wanted || found >= Bound(a, b) || workLeft <= 0)
                break;
            found = Search(a, b, depth);
        }

        return found;
    }

    /// <summary>The cartons of the best layer found for a rectangle, from its corner.</summary>
    public List<Box> Layout(int a, int b)
    {
        var cartons = new List<Box>(best[Known(a, b)]);
        Lay(a, b, 0, 0, cartons);
        return cartons;
    }

    private static int Index(int a, int b) => a >= b ? a * (a + 1) / 2 + b : b * (b + 1) / 2 + a;

    /// <summary>The index of a rectangle, with its bound and its best single block worked out.</summary>
    private int Known(int a, int b)
    {
        var index = Index(a, b);
        if (bound[index] < 0)
        {
            bound[index] = LayerBound.ByMeasure(sums.PartitionsOf(a), sums.PartitionsOf(b));
            best[index] = Math.Max(Block(a, b, sums.CartonLength, sums.CartonWidth), Block(a, b, sums.CartonWidth, sums.CartonLength));
        }

        return index;
    }

    private int Block(int a, int b, long length, long width) => (int)(sums[a] / length * (sums[b] / width));

    private int Search(int a, int b, int depth)
    {
        var index = Known(a, b);
        if (depth == 0 || depthSearched[index] >= depth || best[index] == bound[index] || workLeft <= 0)
            return best[index];
        if (a < b)
            (a, b) = (b, a);
        var xs = sums.CutsOf(a);
        var ys = sums.CutsOf(b);
        foreach (int x1 in xs)
        {
            // Turning the whole rectangle half round gives the same blocks, so half of the pairs are enough.
            if (2 * sums[x1] > sums[a])
                break;
            foreach (int x2 in xs)
            {
                if (x2 < x1)
                    continue;
                if (sums[x1] + sums[x2] > sums[a])
                    break;
                var afterX1 = sums.Difference(a, x1);
                var afterX2 = sums.Difference(a, x2);
                var middle = sums.Difference(x2, x1);
                foreach (int y1 in ys)
                {
                    var topLeft = Known(x1, sums.Difference(b, y1));
                    var bottomLeft = Known(x2, y1);
                    foreach (int y2 in ys)
                    {
                        if (y2 < y1)
                            continue;
                        workLeft--;
                        var topRight = Known(afterX1, sums.Difference(b, y2));
                        var bottomRight = Known(afterX2, y2);
                        var centre = Known(middle, sums.Difference(y2, y1));
                        var atMost = bound[topLeft] + bound[bottomLeft] + bound[topRight] + bound[bottomRight] + bound[centre];
                        if (atMost <= best[index])
                            continue;
                        atMost += Search(x1, sums.Difference(b, y1), depth - 1) - bound[topLeft];
                        if (atMost <= best[index])
                            continue;
                        atMost += Search(x2, y1, depth - 1) - bound[bottomLeft];
                        if (atMost <= best[index])
                            continue;
                        atMost += Search(afterX1, sums.Difference(b, y2), depth - 1) - bound[topRight];
                        if (atMost <= best[index])
                            continue;
                        atMost += Search(afterX2, y2, depth - 1) - bound[bottomRight];
                        if (atMost <= best[index])
                            continue;
                        atMost += Search(middle, sums.Difference(y2, y1), depth - 1) - bound[centre];
                        if (atMost <= best[index])
                            continue;
                        best[index] = atMost;
                        cutOf[index] = new Cut((short)x1, (short)x2, (short)y1, (short)y2);
                        if (atMost == bound[index])
                            return atMost;
                    }
                }

                if (workLeft <= 0)
                    return best[index];
            }
        }

        depthSearched[index] = (byte)depth;
        return best[index];
    }

    private void Lay(int a, int b, long x, long y, List<Box> cartons)
    {
        if (a < b)
        {
            // Solved lying the other way: lay it so, and swap the axes.
            var from = cartons.Count;
            Lay(b, a, y, x, cartons);
            for (var i = from; i < cartons.Count; i++)
                cartons[i] = cartons[i].Swapped;
            return;
        }

        var cut = cutOf[Index(a, b)];
        if (cut == default)
        {
            var (length, width) = Block(a, b, sums.CartonLength, sums.CartonWidth) >= Block(a, b, sums.CartonWidth, sums.CartonLength)
                ? (sums.CartonLength, sums.CartonWidth)
                : (sums.CartonWidth, sums.CartonLength);
            for (var i = 0L; i < sums[a] / length; i++)
            {
                for (var j = 0L; j < sums[b] / width; j++)
                    cartons.Add(new Box(x + i * length, y + j * width, length, width));
            }

            return;
        }

        Lay(cut.X1, sums.Difference(b, cut.Y1), x, y + sums[cut.Y1], cartons);
        Lay(cut.X2, cut.Y1, x, y, cartons);
        Lay(sums.Difference(a, cut.X1), sums.Difference(b, cut.Y2), x + sums[cut.X1], y + sums[cut.Y2], cartons);
        Lay(sums.Difference(a, cut.X2), cut.Y2, x + sums[cut.X2], y, cartons);
        Lay(sums.Difference(cut.X2, cut.X1), sums.Difference(cut.Y2, cut.Y1), x + sums[cut.X1], y + sums[cut.Y1], cartons);
    }
}
