namespace Fettle.Engineering.Patterns;

/// <summary>
/// Numbers of cartons that no layer of a rectangle can exceed. Everything follows from how many carton lengths (i) and widths
/// (j) fit end to end along each side: two rectangles in which the same (i, j) fit hold the same layers (Dowsland 1984), and
/// one in which more fit holds at least as many, so a bound for it is a bound here. All arithmetic is in whole numbers.
/// </summary>
internal static class LayerBound
{
    /// <summary>Carton sides are replaced by whole numbers up to this when the bar bound is sought.</summary>
    private const int LongestBar = 64;

    /// <summary>Past this many cartons in one row only the area is counted.</summary>
    private const int MostInARow = 1_000;

    /// <summary>The measure bound of a floor; the plain area where cartons are too many to count their partitions.</summary>
    public static int Of(Floor floor)
    {
        var (length, width) = (floor.CartonLength, floor.CartonWidth);
        if (Math.Max(floor.Length, floor.Width) / width > MostInARow)
            return (int)Int128.Min(int.MaxValue, (Int128)floor.Length * floor.Width / ((Int128)length * width));
        return ByMeasure(Partitions.Of(floor.Length, length, width), Partitions.Of(floor.Width, length, width));
    }

    /// <summary>
    /// Give the carton's sides any sizes (u, v) along the deck and (s, t) across it such that all that fits end to end still
    /// adds up to at most 1 ("conservative scales", Fekete and Schepers 2004): then the measure u × t of the cartons one way
    /// and v × s of those the other way adds up to at most 1. For a total of N cartons each pair of scales leaves a range for
    /// how many lie the first way, and N is impossible when no whole number is in all of them. Only the corners of the set of
    /// scales matter. The area bound of every equivalent rectangle and Isermann's bound (1987) are among these.
    /// </summary>
    public static int ByMeasure(Partitions along, Partitions across)
    {
        if (along.MostLengths == 0 || across.MostLengths == 0)
        {
            // A carton's length does not fit along one side: all cartons lie one way.
            return (int)(along.MostLengths * across.MostWidths + along.MostWidths * across.MostLengths);
        }

        var least = long.MaxValue;
        foreach (var a in along.Scales)
        {
            foreach (var b in across.Scales)
            {
                var smaller = Math.Min(a.Length * b.Width, a.Width * b.Length);
                if (smaller > 0)
                    least = Math.Min(least, a.Whole * b.Whole / smaller);
            }
        }

        var most = (int)least;
        while (most > 0 && !Possible(most, along, across))
            most--;
        return most;
    }

    private static bool Possible(int cartons, Partitions along, Partitions across)
    {
        var range = new TurnRange(cartons);
        foreach (var a in along.Scales)
        {
            foreach (var b in across.Scales)
            {
                if (!range.Narrow(a.Length * b.Width, a.Width * b.Length, a.Whole * b.Whole))
                    return false;
            }
        }

        return true;
    }

    /// <summary>
    /// Barnes 1979 (Packing the maximum number of m × n tiles in a large p × q rectangle): each carton is a bundle of bars as
    /// long as one of its sides and one unit wide, and bars leave a waste that follows from the remainders alone. Tried for
    /// every carton of small whole sides on the rectangle in which all fits that fits here; ends early at
    /// <paramref name="enough"/>.
    /// </summary>
    public static int ByBars(Partitions along, Partitions across, int enough)
    {
        var bound = long.MaxValue;
        for (var width = 1L; width <= LongestBar; width++)
        {
            for (var length = width; length <= LongestBar; length++)
            {
                var (l, w) = (along.Side(length, width), across.Side(length, width));
                var waste = Math.Max(BarWaste(l, w, length), BarWaste(l, w, width));
                bound = Math.Min(bound, (l * w - waste) / (length * width));
                if (bound <= enough)
                    return (int)bound;
            }
        }

        return (int)bound;
    }

    private static long BarWaste(long length, long width, long bar)
    {
        var r = length % bar;
        var s = width % bar;
        return Math.Min(r * s, (bar - r) * (bar - s));
    }
}

/// <summary>Of a number of cartons, how many may lie with their length along the deck; narrowed by one measure after another.</summary>
internal struct TurnRange(int cartons)
{
    private long least;
    private long greatest = cartons;

    /// <summary>Takes in n × along + (cartons − n) × across ≤ whole. False when no n is left.</summary>
    public bool Narrow(long along, long across, long whole)
    {
        var room = whole - cartons * across;
        if (along > across)
            greatest = room < 0 ? -1 : Math.Min(greatest, room / (along - across));
        else if (along < across)
            least = room >= 0 ? least : Math.Max(least, (across - along - 1 - room) / (across - along));
        else if (room < 0)
            greatest = -1;
        return least <= greatest;
    }
}
