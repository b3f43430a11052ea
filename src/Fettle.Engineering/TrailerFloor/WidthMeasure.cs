namespace Fettle.Engineering.TrailerFloor;

/// <summary>
/// Sizes that stand in for the units' widths so that whatever fits side by side adds up to at most 1 ("conservative scales",
/// Fekete and Schepers 2004). A unit's size times its length is its measure, and no floor of length L holds more measure than
/// L: not in all, and not behind what already stands there.
/// </summary>
internal sealed class WidthMeasure
{
    /// <summary>With more ways to stand side by side than this the linear programme is left out.</summary>
    private const int MostRows = 2_000;

    private readonly Strip strip;
    private readonly double[] size;
    private readonly double[] least;
    private readonly double[]? room;

    private WidthMeasure(Strip strip, double[] size)
    {
        this.strip = strip;
        this.size = size;
        if (strip.AcrossSums is { } sums)
        {
            room = RoomOf(strip, sums, size);
            // Rounding must not let a full row come to more than 1.
            var full = room[^1] * (1 + 1e-12);
            for (var s = 0; s < size.Length; s++)
                size[s] /= full;
            for (var k = 0; k < room.Length; k++)
                room[k] /= full;
        }

        least = new double[strip.Counts.Length];
        Array.Fill(least, double.MaxValue);
        for (var s = 0; s < size.Length; s++)
            least[strip.Stances[s].Kind] = Math.Min(least[strip.Stances[s].Kind], size[s] * strip.Stances[s].Along);
    }

    /// <summary>The least measure that a unit of a kind can have.</summary>
    public double LeastOf(int kind) => least[kind];

    /// <summary>The length that all units take at least.</summary>
    public double Total => Enumerable.Range(0, least.Length).Sum(k => strip.Counts[k] * least[k]);

    /// <summary>The most size that fits side by side in a width.</summary>
    public double Room(long width)
    {
        if (room is null)
            return width / (double)strip.Width;
        var at = Array.BinarySearch(strip.AcrossSums!, width);
        return room[at >= 0 ? at : ~at - 1];
    }

    /// <summary>Plain width, and the sizes under which the units take most length.</summary>
    public static IReadOnlyList<WidthMeasure> All(Strip strip)
    {
        var plain = new WidthMeasure(strip, [.. strip.Stances.Select(s => s.Across / (double)strip.Width)]);
        return Steepest(strip) is { } sizes ? [plain, new WidthMeasure(strip, sizes)] : [plain];
    }

    private static double[] RoomOf(Strip strip, long[] sums, double[] size)
    {
        var room = new double[sums.Length];
        for (var k = 1; k < sums.Length; k++)
        {
            for (var s = 0; s < size.Length; s++)
            {
                var rest = sums[k] - strip.Stances[s].Across;
                if (rest < 0)
                    continue;
                var at = Array.BinarySearch(sums, rest);
                room[k] = Math.Max(room[k], room[at >= 0 ? at : ~at - 1] + size[s]);
            }
        }

        return room;
    }

    /// <summary>
    /// The sizes with the greatest total measure, by linear programme: a size for each width, a measure for each kind not
    /// above that of any of its stances, and every full row side by side at most 1.
    /// </summary>
    private static double[]? Steepest(Strip strip)
    {
        long[] widths = [.. strip.Stances.Select(s => s.Across).Distinct().OrderDescending()];
        int[] kinds = [.. strip.Stances.Select(s => s.Kind).Distinct()];
        if (strip.AcrossSums is null || FullRows(strip, widths) is not { } patterns)
            return null;
        var (rows, limits) = (new List<double[]>(), new List<double>());
        var variables = widths.Length + kinds.Length;
        foreach (var pattern in patterns)
        {
            var row = new double[variables];
            for (var w = 0; w < widths.Length; w++)
                row[w] = pattern[w];
            rows.Add(row);
            limits.Add(1);
        }

        // Lengths as shares of the longest, to keep the numbers of one order.
        var longest = (double)strip.Stances.Max(s => s.Along);
        foreach (var stance in strip.Stances)
        {
            var row = new double[variables];
            row[widths.Length + Array.IndexOf(kinds, stance.Kind)] = 1;
            row[Array.IndexOf(widths, stance.Across)] = -stance.Along / longest;
            rows.Add(row);
            limits.Add(0);
        }

        var gain = new double[variables];
        for (var k = 0; k < kinds.Length; k++)
            gain[widths.Length + k] = strip.Counts[kinds[k]];
        var x = LinearProgramme.Maximise(rows, limits, gain);
        double[] sizes = [.. strip.Stances.Select(s => x[Array.IndexOf(widths, s.Across)])];
        return sizes.All(s => s == 0) ? null : sizes;
    }

    /// <summary>How many of each width stand side by side in every row to which nothing can be added.</summary>
    private static List<int[]>? FullRows(Strip strip, long[] widths)
    {
        int[] available = [.. widths.Select(w => strip.Stances.Where(s => s.Across == w).Select(s => s.Kind).Distinct().Sum(k => strip.Counts[k]))];
        var rows = new List<int[]>();
        var row = new int[widths.Length];
        var tried = 0;
        return Add(0, strip.Width) ? rows : null;

        bool Add(int from, long free)
        {
            if (from == widths.Length)
            {
                if (++tried > 20 * MostRows)
                    return false;
                for (var w = 0; w < widths.Length; w++)
                {
                    if (row[w] < available[w] && widths[w] <= free)
                        return true;
                }

                rows.Add([.. row]);
                return rows.Count <= MostRows;
            }

            for (var count = (int)Math.Min(available[from], free / widths[from]); count >= 0; count--)
            {
                row[from] = count;
                if (!Add(from + 1, free - count * widths[from]))
                    return false;
            }

            row[from] = 0;
            return true;
        }
    }
}
