namespace Fettle.Engineering.Patterns;

/// <summary>
/// What fits end to end along one side: every (i, j) with i carton lengths and j carton widths not longer than the side. Kept
/// as the corners of their convex hull, which is all that bounds need.
/// </summary>
internal sealed class Partitions
{
    private readonly (long I, long J)[] corners;

    private Partitions((long I, long J)[] corners, Scale[] scales)
    {
        this.corners = corners;
        Scales = scales;
    }

    /// <summary>Sizes for a carton's length and width such that no partition adds up to more than the whole; the corners of the set of all such.</summary>
    public readonly record struct Scale(long Length, long Width, long Whole);

    public Scale[] Scales { get; }

    /// <summary>Carton lengths that fit end to end.</summary>
    public long MostLengths => corners[^1].I;

    /// <summary>Carton widths that fit end to end.</summary>
    public long MostWidths => corners[0].J;

    /// <summary>The shortest side along which all partitions fit, for a carton of other sizes.</summary>
    public long Side(long cartonLength, long cartonWidth)
    {
        var side = 0L;
        foreach (var (i, j) in corners)
            side = Math.Max(side, i * cartonLength + j * cartonWidth);
        return side;
    }

    /// <summary>The partitions of a side; the carton's width must be its shorter side.</summary>
    public static Partitions Of(long side, long cartonLength, long cartonWidth)
    {
        // The upper right hull of the points (i, most j for i), from i = 0 rightwards.
        var hull = new List<(long I, long J)>();
        for (var i = 0L; i * cartonLength <= side; i++)
        {
            var point = (I: i, J: (side - i * cartonLength) / cartonWidth);
            while (hull.Count >= 2 && Turn(hull[^2], hull[^1], point) >= 0)
                hull.RemoveAt(hull.Count - 1);
            hull.Add(point);
        }

        var scales = new List<Scale>();
        for (var k = 1; k < hull.Count; k++)
        {
            var (a, b) = (hull[k - 1], hull[k]);
            // The line through both corners. It always falls: one length more leaves room for at least one width less.
            scales.Add(new Scale(a.J - b.J, b.I - a.I, a.J * b.I - a.I * b.J));
        }

        if (hull[^1].I > 0 && hull[^1].J > 0)
            scales.Add(new Scale(1, 0, hull[^1].I));
        return new Partitions([.. hull], [.. scales]);
    }

    private static long Turn((long I, long J) a, (long I, long J) b, (long I, long J) c) =>
        (b.I - a.I) * (c.J - a.J) - (b.J - a.J) * (c.I - a.I);
}
