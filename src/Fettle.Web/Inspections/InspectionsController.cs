using Fettle.Engineering.Units;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Photos;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace Fettle.Web.Inspections;

[Route("api/v1/inspections")]
public sealed class InspectionsController(IDocumentStore store, TimeProvider clock, InspectionDesk desk, Idempotency idempotency) : ApiController
{
    /// <summary>
    /// Records what was found about one line at the terminal. The measured unit is checked by the carrier's rules in force.
    /// The id is made where the inspection is written down: the same id again is answered as the first time.
    /// </summary>
    [HttpPost]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [ProducesResponseType<InspectionAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Record(InspectionJson request, CancellationToken cancel)
    {
        Pickup? pickup;
        await using (var session = store.QuerySession())
            pickup = request.PickupId is { } id ? await session.LoadAsync<Pickup>(id, cancel) : null;
        if (pickup is null || !Caller.MayDecide(pickup.Header))
            return Answers.NotFound("pickup");
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var units = request.Units is null ? pickup.Declaration.Units : Wording.Parse<UnitSystem>(request.Units);
        if (units is null)
            errors["units"] = T("Choose one of: {0}.", string.Join(", ", Wording.All<UnitSystem>()));
        var now = clock.GetUtcNow();
        var read = InspectionReading.Read(request.Form(), pickup, units ?? UnitSystem.Imperial, now, errors);
        if (read is null)
            return Answers.Unreadable(errors);
        var (inspection, refusal) = await desk.RecordAsync(
            pickup, read, [], Caller.Actor, now, (session, made) => idempotency.Remember(session, StatusCodes.Status201Created, InspectionAnswer.Of(made), Location(made.Id)), cancel);
        return refusal is null ? Created(Location(inspection!.Id), InspectionAnswer.Of(inspection)) : Answers.Refused(refusal);
    }

    /// <summary>An inspection of freight that the caller may see.</summary>
    [HttpGet("{id:guid}")]
    [ProducesResponseType<InspectionAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Inspection>(id, cancel) is { } inspection && Caller.MaySee(inspection.Recorded.Pickup)
            ? Ok(InspectionAnswer.Of(inspection))
            : Answers.NotFound("inspection");
    }

    /// <summary>
    /// Adds a photo: the picture itself as the body, or the one file of a form. JPEG, PNG and WebP are read, up to 15 MB and 50
    /// million pixels, and written anew, without place or any other metadata. The same photo again is there once.
    /// </summary>
    /// <param name="takenAt">When it was taken; now when left out.</param>
    [HttpPost("{id:guid}/photos")]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [RequestSizeLimit(PhotoUpload.LargestRequest)]
    [TakesPhoto]
    [ProducesResponseType<PhotoAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status413PayloadTooLarge, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status415UnsupportedMediaType, AsProblem)]
    public async Task<IActionResult> Photograph(Guid id, CancellationToken cancel, DateTimeOffset? takenAt = null)
    {
        Inspection? inspection;
        await using (var session = store.QuerySession())
            inspection = await session.LoadAsync<Inspection>(id, cancel);
        if (inspection is null || !Caller.MayDecide(inspection.Recorded.Pickup))
            return Answers.NotFound("inspection");
        var (read, wrong) = await PhotoUpload.ReadAsync(Request, cancel);
        if (wrong is not null)
            return Answers.Refused(wrong);
        var now = clock.GetUtcNow();
        var (photo, refusal) = await desk.PhotographAsync(
            inspection,
            read!,
            Caller.Actor,
            takenAt < now ? takenAt.Value : now,
            now,
            (session, made) => idempotency.Remember(session, StatusCodes.Status201Created, PhotoAnswer.Of(made), $"/api/v1/photos/{made.Id}.jpg"),
            cancel);
        return refusal is null ? Created($"/api/v1/photos/{photo!.Id}.jpg", PhotoAnswer.Of(photo)) : Answers.Refused(refusal);
    }

    /// <summary>Makes a hold of what the inspection found and nobody knew, with its reason written out. Done twice, it is one hold.</summary>
    [HttpPost("{id:guid}/hold")]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [ProducesResponseType<InspectionAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> PlaceHold(Guid id, [FromBody(EmptyBodyBehavior = EmptyBodyBehavior.Allow)] HoldFoundJson? request, CancellationToken cancel)
    {
        Inspection? inspection;
        await using (var session = store.QuerySession())
            inspection = await session.LoadAsync<Inspection>(id, cancel);
        if (inspection is null || !Caller.MayDecide(inspection.Recorded.Pickup))
            return Answers.NotFound("inspection");
        if (request?.Hold is false)
            return Answers.Unreadable([new("hold", T("Send true, or nothing."))]);
        var (holdId, refusal) = await desk.HoldAsync(
            inspection,
            Caller.Actor,
            clock.GetUtcNow(),
            (session, held) => idempotency.Remember(session, StatusCodes.Status201Created, InspectionAnswer.Of(inspection with { HoldId = held, LedToHold = true }), $"/api/v1/holds/{held}"),
            cancel);
        return refusal is null ? Created($"/api/v1/holds/{holdId}", InspectionAnswer.Of(inspection with { HoldId = holdId, LedToHold = true })) : Answers.Refused(refusal);
    }

    private static string Location(Guid id) => $"/api/v1/inspections/{id}";
}

/// <param name="Hold">True, or left out: the call itself says it.</param>
public sealed record HoldFoundJson(bool? Hold);
