using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>How cartons stand on the cartons below.</summary>
public enum StackAlignment
{
    /// <summary>Straight columns, corner on corner.</summary>
    Aligned,

    /// <summary>Columns that are meant to be straight and are not.</summary>
    Misaligned,

    /// <summary>Each carton bridges two or more below.</summary>
    Interlocked,
}

/// <summary>What a carton at the bottom of a stack goes through.</summary>
/// <param name="Days">Time under load in days; fewer than ten count as ten.</param>
/// <param name="RelativeHumidity">Relative humidity of the air in percent; below 50 counts as 50, above 100 as 100.</param>
/// <param name="Alignment">How the cartons stand on each other.</param>
/// <param name="Overhang">The furthest that a carton's edge passes the edge of the platform; zero or less is none.</param>
/// <param name="DeckGaps">Whether a gap between deck boards leaves part of a carton's edge or corner unsupported.</param>
/// <param name="Transfers">How often the freight changes trailer on its way.</param>
/// <param name="WorstCase">Take the worse end of the pattern row (misaligned .85, interlocked .40) instead of the better.</param>
public sealed record DeratingConditions(
    double Days,
    double RelativeHumidity,
    StackAlignment Alignment,
    Length Overhang,
    bool DeckGaps,
    int Transfers,
    bool WorstCase = false)
{
    /// <summary>Ten days at most in dry air, straight columns, full support, no transfer: the mildest the table knows.</summary>
    public static readonly DeratingConditions Mildest = new(10, 50, StackAlignment.Aligned, Length.Zero, DeckGaps: false, Transfers: 0);
}

/// <summary>What is left of a carton's laboratory strength, cause by cause; each between zero and one.</summary>
/// <param name="Time">Left after the time under load.</param>
/// <param name="Humidity">Left in the damp.</param>
/// <param name="Pattern">Left by the stacking pattern.</param>
/// <param name="Overhang">Left by overhang.</param>
/// <param name="DeckGaps">Left by gaps between deck boards.</param>
/// <param name="Handling">Left by handling.</param>
public sealed record DeratingFactors(double Time, double Humidity, double Pattern, double Overhang, double DeckGaps, double Handling)
{
    /// <summary>What is left in all: the product of the six.</summary>
    public double Product => Time * Humidity * Pattern * Overhang * DeckGaps * Handling;

    /// <summary>
    /// The trade's "safety" or stacking factor, one over <see cref="Product"/>: how many times the load a new carton must
    /// bear in the laboratory. The same knowledge the other way round; never apply both.
    /// </summary>
    public double StackingFactor => 1 / Product;
}

/// <summary>
/// Loss of carton strength in use, after the table of the Fibre Box Handbook as repeated by board makers. Between two rows
/// the worse one holds, and outside the table its last row: we do not interpolate, because the handbook does not.
/// See docs/engineering/derating.md.
/// </summary>
public static class Derating
{
    /// <summary>
    /// Up to this overhang the better end of the handbook's row (.80) is taken, beyond it the worse (.60). The handbook
    /// gives the range and no measure with it: the split point is our choice, without a source.
    /// </summary>
    public static readonly Length SlightOverhang = Length.FromInches(0.5);

    private static readonly (double UpToDays, double Left)[] TimeRows = [(10, .63), (30, .60), (90, .55), (double.PositiveInfinity, .50)];

    private static readonly (double UpToPercent, double Left)[] HumidityRows =
        [(50, 1), (60, .90), (70, .80), (80, .68), (90, .48), (double.PositiveInfinity, .15)];

    /// <summary>The factors for a set of conditions.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Days or humidity is NaN.</exception>
    public static DeratingFactors For(DeratingConditions conditions) => new(
        Row(TimeRows, conditions.Days),
        Row(HumidityRows, conditions.RelativeHumidity),
        Pattern(conditions.Alignment, conditions.WorstCase),
        Overhang(conditions.Overhang),
        conditions.DeckGaps ? .90 : 1,
        Handling(conditions.Transfers));

    // The handbook's ranges: misaligned columns lose 10 to 15 %, interlocked stacks 40 to 60 %.
    private static double Pattern(StackAlignment alignment, bool worst) => alignment switch
    {
        StackAlignment.Aligned => 1,
        StackAlignment.Misaligned => worst ? .85 : .90,
        StackAlignment.Interlocked => worst ? .40 : .60,
    };

    private static double Overhang(Length overhang) =>
        overhang <= Length.Zero ? 1 : overhang <= SlightOverhang ? .80 : .60;

    // The handbook says that excessive handling costs 10 to 40 % and not what is excessive (row from memory). Our reading:
    // direct and one-transfer freight loses nothing, two to four transfers the least, more a quarter.
    private static double Handling(int transfers) => transfers switch
    {
        < 2 => 1,
        <= 4 => .90,
        _ => .75,
    };

    private static double Row((double UpTo, double Left)[] rows, double value)
    {
        foreach (var (upTo, left) in rows)
        {
            if (value <= upTo)
                return left;
        }

        throw new ArgumentOutOfRangeException(nameof(value), value, "Days and humidity are numbers.");
    }
}
