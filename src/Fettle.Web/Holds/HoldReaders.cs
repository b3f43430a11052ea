using Fettle.Readiness.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;

namespace Fettle.Web.Holds;

/// <summary>Those who are written to about a hold.</summary>
/// <param name="Language">Of whoever declared the freight, in which the shipper is written to; null for an API key.</param>
/// <param name="Managers">The carrier's account managers of this shipper.</param>
public sealed record HoldReaders(PickupParties Parties, string? Language, IReadOnlyList<User> Managers)
{
    /// <exception cref="InvalidOperationException">The shipper or the carrier is unknown.</exception>
    public static async Task<HoldReaders> LoadAsync(IQuerySession session, HoldPlaced placed, CancellationToken cancel)
    {
        var parties = await PickupParties.LoadAsync(session, placed.Pickup, cancel);
        var declarer = await session.LoadAsync<User>(placed.DeclaredBy.Id, cancel);
        var managers = await session.Query<User>()
            .Where(user => user.Rights.Role == Role.AccountManager && user.Rights.CarrierId == placed.Pickup.CarrierId && !user.Disabled)
            .ToListAsync(cancel);
        return new(parties, declarer?.Language, [.. managers.Where(user => user.Rights.AccountShipperIds.Contains(placed.Pickup.ShipperId))]);
    }
}
