using Fettle.Readiness.Pickups;
using Marten;

namespace Fettle.Web.Parties;

/// <summary>The parties that a pickup's head names, for showing them by name.</summary>
public sealed record PickupParties(Shipper Shipper, Site Site, Carrier Carrier, Terminal Terminal)
{
    public static async Task<PickupParties> LoadAsync(IQuerySession session, PickupHeader header, CancellationToken cancel)
    {
        var shipper = await session.LoadAsync<Shipper>(header.ShipperId, cancel)
            ?? throw new InvalidOperationException($"There is no shipper {header.ShipperId}.");
        var carrier = await session.LoadAsync<Carrier>(header.CarrierId, cancel)
            ?? throw new InvalidOperationException($"There is no carrier {header.CarrierId}.");
        return Of(shipper, carrier, header);
    }

    public static PickupParties Of(Shipper shipper, Carrier carrier, PickupHeader header) => new(
        shipper,
        shipper.Sites.Single(site => site.Id == header.SiteId),
        carrier,
        carrier.Terminals.Single(terminal => terminal.Id == header.TerminalId));
}
