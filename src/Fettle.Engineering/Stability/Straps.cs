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
        var pressed = 2 * friction * Down(tension, angleDegrees);
        return Sliding.Missing(mass, friction, acceleration) * AtLeastOne(safety) / pressed;
    }

    /// <summary>
    /// Straps over the top that keep a tall load from tipping sideways, by moments about its edge: the side of each strap away
    /// from the edge pulls down there, n ≥ (c · d − b) · m · g · fs / (w · sin α · F_T), rounded up. What EN 12195-1:2010
    /// comes to for one load across the floor (from memory); take c for tipping with the tension that goes with it, 0.5 with
    /// the full standard tension or 0.6 with half the lashing capacity. None when it stands by itself.
    /// </summary>
    /// <param name="mass">Mass of the load.</param>
    /// <param name="width">Its width w across the tipping edge, above zero; its centre of gravity is half way.</param>
    /// <param name="centreOfGravityHeight">Height d of the centre of gravity.</param>
    /// <param name="acceleration">Design acceleration c, share of g.</param>
    /// <param name="tension">Tension F_T of one strap, the same on both sides.</param>
    /// <param name="angleDegrees">Angle α between strap and floor at the load's side, above 0 to 90.</param>
    /// <param name="safety">Safety factor fs, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static int OverTheTopAgainstTipping(
        Mass mass, Length width, Length centreOfGravityHeight, double acceleration, Force tension, double angleDegrees, double safety)
    {
        var held = Down(tension, angleDegrees) * (Require.Positive(width.Metres, nameof(width)) / AtLeastOne(safety));
        if (Tipping.Stands(width / 2, centreOfGravityHeight, acceleration))
            return 0;
        var tips = Force.WeightOf(mass) * ((acceleration * centreOfGravityHeight.Metres) - (width.Metres / 2));
        return (int)Math.Ceiling((tips / held) - Tipping.Boundary);
    }

    private static Force Down(Force tension, double angleDegrees)
    {
        Require.Positive(tension.Newtons, nameof(tension));
        if (angleDegrees is not (> 0 and <= 90))
            throw new ArgumentOutOfRangeException(nameof(angleDegrees), angleDegrees, "A strap over the top leaves the floor at more than 0 and at most 90 degrees.");
        return Math.Sin(angleDegrees * Math.PI / 180) * tension;
    }

    private static double AtLeastOne(double safety) => safety is >= 1
        ? safety
        : throw new ArgumentOutOfRangeException(nameof(safety), safety, "A safety factor is at least 1.");

    /// <summary>Working load limits together must reach this share of the weight they hold: 49 CFR 393.106(d), from memory.</summary>
    public const double UnitedStatesAggregateShare = 0.5;

    /// <summary>
    /// Tie-downs whose working load limits together reach half the weight held, 49 CFR 393.106(d) (from memory). The number by
    /// length of the article, <see cref="ByLength"/>, holds besides.
    /// </summary>
    /// <param name="mass">Mass of the load, zero or more.</param>
    /// <param name="workingLoadLimit">Working load limit of one tie-down as marked, above zero.</param>
    public static int ByWorkingLoad(Mass mass, Force workingLoadLimit) => (int)Math.Ceiling(
        (Force.WeightOf(mass) * UnitedStatesAggregateShare / Force.FromNewtons(Require.Positive(workingLoadLimit.Newtons, nameof(workingLoadLimit)))) - Tipping.Boundary);

    /// <summary>
    /// The least number of tie-downs by length of the article, 49 CFR 393.110 (from memory; a trade page agrees on the first
    /// steps). Not blocked forwards: one up to 5 ft and 1,100 lb, two up to 10 ft, and one more for every 10 ft or part of it
    /// beyond. Blocked forwards by a headboard, bulkhead or other cargo: one for every 10 ft or part of it.
    /// </summary>
    /// <param name="article">Length of the article along the vehicle, above zero.</param>
    /// <param name="mass">Mass of the article.</param>
    /// <param name="blockedForwards">Something immobilises it forwards.</param>
    public static int ByLength(Length article, Mass mass, bool blockedForwards)
    {
        Require.Positive(article.Metres, nameof(article));
        if (blockedForwards)
            return TensOfFeet(article);
        if (article <= Length.FromFeet(5))
            return mass <= Mass.FromPounds(1_100) ? 1 : 2;
        return 1 + TensOfFeet(article);
    }

    private static int TensOfFeet(Length article) => (int)((article.Nanometres + Length.FromFeet(10).Nanometres - 1) / Length.FromFeet(10).Nanometres);

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
