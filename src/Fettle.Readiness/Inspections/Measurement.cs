using System.Text.Json.Serialization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Inspections;

/// <summary>
/// What was measured on the floor. Null is what nobody measured: it is compared with nothing, and stays as declared.
/// </summary>
public sealed record Measurement
{
    /// <summary>Greatest outside length, platform and everything that sticks out included.</summary>
    public Length? Length { get; init; }

    public Length? Width { get; init; }

    public Length? Height { get; init; }

    /// <summary>Scale reading, platform included.</summary>
    public Mass? GrossWeight { get; init; }

    /// <summary>The most that the load goes past the deck at either end of its length, where forks enter.</summary>
    public Length? OverhangAtEnds { get; init; }

    /// <summary>The same at either side.</summary>
    public Length? OverhangAtSides { get; init; }

    /// <summary>Full turns of film at the thinnest place.</summary>
    public int? WrapTurns { get; init; }

    /// <summary>The film comes down over the platform.</summary>
    public bool? WrapOverPlatform { get; init; }

    public CornerBoards? CornerBoards { get; init; }

    /// <summary>Nothing was measured: somebody looked.</summary>
    [JsonIgnore]
    public bool IsEmpty => this == new Measurement();
}

/// <summary>Harm that was seen.</summary>
/// <param name="Note">In the reviewer's words; null when the kind says it all.</param>
public sealed record SeenDamage(DamageKind Kind, DamageSpot Where, string? Note);

public enum DamageKind
{
    Crushed,
    Torn,

    /// <summary>A hole, as from a fork.</summary>
    Pierced,
    Wet,
    Leaking,

    /// <summary>The load leans, or has moved on its deck.</summary>
    Shifted,
    BrokenPlatform,
    Other,
}

public enum DamageSpot
{
    Top,

    /// <summary>An end of the deck's length, where forks enter.</summary>
    End,
    Side,
    Corner,
    Bottom,
    AllOver,
}

/// <summary>Whether another unit was set on top for a trial.</summary>
public enum StackTest
{
    NotTried,
    Held,
    Failed,
}
