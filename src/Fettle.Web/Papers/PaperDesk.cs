using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;

namespace Fettle.Web.Papers;

/// <summary>Makes the papers of submitted pickups for whoever may see them.</summary>
public sealed class PaperDesk(IDocumentStore store)
{
    /// <summary>Null when there is no such submitted pickup that the caller may see.</summary>
    public async Task<PickupFreight?> FreightAsync(Guid pickupId, Caller caller, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Pickup>(pickupId, cancel) is { } pickup && caller.MaySee(pickup.Header) ? await FreightAsync(session, pickup, cancel) : null;
    }

    /// <summary>The exception that a hold was released as; null when the caller may not see it, or it was not.</summary>
    public async Task<PaperFile?> ExceptionAsync(Guid holdId, Caller caller, Paper? paper, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Hold>(holdId, cancel) is not { Decided: { Decision: HoldDecision.ReleaseAsException } decided } hold || !caller.MaySee(hold.Placed.Pickup)
            || await session.LoadAsync<Pickup>(hold.Placed.PickupId, cancel) is not { } pickup)
            return null;
        var freight = await FreightAsync(session, pickup, cancel);
        return new($"{ExceptionPaper.NumberOf(hold)}.pdf", ExceptionPaper.Write(freight, hold, decided, paper ?? PaperSizes.For(freight.Units)));
    }

    public static async Task<PickupFreight> FreightAsync(IQuerySession session, Pickup pickup, CancellationToken cancel)
    {
        var holds = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickup.Id).ToListAsync(cancel);
        var inspections = await session.Query<Inspection>().Where(inspection => inspection.Recorded.PickupId == pickup.Id).ToListAsync(cancel);
        return new(
            pickup,
            await PickupParties.LoadAsync(session, pickup.Header, cancel),
            [.. holds.OrderBy(hold => hold.Placed.Number, StringComparer.Ordinal)],
            [.. inspections.OrderBy(inspection => inspection.Recorded.At).ThenBy(inspection => inspection.Id)]);
    }

    public static PaperFile BillOf(PickupFreight freight, Paper? paper) =>
        new($"{freight.Number} bill of lading.pdf", BillOfLading.Write(freight, paper ?? PaperSizes.For(freight.Units)));

    public static PaperFile ManifestOf(PickupFreight freight, Paper? paper) =>
        new($"{freight.Number} manifest.pdf", Manifest.Write(freight, paper ?? PaperSizes.For(freight.Units)));

    /// <param name="unit">Which of the pickup's units, from 1; null for all of them.</param>
    /// <returns>Null when the pickup has no such unit.</returns>
    public static PaperFile? LabelsOf(PickupFreight freight, int? unit)
    {
        var count = freight.Pickup.Numbers.Count;
        if (unit is { } one)
            return one >= 1 && one <= count ? new($"{freight.Number} label {one}.pdf", UnitLabel.Write(freight, [one - 1])) : null;
        return new($"{freight.Number} labels.pdf", UnitLabel.Write(freight, Enumerable.Range(0, count)));
    }
}

public sealed record PaperFile(string Name, byte[] Content);
