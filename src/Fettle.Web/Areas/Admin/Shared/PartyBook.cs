using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Mvc.Rendering;

namespace Fettle.Web.Areas.Admin.Shared;

/// <summary>The shippers and carriers that rights can be tied to, as far as the administrator who asks may hand them out.</summary>
public sealed record PartyBook(IReadOnlyList<Parties.Shipper> Shippers, IReadOnlyList<Carrier> Carriers, Guid? OnlyCarrier)
{
    /// <summary>In a choice of where an administrator administers: everything.</summary>
    public const string WholePortal = "all";

    public static async Task<PartyBook> ReadAsync(IDocumentStore store, Caller caller, CancellationToken cancellation)
    {
        await using var session = store.QuerySession();
        var shippers = await session.Query<Parties.Shipper>().OrderBy(shipper => shipper.Name).ToListAsync(cancellation);
        var carriers = await session.Query<Carrier>().OrderBy(carrier => carrier.Name).ToListAsync(cancellation);
        return new(shippers, carriers, caller.Rights.CarrierId);
    }

    /// <summary>Roles that may be handed out.</summary>
    public IEnumerable<Role> Roles => Enum.GetValues<Role>().Where(role => OnlyCarrier is null || role != Role.ShipperClerk);

    public IEnumerable<Carrier> OwnCarriers => Carriers.Where(carrier => OnlyCarrier is null || carrier.Id == OnlyCarrier);

    /// <summary>All docks of a shipper, or one.</summary>
    public IEnumerable<SelectListItem> Docks() => Shippers.SelectMany(shipper => Choices(shipper.Name, "All docks", shipper.Id, shipper.Sites.Select(site => (site.Id, site.Name))));

    /// <summary>All terminals of a carrier, or one.</summary>
    public IEnumerable<SelectListItem> Terminals() => OwnCarriers.SelectMany(carrier => Choices(carrier.Name, "All terminals", carrier.Id, carrier.Terminals.Select(terminal => (terminal.Id, terminal.Name))));

    public IEnumerable<SelectListItem> CarrierItems() => OwnCarriers.Select(carrier => new SelectListItem(carrier.Name, carrier.Id.ToString()));

    /// <summary>Where an administrator can administer.</summary>
    public IEnumerable<SelectListItem> Scopes() => OnlyCarrier is null
        ? CarrierItems().Prepend(new("The whole portal", WholePortal))
        : CarrierItems();

    public bool KnowsShipper(Guid id) => Shippers.Any(shipper => shipper.Id == id);

    /// <summary>The rights that a form chose; null when what its role needs was not chosen, or may not be handed out.</summary>
    public Rights? Choose(RightsForm form) => form.Role switch
    {
        Role.ShipperClerk => OnlyCarrier is null && Find(form.Dock, Shippers, shipper => shipper.Id, shipper => shipper.Sites, site => site.Id) is (var shipper, var sites)
            ? Rights.ShipperClerk(shipper, sites)
            : null,
        Role.TerminalReviewer => Find(form.Terminal, OwnCarriers, carrier => carrier.Id, carrier => carrier.Terminals, terminal => terminal.Id) is (var carrier, var terminals)
            ? Rights.TerminalReviewer(carrier, terminals)
            : null,
        Role.AccountManager => form is { AccountCarrier: { } id, AccountShippers: { Count: > 0 } ids } && OwnCarriers.Any(carrier => carrier.Id == id) && ids.All(KnowsShipper)
            ? Rights.AccountManager(id, ids)
            : null,
        Role.Administrator => form.Scope == WholePortal
            ? OnlyCarrier is null ? Rights.Administrator(null) : null
            : OwnCarriers.FirstOrDefault(carrier => carrier.Id.ToString() == form.Scope) is { } scope ? Rights.Administrator(scope.Id) : null,
        null => null,
    };

