using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Outcomes;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Pickups;

[Route("api/v1/pickups")]
public sealed class PickupsController(IDocumentStore store, TimeProvider clock, Submission submission, CarrierRuleBook rules, Idempotency idempotency, UnitCosts costs) : ApiController
{
    /// <summary>Declares a pickup. It is checked and kept as a draft until it is submitted.</summary>
    [HttpPost]
    [Authorize(Policies.ShipperClerk)]
    [Idempotent]
    [ProducesResponseType<PickupAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> Declare(PickupJson request, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var shipper = await session.LoadAsync<Shipper>(Caller.Rights.ShipperId!.Value, cancel);
        var carriers = await session.Query<Carrier>().ToListAsync(cancel);
        var zone = SiteZone(request, shipper!);
        var form = request.PickupForm(zone);
        var reading = Reading.Of(form);
        var errors = reading.Errors.ToDictionary(StringComparer.Ordinal);
        if (request.HandlingUnits is not { Count: > 0 })
            errors["handlingUnits"] = T("Give at least one handling unit.");
        request.WindowErrors(errors, zone);
        // It has its number when it is saved.
        var declared = Heading.Of(form, "", shipper!, Caller.Rights.SiteIds, carriers, errors);
        if (errors.Count > 0 || declared is null)
            return Answers.Unreadable(errors);
        var now = clock.GetUtcNow();
        var inForce = await rules.InForceAsync(declared.CarrierId, now, cancel);
        return await NumberTaken.RetryAsync('P', async number =>
        {
            var header = declared with { Number = number };
            var draft = new Draft
            {
                Id = Guid.CreateVersion7(now),
                Number = number,
                ShipperId = header.ShipperId,
                SiteId = header.SiteId,
                // By id from here on: names can change.
                Form = form with { Site = header.SiteId.ToString(), Terminal = header.TerminalId.ToString() },
                ChangedBy = Caller.Actor,
                ChangedAt = now,
            };
            var answer = PickupAnswer.OfDraft(draft, header, PickupParties.Of(shipper!, carriers.Single(c => c.Id == header.CarrierId), header), reading.Readable!, inForce, costs);
            var location = $"/api/v1/pickups/{draft.Id}";
            await using var saving = store.LightweightSession();
            saving.Insert(draft);
            idempotency.Remember(saving, StatusCodes.Status201Created, answer, location);
            await saving.SaveChangesAsync(cancel);
            return Created(location, answer);
        });
    }

    /// <summary>A pickup of the caller's, with what was found and what is held.</summary>
    [HttpGet("{id:guid}")]
    [ProducesResponseType<PickupAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Pickup>(id, cancel) is { } pickup)
        {
            if (!Caller.MaySee(pickup.Header))
                return Answers.NotFound("pickup");
            var holds = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == id).ToListAsync(cancel);
            return Ok(PickupAnswer.OfSubmitted(pickup, await PickupParties.LoadAsync(session, pickup.Header, cancel), holds, await rules.ThatJudgedAsync(pickup, cancel)));
        }

