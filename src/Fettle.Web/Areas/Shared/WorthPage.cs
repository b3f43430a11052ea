using Fettle.Readiness.Scorecards;
using Fettle.Web.FloorUse;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Shared;

/// <summary>What stacking one account's freight is worth, as a part of a page.</summary>
public sealed record WorthPage(Guid ShipperId, string Shipper, AccountFloor Floor, IReadOnlyList<LaneFloor> Lanes, PlaceNames Places, bool IsOwn)
{
    /// <summary>Lanes shown; what there is beyond them is said.</summary>
    public const int MostLanes = 10;

    public string Back => IsOwn ? "/score" : $"/accounts/{ShipperId}";

    /// <summary>The negotiation sheet of all lanes, or of one.</summary>
    public string Sheet(string kind, LaneFloor? lane = null) =>
        $"/accounts/{ShipperId}/negotiation.{kind}?months={Floor.Period.Length}{(lane is null ? "" : $"&lane={lane.Id}")}";

    public static async Task<WorthPage> OfAsync(IQuerySession session, FloorUseDesk desk, Scope scope, Parties.Shipper shipper, CancellationToken cancel)
    {
        var floor = await desk.OfAsync(scope, cancel);
        return new(shipper.Id, shipper.Name, floor, floor.Lanes(desk.Today), await PlaceNames.OfAsync(session, [shipper], cancel), IsOwn: scope.CarrierId is null);
    }
}

/// <summary>
/// Puts the part into any page with one line, without a word in its controller:
/// <c>@await Component.InvokeAsync("Worth", new { shipperId, months })</c>. Nothing for whoever may not see that account.
/// </summary>
public sealed class WorthViewComponent(IDocumentStore store, FloorUseDesk desk) : ViewComponent
{
    public async Task<IViewComponentResult> InvokeAsync(Guid shipperId, int months)
    {
        var cancel = HttpContext.RequestAborted;
        await using var session = store.QuerySession();
        return FloorUseDesk.ScopeOf(Identity.Caller.Of(UserClaimsPrincipal).Rights, shipperId, desk.PeriodOf(months)) is { } scope && await session.LoadAsync<Parties.Shipper>(shipperId, cancel) is { } shipper
            ? View("~/Areas/Shared/_Worth.cshtml", await WorthPage.OfAsync(session, desk, scope, shipper, cancel))
            : Content("");
    }
}
