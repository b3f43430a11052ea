using System.Globalization;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Identity;
using Fettle.Web.Inspections;
using Fettle.Web.Parties;
using Fettle.Web.Photos;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Terminal.Inspections;

/// <summary>
/// What was found on the floor, beside what was declared. The form is sent by script from what is kept on the device, and
/// without script as any form: both ways end in the same action.
/// </summary>
[Route("inspections")]
public sealed class InspectionsController(IDocumentStore store, TimeProvider clock, InspectionDesk desk) : Controller
{
    /// <summary>Without script all photos come in one request.</summary>
    private const int LargestForm = 4 * PhotoReader.LargestUpload;

    private Caller Caller => Caller.Of(User);

    /// <summary>Kept on a device by somebody else than who is signed in on it now: it is not recorded in another's name.</summary>
    private bool IsAnothers => Request.Headers.TryGetValue("X-Kept-By", out var by) && by != Caller.Id.ToString();

    private bool WantsJson => Request.Headers.Accept.ToString().StartsWith("application/json", StringComparison.OrdinalIgnoreCase);

    [HttpGet("new")]
    [Authorize(Policies.TerminalReviewer)]
    public async Task<IActionResult> New(Guid pickup, string? line, int? unit, string? sscc, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await FormAsync(session, pickup, line, cancel) is { } page
            ? View(page with { Form = new() { Id = Guid.CreateVersion7(clock.GetUtcNow()).ToString(), Reference = line, Index = unit?.ToString(CultureInfo.InvariantCulture), Sscc = sscc, Alike = "1" } })
            : NotFound();
    }

    [HttpPost("")]
    [Authorize(Policies.TerminalReviewer)]
    [RequestSizeLimit(LargestForm)]
    public async Task<IActionResult> Record(Guid pickup, InspectionForm form, List<IFormFile>? photos, CancellationToken cancel)
    {
        if (IsAnothers)
            return Unauthorized();
        InspectPage? page;
        await using (var session = store.QuerySession())
            page = await FormAsync(session, pickup, form.Reference?.Trim(), cancel);
        if (page is null)
            return NotFound();
        var now = clock.GetUtcNow();
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var read = InspectionReading.Read(form, page.Pickup, page.Units, now, errors);
        var pictures = new List<ReadPhoto>();
        foreach (var file in (photos ?? []).Take(Inspection.MostPhotos))
        {
            await using var upload = file.OpenReadStream();
            var (photo, wrong) = await PhotoReader.ReadAsync(upload, file.Length, cancel);
            if (wrong is not null)
                errors["photos"] = wrong.Message.Say(page.Units);
            else
                pictures.Add(photo!);
        }

        if (read is null || errors.Count > 0)
            return Wrong(page with { Form = form, Errors = errors });
        var (inspection, refusal) = await desk.RecordAsync(page.Pickup, read, pictures, Caller.Actor, now, null, cancel);
        if (refusal is not null)
        {
            errors[""] = refusal.Message.Say(page.Units);
            return Wrong(page with { Form = form, Errors = errors }, StatusCodes.Status409Conflict);
        }

        var location = $"/inspections/{inspection!.Id}";
        return WantsJson ? StatusCode(StatusCodes.Status201Created, new { id = inspection.Id, location }) : Redirect(location);

        IActionResult Wrong(InspectPage again, int status = StatusCodes.Status422UnprocessableEntity)
        {
            Response.StatusCode = status;
            return WantsJson ? new JsonResult(new { errors = again.Errors }) { StatusCode = status } : View("New", again);
        }
    }

    [HttpGet("{id:guid}")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel) =>
        await PageAsync(id, cancel) is { } page ? View(page) : NotFound();

