using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>Identical handling units that stand on a trailer's floor, or stacks of them: what matters here is their footprint.</summary>
/// <param name="Length">One side of the footprint; over zero.</param>
/// <param name="Width">The other side; over zero.</param>
/// <param name="Count">How many; zero or more.</param>
/// <param name="MayTurn">False when the length must lie along the trailer.</param>
public readonly record struct FloorUnits(Length Length, Length Width, int Count, bool MayTurn = true)
{
    /// <summary>More than this side by side, and a floor is planned with little effort: slats and small cartons make too many ways.</summary>
    private const int MostAbreast = 12;

    /// <summary>What a plan of these is worth when many plans are asked for and none may take long.</summary>
    internal static FloorEffort EffortFor(IEnumerable<FloorUnits> units, Length width) =>
        units.Any(u => Length.Min(u.Length, u.Width) * MostAbreast < width) ? FloorEffort.Sketch : FloorEffort.Quick;
}

/// <summary>Where one unit stands.</summary>
/// <param name="Kind">Index into the units that were asked for.</param>
/// <param name="Place">X along the trailer from the nose (the front wall), Y across it from the left wall.</param>
public readonly record struct FloorPosition(int Kind, Placement Place);

/// <summary>How much may be spent on a plan. Counted in steps, not by the clock, so that equal questions have equal answers.</summary>
public enum FloorEffort
{
    /// <summary>A few milliseconds: good enough to choose between ways to load, and seldom proved.</summary>
    Sketch,

    /// <summary>As a rule under a tenth of a second.</summary>
    Quick,

    /// <summary>Under a second.</summary>
    Thorough,
}

/// <summary>Units on the floor of a trailer, taking little of its length.</summary>
/// <param name="Positions">One for each unit, from the nose backwards.</param>
/// <param name="LengthUsed">From the nose to the last unit's end.</param>
/// <param name="LowerBound">No arrangement takes less of the trailer's length.</param>
public sealed record FloorPlan(IReadOnlyList<FloorPosition> Positions, Length LengthUsed, Length LowerBound)
{
    /// <summary>Nothing shorter is possible.</summary>
    public bool IsOptimal => LengthUsed == LowerBound;

    /// <summary>The trailer's length used, in feet; carriers round it as their tariff says.</summary>
    public double LinearFeet => LengthUsed.Feet;

    /// <summary>Share of the floor behind the nose, up to the last unit's end, that units cover, 0 to 1; zero for an empty floor.</summary>
    public double FloorUsed(Length trailerWidth) => Positions.Sum(p => p.Place.Length / LengthUsed * (p.Place.Width / trailerWidth));

    /// <summary>The plan end for end: what stood at the nose stands last. Takes as much length, and moves the weight.</summary>
    public FloorPlan Reversed() => this with
    {
        Positions = [.. Positions
            .Select(p => p with { Place = p.Place with { X = LengthUsed - p.Place.Right } })
            .OrderBy(p => p.Place.X).ThenBy(p => p.Place.Y)],
    };

    /// <summary>
    /// What axle weights need: each unit's mass at its middle, measured along the trailer from the nose.
    /// </summary>
    /// <param name="massOf">The mass of one unit of a kind, by its index.</param>
    public IEnumerable<(Length FromNose, Mass Mass)> Loads(Func<int, Mass> massOf) =>
        Positions.Select(p => (p.Place.X + p.Place.Length / 2, massOf(p.Kind)));
}
