using Fettle.Engineering.Units;

namespace Fettle.Readiness.Declarations;

/// <summary>Anything that is moved as one piece. One line of a declaration stands for <see cref="Quantity"/> identical ones.</summary>
public sealed record HandlingUnit
{
    /// <summary>A name is at most this long.</summary>
    public const int LongestReference = 30;

    /// <summary>A line stands for at most this many.</summary>
    public const int MostAlike = 999;

    /// <summary>The shipper's own name for the line, unique within the pickup: "A1".</summary>
    public required string Reference { get; init; }

    /// <summary>How many identical units the line stands for, 1 to <see cref="MostAlike"/>.</summary>
    public required int Quantity { get; init; }

    public required HandlingUnitKind Kind { get; init; }

    /// <summary>What the load stands on; null for a loose carton or a crate that has its own feet.</summary>
    public Platform? Platform { get; init; }

    /// <summary>Greatest outside dimensions, platform and everything that sticks out included.</summary>
    public required Dimensions Outer { get; init; }

    /// <summary>Scale weight, platform included.</summary>
    public required Mass GrossWeight { get; init; }

    public required Contents Contents { get; init; }

    /// <summary>The shipper says that other freight may ride on top.</summary>
    public bool Stackable { get; init; }

    public Protection Protection { get; init; } = Protection.None;

    public Fragility Fragile { get; init; }
}

public enum HandlingUnitKind
{
    Pallet,
    Crate,
    LooseCarton,
}

public enum Fragility
{
    None,
    Glass,
    Ceramics,
    Liquid,
    Eggs,
    Other,
}

/// <summary>Length is the side along the trailer when the unit is loaded straight; width lies across it.</summary>
public sealed record Dimensions(Length Length, Length Width, Length Height);

/// <summary>The pallet, platform or deck under the load (a skid is the same thing).</summary>
/// <param name="Length">Deck length: along the stringers, so that forks enter under the two ends of this length.</param>
/// <param name="Width">Deck width.</param>
/// <param name="Height">Height of the empty platform.</param>
/// <param name="Tare">Weight of the empty platform.</param>
/// <param name="Rating">What its maker rates it to carry; null when unknown.</param>
public sealed record Platform(Length Length, Length Width, Length Height, Mass Tare, PlatformMaterial Material, Mass? Rating);

public enum PlatformMaterial
{
    Wood,
    Plastic,
    Metal,
    Paperboard,
}
