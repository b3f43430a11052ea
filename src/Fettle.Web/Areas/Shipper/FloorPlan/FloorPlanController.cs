using Fettle.Engineering.Axles;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Fettle.Readiness.Pickups;
using Fettle.Web.FloorPlans;
using Fettle.Web.Identity;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.FloorPlan;

/// <summary>How a submitted pickup would stand in its trailer, for all who may see the pickup.</summary>
[Route("pickups/{id:guid}/floor-plan")]
public sealed class FloorPlanController(IDocumentStore store) : Controller
{
    [HttpGet("")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel, string? decks = null)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Pickup>(id, cancel) is not { } pickup || !Caller.Of(User).MaySee(pickup.Header))
            return NotFound();
        var decked = decks == "true";
        return View(new FloorPlanPage(pickup, DeclaredLoad.TrailerOf(pickup.Header.Equipment), decked, DeclaredLoad.Plan(pickup, decked)));
    }
}

/// <param name="Plan">Null when there are more units than can be planned at once.</param>
public sealed record FloorPlanPage(Pickup Pickup, Trailer Trailer, bool Decks, LoadPlan? Plan)
{
    public UnitSystem Units => Pickup.Declaration.Units;

    public IReadOnlyList<string> References => [.. Pickup.Declaration.HandlingUnits.Select(unit => unit.Reference)];

    public TractorTrailer? Vehicle => LoadWords.VehicleOf(Trailer);

    public string Long(Length length) => ((Quantity)length).Show(Units);

    public string Heavy(Mass mass) => ((Quantity)mass).Show(Units);
}
