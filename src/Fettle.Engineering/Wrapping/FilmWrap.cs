using Fettle.Engineering.Units;

namespace Fettle.Engineering.Wrapping;

/// <summary>
/// Stretch film wound round a load in a spiral. Geometry only: each turn is counted as level, which leaves out less than
/// half a percent of film on ordinary loads. See docs/engineering/stretch-wrap.md.
/// </summary>
/// <param name="FilmWidth">Width of the film on the load, above zero.</param>
/// <param name="Overlap">Share of the width that each turn laps over the one before, 0 to under 1; half is common practice.</param>
/// <param name="Passes">Times the spiral runs over the whole height, one or more; up and down is two.</param>
/// <param name="BottomTurns">Level turns at the bottom, over load and platform, beside the spiral.</param>
/// <param name="TopTurns">Level turns at the top beside the spiral.</param>
public sealed record FilmWrap(Length FilmWidth, double Overlap, int Passes, int BottomTurns, int TopTurns)
{
    /// <summary>Twice round at the least (common practice, no source).</summary>
    public const int LeastLayers = 2;

    /// <summary>How far film should come down over the platform: 2 to 4 in (common practice, no source).</summary>
    public static readonly Length LeastOverPlatform = Length.FromInches(2);

    /// <summary>A film lapping half its width, up and down, two turns below and above: common practice, no source.</summary>
    public static readonly FilmWrap Common = new(Length.FromInches(20), Overlap: 0.5, Passes: 2, BottomTurns: 2, TopTurns: 2);

    private const double Boundary = 1e-9;

    /// <summary>The fewest layers of film anywhere between the ends: passes × the whole layers that the overlap makes.</summary>
    public int Layers => Require.AtLeast(1, Passes) * (int)Math.Floor((1 / (1 - CheckedOverlap)) + Boundary);

    /// <summary>Turns of one pass that cover a height from edge to edge.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public int TurnsToCover(Length height)
    {
        Require.Positive(height.Metres, nameof(height));
        var width = Require.Positive(FilmWidth.Metres, nameof(FilmWidth));
        var climbed = (height.Metres - width) / (width * (1 - CheckedOverlap));
        return 1 + (int)Math.Ceiling(Math.Max(0, climbed - Boundary));
    }

    /// <summary>All turns round the load.</summary>
    public int Turns(Length height) =>
        (Require.AtLeast(1, Passes) * TurnsToCover(height)) + Require.AtLeast(0, BottomTurns) + Require.AtLeast(0, TopTurns);

    /// <summary>Film on the load: turns × the way round it.</summary>
    /// <param name="loadLength">Length of the load.</param>
    /// <param name="loadWidth">Width of the load.</param>
    /// <param name="height">Wrapped height, platform included where the film comes down over it.</param>
    public Length FilmOnLoad(Length loadLength, Length loadWidth, Length height) => 2 * (loadLength + loadWidth) * Turns(height);

    /// <summary>Film taken from the roll, which stretching makes longer: film on load / (1 + stretch).</summary>
    /// <param name="loadLength">Length of the load.</param>
    /// <param name="loadWidth">Width of the load.</param>
    /// <param name="height">Wrapped height.</param>
    /// <param name="stretch">How much longer the film becomes, as a share: 2 for a machine's "200 %", 0.15 by hand.</param>
    public Length FilmFromRoll(Length loadLength, Length loadWidth, Length height, double stretch) =>
        FilmOnLoad(loadLength, loadWidth, height) / (1 + Require.NotNegative(stretch));

    /// <summary>Layers needed to hold a load with a containment force, at the force each layer gives.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The force of a layer is zero or negative.</exception>
    public static int LayersFor(Force containment, Force perLayer) =>
        (int)Math.Ceiling((Math.Max(0, containment.Newtons) / Require.Positive(perLayer.Newtons, nameof(perLayer))) - Boundary);

    private double CheckedOverlap => Overlap is >= 0 and < 1
        ? Overlap
        : throw new ArgumentOutOfRangeException(nameof(Overlap), Overlap, "Film laps over less than its whole width.");
}
