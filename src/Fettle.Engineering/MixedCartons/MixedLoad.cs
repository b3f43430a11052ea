using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>Where one carton of a mixed load stands. X runs along the deck, Y across it, Z up from it.</summary>
/// <param name="Kind">Index into the kinds that were asked for.</param>
/// <param name="X">From the deck's end to the carton's nearest corner.</param>
/// <param name="Y">From the deck's side to the carton's nearest corner.</param>
/// <param name="Z">From the deck up to what it stands on.</param>
/// <param name="Length">Its extent along the deck.</param>
/// <param name="Width">Its extent across the deck.</param>
/// <param name="Height">Its extent upwards.</param>
/// <param name="Down">The face that it stands on.</param>
/// <param name="Turned">The carton's length (its width when it stands on its end) lies across the deck.</param>
/// <param name="Support">Share of its base on the deck or on cartons, 0 to 1.</param>
/// <param name="Bears">Weight that rests on it.</param>
public readonly record struct PlacedCarton(
    int Kind, Length X, Length Y, Length Z, Length Length, Length Width, Length Height, CartonFace Down, bool Turned, double Support, Force Bears);

/// <summary>Why cartons found no place.</summary>
public enum LeftOutReason
{
    /// <summary>The carton alone is longer, wider or higher than the room, however it may stand.</summary>
    TooLarge,

    /// <summary>One more would pass the greatest mass.</summary>
    Weight,

    /// <summary>There is room, but what stands below would bear too much.</summary>
    Strength,

    /// <summary>No place was found that is free and well enough supported.</summary>
    Room,

    /// <summary>The search ended before these were tried: far more cartons than a pallet takes.</summary>
    NotTried,
}

/// <summary>Cartons of a kind that were not placed.</summary>
/// <param name="Kind">Index into the kinds that were asked for.</param>
/// <param name="Count">One or more.</param>
/// <param name="Reason">Why the next of them found no place.</param>
public readonly record struct LeftOut(int Kind, int Count, LeftOutReason Reason);

/// <summary>Cartons of several kinds on one deck.</summary>
/// <param name="Cartons">In an order in which they can be put down from above.</param>
/// <param name="LeftOut">What was not placed, by kind; empty when all is on.</param>
/// <param name="Height">Of the cartons above the deck.</param>
/// <param name="Centre">Mass of the cartons, and where it acts above the deck and from its middle; null for an empty deck.</param>
/// <param name="Levels">How many different heights cartons stand at; the number of layers when all layers are full.</param>
/// <param name="AreaUsed">Share of the deck that cartons stand on, 0 to 1.</param>
/// <param name="CubeUsed">Share of the room over the deck that cartons fill, 0 to 1.</param>
/// <param name="FlatTop">Share of the deck over which the load ends at <paramref name="Height"/>, 0 to 1: what a unit on top would stand on.</param>
public sealed record MixedLoad(
    IReadOnlyList<PlacedCarton> Cartons,
    IReadOnlyList<LeftOut> LeftOut,
    Length Height,
    CentreOfGravity? Centre,
    int Levels,
    double AreaUsed,
    double CubeUsed,
    double FlatTop)
{
    /// <summary>Every carton found a place.</summary>
    public bool IsWhole => LeftOut.Count == 0;
}
