namespace Fettle.Engineering.Stability;

/// <summary>
/// Accelerations that a regime of load securing reckons with, as shares of g. Downwards 1 g acts throughout.
/// </summary>
/// <param name="Source">The rule they come from.</param>
/// <param name="Forward">Braking: towards the nose.</param>
/// <param name="Rearward">Towards the doors.</param>
/// <param name="Lateral">Cornering, for sliding.</param>
/// <param name="LateralTilt">Cornering, for goods at risk of tipping.</param>
public sealed record RoadAccelerations(string Source, double Forward, double Rearward, double Lateral, double LateralTilt)
{
    /// <summary>
    /// EN 12195-1:2010, road. Tilt 0.6 goes with half the lashing capacity; with the full standard tension force it is 0.5.
    /// The German insurers' study holds 1.0 g the better forward figure for vehicles that can brake at 0.8 g.
    /// </summary>
    public static readonly RoadAccelerations En12195Edition2010 = new("EN 12195-1:2010", 0.8, 0.5, 0.5, 0.6);

    /// <summary>EN 12195-1:2003, road: the older tilt figure of 0.7.</summary>
    public static readonly RoadAccelerations En12195Edition2003 = new("EN 12195-1:2003", 0.8, 0.5, 0.5, 0.7);

    /// <summary>CTU Code, road; tilt by the same coefficients (partly from memory).</summary>
    public static readonly RoadAccelerations CtuCodeRoad = new("CTU Code, road", 0.8, 0.5, 0.5, 0.5);

    /// <summary>49 CFR 393.102(a)(1): the tier to hold against the breaking strength of tie-downs.</summary>
    public static readonly RoadAccelerations UnitedStatesBreakingStrength = new("49 CFR 393.102(a)(1)", 0.8, 0.5, 0.5, 0.5);

    /// <summary>49 CFR 393.102(a)(2): the tier to hold against the working load limit of tie-downs.</summary>
    public static readonly RoadAccelerations UnitedStatesWorkingLoad = new("49 CFR 393.102(a)(2)", 0.435, 0.5, 0.25, 0.25);

    /// <summary>Quebec, C-24.2 r. 30 s. 3: against the working load limit.</summary>
    public static readonly RoadAccelerations Quebec = new("C-24.2, r. 30, s. 3", 0.8, 0.5, 0.5, 0.5);

    /// <summary>49 CFR 393.102(b): downward force, as a share of weight, on goods that the structure does not contain.</summary>
    public const double UnitedStatesDownwardShare = 0.20;
}
