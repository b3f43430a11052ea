using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// A rectangle to be covered and the carton to cover it with, as whole numbers: nanometres divided by the greatest common
/// divisor of the carton's sides, so that ordinary sizes become small numbers (a 12 × 10 in carton is 6 × 5). The carton's
/// length is its longer side.
/// </summary>
internal readonly record struct Floor(long Length, long Width, long CartonLength, long CartonWidth, long Scale)
{
    /// <summary>Longer sides count as this (some two million kilometres), so that sums of sides never overflow.</summary>
    private const long Longest = long.MaxValue / 4;

    /// <summary>The rectangle and carton in whole numbers, or null when the carton does not fit either way.</summary>
    public static Floor? Of(Length length, Length width, Length cartonLength, Length cartonWidth)
    {
        var (l, w) = (Math.Min(length.Nanometres, Longest), Math.Min(width.Nanometres, Longest));
        var (cl, cw) = (Math.Max(cartonLength.Nanometres, cartonWidth.Nanometres), Math.Min(cartonLength.Nanometres, cartonWidth.Nanometres));
        if (cl > Math.Max(l, w) || cw > Math.Min(l, w))
            return null;
        var scale = GreatestCommonDivisor(cl, cw);
        return new Floor(l / scale, w / scale, cl / scale, cw / scale, scale);
    }

    /// <summary>The same rectangle lying the other way. Not public: a record prints its public properties, and this one has no end.</summary>
    internal Floor Swapped => this with { Length = Width, Width = Length };

    /// <summary>The two ways a carton can lie, as (side along the length, side along the width).</summary>
    public (long Along, long Across)[] Turns => [(CartonLength, CartonWidth), (CartonWidth, CartonLength)];

    /// <summary>Back to lengths, in order of x, then y, keeping the first <paramref name="count"/> cartons.</summary>
    public LayerPattern Pattern(IEnumerable<Box> cartons, int count, int bound)
    {
        var scale = Scale;
        Placement[] placements = [.. cartons.OrderBy(c => c.X).ThenBy(c => c.Y).Take(count).Select(c => new Placement(
            Units.Length.FromNanometres(c.X * scale),
            Units.Length.FromNanometres(c.Y * scale),
            Units.Length.FromNanometres(c.Length * scale),
            Units.Length.FromNanometres(c.Width * scale)))];
        return new LayerPattern(placements, bound, placements.Length == bound);
    }

    private static long GreatestCommonDivisor(long a, long b)
    {
        while (b != 0)
            (a, b) = (b, a % b);
        return a;
    }
}

/// <summary>A rectangle at a place, in the whole numbers of a <see cref="Floor"/>.</summary>
internal readonly record struct Box(long X, long Y, long Length, long Width)
{
    /// <summary>The same box with its two axes swapped. Not public: a record prints its public properties, and this one has no end.</summary>
    internal Box Swapped => new(Y, X, Width, Length);
}
