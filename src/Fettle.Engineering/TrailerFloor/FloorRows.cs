using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>How identical units are commonly set on a floor.</summary>
public enum RowPattern
{
    /// <summary>Long sides along the trailer, side by side across it.</summary>
    Straight,

    /// <summary>One lane with long sides along the trailer, the other with long sides across it.</summary>
    Pinwheeled,

    /// <summary>Long sides across the trailer, side by side.</summary>
    Turned,
}

/// <summary>Identical units in rows.</summary>
public static class FloorRows
{
    /// <summary>How many units a floor takes in a pattern; 0 when the pattern does not fit across it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A side that is not over zero.</exception>
    public static int Count(Trailer trailer, Length unitLength, Length unitWidth, RowPattern pattern)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unitLength, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unitWidth, Length.Zero);
        var (longSide, shortSide) = (Length.Max(unitLength, unitWidth), Length.Min(unitLength, unitWidth));
        return pattern switch
        {
            RowPattern.Straight => Times(trailer.Width, shortSide) * Times(trailer.Length, longSide),
            RowPattern.Pinwheeled => longSide + shortSide <= trailer.Width ? Times(trailer.Length, longSide) + Times(trailer.Length, shortSide) : 0,
            RowPattern.Turned => Times(trailer.Width, longSide) * Times(trailer.Length, shortSide),
        };
    }

    /// <summary>
    /// The trailer's length that rows take: as many rows as needed, each as long as the side along the trailer. Null when not
    /// even one unit fits across.
    /// </summary>
    /// <param name="count">Units; zero or more.</param>
    /// <param name="alongTrailer">The units' side along the trailer; over zero.</param>
    /// <param name="acrossTrailer">The units' side across it; over zero.</param>
    /// <param name="trailerWidth">Wall to wall.</param>
    public static Length? LengthTaken(int count, Length alongTrailer, Length acrossTrailer, Length trailerWidth)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(alongTrailer, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(acrossTrailer, Length.Zero);
        var across = Times(trailerWidth, acrossTrailer);
        return across == 0 ? null : alongTrailer * ((count + across - 1) / across);
    }

    // Dust makes more rows than matter: no more are counted than have a product that a whole number holds.
    private static int Times(Length whole, Length part) => (int)Math.Min(40_000, whole.Nanometres / part.Nanometres);
}
