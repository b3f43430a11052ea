using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Api;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Declarations;

[Route("api/v1/checks")]
public sealed class ChecksController(UnitCosts costs) : ApiController
{
    /// <summary>Checks handling units and offers alternatives. Nothing is stored.</summary>
    /// <param name="alternatives">"none", "best" (the cheapest) or "all" (at most five a line); "all" when left out.</param>
    [HttpPost]
    [ProducesResponseType<CheckAnswer>(StatusCodes.Status200OK, AsJson)]
    public IActionResult Check(CheckJson request, [FromQuery] string? alternatives = null)
    {
        var wanted = alternatives is null ? AlternativesWanted.All : Wording.Parse<AlternativesWanted>(alternatives);
        var reading = Reading.Of(request.Form());
        var errors = reading.FreightErrors.ToList();
        if (wanted is null)
            errors.Add(new("alternatives", T("Choose one of: {0}.", string.Join(", ", Wording.All<AlternativesWanted>()))));
        if (request.HandlingUnits is not { Count: > 0 })
            errors.Add(new("handlingUnits", T("Give at least one handling unit.")));
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var declaration = reading.Readable!;
        var rules = RuleSet.BuiltIn;
        return Ok(CheckAnswer.Of(declaration, ReadinessCheck.Run(declaration, rules), rules, costs, wanted!.Value));
    }
}