        if (await session.LoadAsync<Draft>(id, cancel) is not { } draft || !Caller.MayDeclareFor(draft.ShipperId, draft.SiteId))
            return Answers.NotFound("pickup");
        Response.Headers.ETag = SeenVersion.Tag(draft.Version);
        var (header, parties, reading, errors) = await ReadAsync(session, draft, cancel);
        return header is null || errors.Count > 0
            ? Ok(PickupAnswer.OfUnfinished(draft, errors))
            : Ok(PickupAnswer.OfDraft(draft, header, parties!, reading.Readable!, await rules.InForceAsync(header.CarrierId, clock.GetUtcNow(), cancel), costs));
    }

    /// <summary>The freight is at the terminal. Said twice it is noted once, and the first time counts.</summary>
    [HttpPost("{id:guid}/arrival")]
    [Authorize(Policies.TerminalReviewer)]
    [ProducesResponseType<ArrivalAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Arrive(
        Guid id, [FromBody(EmptyBodyBehavior = Microsoft.AspNetCore.Mvc.ModelBinding.EmptyBodyBehavior.Allow)] ArrivalJson? request, [FromServices] Boards.BoardDesk board, CancellationToken cancel)
    {
        Pickup? pickup;
        await using (var session = store.QuerySession())
            pickup = await session.LoadAsync<Pickup>(id, cancel);
        if (pickup is null || !Caller.MayDecide(pickup.Header))
            return Answers.NotFound("pickup");
        var now = clock.GetUtcNow();
        var at = request?.At ?? now;
        if (at > now || at < pickup.SubmittedAt)
            return Answers.Unreadable([new("at", T("Between its submission and now."))]);
        var decision = await board.NoteArrivalAsync(id, Caller.Actor, at, cancel);
        if (decision.Refusal is { } refusal)
            return Answers.Refused(refusal);
        var arrived = decision.Events.OfType<FreightArrived>().FirstOrDefault();
        if (arrived is null)
        {
            await using var session = store.QuerySession();
            arrived = (await session.LoadAsync<Pickup>(id, cancel))!.Arrived!;
        }

        return Ok(new ArrivalAnswer(id, arrived.At, arrived.By.Name));
    }

    /// <summary>
    /// Hands the pickup in. Freight that the check stops is held from the start; say why the carrier should take it all the
    /// same in exceptionRequest. With If-Match only the version that was seen is submitted.
    /// </summary>
    [HttpPost("{id:guid}/submission")]
    [Authorize(Policies.ShipperClerk)]
    [Idempotent]
    [ProducesResponseType<PickupAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status412PreconditionFailed, AsProblem)]
    public async Task<IActionResult> Submit(Guid id, [FromBody(EmptyBodyBehavior = Microsoft.AspNetCore.Mvc.ModelBinding.EmptyBodyBehavior.Allow)] SubmissionJson? request, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<Draft>(id, cancel) is not { } draft || !Caller.MayDeclareFor(draft.ShipperId, draft.SiteId))
            return Answers.NotFound("pickup");
        if (draft.SubmittedAt is not null && await session.LoadAsync<Pickup>(id, cancel) is { } submitted)
            return Answers.Refused(new AlreadySubmitted(submitted.SubmittedBy, submitted.SubmittedAt));
        if (SeenVersion.Refusal(Request, draft.Version, T("{0} changed it at {1}. Read it again before submitting.", draft.ChangedBy.Name, draft.ChangedAt.ToString("u"))) is { } changed)
            return changed;
        var (header, parties, reading, errors) = await ReadAsync(session, draft, cancel);
        var now = clock.GetUtcNow();
        if (header is not null && header.Window.To <= now)
            errors.TryAdd("window", "That pickup window has passed.");
        if (request?.ExceptionRequest is { Length: > SubmissionJson.LongestRequest } || !UnitFormValidator.ReadableText(request?.ExceptionRequest?.ReplaceLineEndings(" ")))
            errors.TryAdd("exceptionRequest", $"At most {SubmissionJson.LongestRequest} readable characters.");
        if (header is null || errors.Count > 0)
            return Answers.Unreadable(errors);
        var location = $"/api/v1/pickups/{id}";
        PickupAnswer? answer = null;
        var inForce = await rules.InForceAsync(header.CarrierId, now, cancel);
        var decision = await submission.SubmitAsync(draft, header, reading.Readable!, request?.ExceptionRequest, Caller.Actor, now, Remember, cancel);
        if (decision.Refusal is { } refusal)
            return Answers.Refused(refusal);
        return Created(location, answer);

        void Remember(IDocumentSession saving, Pickup pickup)
        {
            answer = PickupAnswer.OfSubmitted(pickup, parties!, [], inForce);
            idempotency.Remember(saving, StatusCodes.Status201Created, answer, location);
        }
    }

    private async Task<(PickupHeader? Header, PickupParties? Parties, Reading Reading, Dictionary<string, string> Errors)> ReadAsync(IQuerySession session, Draft draft, CancellationToken cancel)
    {
        var shipper = await session.LoadAsync<Shipper>(draft.ShipperId, cancel);
        var carriers = await session.Query<Carrier>().ToListAsync(cancel);
        var reading = Reading.Of(draft.Form);
        var errors = reading.Errors.ToDictionary(StringComparer.Ordinal);
        var header = Heading.Of(draft.Form, draft.Number, shipper!, Caller.Rights.SiteIds, carriers, errors);
        var parties = header is null ? null : PickupParties.Of(shipper!, carriers.Single(c => c.Id == header.CarrierId), header);
        return (header, parties, reading, errors);
    }

    private TimeZoneInfo SiteZone(PickupJson request, Shipper shipper) =>
        Heading.SiteOf(new() { Site = request.Site }, shipper, Caller.Rights.SiteIds) is { } site ? TimeZoneInfo.FindSystemTimeZoneById(site.TimeZone) : TimeZoneInfo.Utc;
}

