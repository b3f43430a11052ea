using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Rules;
using Fettle.Web.Api;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Declarations;

[Route("api/v1/checks")]
public sealed class ChecksController(IDocumentStore store, TimeProvider clock, CarrierRuleBook rules, UnitCosts costs) : ApiController
{
    /// <summary>Checks handling units by a carrier's rules in force now, or by the built-in ones, and offers alternatives. Nothing is stored.</summary>
    /// <param name="alternatives">"none", "best" (the cheapest) or "all" (at most five a line); "all" when left out.</param>
    [HttpPost]
    [ProducesResponseType<CheckAnswer>(StatusCodes.Status200OK, AsJson)]
    public async Task<IActionResult> Check(CheckOnlyJson request, [FromQuery] string? alternatives = null, CancellationToken cancel = default)
    {
        var wanted = alternatives is null ? AlternativesWanted.All : Wording.Parse<AlternativesWanted>(alternatives);
        var reading = Reading.Of(request.Form());
        var errors = reading.FreightErrors.ToList();
        if (wanted is null)
            errors.Add(new("alternatives", T("Choose one of: {0}.", string.Join(", ", Wording.All<AlternativesWanted>()))));
        if (request.HandlingUnits is not { Count: > 0 })
            errors.Add(new("handlingUnits", T("Give at least one handling unit.")));
        Carrier? carrier = null;
        if (request.Carrier is { } named)
        {
            await using var session = store.QuerySession();
            var carriers = (await session.Query<Carrier>().ToListAsync(cancel)).Where(known => Caller.MaySeeRulesOf(known.Id)).ToArray();
            carrier = Array.Find(carriers, known => Heading.Names(named, known.Id, known.Name));
            if (carrier is null)
                errors.Add(new("carrier", T("Name a carrier by id or name: {0}. Leave it out for the built-in rules.", string.Join(", ", carriers.Select(known => known.Name).Order()))));
        }

        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var declaration = reading.Readable!;
        var inForce = await rules.InForceAsync(carrier?.Id, clock.GetUtcNow(), cancel);
        return Ok(CheckAnswer.Of(declaration, ReadinessCheck.Run(declaration, inForce), inForce, costs, wanted!.Value));
    }
}

/// <summary>Body of POST /api/v1/checks.</summary>
/// <param name="Units">"imperial": inches and pounds; "metric": centimetres and kilograms.</param>
/// <param name="DriverOnDock">The driver may see the freight being loaded.</param>
/// <param name="Carrier">Id or name of the carrier whose rules judge; the built-in rules when left out.</param>
public sealed record CheckOnlyJson(string? Units, LaneJson? Lane, bool? DriverOnDock, IReadOnlyList<UnitJson?>? HandlingUnits, string? Carrier)
    : CheckJson(Units, Lane, DriverOnDock, HandlingUnits);
