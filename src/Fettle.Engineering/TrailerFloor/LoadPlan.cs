using Fettle.Engineering.Axles;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>How many units are under one: a second floor of beams counts as one.</summary>
public enum LoadLevel
{
    Floor = 0,

    /// <summary>On another unit, or on the deck.</summary>
    Second = 1,

    /// <summary>On a unit that stands on another, or on the deck.</summary>
    Top = 2,
}

/// <summary>Where one unit stands in a trailer.</summary>
/// <param name="Kind">Index into the units that were asked for.</param>
/// <param name="Place">X along the trailer from the nose, Y across it from the left wall.</param>
/// <param name="Bottom">Of the unit above the floor.</param>
/// <param name="Height">Of the unit.</param>
/// <param name="Level">How many units or decks are under it.</param>
/// <param name="On">Index into the plan's positions of the unit that it stands on; null on the floor and on the deck.</param>
public readonly record struct LoadPosition(int Kind, Placement Place, Length Bottom, Length Height, LoadLevel Level, int? On)
{
    public Length Top => Bottom + Height;

    /// <summary>It stands on the beams.</summary>
    public bool IsOnDeck => Level == LoadLevel.Second && On is null;
}

/// <summary>Why a unit is not in the plan.</summary>
public enum LeftOutReason
{
    /// <summary>Higher than the trailer inside, or than its door.</summary>
    TooTall,

    /// <summary>Wider than the trailer inside or its door, in every stance it may take.</summary>
    TooWide,

    /// <summary>Longer than the trailer, in every stance that its width allows.</summary>
    TooLong,

    /// <summary>It would go in, but what goes in before it leaves no room.</summary>
    NoRoomLeft,
}

/// <summary>Units that a plan leaves on the dock.</summary>
/// <param name="Kind">Index into the units that were asked for.</param>
/// <param name="Count">How many of them.</param>
/// <param name="Reason">Why.</param>
public readonly record struct LeftOut(int Kind, int Count, LeftOutReason Reason);

/// <summary>A whole trailer, planned.</summary>
/// <param name="Trailer">The trailer.</param>
/// <param name="Units">The units that were asked for.</param>
/// <param name="Positions">One for each unit in the trailer; a unit comes after the one that it stands on.</param>
/// <param name="LeftOut">What does not go in, and why.</param>
/// <param name="LengthUsed">From the nose to the last unit's end, on the floor or on the deck.</param>
/// <param name="LowerBound">What the units in the plan take at least, however they are stacked and set by these rules.</param>
/// <param name="DeckHeight">Of the second floor above the first; null when there is none.</param>
public sealed record LoadPlan(
    Trailer Trailer,
    IReadOnlyList<LoadUnits> Units,
    IReadOnlyList<LoadPosition> Positions,
    IReadOnlyList<LeftOut> LeftOut,
    Length LengthUsed,
    Length LowerBound,
    Length? DeckHeight)
{
    /// <summary>Everything is in, and in no shorter length could it be.</summary>
    public bool IsOptimal => LeftOut.Count == 0 && LengthUsed == LowerBound;

    /// <summary>The trailer's length used, in feet; carriers round it as their tariff says.</summary>
    public double LinearFeet => LengthUsed.Feet;

    /// <summary>Share of the floor, nose to the last unit's end, that units standing on it cover, 0 to 1; zero for an empty trailer.</summary>
    public double FloorUsed => Positions.Where(p => p.Level == LoadLevel.Floor).Sum(p => p.Place.Length / LengthUsed * (p.Place.Width / Trailer.Width));

    /// <summary>Share of the whole trailer's room that the units' outside dimensions fill, 0 to 1.</summary>
    public double CubeUsed => Trailer.CubeUsed(Positions.Sum(p => Units[p.Kind].CubicFeet));

    /// <summary>All units in the plan together.</summary>
    public Mass Weight => Positions.Aggregate(Mass.Zero, (sum, p) => sum + Units[p.Kind].Weight);

    /// <summary>How the weight lies; null when nothing in the plan weighs anything. Each unit's weight is taken at its middle.</summary>
    public LoadBalance? Balance => Weight == Mass.Zero ? null : new(
        Weight,
        TractorTrailer.CentreOf(Positions.Select(p => (Units[p.Kind].Weight, p.Place.X + p.Place.Length / 2))),
        Positions.Sum(p => Units[p.Kind].Weight / Weight * LeftOf(p.Place)));

    /// <summary>The share of a unit that lies left of the trailer's middle.</summary>
    private double LeftOf(Placement place) => Math.Clamp((Trailer.Width / 2 - place.Y) / place.Width, 0, 1);
}

/// <summary>How the weight lies in a trailer. The driver and the carrier weigh and decide; this is arithmetic on declared weights.</summary>
/// <param name="Weight">Of the freight.</param>
/// <param name="Centre">Of the weight, behind the nose.</param>
/// <param name="LeftShare">Share of the weight left of the trailer's middle, 0 to 1.</param>
public sealed record LoadBalance(Mass Weight, Length Centre, double LeftShare)
{
    /// <summary>What the axles of a tractor and trailer carry with this freight.</summary>
    public AxleLoads On(TractorTrailer vehicle) => vehicle.Carrying(Weight, Centre);
}
