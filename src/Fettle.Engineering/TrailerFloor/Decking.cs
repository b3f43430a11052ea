using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>
/// A second floor of beams that hang between tracks on a trailer's side walls. Not every trailer has the tracks, or the beams
/// along: ask. A beam's own plate says what it bears, and less of it when the load stands at mid-span.
/// </summary>
/// <param name="BeamRating">What one beam bears, spread over its length.</param>
/// <param name="BeamDepth">From the underside of a beam to the floor that it makes.</param>
/// <param name="Clearance">Air left between the freight below and the beams, to set them in and take them out.</param>
public sealed record Decking(Mass BeamRating, Length BeamDepth, Length Clearance)
{
    /// <summary>
    /// Common practice, no source: beams are commonly rated 2,000 to 3,000 lb (from memory), the lesser is taken; 4 in deep;
    /// 2 in of air.
    /// </summary>
    public static readonly Decking Common = new(Mass.FromPounds(2_000), Length.FromInches(4), Length.FromInches(2));

    /// <summary>What a pair of beams bears; whatever stands side by side at one place of the trailer shares a pair.</summary>
    public Mass PairRating => BeamRating * 2;

    /// <summary>What the second floor takes from the trailer's height.</summary>
    public Length Lost => BeamDepth + Clearance;

    /// <summary>
    /// The most that a unit on the deck may weigh with what rides on it: as large a share of a pair's rating as its narrower
    /// side is of the trailer's width. Units side by side are never wider than the trailer, so no pair is ever overloaded,
    /// however they stand; and no beam is loaded more at its middle than a spread load would.
    /// </summary>
    /// <param name="unitLength">One side of the unit; over zero.</param>
    /// <param name="unitWidth">The other side; over zero.</param>
    /// <param name="trailerWidth">Wall to wall.</param>
    public Mass MostFor(Length unitLength, Length unitWidth, Length trailerWidth) =>
        PairRating * Math.Min(1, Length.Min(unitLength, unitWidth) / trailerWidth);
}
