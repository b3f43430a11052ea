namespace Fettle.Engineering.Patterns;

/// <summary>
/// The lengths that whole cartons can make end to end: i × carton length + j × carton width, from 0 up to a side of the
/// rectangle ("conic combinations", Herz 1972; Christofides and Whitlock 1977). Pushing every carton of a layer towards one
/// corner puts all its edges on these lengths, so a search needs no other cuts, and a rectangle between two of them holds no
/// more than the lesser one. Lengths are named by their rank in the sorted list, which keeps the search free of units.
/// </summary>
internal sealed class CartonSums
{
    private readonly long[] sums;
    private readonly short[] difference;
    private readonly short[]?[] raster;

    private CartonSums(long[] sums)
    {
        this.sums = sums;
        raster = new short[sums.Length][];
        difference = new short[sums.Length * sums.Length];
        for (var a = 0; a < sums.Length; a++)
        {
            // As b grows, a - b shrinks: one sweep instead of a search for each.
            var rank = a;
            for (var b = 0; b <= a; b++)
            {
                while (sums[rank] > sums[a] - sums[b])
                    rank--;
                difference[a * sums.Length + b] = (short)rank;
            }
        }
    }

    /// <summary>How many lengths there are; ranks run from 0 to this less one.</summary>
    public int Count => sums.Length;

    /// <summary>The length of a rank.</summary>
    public long this[int rank] => sums[rank];

    /// <summary>The rank of the longest sum not over <c>this[a] - this[b]</c>; needs b not above a.</summary>
    public int Difference(int a, int b) => difference[a * sums.Length + b];

    /// <summary>The rank of the longest sum not over <paramref name="length"/>.</summary>
    public int RankOf(long length)
    {
        var at = Array.BinarySearch(sums, length);
        return at >= 0 ? at : ~at - 1;
    }

    /// <summary>
    /// The cuts worth trying across a side: of the sums, those that remain when each is pushed as far as it will go
    /// ("raster points", Scheithauer and Terno 1996). Sorted, from 0 to the side itself.
    /// </summary>
    public ReadOnlySpan<short> CutsOf(int side)
    {
        if (raster[side] is { } known)
            return known;
        var cuts = new List<short>(side + 1);
        for (var b = side; b >= 0; b--)
        {
            var cut = (short)Difference(side, b);
            if (cuts.Count == 0 || cuts[^1] != cut)
                cuts.Add(cut);
        }

        return raster[side] = [.. cuts];
    }

    /// <summary>The sums of two lengths up to a side, or null when there are more than <paramref name="limit"/> of them.</summary>
    public static CartonSums? UpTo(long side, long length, long width, int limit)
    {
        var found = new HashSet<long>();
        for (var i = 0L; i <= side; i += length)
        {
            for (var sum = i; sum <= side; sum += width)
            {
                if (found.Add(sum) && found.Count > limit)
                    return null;
            }
        }

        long[] sorted = [.. found];
        Array.Sort(sorted);
        return new CartonSums(sorted);
    }
}
