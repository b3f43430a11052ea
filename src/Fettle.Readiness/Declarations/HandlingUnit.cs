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

    /// <summary>What is fragile is kept apart inside its carton: dividers, trays or cells.</summary>
    public bool Partitions { get; init; }

    /// <summary>What the top of the load is like. An unfinished top layer of cartons is known from the contents.</summary>
    public TopSurface TopSurface { get; init; }

    /// <summary>What the shipper asks the carrier to do for it.</summary>
    public Requests Requests { get; init; } = Requests.None;

    /// <summary>Declared by the shipper as a hazardous material. Fettle does not classify.</summary>
    public bool Hazardous { get; init; }

    /// <summary>Has to be kept within a temperature range.</summary>
    public bool TemperatureControlled { get; init; }

    /// <summary>Name of the trained person who confirmed how regulated goods are packed, marked and papered; null when nobody did.</summary>
    public string? ConfirmedBy { get; init; }

    /// <summary>Freight class on the shipper's papers; null when none is given.</summary>
    public decimal? DeclaredClass { get; init; }

    /// <summary>Who built the unit, so that the right person is shown the right habit; null when not told.</summary>
    public string? BuiltBy { get; init; }
}

public enum HandlingUnitKind
{
    Pallet,
    Crate,
    LooseCarton,

    /// <summary>One drum by itself.</summary>
    Drum,

    /// <summary>One thing without platform or crate: a sofa, a machine on its own feet.</summary>
    Piece,
}

public enum TopSurface
{
    Flat,

    /// <summary>Not level: parts stick up, or the load slopes.</summary>
    Uneven,

    /// <summary>Narrower at the top than below.</summary>
    Pyramid,
}

/// <summary>What the shipper asks of the carrier. A request is not yet a promise that it is done.</summary>
/// <param name="Decking">To ride on or under a second floor of beams, so that nothing is put on top.</param>
/// <param name="Airbags">Dunnage bags in the gaps beside it.</param>
/// <param name="NoTopLoad">Nothing on top.</param>
/// <param name="Strap">A strap to the trailer's wall.</param>
/// <param name="Bulkhead">A panel or load bar against it.</param>
public sealed record Requests(bool Decking = false, bool Airbags = false, bool NoTopLoad = false, bool Strap = false, bool Bulkhead = false)
{
    public static readonly Requests None = new();
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
public sealed record Platform(Length Length, Length Width, Length Height, Mass Tare, PlatformMaterial Material, Mass? Rating)
{
    public ForkEntry Entry { get; init; }

    public PlatformCondition Condition { get; init; }

    /// <summary>Treatment mark on the wood (ISPM 15); <see cref="TreatmentMark.None"/> when there is none.</summary>
    public TreatmentMark TreatmentMark { get; init; }
}

public enum ForkEntry
{
    /// <summary>Forks enter under all four sides; pallet trucks perhaps only at the ends.</summary>
    FourWay,

    /// <summary>Forks enter at the ends of the deck's length only.</summary>
    TwoWay,
}

public enum PlatformCondition
{
    Sound,

    /// <summary>Repaired or worn, all boards there and firm.</summary>
    Worn,

    /// <summary>A board, block or stringer broken or gone, or nails that stand out.</summary>
    Damaged,
}

/// <summary>Treatment of raw wood, as marked after ISPM 15.</summary>
public enum TreatmentMark
{
    None,

    /// <summary>Heat treated.</summary>
    HT,

    /// <summary>Methyl bromide.</summary>
    MB,

    /// <summary>Dielectric heating.</summary>
    DH,

    /// <summary>Sulphuryl fluoride.</summary>
    SF,
}

public enum PlatformMaterial
{
    Wood,
    Plastic,
    Metal,
    Paperboard,
}
