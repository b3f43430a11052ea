using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Identity;

namespace Fettle.Web.Holds;

/// <summary>Which holds somebody may see; the database's side of <see cref="Caller.MaySee"/>.</summary>
public static class HoldList
{
    /// <summary>The side on which the caller speaks about held freight; null for those who only read, and for what they may not see.</summary>
    public static HoldSide? SideOf(Caller caller, PickupHeader pickup) =>
        caller.MayDeclareFor(pickup.ShipperId, pickup.SiteId) ? HoldSide.Shipper
        : caller.MayDecide(pickup) ? HoldSide.Terminal
        : null;

    public static IQueryable<Hold> VisibleTo(IQueryable<Hold> holds, Caller caller)
    {
        var rights = caller.Rights;
        Guid[] sites = [.. rights.SiteIds];
        Guid[] terminals = [.. rights.TerminalIds];
        Guid[] accounts = [.. rights.AccountShipperIds];
        return caller.Role switch
        {
            Role.ShipperClerk => holds.Where(hold => hold.Placed.Pickup.ShipperId == rights.ShipperId && sites.Contains(hold.Placed.Pickup.SiteId)),
            Role.TerminalReviewer => holds.Where(hold => hold.Placed.Pickup.CarrierId == rights.CarrierId && terminals.Contains(hold.Placed.Pickup.TerminalId)),
            Role.AccountManager => holds.Where(hold => hold.Placed.Pickup.CarrierId == rights.CarrierId && accounts.Contains(hold.Placed.Pickup.ShipperId)),
            Role.Administrator => holds.Where(hold => rights.CarrierId == null || hold.Placed.Pickup.CarrierId == rights.CarrierId),
        };
    }
}
