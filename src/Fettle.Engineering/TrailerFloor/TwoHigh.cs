using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>A unit that may be stacked.</summary>
/// <param name="Length">One side of its footprint; over zero.</param>
/// <param name="Width">The other side; over zero.</param>
/// <param name="Height">Over zero.</param>
/// <param name="Weight">Gross.</param>
/// <param name="MayBear">What may stand on it; zero when nothing may, or when its top is not flat.</param>
/// <param name="MayRide">It may itself stand on another.</param>
/// <param name="MayTurn">False when it must stand on another the way it is, long side over long side or not.</param>
public readonly record struct StackUnit(
    Length Length, Length Width, Length Height, Mass Weight, Mass MayBear, bool MayRide = true, bool MayTurn = true)
{
    /// <summary>
    /// Whether this unit may stand on another: it may ride at all, the other bears it, both are not higher than the limit, and
    /// its footprint lies within the other's, turned or not.
    /// </summary>
    public bool MayStandOn(StackUnit lower, Length greatestHeight) =>
        MayRide
        && lower.MayBear > Mass.Zero
        && Weight <= lower.MayBear
        && Height + lower.Height <= greatestHeight
        && (FitsStraight(lower) || FitsTurned(lower));

    /// <summary>Its footprint lies within the other's, length along length.</summary>
    internal bool FitsStraight(StackUnit lower) => Length <= lower.Length && Width <= lower.Width;

    private bool FitsTurned(StackUnit lower) => MayTurn && Width <= lower.Length && Length <= lower.Width;
}

/// <summary>A unit on the floor, and the one on top of it if there is one; indices into the units asked for.</summary>
public readonly record struct FloorStack(int Lower, int? Upper);

/// <summary>
/// Stacks units two high so that as many as possible leave the floor: a maximum matching of the pairs of which one may stand
/// on the other (Edmonds 1965). A figure for planning: what may bear what is the shipper's declaration and the carrier's
/// judgement, and a stack in a trailer also needs a flat top and a load that stands.
/// </summary>
public static class TwoHigh
{
    /// <summary>More units than this are refused.</summary>
    public const int MostUnits = 1_000;

    /// <summary>
    /// The stacks, in order of their lower unit; every unit is in exactly one. Where either of a pair may be the lower, the
    /// heavier is.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">More than <see cref="MostUnits"/>.</exception>
    public static IReadOnlyList<FloorStack> Stack(IReadOnlyList<StackUnit> units, Length greatestHeight)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(units.Count, MostUnits);
        var pairs = new List<int>[units.Count];
        for (var a = 0; a < units.Count; a++)
            pairs[a] = [.. Enumerable.Range(0, units.Count).Where(b => b != a && (MayStandOn(a, b) || MayStandOn(b, a)))];
        var partner = Matching.Maximum(pairs);
        var stacks = new List<FloorStack>();
        for (var a = 0; a < units.Count; a++)
        {
            var b = partner[a];
            if (b < 0)
                stacks.Add(new FloorStack(a, null));
            else if (IsLower(a, b))
                stacks.Add(new FloorStack(a, b));
        }

        return stacks;

        bool MayStandOn(int upper, int lower) => units[upper].MayStandOn(units[lower], greatestHeight);

        bool IsLower(int a, int b)
        {
            if (!MayStandOn(a, b) || !MayStandOn(b, a))
                return MayStandOn(b, a);
            return units[a].Weight == units[b].Weight ? a < b : units[a].Weight > units[b].Weight;
        }
    }

    /// <summary>What the stacks take of the floor: one unit for each, of equal footprint one kind.</summary>
    public static IReadOnlyList<FloorUnits> Footprints(IReadOnlyList<StackUnit> units, IReadOnlyList<FloorStack> stacks, bool mayTurn = true) =>
        [.. stacks.GroupBy(s => (units[s.Lower].Length, units[s.Lower].Width)).Select(g => new FloorUnits(g.Key.Length, g.Key.Width, g.Count(), mayTurn))];
}
