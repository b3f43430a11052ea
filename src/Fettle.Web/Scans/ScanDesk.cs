using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scans;
using Fettle.Web.Declarations;
using Fettle.Web.HandlingUnits;
using Fettle.Web.Identity;
using Fettle.Web.Pickups;
using Marten;

namespace Fettle.Web.Scans;

/// <summary>A line of a pickup, or one unit of it, that was meant by what was scanned.</summary>
/// <param name="Unit">The physical unit; null when only the line is known.</param>
/// <param name="Hold">The line's latest hold; null when there was none.</param>
public sealed record Match(Pickup Pickup, string Reference, NumberedUnit? Unit, Hold? Hold);

/// <summary>From what was scanned to freight that the caller may see.</summary>
public static class ScanDesk
{
    public const int Most = 50;

    /// <returns>What is meant; empty when nothing is, or nothing that this person may see.</returns>
    public static async Task<IReadOnlyList<Match>> FindAsync(IQuerySession session, Scanned scanned, Caller caller, CancellationToken cancel)
    {
        switch (scanned)
        {
            case ScannedSscc(var sscc):
                return await OfUnitsAsync(session, await UnitLookup.FindAsync(session, sscc.Value, cancel), caller, cancel);
            case ScannedPickup(var number):
                return await OfPickupsAsync(session, await Visible(session, caller).Where(pickup => pickup.Header.Number == number).ToListAsync(cancel), _ => true, cancel);
            case ScannedNumber(var pickupNumber, var number):
                var units = await OfUnitsAsync(session, await UnitLookup.FindAsync(session, number, cancel), caller, cancel);
                if (units.Count > 0)
                    return units;
                var pickups = await Visible(session, caller).Where(pickup => pickup.Header.Number == pickupNumber).ToListAsync(cancel);
                // A hold's number: the line's, and "/2" behind it for a further hold of the same line.
                var reference = number[(pickupNumber.Length + 1)..];
                return await OfPickupsAsync(session, pickups, line => reference == line || reference.StartsWith(line + "/", StringComparison.Ordinal), cancel);
            case ScannedWords(var words) when UnitFormValidator.ReadableText(words):
                var found = await Visible(session, caller)
                    .Where(pickup => pickup.Header.Number.Contains(words, StringComparison.OrdinalIgnoreCase) || pickup.Header.Destination.Contains(words, StringComparison.OrdinalIgnoreCase))
                    .OrderByDescending(pickup => pickup.SubmittedAt).Take(Most).ToListAsync(cancel);
                return await OfPickupsAsync(session, found, _ => true, cancel);
            default:
                return [];
        }
    }

    private static IQueryable<Pickup> Visible(IQuerySession session, Caller caller) => PickupList.VisibleTo(session.Query<Pickup>(), caller);

    private static async Task<IReadOnlyList<Match>> OfUnitsAsync(IQuerySession session, IReadOnlyList<NumberedUnit> units, Caller caller, CancellationToken cancel)
    {
        if (units.Count == 0)
            return [];
        var pickups = (await session.LoadManyAsync<Pickup>(cancel, units.Select(unit => unit.PickupId).Distinct())).Where(pickup => caller.MaySee(pickup.Header)).ToDictionary(pickup => pickup.Id);
        var holds = await HoldsAsync(session, pickups.Keys, cancel);
        return [.. units.Where(unit => pickups.ContainsKey(unit.PickupId)).Take(Most).Select(unit => new Match(pickups[unit.PickupId], unit.Reference, unit, holds.GetValueOrDefault((unit.PickupId, unit.Reference))))];
    }

    private static async Task<IReadOnlyList<Match>> OfPickupsAsync(IQuerySession session, IReadOnlyList<Pickup> pickups, Func<string, bool> isMeant, CancellationToken cancel)
    {
        var holds = await HoldsAsync(session, pickups.Select(pickup => pickup.Id), cancel);
        return
        [
            .. pickups
                .SelectMany(pickup => pickup.Declaration.HandlingUnits.Where(line => isMeant(line.Reference)).Select(line => new Match(pickup, line.Reference, null, holds.GetValueOrDefault((pickup.Id, line.Reference)))))
                .Take(Most),
        ];
    }

    private static async Task<Dictionary<(Guid, string), Hold>> HoldsAsync(IQuerySession session, IEnumerable<Guid> pickups, CancellationToken cancel)
    {
        Guid[] ids = [.. pickups];
        return (await session.Query<Hold>().Where(hold => hold.Placed.PickupId.IsOneOf(ids)).ToListAsync(cancel))
            .GroupBy(hold => (hold.Placed.PickupId, hold.Placed.HandlingUnit.Reference))
            .ToDictionary(holds => holds.Key, holds => holds.OrderBy(hold => hold.Placed.At).Last());
    }
}
