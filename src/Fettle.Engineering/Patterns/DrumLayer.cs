using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// Round drums or rolls standing on a rectangle, in straight rows or in staggered ones, each row set into the gaps of the
/// one before: the two layouts that docks use. Denser ones exist for large numbers and are not looked for.
/// </summary>
public static class DrumLayer
{
    /// <summary>A thousand-millionth part covers a diameter kept in whole nanometres.</summary>
    private const double Boundary = 1e-9;

    /// <summary>Rows of staggered circles are √3 / 2 diameters apart.</summary>
    private static readonly double RowPitch = Math.Sqrt(3) / 2;

    /// <summary>The most that stand on the rectangle in either layout, rows along the length or along the width; 0 when none does.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The diameter is zero or negative.</exception>
    public static int Most(Length length, Length width, Length diameter)
    {
        Require.Positive(diameter.Metres, nameof(diameter));
        var (along, across) = (length / diameter, width / diameter);
        return along < 1 - Boundary || across < 1 - Boundary
            ? 0
            : Math.Max(Whole(along) * Whole(across), Math.Max(Staggered(along, across), Staggered(across, along)));
    }

    /// <summary>Sides in diameters, rows along the first: every other row is half a diameter further on and may hold one less.</summary>
    private static int Staggered(double along, double across)
    {
        var rows = 1 + Whole((across - 1) / RowPitch);
        var full = Whole(along);
        var shifted = Whole(along - 0.5);
        return ((rows + 1) / 2 * full) + (rows / 2 * shifted);
    }

    /// <summary>Capped far above any floor, so that the product of two stays a whole number.</summary>
    private static int Whole(double diameters) => (int)Math.Min(10_000, Math.Floor(Math.Max(0, diameters) + Boundary));
}