    [HttpPost("{id:guid}/photos")]
    [Authorize(Policies.TerminalReviewer)]
    [RequestSizeLimit(PhotoUpload.LargestRequest)]
    public async Task<IActionResult> Photograph(Guid id, CancellationToken cancel, [FromQuery] DateTimeOffset? takenAt = null)
    {
        if (IsAnothers)
            return Unauthorized();
        if (await PageAsync(id, cancel) is not { MayInspect: true } page)
            return NotFound();
        var now = clock.GetUtcNow();
        var (read, refusal) = await PhotoUpload.ReadAsync(Request, cancel);
        if (refusal is null)
            (_, refusal) = await desk.PhotographAsync(page.Inspection, read!, Caller.Actor, takenAt < now ? takenAt.Value : now, now, null, cancel);
        if (refusal is null)
            return WantsJson ? StatusCode(StatusCodes.Status201Created, new { id }) : Redirect($"/inspections/{id}");
        var sentence = refusal.Message.Say(page.Recorded.Units);
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return WantsJson ? new JsonResult(new { errors = new Dictionary<string, string> { ["photos"] = sentence } }) { StatusCode = Response.StatusCode } : View("Show", page with { PhotoRefused = sentence });
    }

    [HttpPost("{id:guid}/hold")]
    [Authorize(Policies.TerminalReviewer)]
    public async Task<IActionResult> PlaceHold(Guid id, CancellationToken cancel)
    {
        if (await PageAsync(id, cancel) is not { MayInspect: true } page)
            return NotFound();
        var (holdId, refusal) = await desk.HoldAsync(page.Inspection, Caller.Actor, clock.GetUtcNow(), null, cancel);
        if (refusal is null)
        {
            this.Say(T("It is held. The shipper is told why."));
            return Redirect($"/holds/{holdId}");
        }

        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return View("Show", page with { Refused = refusal.Message.Say(page.Recorded.Units) });
    }

    /// <summary>The form for a line; null when the line is not there or not this person's to inspect.</summary>
    private async Task<InspectPage?> FormAsync(IQuerySession session, Guid id, string? reference, CancellationToken cancel)
    {
        if (reference is null || await session.LoadAsync<Pickup>(id, cancel) is not { } pickup || !Caller.MayDecide(pickup.Header))
            return null;
        var hold = await InspectionDesk.LatestHoldAsync(session, id, reference, cancel);
        if (Inspection.DeclaredOf(pickup, reference, hold) is not { } line)
            return null;
        return new(pickup, line, await PickupParties.LoadAsync(session, pickup.Header, cancel), hold, await InspectionDesk.OfLineAsync(session, id, reference, cancel));
    }

    private async Task<InspectionPage?> PageAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Inspection>(id, cancel) is not { } inspection || !Caller.MaySee(inspection.Recorded.Pickup))
            return null;
        var hold = inspection.HoldId is { } held ? await session.LoadAsync<Hold>(held, cancel) : null;
        return new(inspection, await PickupParties.LoadAsync(session, inspection.Recorded.Pickup, cancel), hold, Caller.MayDecide(inspection.Recorded.Pickup));
    }
}

/// <param name="Line">As it is declared now.</param>
/// <param name="Hold">The line's latest hold; null when there was none.</param>
/// <param name="Before">Earlier inspections of the line, latest first.</param>
public sealed record InspectPage(Pickup Pickup, HandlingUnit Line, PickupParties Parties, Hold? Hold, IReadOnlyList<Inspection> Before)
{
    public Engineering.Units.UnitSystem Units => Pickup.Declaration.Units;

    public InspectionForm Form { get; init; } = new();

    public IReadOnlyDictionary<string, string> Errors { get; init; } = new Dictionary<string, string>();

    public string? Error(string field) => Errors.GetValueOrDefault(field);
}

public sealed record InspectionPage(Inspection Inspection, PickupParties Parties, Hold? Hold, bool MayInspect)
{
    public InspectionRecorded Recorded => Inspection.Recorded;

    public string? Refused { get; init; }

    public string? PhotoRefused { get; init; }
}
