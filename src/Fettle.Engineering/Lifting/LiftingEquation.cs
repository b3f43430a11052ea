using Fettle.Engineering.Units;

namespace Fettle.Engineering.Lifting;

/// <summary>
/// The revised lifting equation of the National Institute for Occupational Safety and Health: publication 94-110,
/// "Applications Manual for the Revised NIOSH Lifting Equation", revised September 2021. RWL = LC · HM · VM · DM · AM · FM · CM.
/// </summary>
/// <remarks>
/// <para>A screening figure, not a permission: it does not hold for one hand, for more than eight hours, sitting or
/// kneeling, unstable loads, carrying, pushing or pulling, slippery floors, or unusual heat, cold or damp, nor for two
/// people lifting together. People who know the workplace decide.</para>
/// <para>The publication's metric and US forms are not exact conversions of each other. We reckon in the US form, whatever
/// units were typed, unless told otherwise, so that one lift has one answer. See docs/engineering/lifting.md.</para>
/// </remarks>
public static class LiftingEquation
{
    /// <summary>The load constant LC of the US form: 51 lb, lifted ideally.</summary>
    public static readonly Mass LoadConstant = Mass.FromPounds(51);

    /// <summary>The load constant LC of the metric form: 23 kg.</summary>
    public static readonly Mass LoadConstantMetric = Mass.FromKilograms(23);

    /// <summary>Up to this length in front a box is handy (16 in); a longer one is fair to hold at best.</summary>
    public static readonly Length HandyBoxFront = Length.FromInches(16);

    /// <summary>Up to this height a box is handy (12 in).</summary>
    public static readonly Length HandyBoxHeight = Length.FromInches(12);

    // Hands above or below this height have columns of their own: 30 in, or 75 cm.
    private static readonly Length KnuckleHeight = Length.FromInches(30);
    private static readonly Length KnuckleHeightMetric = Length.FromCentimetres(75);

    // Lifts a minute; then hands below and above 30 in for up to 1 h, 1 to 2 h, 2 to 8 h. Zero: not to be done at all.
    private static readonly double[][] FrequencyTable =
    [
        [0.2, 1.00, 1.00, .95, .95, .85, .85],
        [0.5, .97, .97, .92, .92, .81, .81],
        [1, .94, .94, .88, .88, .75, .75],
        [2, .91, .91, .84, .84, .65, .65],
        [3, .88, .88, .79, .79, .55, .55],
        [4, .84, .84, .72, .72, .45, .45],
        [5, .80, .80, .60, .60, .35, .35],
        [6, .75, .75, .50, .50, .27, .27],
        [7, .70, .70, .42, .42, .22, .22],
        [8, .60, .60, .35, .35, .18, .18],
        [9, .52, .52, .30, .30, 0, .15],
        [10, .45, .45, .26, .26, 0, .13],
        [11, .41, .41, 0, .23, 0, 0],
        [12, .37, .37, 0, .21, 0, 0],
        [13, 0, .34, 0, 0, 0, 0],
        [14, 0, .31, 0, 0, 0, 0],
        [15, 0, .28, 0, 0, 0, 0],
    ];

    /// <summary>What both ends of a lift allow.</summary>
    /// <param name="task">The lift.</param>
    /// <param name="form">Which of the two published forms to reckon in, whatever the units of the task.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is NaN, or the load is negative.</exception>
    public static LiftingAssessment Assess(LiftingTask task, UnitSystem form = UnitSystem.Imperial) =>
        new(Limit(task, task.From, form), Limit(task, task.To, form));

    /// <summary>Average lifts a minute over a fifteen-minute period, of which some minutes are spent lifting.</summary>
    /// <param name="liftsPerMinute">While lifting, zero or more.</param>
    /// <param name="minutesLifting">Minutes of the fifteen, 0 to 15.</param>
    public static double AverageFrequency(double liftsPerMinute, double minutesLifting) =>
        Require.NotNegative(liftsPerMinute) * Math.Clamp(Require.NotNegative(minutesLifting), 0, 15) / 15;

    /// <summary>
    /// The frequency multiplier FM; the rows are joined by straight lines, as the publication has it, except towards a row
    /// of zero: there the last row that allows the work is the end, and anything beyond it is zero (our choice).
    /// </summary>
    /// <param name="liftsPerMinute">Lifts a minute; below 0.2 counts as 0.2.</param>
    /// <param name="duration">How long the work lasts.</param>
    /// <param name="handsHigh">Whether the lift begins with the hands at 30 in (75 cm) or above.</param>
    public static double FrequencyMultiplier(double liftsPerMinute, LiftingDuration duration, bool handsHigh)
    {
        var frequency = Math.Max(Require.Finite(liftsPerMinute), FrequencyTable[0][0]);
        var column = duration switch
        {
            LiftingDuration.UpToOneHour => 1,
            LiftingDuration.OneToTwoHours => 3,
            LiftingDuration.TwoToEightHours => 5,
        } + (handsHigh ? 1 : 0);
        for (var row = 0; row < FrequencyTable.Length; row++)
        {
            var (at, multiplier) = (FrequencyTable[row][0], FrequencyTable[row][column]);
            if (frequency == at)
                return multiplier;
            if (frequency < at)
            {
                var (before, higher) = (FrequencyTable[row - 1][0], FrequencyTable[row - 1][column]);
                return multiplier == 0 ? 0 : higher + ((multiplier - higher) * (frequency - before) / (at - before));
            }
        }

        return 0;
    }