/// <summary>Body of POST /api/v1/pickups: the head of a pickup, and all that a check takes.</summary>
/// <param name="Site">Id or name of the shipper's site; may be left out when there is only one.</param>
/// <param name="Terminal">Id or name of the carrier's origin terminal.</param>
/// <param name="Destination">Who receives it, and where.</param>
/// <param name="ConsigneeAddress">Street, town and postal code of the consignee, for labels and bill of lading; may be left out.</param>
/// <param name="Equipment">"van53", "van48", "pup28", "straight26" or "liftgate"; van53 when left out.</param>
public sealed record PickupJson(
    string? Units,
    LaneJson? Lane,
    bool? DriverOnDock,
    IReadOnlyList<UnitJson?>? HandlingUnits,
    string? Site,
    string? Terminal,
    string? Destination,
    WindowJson? Window,
    string? Equipment,
    string? ConsigneeAddress = null) : CheckJson(Units, Lane, DriverOnDock, HandlingUnits)
{
    internal PickupForm PickupForm(TimeZoneInfo zone)
    {
        var invariant = System.Globalization.CultureInfo.InvariantCulture;
        var from = Local(Window?.From, zone);
        return Form() with
        {
            Site = Site,
            Terminal = Terminal,
            Destination = Destination,
            ConsigneeAddress = ConsigneeAddress,
            Equipment = Equipment ?? Readiness.Pickups.Equipment.Van53.Word(),
            Window = new()
            {
                Date = from?.ToString("yyyy-MM-dd", invariant),
                From = from?.ToString("HH:mm", invariant),
                To = Local(Window?.To, zone)?.ToString("HH:mm", invariant),
            },
        };
    }

    /// <summary>Says it in the API's words: moments, not days and clock times.</summary>
    internal void WindowErrors(Dictionary<string, string> errors, TimeZoneInfo zone)
    {
        foreach (var field in errors.Keys.Where(key => key.StartsWith("window", StringComparison.Ordinal)).ToArray())
            errors.Remove(field);
        var from = Local(Window?.From, zone);
        var to = Local(Window?.To, zone);
        if (from is null)
            errors["window.from"] = "When the pickup window opens, for example 2026-11-26T14:00:00-06:00.";
        if (to is null)
            errors["window.to"] = "When the pickup window closes, for example 2026-11-26T16:00:00-06:00.";
        // Kept to the minute.
        else if (from is { } opens && (to.Value.Date != opens.Date || (to.Value.Hour, to.Value.Minute).CompareTo((opens.Hour, opens.Minute)) <= 0))
            errors["window.to"] = "The window closes after it opens, at least a minute later and on the same day at the site.";
    }

    /// <summary>As the site's clock shows it; null when there is no such moment, or none that anybody alive could mean.</summary>
    private static DateTimeOffset? Local(DateTimeOffset? at, TimeZoneInfo zone) =>
        at is { Year: > 2000 and < 3000 } moment ? TimeZoneInfo.ConvertTime(moment, zone) : null;
}

/// <summary>Moments with their offset from UTC, on one day at the site.</summary>
public sealed record WindowJson(DateTimeOffset? From, DateTimeOffset? To);

/// <param name="At">When it came in, not later than now; now when left out.</param>
public sealed record ArrivalJson(DateTimeOffset? At);

/// <param name="At">When it came in, as first noted.</param>
public sealed record ArrivalAnswer(Guid Pickup, DateTimeOffset At, string By);

/// <param name="ExceptionRequest">Why the carrier should take freight that the check stops, at most 2,000 characters.</param>
public sealed record SubmissionJson(string? ExceptionRequest)
{
    public const int LongestRequest = 2000;
}

