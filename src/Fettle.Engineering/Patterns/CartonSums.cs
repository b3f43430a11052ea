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
    private readonly Partitions?[] partitions;

    private CartonSums(long[] sums, long cartonLength, long cartonWidth)
    {
        this.sums = sums;
        CartonLength = cartonLength;
        CartonWidth = cartonWidth;
        raster = new short[sums.Length][];
        partitions = new Partitions[sums.Length];
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

    /// <summary>The carton's longer side.</summary>
    public long CartonLength { get; }

    /// <summary>The carton's shorter side.</summary>
    public long CartonWidth { get; }

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

    /// <summary>What fits end to end along a side.</summary>
    public Partitions PartitionsOf(int side) =>
        partitions[side] ??= Partitions.Of(sums[side], CartonLength, CartonWidth);

    /// <summary>The sums of a carton's sides up to a side, or null when there are more than <paramref name="limit"/> of them.</summary>
    public static CartonSums? UpTo(long side, long cartonLength, long cartonWidth, int limit)
    {
        // Equal sums come up more than once (5 × 12 = 6 × 10); so many of them that none of the distinct ones are over the limit are too many too.
        var found = new List<long>();
        for (var i = 0L; i <= side; i += cartonLength)
        {
            for (var sum = i; sum <= side; sum += cartonWidth)
            {
                found.Add(sum);
                if (found.Count > limit * 100)
                    return null;
            }
        }

        found.Sort();
        var count = 0;
        for (var k = 0; k < found.Count; k++)
        {
            if (count == 0 || found[count - 1] != found[k])
                found[count++] = found[k];
        }

        return count > limit ? null : new CartonSums([.. found[..count]], cartonLength, cartonWidth);
    }
}
