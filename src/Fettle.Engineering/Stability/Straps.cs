using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stability;

/// <summary>
/// What straps must do. Figures for planning: who secures the load answers for it, by the law and the marking on the
/// equipment. See docs/engineering/sliding.md.
/// </summary>
public static class Straps
{
    /// <summary>Safety factor fs of EN 12195-1:2010 for top-over lashings, sideways and rearwards.</summary>
    public const double SafetySideways = 1.1;

    /// <summary>The same, forwards (from memory).</summary>
    public const double SafetyForward = 1.25;

    /// <summary>
    /// Straps over the top that press the load to the floor until friction holds it:
    /// n ≥ (c − μ) · m · g · fs / (2 · μ · sin α · F_T), rounded up (EN 12195-1:2010; formula from memory, figures confirmed
    /// by published slides). None when friction is enough.
    /// </summary>
    /// <param name="mass">Mass of the load.</param>
    /// <param name="friction">Static friction μ, above zero.</param>
    /// <param name="acceleration">Design acceleration c, share of g.</param>
    /// <param name="tension">Standard tension force of one strap, S_TF on its label.</param>
    /// <param name="angleDegrees">Angle α between strap and floor at the load's side, above 0 to 90.</param>
    /// <param name="safety">Safety factor fs, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static int OverTheTop(Mass mass, double friction, double acceleration, Force tension, double angleDegrees, double safety) =>
        (int)Math.Ceiling(OverTheTopExactly(mass, friction, acceleration, tension, angleDegrees, safety) - Tipping.Boundary);

    /// <summary>The same before rounding up.</summary>
    /// <inheritdoc cref="OverTheTop" path="/param|/exception"/>
    public static double OverTheTopExactly(Mass mass, double friction, double acceleration, Force tension, double angleDegrees, double safety)
    {
        Require.Positive(friction);
        Require.Positive(tension.Newtons, nameof(tension));
        if (angleDegrees is not (> 0 and <= 90))
            throw new ArgumentOutOfRangeException(nameof(angleDegrees), angleDegrees, "A strap over the top leaves the floor at more than 0 and at most 90 degrees.");
        if (safety is not >= 1)
            throw new ArgumentOutOfRangeException(nameof(safety), safety, "A safety factor is at least 1.");
        var pressed = 2 * friction * Math.Sin(angleDegrees * Math.PI / 180) * tension;
        return Sliding.Missing(mass, friction, acceleration) * safety / pressed;
    }

    /// <summary>Working load limits together must reach this share of the weight they hold: 49 CFR 393.106(d), from memory.</summary>
    public const double UnitedStatesAggregateShare = 0.5;

    /// <summary>
    /// Tie-downs whose working load limits together reach half the weight held, 49 CFR 393.106(d) (from memory). The rule on
    /// their number by length of the article comes on top and is not reckoned here.
    /// </summary>
    /// <param name="mass">Mass of the load, zero or more.</param>
    /// <param name="workingLoadLimit">Working load limit of one tie-down as marked, above zero.</param>
    public static int ByWorkingLoad(Mass mass, Force workingLoadLimit) => (int)Math.Ceiling(
        (Force.WeightOf(mass) * UnitedStatesAggregateShare / Force.FromNewtons(Require.Positive(workingLoadLimit.Newtons, nameof(workingLoadLimit)))) - Tipping.Boundary);

    /// <summary>
    /// The level force that keeps a tall load from tipping, from a strap round it to the wall or a bulkhead panel: by moments
    /// about the edge, m · g · (c · d − b) / h. Nothing when it stands by itself. Statics, no safety factor.
    /// </summary>
    /// <param name="mass">Mass of the load.</param>
    /// <param name="halfBase">Distance b from below the centre of gravity to the tipping edge.</param>
    /// <param name="centreOfGravityHeight">Height d of the centre of gravity.</param>
    /// <param name="acceleration">Design acceleration c, share of g.</param>
    /// <param name="strapHeight">Height h at which it is held, above zero.</param>
    public static Force HoldingUpright(Mass mass, Length halfBase, Length centreOfGravityHeight, double acceleration, Length strapHeight)
    {
        Require.Positive(strapHeight.Metres, nameof(strapHeight));
        return Tipping.Stands(halfBase, centreOfGravityHeight, acceleration)
            ? Force.Zero
            : Force.WeightOf(mass) * (((acceleration * centreOfGravityHeight.Metres) - halfBase.Metres) / strapHeight.Metres);
    }

    /// <summary>
    /// The tension at which a strap over a bare edge begins to crush the carton under it: edge crush × the width that bears ×
    /// what damp and time have left. Our own lower bound, without a source: the strap pulls down along the wall with its
    /// whole tension, and only the wall under it resists. An edge board spreads it over the board's length instead.
    /// </summary>
    /// <param name="board">Board of the carton.</param>
    /// <param name="bearing">Width of the strap, or length of the edge board, above zero.</param>
    /// <param name="left">Share of strength left after derating, 0 to 1.</param>
    public static Force CrushingTension(Board board, Length bearing, double left = 1) =>
        Force.FromPoundsForce(Require.Positive(board.EdgeCrush, nameof(board)) * Require.Positive(bearing.Inches, nameof(bearing)) * Require.NotNegative(left));
}
