using System.Security.Claims;
using Fettle.Readiness;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.Identity;

/// <summary>
/// Who asks, and whose freight that lets them see and change. Every page and endpoint asks this one type; a resource that
/// may not be seen is answered as if it did not exist.
/// </summary>
public sealed record Caller(Guid Id, string Name, Rights Rights)
{
    public Role Role => Rights.Role;

    public Actor Actor => new(Id, Name);

    /// <summary>The caller of a signed-in request.</summary>
    /// <exception cref="InvalidOperationException">The principal was not made by Fettle's sign-in or API keys.</exception>
    public static Caller Of(ClaimsPrincipal principal) => CallerClaims.Read(principal);

    /// <summary>Freight of this shipper from this site, which the caller may declare, change and submit.</summary>
    public bool MayDeclareFor(Guid shipperId, Guid siteId) =>
        Role == Role.ShipperClerk && Rights.ShipperId == shipperId && Rights.SiteIds.Contains(siteId);

    public bool MaySee(PickupHeader pickup) => Role switch
    {
        Role.ShipperClerk => MayDeclareFor(pickup.ShipperId, pickup.SiteId),
        Role.TerminalReviewer => Rights.CarrierId == pickup.CarrierId && Rights.TerminalIds.Contains(pickup.TerminalId),
        Role.AccountManager => Rights.CarrierId == pickup.CarrierId && Rights.AccountShipperIds.Contains(pickup.ShipperId),
        Role.Administrator => Rights.CarrierId is null || Rights.CarrierId == pickup.CarrierId,
    };

    /// <summary>Held freight at this pickup's terminal, which the caller may decide about.</summary>
    public bool MayDecide(PickupHeader pickup) => Role == Role.TerminalReviewer && MaySee(pickup);

    /// <summary>Freight of the caller's carrier, about whose delivery they have word.</summary>
    public bool MayRecordOutcome(PickupHeader pickup) => Role is Role.TerminalReviewer or Role.AccountManager && MaySee(pickup);

    /// <summary>A claim for this pickup, which the caller may file, agree to and withdraw.</summary>
    public bool MayClaim(PickupHeader pickup) => MayDeclareFor(pickup.ShipperId, pickup.SiteId);

    /// <summary>Claims about freight of the caller's carrier, which they may answer.</summary>
    public bool MayAnswerClaim(PickupHeader pickup) => MayRecordOutcome(pickup);

    /// <summary>
    /// A carrier's published rules. Shippers see everybody's, since they choose among carriers; a carrier's people see their own.
    /// </summary>
    public bool MaySeeRulesOf(Guid carrierId) => Role == Role.ShipperClerk || Rights.CarrierId is null || Rights.CarrierId == carrierId;

    /// <summary>A carrier's rules, their draft and previews, which the caller may see and change.</summary>
    public bool MaySetRulesOf(Guid carrierId) => Role == Role.Administrator && (Rights.CarrierId is null || Rights.CarrierId == carrierId);

    /// <summary>
    /// People and API keys with these rights, which the caller may see, make and change. An administrator of one carrier
    /// manages that carrier's own; nobody hands out more than they have.
    /// </summary>
    public bool MayManage(Rights others) =>
        Role == Role.Administrator && (Rights.CarrierId is null || Rights.CarrierId == others.CarrierId);
}

/// <summary>The one place that knows how rights are written into a principal.</summary>
public static class CallerClaims
{
    /// <summary>The language that a person chose; people without one and API keys have none.</summary>
    public const string Language = "fettle:language";

    private const string ShipperClaim = "fettle:shipper";
    private const string SiteClaim = "fettle:site";
    private const string CarrierClaim = "fettle:carrier";
    private const string TerminalClaim = "fettle:terminal";
    private const string AccountClaim = "fettle:account";

    public static IEnumerable<Claim> Write(Guid id, string name, Rights rights)
    {
        yield return new(ClaimTypes.NameIdentifier, id.ToString());
        yield return new(ClaimTypes.Name, name);
        yield return new(ClaimTypes.Role, rights.Role.ToString());
        if (rights.ShipperId is { } shipper)
            yield return new(ShipperClaim, shipper.ToString());
        if (rights.CarrierId is { } carrier)
            yield return new(CarrierClaim, carrier.ToString());
        foreach (var site in rights.SiteIds)
            yield return new(SiteClaim, site.ToString());
        foreach (var terminal in rights.TerminalIds)
            yield return new(TerminalClaim, terminal.ToString());
        foreach (var account in rights.AccountShipperIds)
            yield return new(AccountClaim, account.ToString());
    }

    public static Caller Read(ClaimsPrincipal principal)
    {
        var id = principal.FindFirstValue(ClaimTypes.NameIdentifier);
        var role = principal.FindFirstValue(ClaimTypes.Role);
        if (id is null || role is null)
            throw new InvalidOperationException("The request is not signed in.");
        return new(
            Guid.Parse(id),
            principal.FindFirstValue(ClaimTypes.Name) ?? "",
            new(Enum.Parse<Role>(role), One(ShipperClaim), All(SiteClaim), One(CarrierClaim), All(TerminalClaim), All(AccountClaim)));

        Guid? One(string type) => principal.FindFirstValue(type) is { } value ? Guid.Parse(value) : null;
        Guid[] All(string type) => [.. principal.FindAll(type).Select(claim => Guid.Parse(claim.Value))];
    }
}
