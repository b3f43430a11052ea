using System.Globalization;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Drawings;
using Fettle.Web.FloorPlans;
using Fettle.Web.FloorUse;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Marten;

namespace Fettle.Web.Negotiations;

/// <summary>Puts a sheet together from what is recorded, for whoever may see it.</summary>
public sealed class NegotiationDesk(IDocumentStore store, AccountDesk accounts, FloorUseDesk floors, TimeProvider clock)
{
    /// <summary>An account manager's account at their carrier, or the shipper's own. Null when it is neither, or there is no such lane.</summary>
    /// <param name="laneId">As <see cref="FloorUseDesk.IdOf"/> gives it; null for all lanes.</param>
    public async Task<NegotiationSheet?> SheetAsync(Caller caller, Guid shipperId, int? months, Guid? laneId, CancellationToken cancel)
    {
        var period = floors.PeriodOf(months);
        if (FloorUseDesk.ScopeOf(caller.Rights, shipperId, period) is not { } scope)
            return null;
        var account = caller.Role == Role.ShipperClerk
            ? await accounts.OwnAsync(caller.Rights, period, cancel)
            : await accounts.AccountAsync(caller.Rights, shipperId, period, cancel);
        if (account is null)
            return null;
        var floor = await floors.OfAsync(scope, cancel);
        Lane? lane = null;
        if (laneId is { } asked)
        {
            // A lane may have been declared on whose pickups are not planned yet.
            lane = floor.Pickups.Select(pickup => pickup.Lane).Concat(account.Evidence.Freight.Select(freight => freight.Lane)).FirstOrDefault(lane => FloorUseDesk.IdOf(lane) == asked);
            if (lane is null)
                return null;
            floor = floor.On(lane, floors.Today);
        }

        await using var session = store.QuerySession();
        var carrier = scope.CarrierId is { } id ? await session.LoadAsync<Carrier>(id, cancel) : null;
        return new()
        {
            Shipper = account.Shipper.Name,
            Carrier = carrier?.Name,
            Lane = lane is null ? null : account.Places.Of(lane),
            Evidence = SheetEvidence.Of(account.Evidence, lane),
            Floor = floor,
            Typical = floor.Typical() is { } typical && await session.LoadAsync<Pickup>(typical.PickupId, cancel) is { } pickup ? Drawn(pickup) : null,
            MadeBy = caller.Name,
            MadeAt = clock.GetUtcNow(),
            Culture = CultureInfo.CurrentUICulture,
        };
    }

    /// <summary>The one pickup whose plans are drawn: only a sheet needs to know where each unit stands.</summary>
    private static TypicalPickup? Drawn(Pickup pickup)
    {
        LoadUnits[] units = [.. pickup.Declaration.HandlingUnits.Zip(pickup.Units, DeclaredLoad.Of)];
        var trailer = DeclaredLoad.TrailerOf(pickup.Header.Equipment);
        var flat = LoadPlanner.Plan([.. units.Select(unit => unit with { MayBear = Mass.Zero, MayRide = false })], trailer);
        var stacked = LoadPlanner.Plan(units, trailer);
        if (stacked.LengthUsed > flat.LengthUsed)
            stacked = flat;
        string[] references = [.. pickup.Declaration.HandlingUnits.Select(unit => unit.Reference)];
        return new(
            pickup.Header.Number,
            DateOnly.FromDateTime(pickup.SubmittedAt.UtcDateTime),
            flat,
            stacked,
            TrailerDrawing.Svg(flat, references, pickup.Declaration.Units, DrawingOptions.ForMail),
            TrailerDrawing.Svg(stacked, references, pickup.Declaration.Units, DrawingOptions.ForMail));
    }
}
