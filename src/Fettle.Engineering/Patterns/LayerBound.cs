namespace Fettle.Engineering.Patterns;

/// <summary>Numbers of cartons that no layer of a rectangle can exceed. All lengths in one unit; sides not negative, carton sides positive.</summary>
internal static class LayerBound
{
    /// <summary>The lesser of the area bound and the bar bound.</summary>
    public static int Of(long length, long width, long cartonLength, long cartonWidth)
    {
        if (Math.Min(length, width) < Math.Min(cartonLength, cartonWidth))
            return 0;
        // Past this, products leave the range of a long.
        const long Wide = 3_000_000_000;
        return Math.Max(length, width) < Wide && Math.Max(cartonLength, cartonWidth) < Wide
            ? Narrow(length, width, cartonLength, cartonWidth)
            : (int)Int128.Min(int.MaxValue, (Int128)length * width / ((Int128)cartonLength * cartonWidth));
    }

    /// <summary>
    /// Barnes 1979 (Packing the maximum number of m × n tiles in a large p × q rectangle): each carton is a bundle of bars as
    /// long as one of its sides and one unit wide, and bars leave a waste that follows from the remainders alone. What is left
    /// must besides be the area less a whole number of cartons.
    /// </summary>
    private static int Narrow(long length, long width, long cartonLength, long cartonWidth)
    {
        var area = length * width;
        var carton = cartonLength * cartonWidth;
        var waste = Math.Max(BarWaste(length, width, cartonLength), BarWaste(length, width, cartonWidth));
        return (int)Math.Min(int.MaxValue, waste >= area ? 0 : (area - waste) / carton);
    }

    private static long BarWaste(long length, long width, long bar)
    {
        var r = length % bar;
        var s = width % bar;
        return Math.Min(r * s, (bar - r) * (bar - s));
    }
}
