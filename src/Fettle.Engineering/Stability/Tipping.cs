using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stability;

/// <summary>When a rigid unit tips over an edge of its base under a sideways acceleration. See docs/engineering/tipping.md.</summary>
public static class Tipping
{
    /// <summary>On the limit counts as standing; a hundred-millionth part covers lengths halved and kept in whole nanometres.</summary>
    public const double Boundary = 1e-8;

    /// <summary>
    /// The acceleration, as a share of g, at which the unit is about to tip: b / d. Positive infinity for a centre of
    /// gravity at or below the floor, zero when the centre of gravity stands on or past the edge.
    /// </summary>
    /// <param name="halfBase">Distance b on the floor from below the centre of gravity to the tipping edge: half the base when centred.</param>
    /// <param name="centreOfGravityHeight">Height d of the centre of gravity above the floor.</param>
    public static double CriticalAcceleration(Length halfBase, Length centreOfGravityHeight) =>
        halfBase <= Length.Zero ? 0
        : centreOfGravityHeight <= Length.Zero ? double.PositiveInfinity
        : halfBase / centreOfGravityHeight;

    /// <summary>Whether the unit stands under an acceleration: b ≥ c · d (EN 12195-1 writes b &gt; d · c / cz, with cz = 1).</summary>
    /// <param name="halfBase">As in <see cref="CriticalAcceleration"/>.</param>
    /// <param name="centreOfGravityHeight">As in <see cref="CriticalAcceleration"/>.</param>
    /// <param name="acceleration">Design acceleration c, share of g, zero or more.</param>
    public static bool Stands(Length halfBase, Length centreOfGravityHeight, double acceleration) =>
        CriticalAcceleration(halfBase, centreOfGravityHeight) >= Require.NotNegative(acceleration) * (1 - Boundary);

    /// <summary>The tallest uniform unit (centre of gravity at half height) that stands: base / c.</summary>
    /// <param name="baseLength">Base in the direction of the acceleration.</param>
    /// <param name="acceleration">Design acceleration c, share of g, above zero.</param>
    public static Length GreatestHeight(Length baseLength, double acceleration) => baseLength / Require.Positive(acceleration);

    /// <summary>The tilt of a test table, in degrees, that tries a unit as hard as an acceleration: arctan c.</summary>
    /// <param name="acceleration">Share of g, zero or more.</param>
    public static double EquivalentTiltAngle(double acceleration) => Math.Atan(Require.NotNegative(acceleration)) * 180 / Math.PI;
}
