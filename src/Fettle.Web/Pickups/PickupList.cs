using Fettle.Readiness.Pickups;
using Fettle.Web.Identity;

namespace Fettle.Web.Pickups;

/// <summary>Which pickups somebody may see; the database's side of <see cref="Caller.MaySee"/>.</summary>
public static class PickupList
{
    public static IQueryable<Pickup> VisibleTo(IQueryable<Pickup> pickups, Caller caller)
    {
        var rights = caller.Rights;
        Guid[] sites = [.. rights.SiteIds];
        Guid[] terminals = [.. rights.TerminalIds];
        Guid[] accounts = [.. rights.AccountShipperIds];
        return caller.Role switch
        {
            Role.ShipperClerk => pickups.Where(pickup => pickup.Header.ShipperId == rights.ShipperId && sites.Contains(pickup.Header.SiteId)),
            Role.TerminalReviewer => pickups.Where(pickup => pickup.Header.CarrierId == rights.CarrierId && terminals.Contains(pickup.Header.TerminalId)),
            Role.AccountManager => pickups.Where(pickup => pickup.Header.CarrierId == rights.CarrierId && accounts.Contains(pickup.Header.ShipperId)),
            Role.Administrator => pickups.Where(pickup => rights.CarrierId == null || pickup.Header.CarrierId == rights.CarrierId),
        };
    }
}