    /// <summary>
    /// How a box can be held: handy ones with handles well, without fairly; bulky ones with handles fairly, without poorly.
    /// The sizes are the publication's, the reading of "at best" is ours.
    /// </summary>
    public static Coupling CouplingOf(Length front, Length height, bool handles) =>
        (front <= HandyBoxFront && height <= HandyBoxHeight, handles) switch
        {
            (true, true) => Coupling.Good,
            (true, false) or (false, true) => Coupling.Fair,
            (false, false) => Coupling.Poor,
        };

    /// <summary>
    /// The reach H that a box forces on whoever lifts it from the front: 8 in and half its depth, or 10 in and half its
    /// depth with the hands below 10 in (the publication's estimate, from memory).
    /// </summary>
    /// <param name="depth">Size of the box away from the body.</param>
    /// <param name="handHeight">Height of the hands.</param>
    public static Length ReachFor(Length depth, Length handHeight) =>
        Length.FromInches(handHeight < Length.FromInches(10) ? 10 : 8) + (depth / 2);

    /// <summary>
    /// The composite lifting index of several tasks done in turn by one person: the hardest task's own index, and for each
    /// further task, from hard to light, what its lifts add as they raise the common frequency.
    /// </summary>
    /// <param name="tasks">The tasks, one or more, in any order.</param>
    /// <param name="duration">How long the work as a whole lasts.</param>
    /// <exception cref="ArgumentException">There are no tasks.</exception>
    public static double CompositeIndex(IEnumerable<CompositeTask> tasks, LiftingDuration duration)
    {
        var hardFirst = tasks
            .OrderByDescending(t => t.FrequencyIndependentIndex / FrequencyMultiplier(t.LiftsPerMinute, duration, t.HandsHigh))
            .ToArray();
        if (hardFirst.Length == 0)
            throw new ArgumentException("A composite needs a task.", nameof(tasks));
        double index = 0, together = 0;
        foreach (var task in hardFirst)
        {
            var before = together == 0 ? 0 : 1 / FrequencyMultiplier(together, duration, task.HandsHigh);
            together += task.LiftsPerMinute;
            index += task.FrequencyIndependentIndex * ((1 / FrequencyMultiplier(together, duration, task.HandsHigh)) - before);
            if (!double.IsFinite(index))
                return double.PositiveInfinity;
        }

        return index;
    }

    private static LiftingLimit Limit(LiftingTask task, HandPosition end, UnitSystem form)
    {
        Require.NotNegative(task.Load.Kilograms, nameof(task));
        var multipliers = form == UnitSystem.Metric ? Metric(task, end) : Imperial(task, end);
        var recommended = (form == UnitSystem.Metric ? LoadConstantMetric : LoadConstant) * multipliers.Product;
        var index = recommended == Mass.Zero ? double.PositiveInfinity : task.Load / recommended;
        return new LiftingLimit(multipliers, recommended, index);
    }

    private static LiftingMultipliers Imperial(LiftingTask task, HandPosition end)
    {
        var (h, v, d) = (end.Reach.Inches, end.HandHeight.Inches, task.Travel.Inches);
        return new(
            h > 25 ? 0 : 10 / Math.Max(h, 10),
            v is < 0 or > 70 ? 0 : 1 - (.0075 * Math.Abs(v - 30)),
            d > 70 ? 0 : .82 + (1.8 / Math.Max(d, 10)),
            AsymmetryMultiplier(end.TurnDegrees),
            FrequencyMultiplier(task.LiftsPerMinute, task.Duration, task.From.HandHeight >= KnuckleHeight),
            CouplingMultiplier(task.Coupling, end.HandHeight >= KnuckleHeight));
    }

    private static LiftingMultipliers Metric(LiftingTask task, HandPosition end)
    {
        var (h, v, d) = (end.Reach.Centimetres, end.HandHeight.Centimetres, task.Travel.Centimetres);
        return new(
            h > 63 ? 0 : 25 / Math.Max(h, 25),
            v is < 0 or > 175 ? 0 : 1 - (.003 * Math.Abs(v - 75)),
            d > 175 ? 0 : .82 + (4.5 / Math.Max(d, 25)),
            AsymmetryMultiplier(end.TurnDegrees),
            FrequencyMultiplier(task.LiftsPerMinute, task.Duration, task.From.HandHeight >= KnuckleHeightMetric),
            CouplingMultiplier(task.Coupling, end.HandHeight >= KnuckleHeightMetric));
    }

    private static double AsymmetryMultiplier(double degrees) =>
        Math.Abs(Require.Finite(degrees)) is var turn && turn > 135 ? 0 : 1 - (.0032 * turn);

    private static double CouplingMultiplier(Coupling coupling, bool handsHigh) => coupling switch
    {
        Coupling.Good => 1,
        Coupling.Fair => handsHigh ? 1 : .95,
        Coupling.Poor => .90,
    };
}
