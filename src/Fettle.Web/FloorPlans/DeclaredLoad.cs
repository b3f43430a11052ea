using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.FloorPlans;

/// <summary>A submitted pickup as a load to be planned: what was declared, and what the check of that day said of it.</summary>
public static class DeclaredLoad
{
    /// <summary>
    /// Something may stand on a unit that may carry by its declaration (<see cref="TopLoad"/>), whose top the check found full
    /// and flat, and whose top load capacity was computed. Pallets and loose cartons may ride on top, all else, which stands on
    /// feet or skids or is not flat below, may not: common practice, no source.
    /// </summary>
    public static LoadUnits Of(HandlingUnit unit, UnitJudgement judged)
    {
        var bears = TopLoad.MayCarry(unit) && judged.TopLoadCapacity is { } capacity && !judged.Findings.Any(finding => finding.Code == FindingCodes.TopSurface)
            ? capacity
            : Mass.Zero;
        return new(
            unit.Outer.Length,
            unit.Outer.Width,
            unit.Outer.Height,
            unit.GrossWeight,
            unit.Quantity,
            Mass.Max(bears, Mass.Zero),
            MayRide: unit.Kind is HandlingUnitKind.Pallet or HandlingUnitKind.LooseCarton);
    }

    /// <summary>A liftgate is on many trucks; the shortest is taken.</summary>
    public static Trailer TrailerOf(Equipment equipment) => equipment switch
    {
        Equipment.Van53 => Trailer.Van53,
        Equipment.Van48 => Trailer.Van48,
        Equipment.Pup28 => Trailer.Pup28,
        Equipment.Straight26 or Equipment.Liftgate => Trailer.Straight26,
    };

    /// <summary>The plan; null when there are more units than can be planned at once.</summary>
    public static LoadPlan? Plan(Pickup pickup, bool decks)
    {
        LoadUnits[] units = [.. pickup.Declaration.HandlingUnits.Zip(pickup.Units, Of)];
        return units.Sum(unit => unit.Count) > LoadPlanner.MostUnits
            ? null
            : LoadPlanner.Plan(units, TrailerOf(pickup.Header.Equipment), decks ? Decking.Common : null);
    }
}