    /// <summary>Whose freight, in words: "Bramblewick Glassware: Mill dock".</summary>
    public string Describe(Rights rights) => rights.Role switch
    {
        Role.ShipperClerk => Shippers.FirstOrDefault(shipper => shipper.Id == rights.ShipperId) is { } shipper
            ? Some(shipper.Name, rights.SiteIds, shipper.Sites.Select(site => (site.Id, site.Name)), "all docks")
            : "An unknown shipper",
        Role.TerminalReviewer => CarrierOf(rights) is { } carrier
            ? Some(carrier.Name, rights.TerminalIds, carrier.Terminals.Select(terminal => (terminal.Id, terminal.Name)), "all terminals")
            : "An unknown carrier",
        Role.AccountManager => CarrierOf(rights) is { } carrier
            ? Some(carrier.Name, rights.AccountShipperIds, Shippers.Select(shipper => (shipper.Id, shipper.Name)), "all shippers")
            : "An unknown carrier",
        Role.Administrator => rights.CarrierId is null ? "The whole portal" : CarrierOf(rights)?.Name ?? "An unknown carrier",
    };

    /// <summary>What these rights are made of, and could be narrowed or widened to: docks, terminals or shippers; none for administrators.</summary>
    public IReadOnlyList<SelectListItem> Parts(Rights rights) => rights.Role switch
    {
        Role.ShipperClerk => Ticked(rights.SiteIds, Shippers.FirstOrDefault(shipper => shipper.Id == rights.ShipperId)?.Sites.Select(site => (site.Id, site.Name))),
        Role.TerminalReviewer => Ticked(rights.TerminalIds, CarrierOf(rights)?.Terminals.Select(terminal => (terminal.Id, terminal.Name))),
        Role.AccountManager => Ticked(rights.AccountShipperIds, Shippers.Select(shipper => (shipper.Id, shipper.Name))),
        Role.Administrator => [],
    };

    /// <summary>The same role and party with these parts; null when there are none, or one is not the party's.</summary>
    public Rights? WithParts(Rights rights, IReadOnlyList<Guid> parts)
    {
        var possible = Parts(rights).Select(part => part.Value).ToHashSet();
        if (parts.Count == 0 || !parts.All(part => possible.Contains(part.ToString())))
            return null;
        return rights.Role switch
        {
            Role.ShipperClerk => rights with { SiteIds = parts },
            Role.TerminalReviewer => rights with { TerminalIds = parts },
            Role.AccountManager => rights with { AccountShipperIds = parts },
            Role.Administrator => null,
        };
    }

    private Carrier? CarrierOf(Rights rights) => Carriers.FirstOrDefault(carrier => carrier.Id == rights.CarrierId);

    private static IEnumerable<SelectListItem> Choices(string party, string all, Guid id, IEnumerable<(Guid Id, string Name)> parts)
    {
        var group = new SelectListGroup { Name = party };
        yield return new(all, id.ToString()) { Group = group };
        foreach (var part in parts)
            yield return new(part.Name, $"{id}/{part.Id}") { Group = group };
    }

    private static (Guid Party, IReadOnlyList<Guid> Parts)? Find<TParty, TPart>(
        string? choice, IEnumerable<TParty> parties, Func<TParty, Guid> partyId, Func<TParty, IReadOnlyList<TPart>> partsOf, Func<TPart, Guid> partId)
    {
        foreach (var party in parties)
        {
            var parts = partsOf(party).Select(partId).ToList();
            if (choice == partyId(party).ToString())
                return (partyId(party), parts);
            foreach (var part in parts.Where(part => choice == $"{partyId(party)}/{part}"))
                return (partyId(party), [part]);
        }

        return null;
    }

    private static string Some(string party, IReadOnlyList<Guid> chosen, IEnumerable<(Guid Id, string Name)> parts, string all)
    {
        var known = parts.ToList();
        return known.Count > 1 && known.All(part => chosen.Contains(part.Id))
            ? $"{party}: {all}"
            : $"{party}: {string.Join(", ", known.Where(part => chosen.Contains(part.Id)).Select(part => part.Name))}";
    }

    private static List<SelectListItem> Ticked(IReadOnlyList<Guid> chosen, IEnumerable<(Guid Id, string Name)>? parts) =>
        [.. (parts ?? []).Select(part => new SelectListItem(part.Name, part.Id.ToString(), chosen.Contains(part.Id)))];
}