/// <param name="State">"draft", "booked", "held", or "decided" once the terminal has decided about all that was held.</param>
/// <param name="Findings">About the pickup as a whole.</param>
/// <param name="Unfinished">While it is a draft: fields that need mending before it can be submitted.</param>
/// <param name="Outcome">How it was delivered; null while nobody has said.</param>
/// <param name="Claims">In the order in which they were filed; null while it is a draft.</param>
public sealed record PickupAnswer(
    Guid Id,
    string Number,
    string State,
    string? Verdict,
    RuleSetVersion? RuleSet,
    string? Shipper,
    string? Site,
    string? Carrier,
    string? Terminal,
    string? Destination,
    string? ConsigneeAddress,
    PickupWindow? Window,
    string? Equipment,
    IReadOnlyList<FindingAnswer> Findings,
    IReadOnlyList<UnitAnswer> HandlingUnits,
    IReadOnlyList<HoldReference> Holds,
    string? SubmittedBy,
    DateTimeOffset? SubmittedAt,
    IReadOnlyDictionary<string, string>? Unfinished,
    OutcomeAnswer? Outcome = null,
    IReadOnlyList<ClaimReference>? Claims = null)
{
    public static PickupAnswer OfDraft(Draft draft, PickupHeader header, PickupParties parties, Declaration declaration, RuleSet rules, UnitCosts costs)
    {
        var check = CheckAnswer.Of(declaration, ReadinessCheck.Run(declaration, rules), rules, costs, AlternativesWanted.All);
        return Of(draft.Id, header, parties, "draft", check.Verdict, check.RuleSet, check.Findings, check.HandlingUnits, [], null, null);
    }

    public static PickupAnswer OfUnfinished(Draft draft, IReadOnlyDictionary<string, string> errors) =>
        new(draft.Id, draft.Number, "draft", null, null, null, null, null, null, draft.Form.Destination, draft.Form.ConsigneeAddress, null, draft.Form.Equipment, [], [], [], null, null, errors);

    public static PickupAnswer OfSubmitted(Pickup pickup, PickupParties parties, IReadOnlyList<Hold> holds, RuleSet rules)
    {
        var state = pickup.Verdict != Readiness.Findings.Verdict.Hold ? "booked" : holds.Count > 0 && holds.All(hold => !hold.IsOpen) ? "decided" : "held";
        // Findings and verdicts are those of the day; figures are computed from the declaration as it was.
        var measured = ReadinessCheck.Run(pickup.Declaration, rules).HandlingUnits;
        var units = pickup.Declaration.HandlingUnits
            .Zip(pickup.Units, measured)
            .Select(line => UnitAnswer.Of(line.First, line.Third with { Verdict = line.Second.Verdict, Findings = line.Second.Findings }, pickup.Declaration.Units, null));
        return Of(
            pickup.Id,
            pickup.Header,
            parties,
            state,
            pickup.Verdict.Word(),
            pickup.RuleSet,
            FindingAnswer.Of(pickup.Findings, pickup.Declaration.Units),
            [.. units],
            [.. holds.OrderBy(hold => hold.Placed.Number, StringComparer.Ordinal).Select(hold => new HoldReference(hold.Id, hold.Placed.Number, hold.Placed.HandlingUnit.Reference, hold.Decided?.Decision.Word() ?? "open"))],
            pickup.SubmittedBy.Name,
            pickup.SubmittedAt) with { Outcome = pickup.Outcome is { } outcome ? OutcomeAnswer.Of(outcome) : null, Claims = [.. pickup.Claims.Select(claim => new ClaimReference(claim.Id, claim.Filed.Number, claim.State.Word()))] };
    }

    private static PickupAnswer Of(
        Guid id,
        PickupHeader header,
        PickupParties parties,
        string state,
        string verdict,
        RuleSetVersion ruleSet,
        IReadOnlyList<FindingAnswer> findings,
        IReadOnlyList<UnitAnswer> units,
        IReadOnlyList<HoldReference> holds,
        string? by,
        DateTimeOffset? at) =>
        new(id, header.Number, state, verdict, ruleSet, parties.Shipper.Name, parties.Site.Name, parties.Carrier.Name, parties.Terminal.Name, header.Destination, header.ConsigneeAddress, header.Window, header.Equipment.Word(), findings, units, holds, by, at, null);
}

/// <param name="State">"open", or the decision.</param>
public sealed record HoldReference(Guid Id, string Number, string Reference, string State);

/// <param name="State">"filed", "acknowledged", "offered", "agreed", "disallowed", "paid" or "withdrawn".</param>
public sealed record ClaimReference(Guid Id, string Number, string State);
