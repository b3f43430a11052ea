using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Readiness.Scorecards;

/// <summary>What one pickup takes of a trailer's length, loaded in three ways.</summary>
/// <param name="Flat">Nothing stands on anything.</param>
/// <param name="Stacked">Two high where what was declared and computed allows it; never longer than <paramref name="Flat"/>.</param>
/// <param name="Decked">With decking beams besides; never longer than <paramref name="Stacked"/>.</param>
/// <param name="CubicFeet">Of the freight, outside dimensions.</param>
/// <param name="SectionSquareFeet">Of the trailer inside, wall to wall times floor to roof.</param>
public sealed record FloorTaken(Length Flat, Length Stacked, Length Decked, double CubicFeet, double SectionSquareFeet)
{
    /// <summary>Trailers end to end that hold whatever can be planned at once.</summary>
    private const int LongEnough = 20;

    public Length SavedByStacking => Flat - Stacked;

    public Length SavedByDecking => Stacked - Decked;

    /// <summary>Share of the room filled up to the last unit's end, 0 to 1.</summary>
    /// <param name="length">One of the three.</param>
    public double FilledOver(Length length) => length == Length.Zero ? 0 : CubicFeet / (length.Feet * SectionSquareFeet);

    /// <summary>Plans the pickup three times; takes 4 to 400 ms a plan.</summary>
    /// <param name="units">As they were declared; at most <see cref="LoadPlanner.MostUnits"/> in all.</param>
    /// <returns>Null when there is nothing to load, or a unit passes no trailer door of this kind in any stance.</returns>
    public static FloorTaken? Of(IReadOnlyList<LoadUnits> units, Trailer trailer)
    {
        LoadUnits[] alone = [.. units.Select(unit => unit with { MayBear = Mass.Zero, MayRide = false })];
        var flat = LoadPlanner.Plan(alone, trailer);
        if (flat.LeftOut.Count > 0)
        {
            // More than one trailer: what stacking saves of the second counts too.
            trailer = trailer with { Length = trailer.Length * LongEnough };
            flat = LoadPlanner.Plan(alone, trailer);
        }

        if (flat.LeftOut.Count > 0 || flat.Positions.Count == 0)
            return null;
        // Whoever may stack may also leave it.
        var stacked = Length.Min(flat.LengthUsed, LengthOf(LoadPlanner.Plan(units, trailer), flat));
        var decked = Length.Min(stacked, LengthOf(LoadPlanner.Plan(units, trailer, Decking.Common), flat));
        return new(flat.LengthUsed, stacked, decked, flat.Positions.Sum(p => CubicFeetOf(units[p.Kind])), trailer.Width.Feet * trailer.Height.Feet);
    }

    /// <summary>A plan that leaves something on the dock saves nothing.</summary>
    private static Length LengthOf(LoadPlan plan, LoadPlan flat) => plan.LeftOut.Count == 0 ? plan.LengthUsed : flat.LengthUsed;

    private static double CubicFeetOf(LoadUnits unit) => unit.Length.Feet * unit.Width.Feet * unit.Height.Feet;
}
