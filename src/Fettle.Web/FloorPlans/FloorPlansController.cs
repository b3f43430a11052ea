using Fettle.Engineering.TrailerFloor;
using Fettle.Web.Api;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.FloorPlans;

[Route("api/v1/floor-plans")]
public sealed class FloorPlansController : ApiController
{
    /// <summary>Where handling units stand in a trailer so that they take little of its length, with a bound. Nothing is stored.</summary>
    [HttpPost]
    [ProducesResponseType<FloorPlanAnswer>(StatusCodes.Status200OK, AsJson)]
    public IActionResult Plan(FloorPlanJson request)
    {
        var (trailer, units, errors) = request.Read();
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var plan = LoadPlanner.Plan(units, trailer, request.Decks == true ? Decking.Common : null);
        return Ok(FloorPlanAnswer.Of(plan, [.. request.HandlingUnits!.Select(unit => unit!.Reference!.Trim())], request.System));
    }
}
