using Fettle.Engineering.Units;

namespace Fettle.Engineering.Densities;

/// <summary>
/// How a carrier counts the size of freight that takes more room than it fills. Tariffs differ, so each carrier has its own;
/// see docs/engineering/density-and-class.md.
/// </summary>
/// <param name="NothingOnTop">
/// Counted height of freight on which nothing can be loaded (declared so, pyramided, cones): seen as 96 in and as 84 in. Null:
/// as measured.
/// </param>
/// <param name="NothingOnTopIfLow">Counted height instead when the freight is no taller than this: seen as 48 in. Null: no such step.</param>
/// <param name="WideFrom">From this width on freight counts as filling the trailer's: seen as 70 in. Null: never.</param>
/// <param name="WideAs">The width it then counts as: seen as 96 in.</param>
public sealed record CountedSize(Length? NothingOnTop = null, Length? NothingOnTopIfLow = null, Length? WideFrom = null, Length? WideAs = null)
{
    /// <summary>Sizes count as measured.</summary>
    public static readonly CountedSize AsMeasured = new();

    /// <summary>The height that counts; never less than measured.</summary>
    /// <param name="height">As measured.</param>
    /// <param name="nothingOnTop">Whether nothing can be loaded on the freight.</param>
    public Length Height(Length height, bool nothingOnTop) => nothingOnTop
        ? Length.Max(height, (NothingOnTopIfLow is { } low && height <= low ? low : NothingOnTop) ?? height)
        : height;

    /// <summary>The width that counts; never less than measured. Whether something can be loaded on top plays no part.</summary>
    public Length Width(Length width) => WideFrom is { } from && width >= from ? Length.Max(width, WideAs ?? width) : width;

    /// <summary>The density that counts.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A dimension is zero or negative, or the mass is negative.</exception>
    public Density Density(Mass mass, Length length, Length width, Length height, bool nothingOnTop) =>
        Units.Density.Of(mass, length, Width(width), Height(height, nothingOnTop));
}
