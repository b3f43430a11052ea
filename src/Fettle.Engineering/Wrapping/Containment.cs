using Fettle.Engineering.Units;

namespace Fettle.Engineering.Wrapping;

/// <summary>What a load asks of its film.</summary>
public enum LoadTemper
{
    /// <summary>Very light: too much film crushes it.</summary>
    VeryLight,

    /// <summary>Stable and of middling weight.</summary>
    Stable,

    /// <summary>Heavy and unstable.</summary>
    HeavyUnstable,

    /// <summary>Heavy and very unstable.</summary>
    VeryUnstable,
}

/// <summary>
/// The squeeze that film keeps on a load: force of one layer × layers, pulled out with a plate at top, middle and bottom;
/// the weakest of the three is what holds. A film supplier's starting guide, not a standard: advice only.
/// See docs/engineering/stretch-wrap.md.
/// </summary>
public static class Containment
{
    /// <summary>Force of a number of equal layers.</summary>
    public static Force Of(Force perLayer, int layers) => perLayer * Require.AtLeast(0, layers);

    /// <summary>What holds the load: the weakest of the places measured.</summary>
    public static Force Weakest(Force top, Force middle, Force bottom) => Force.Min(top, Force.Min(middle, bottom));

    /// <summary>The guide's range, ends included: light up to 5 lbf, stable 5 to 7, heavy unstable 7 to 12, very unstable 12 to 20.</summary>
    public static (Force Least, Force Most) Guide(LoadTemper temper) => temper switch
    {
        LoadTemper.VeryLight => (Force.Zero, Force.FromPoundsForce(5)),
        LoadTemper.Stable => (Force.FromPoundsForce(5), Force.FromPoundsForce(7)),
        LoadTemper.HeavyUnstable => (Force.FromPoundsForce(7), Force.FromPoundsForce(12)),
        LoadTemper.VeryUnstable => (Force.FromPoundsForce(12), Force.FromPoundsForce(20)),
    };

    /// <summary>
    /// How far a wrapped load may give way in the acceleration test of EUMOS 40509: springing back, a tenth of its height;
    /// staying bent, a twentieth; and in its lowest 20 cm at most 4 cm.
    /// </summary>
    public static (Length Elastic, Length Permanent, Length PermanentAtFoot) GreatestDeformation(Length loadHeight) =>
        (loadHeight / 10, loadHeight / 20, Length.FromCentimetres(4));
}
