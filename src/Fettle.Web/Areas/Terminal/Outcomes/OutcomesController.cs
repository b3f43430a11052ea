using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Outcomes;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Terminal.Outcomes;

/// <summary>How freight was delivered. The carrier's people record it; whoever may see the pickup reads it there.</summary>
[Route("pickups/{id:guid}/outcome")]
public sealed class OutcomesController(IDocumentStore store, TimeProvider clock, OutcomeDesk desk) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Edit(Guid id, CancellationToken cancel)
    {
        if (await PageAsync(id, cancel) is not { } page)
            return NotFound();
        await using var session = store.QuerySession();
        var stayed = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == id && (hold.Decided!.Decision == HoldDecision.Return || hold.Decided.Decision == HoldDecision.Refuse)).ToListAsync(cancel);
        return View(page with { Form = FormOf(page.Pickup, stayed.Select(hold => hold.Placed.HandlingUnit.Reference).ToHashSet(StringComparer.Ordinal)) });
    }

    [HttpPost("")]
    public async Task<IActionResult> Edit(Guid id, OutcomeForm form, CancellationToken cancel)
    {
        if (await PageAsync(id, cancel) is not { } page)
            return NotFound();
        page = page with { Form = form };
        // The page has one row for each line; what has another shape did not come from it.
        if (form.Lines.Count != page.Pickup.Declaration.HandlingUnits.Count || form.Lines.Contains(null!) || form.OutcomeId == Guid.Empty)
            return BadRequest();
        var reading = OutcomeReading.Of(form, page.Pickup);
        foreach (var (field, message) in reading.Errors)
            ModelState.AddModelError($"Form.{field}", message);
        if (!ModelState.IsValid)
            return Again(page);
        var now = clock.GetUtcNow();
        var command = new RecordOutcome(form.OutcomeId, reading.DeliveredOn!.Value, reading.Units, new(), [], form.Supersedes, form.Reason, Caller.Actor, now);
        var decision = await desk.RecordAsync(page.Pickup, command, NoticeState.Due, null, cancel);
        switch (decision.Refusal)
        {
            case null:
                this.Say(T("Recorded: {0}.", decision.Events.OfType<OutcomeRecorded>().Select(Notices.Letters.OutcomeLetter.Summary).FirstOrDefault() ?? T("as before")));
                return Redirect($"/pickups/{id}");
            case ImpossibleDeliveryDay day:
                ModelState.AddModelError("Form.DeliveredOn", day.Message.Say(UnitSystem.Imperial));
                return Again(page);
            case OutcomeStands stands:
                // What was typed stays; the page now shows the other's record, and asks why it should be replaced.
                Response.StatusCode = StatusCodes.Status409Conflict;
                ModelState.Remove("Supersedes");
                form.Supersedes = stands.Standing?.OutcomeId;
                return View((await PageAsync(id, cancel))! with { Form = form, Refused = stands.Message.Say(UnitSystem.Imperial) });
            case var refusal:
                return Again(page with { Refused = refusal.Message.Say(UnitSystem.Imperial) });
        }

        ViewResult Again(OutcomePage shown)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View(shown);
        }
    }

    private async Task<OutcomePage?> PageAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Pickup>(id, cancel) is { } pickup && Caller.MayRecordOutcome(pickup.Header)
            ? new(pickup, await PickupParties.LoadAsync(session, pickup.Header, cancel))
            : null;
    }

    /// <summary>Everything whole, or as it was recorded before.</summary>
    /// <param name="stayed">Lines that the terminal returned or refused.</param>
    private OutcomeForm FormOf(Pickup pickup, IReadOnlySet<string> stayed)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(pickup.Header.Window.TimeZone);
        var day = pickup.Outcome?.DeliveredOn ?? DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(clock.GetUtcNow(), zone).Date);
        return new()
        {
            OutcomeId = Guid.CreateVersion7(clock.GetUtcNow()),
            DeliveredOn = day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            Supersedes = pickup.Outcome?.OutcomeId,
            Lines = [.. pickup.Declaration.HandlingUnits.Select(line => LineOf(line, pickup.Outcome, stayed))],
        };
    }

    private static OutcomeLineForm LineOf(HandlingUnit line, OutcomeRecorded? before, IReadOnlySet<string> stayed)
    {
        var reference = line.Reference;
        UnitOutcome[] units = [.. (before?.Units ?? []).Where(unit => unit.Reference == reference)];
        var damaged = Array.Find(units, unit => unit.Kind == OutcomeKind.Damaged);
        return new()
        {
            Reference = reference,
            Short = Count(OutcomeKind.Short),
            Damaged = Count(OutcomeKind.Damaged),
            Refused = Count(OutcomeKind.Refused),
            Stayed = before is null && stayed.Contains(reference) ? line.Quantity.ToString(System.Globalization.CultureInfo.InvariantCulture) : Count(OutcomeKind.Stayed),
            Where = damaged?.Where is { } where ? Fettle.Web.Declarations.Wording.Word(where) : null,
            How = damaged?.How is { } how ? Fettle.Web.Declarations.Wording.Word(how) : null,
            Concealed = damaged?.Concealed ?? false,
            CarriedFreight = units.FirstOrDefault()?.CarriedFreight switch { true => "yes", false => "no", null => "" },
            Note = units.Select(unit => unit.Note).FirstOrDefault(note => note is not null),
        };

        string? Count(OutcomeKind kind) => units.Where(unit => unit.Kind == kind).Sum(unit => unit.Count) is > 0 and var count
            ? count.ToString(System.Globalization.CultureInfo.InvariantCulture)
            : null;
    }
}

public sealed record OutcomePage(Pickup Pickup, PickupParties Parties)
{
    public OutcomeForm Form { get; init; } = new();

    /// <summary>Why what was just sent was not taken.</summary>
    public string? Refused { get; init; }
}
