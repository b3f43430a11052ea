using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Api;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Declarations;

[Route("api/v1/checks")]
public sealed class ChecksController : ApiController
{
    /// <summary>Checks handling units and offers alternatives. Nothing is stored.</summary>
    [HttpPost]
    [ProducesResponseType<CheckAnswer>(StatusCodes.Status200OK, AsJson)]
    public IActionResult Check(CheckJson request)
    {
        var reading = Reading.Of(request.Form());
        var errors = reading.FreightErrors.ToList();
        if (request.HandlingUnits is not { Count: > 0 })
            errors.Add(new("handlingUnits", "Give at least one handling unit."));
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var declaration = reading.Readable!;
        var rules = RuleSet.BuiltIn;
        return Ok(CheckAnswer.Of(declaration, ReadinessCheck.Run(declaration, rules), rules, alternatives: true));
    }
}
