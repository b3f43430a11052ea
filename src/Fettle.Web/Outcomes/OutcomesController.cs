using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Outcomes;

[Route("api/v1/pickups/{id:guid}/outcome")]
public sealed class OutcomesController(IDocumentStore store, TimeProvider clock, OutcomeDesk desk, Idempotency idempotency) : ApiController
{
    /// <summary>
    /// Records how the freight was delivered, every unit of it. Replaces an earlier record when that is named in supersedes,
    /// with a reason; otherwise whoever is second is told that one stands (409).
    /// </summary>
    [HttpPost]
    [Idempotent]
    [ProducesResponseType<OutcomeAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status422UnprocessableEntity, AsProblem)]
    public async Task<IActionResult> Record(Guid id, OutcomeJson request, CancellationToken cancel)
    {
        Pickup? pickup;
        await using (var session = store.QuerySession())
            pickup = await session.LoadAsync<Pickup>(id, cancel);
        if (pickup is null || !Caller.MaySee(pickup.Header))
            return Answers.NotFound("pickup");
        if (!Caller.MayRecordOutcome(pickup.Header))
            return Forbid();
        var reading = OutcomeReading.Of(request);
        if (reading.Errors.Count > 0)
            return Answers.Unreadable(reading.Errors);
        var now = clock.GetUtcNow();
        var command = new RecordOutcome(Guid.CreateVersion7(now), reading.DeliveredOn!.Value, reading.Units, new(), [], request.Supersedes, request.Reason, Caller.Actor, now);
        var location = $"/api/v1/pickups/{id}";
        OutcomeAnswer? answer = null;
        var decision = await desk.RecordAsync(pickup, command, NoticeState.Due, Remember, cancel);
        return decision.Refusal is { } refusal ? Answers.Refused(refusal) : Created(location, answer);

        void Remember(IDocumentSession saving, OutcomeRecorded recorded)
        {
            answer = OutcomeAnswer.Of(recorded);
            idempotency.Remember(saving, StatusCodes.Status201Created, answer, location);
        }
    }
}

/// <param name="DeliveredOn">Day of delivery, "2026-11-26".</param>
/// <param name="Units">What became of each unit: together they account for all of them.</param>
/// <param name="Supersedes">Id of the outcome that this one replaces; left out when none is recorded.</param>
/// <param name="Reason">Why it replaces that one.</param>
public sealed record OutcomeJson(string? DeliveredOn, IReadOnlyList<UnitOutcomeJson?>? Units, Guid? Supersedes, string? Reason);

/// <param name="Reference">The line of the declaration.</param>
/// <param name="Count">So many of its units.</param>
/// <param name="Kind">"clean", "short", "damaged", "refused" by the consignee, or "stayed" when it did not travel.</param>
/// <param name="Where">When damaged: "top", "side", "corner", "bottom", "inside" or "whole".</param>
/// <param name="How">When damaged: "crushed", "punctured", "shifted", "wet", "broken", "torn" or "other".</param>
/// <param name="Concealed">Found only after the receipt had been signed without a remark.</param>
/// <param name="CarriedFreight">Another unit rode on top of it; left out when nobody noted it.</param>
public sealed record UnitOutcomeJson(string? Reference, int? Count, string? Kind, string? Where, string? How, bool? Concealed, bool? CarriedFreight, string? Note);

/// <param name="ConcealedDamageBy">Last day to report concealed damage by the carrier's terms. A reminder: tariff and law have the last word.</param>
/// <param name="ClaimBy">Last day to file a claim by the carrier's terms.</param>
public sealed record OutcomeAnswer(
    Guid Id,
    DateOnly DeliveredOn,
    IReadOnlyList<UnitOutcomeJson> Units,
    DateOnly ConcealedDamageBy,
    DateOnly ClaimBy,
    Guid? Supersedes,
    string? Reason,
    string By,
    DateTimeOffset At)
{
    public static OutcomeAnswer Of(OutcomeRecorded outcome) => new(
        outcome.OutcomeId,
        outcome.DeliveredOn,
        [.. outcome.Units.Select(unit => new UnitOutcomeJson(unit.Reference, unit.Count, unit.Kind.Word(), unit.Where?.Word(), unit.How?.Word(), unit.Concealed, unit.CarriedFreight, unit.Note))],
        outcome.Deadlines.ConcealedDamageBy,
        outcome.Deadlines.ClaimBy,
        outcome.Supersedes,
        outcome.Reason,
        outcome.By.Name,
        outcome.At);
}
