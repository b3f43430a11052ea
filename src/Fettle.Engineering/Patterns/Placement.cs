using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// Where one carton of a layer lies. <paramref name="X"/> runs along the deck's length and <paramref name="Y"/> along its
/// width, both from one corner of the deck (or of the footprint) to the carton's nearest corner.
/// </summary>
/// <param name="X">Along the deck's length; negative when the carton hangs over that end.</param>
/// <param name="Y">Along the deck's width; negative when the carton hangs over that side.</param>
/// <param name="Length">The carton's side that lies along the deck's length.</param>
/// <param name="Width">The carton's side that lies along the deck's width.</param>
public readonly record struct Placement(Length X, Length Y, Length Length, Length Width)
{
    /// <summary>The far end along the deck's length.</summary>
    public Length Right => X + Length;

    /// <summary>The far side along the deck's width.</summary>
    public Length Top => Y + Width;

    /// <summary>The same carton moved by the given amounts.</summary>
    public Placement MovedBy(Length x, Length y) => this with { X = X + x, Y = Y + y };
}
