using Fettle.Readiness;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Holds;

[Route("api/v1/holds")]
public sealed class HoldsController(IDocumentStore store, TimeProvider clock, HoldDesk desk, Idempotency idempotency) : ApiController
{
    private const int Most = 500;

    /// <summary>Held freight that the caller may see, most urgent first: that whose turn ends soonest, whoever must act, then what waits longest.</summary>
    /// <param name="state">"open" (the default), "decided" or "all".</param>
    /// <param name="pickup">Only holds of this pickup.</param>
    [HttpGet]
    [ProducesResponseType<HoldsAnswer>(StatusCodes.Status200OK, AsJson)]
    public async Task<IActionResult> List(CancellationToken cancel, string state = "open", Guid? pickup = null)
    {
        if (state is not ("open" or "decided" or "all"))
            return Answers.Unreadable([new("state", "Choose one of: open, decided, all.")]);
        await using var session = store.QuerySession();
        var holds = await HoldList.VisibleTo(session.Query<Hold>(), Caller)
            .Where(hold => state == "all" || hold.IsOpen == (state == "open"))
            .Where(hold => pickup == null || hold.Placed.PickupId == pickup)
            .OrderBy(hold => hold.Turn!.By).ThenBy(hold => hold.Placed.At)
            .Take(Most)
            .ToListAsync(cancel);
        return Ok(new HoldsAnswer([.. holds.Select(HoldAnswer.Of)]));
    }

    /// <summary>A hold that the caller may see.</summary>
    [HttpGet("{id:guid}")]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Hold>(id, cancel) is { } hold && Caller.MaySee(hold.Placed.Pickup)
            ? Ok(HoldAnswer.Of(hold))
            : Answers.NotFound("hold");
    }

    /// <summary>
    /// Decides about held freight. Whoever is second is told by whom and how it was decided (409), and may say with
    /// supersedes that their own decision takes the place of that one.
    /// </summary>
    [HttpPost("{id:guid}/decisions")]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Decide(Guid id, DecisionJson request, CancellationToken cancel)
    {
        var hold = await LoadAsync(id, cancel);
        if (hold is null || !Caller.MayDecide(hold.Placed.Pickup))
            return Answers.NotFound("hold");
        var now = clock.GetUtcNow();
        var form = request.Form();
        var errors = form.Errors(hold.Placed.Pickup.Window, now);
        if (errors.Count > 0)
            return Answers.Unreadable(request.Named(errors));
        var command = form.Command(Guid.CreateVersion7(now), hold.Placed.Pickup.Window, Caller.Actor, now);
        return await AnswerAsync(hold, state => Hold.Decide(state, command), cancel);
    }

    /// <summary>
    /// Decides about several holds for one reason, each by itself. The answer says for each what happened: "decided",
    /// "refused" with the reason (somebody was quicker), or "not-found" when it is not the caller's to decide.
    /// </summary>
    [HttpPost("decisions")]
    [Authorize(Policies.TerminalReviewer)]
    [ProducesResponseType<BulkAnswer>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    public async Task<IActionResult> DecideAll(BulkDecisionJson request, CancellationToken cancel)
    {
        Guid[] ids = [.. (request.Holds ?? []).Distinct()];
        if (ids.Length is 0 or > BulkDecisionJson.Most)
            return Answers.Unreadable([new("holds", T("Name 1 to {0} holds.", BulkDecisionJson.Most))]);
        if (request.Decision is null)
            return Answers.Unreadable([new("decision", T("Say how and why they are decided."))]);
        IReadOnlyList<Hold> found;
        await using (var session = store.QuerySession())
            found = await session.LoadManyAsync<Hold>(cancel, ids);
        Hold[] own = [.. found.Where(hold => Caller.MayDecide(hold.Placed.Pickup))];
        var now = clock.GetUtcNow();
        var form = request.Decision.Form();
        // One that cannot be read for one of them can be read for none.
        var errors = own.SelectMany(hold => form.Errors(hold.Placed.Pickup.Window, now)).ToArray();
        if (own.Length == 0)
            errors = [.. form.Errors(AnyWindow(now), now)];
        if (errors.Length > 0)
            return Answers.Unreadable(request.Decision.Named(errors).Select(error => KeyValuePair.Create($"decision.{error.Key}", error.Value)));
        var results = await desk.DecideAllAsync(own, hold => form.Command(Guid.CreateVersion7(now), hold.Placed.Pickup.Window, Caller.Actor, now), cancel);
        return Ok(new BulkAnswer([.. ids.Select(id => results.FirstOrDefault(result => result.Hold.Id == id) is { Hold: not null } result
            ? new BulkResult(id, result.Refusal is null ? "decided" : "refused", result.Refusal?.Message.Say(result.Hold.Placed.Units), (result.Refusal as AlreadyDecided)?.Decision is { } decided ? DecisionAnswer.Of(decided) : null)
            : new BulkResult(id, "not-found", null, null))]));
    }

    /// <summary>Writes to the other side about held freight; they are mailed. Both sides may, before and after the decision.</summary>
    [HttpPost("{id:guid}/messages")]
    [Authorize(Roles = Policies.BothSides)]
    [Idempotent]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Write(Guid id, MessageJson request, CancellationToken cancel)
    {
        var hold = await LoadAsync(id, cancel);
        if (hold is null || HoldList.SideOf(Caller, hold.Placed.Pickup) is not { } side)
            return Answers.NotFound("hold");
        if (HoldText.MessageComplaint(request.Text) is { } complaint)
            return Answers.Unreadable([new("text", complaint)]);
        var now = clock.GetUtcNow();
        var command = new SendHoldMessage(Guid.CreateVersion7(now), side, request.Text!.Trim(), Caller.Actor, now);
        return await AnswerAsync(hold, state => Hold.Decide(state, command), cancel);
    }

    /// <summary>Offers to put it right at a cost in US dollars. An offer that stands is replaced by it.</summary>
    [HttpPost("{id:guid}/offers")]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Offer(Guid id, OfferJson request, CancellationToken cancel)
    {
        var hold = await LoadAsync(id, cancel);
        if (hold is null || !Caller.MayDecide(hold.Placed.Pickup))
            return Answers.NotFound("hold");
        var now = clock.GetUtcNow();
        var form = new OfferForm { Work = request.Work, Cost = request.Cost?.ToString(System.Globalization.CultureInfo.InvariantCulture), ValidUntil = request.ValidUntil };
        var errors = form.Errors(hold.Placed.Pickup.Window, now);
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var command = form.Command(Guid.CreateVersion7(now), hold.Placed.Pickup.Window, Caller.Actor, now);
        return await AnswerAsync(hold, state => Hold.Decide(state, command), cancel);
    }

    /// <summary>Takes an offer of rework back; one that was authorised stays (409).</summary>
    [HttpPost("{id:guid}/offers/{offer:guid}/withdrawal")]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Withdraw(Guid id, Guid offer, WithdrawalJson request, CancellationToken cancel)
    {
        var hold = await LoadAsync(id, cancel);
        if (hold is null || !Caller.MayDecide(hold.Placed.Pickup))
            return Answers.NotFound("hold");
        if (HoldText.Complaint(request.Reason, DecisionForm.ShortestReason, HoldText.Longest, T("Say why, in a few words: the shipper reads it.")) is { } complaint)
            return Answers.Unreadable([new("reason", complaint)]);
        var command = new WithdrawReworkOffer(offer, request.Reason!.Trim(), Caller.Actor, clock.GetUtcNow());
        return await AnswerAsync(hold, state => Hold.Decide(state, command), cancel);
    }

    /// <summary>
    /// The shipper's answer: "authorise" an offer of rework that stands, ask for an "exception", "dispute" the hold, or
    /// "correct" what was declared; a correction is checked by the rules in force now, and the original stays readable.
    /// </summary>
    [HttpPost("{id:guid}/answers")]
    [Authorize(Policies.ShipperClerk)]
    [Idempotent]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status422UnprocessableEntity, AsProblem)]
    public async Task<IActionResult> Answer(Guid id, AnswerJson request, CancellationToken cancel)
    {
        var hold = await LoadAsync(id, cancel);
        if (hold is null || HoldList.SideOf(Caller, hold.Placed.Pickup) != HoldSide.Shipper)
            return Answers.NotFound("hold");
        var now = clock.GetUtcNow();
        var step = Guid.CreateVersion7(now);
        switch (request.Answer)
        {
            case "authorise" when request.Offer is { } offer:
                return await AnswerAsync(hold, state => Hold.Decide(state, new AuthoriseRework(step, offer, Caller.Actor, now)), cancel);
            case "authorise":
                return Answers.Unreadable([new("offer", T("Name the offer that you authorise."))]);
            case "exception" or "dispute":
                if (HoldText.ReasonComplaint(request.Text) is { } complaint)
                    return Answers.Unreadable([new("text", complaint)]);
                var text = request.Text!.Trim();
                return await AnswerAsync(
                    hold,
                    state => request.Answer == "exception"
                        ? Hold.Decide(state, new RequestException(step, text, Caller.Actor, now))
                        : Hold.Decide(state, new DisputeHold(step, text, [], Caller.Actor, now)),
                    cancel);
            case "correct":
                var (unit, errors) = Corrected(hold, request.HandlingUnit);
                return unit is null ? Answers.Unreadable(errors) : await CorrectAsync(hold, step, unit, now, cancel);
            default:
                return Answers.Unreadable([new("answer", T("Choose one of: {0}.", "authorise, exception, dispute, correct"))]);
        }
    }

    private async Task<IActionResult> CorrectAsync(Hold hold, Guid step, HandlingUnit unit, DateTimeOffset now, CancellationToken cancel)
    {
        Pickup pickup;
        await using (var session = store.QuerySession())
            pickup = await session.LoadAsync<Pickup>(hold.Placed.PickupId, cancel) ?? throw new InvalidOperationException($"There is no pickup {hold.Placed.PickupId}.");
        HoldAnswer? answer = null;
        var location = $"/api/v1/holds/{hold.Id}";
        var decision = await desk.CorrectAsync(hold, pickup, step, unit, Caller.Actor, now, (session, after) => Remember(session, answer = HoldAnswer.Of(after), location), cancel);
        return decision.Refusal is { } refusal ? Answers.Refused(refusal) : Created(location, answer ?? HoldAnswer.Of((await LoadAsync(hold.Id, cancel))!));
    }

    private async Task<IActionResult> AnswerAsync(Hold hold, Func<Hold?, Decision<HoldEvent>> decide, CancellationToken cancel)
    {
        HoldAnswer? answer = null;
        var location = $"/api/v1/holds/{hold.Id}";
        var decision = await desk.DecideAsync(hold, decide, (session, after) => Remember(session, answer = HoldAnswer.Of(after), location), NoticeState.Due, cancel);
        // Without an event it had been done before.
        return decision.Refusal is { } refusal ? Answers.Refused(refusal) : Created(location, answer ?? HoldAnswer.Of((await LoadAsync(hold.Id, cancel))!));
    }

    private void Remember(IDocumentSession session, HoldAnswer answer, string location) => idempotency.Remember(session, StatusCodes.Status201Created, answer, location);

    private static (HandlingUnit? Unit, Dictionary<string, string> Errors) Corrected(Hold hold, UnitJson? sent)
    {
        var metric = hold.Placed.Units == Engineering.Units.UnitSystem.Metric;
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        var unit = Reading.Line(
            (sent ?? new UnitJson()).Form(metric) with
            {
                Reference = hold.Placed.HandlingUnit.Reference,
                Quantity = Writing.TextOf(sent?.Quantity ?? hold.Placed.HandlingUnit.Quantity),
            },
            hold.Placed.Units,
            errors);
        return (unit, errors.ToDictionary(error => $"handlingUnit.{error.Key}", error => error.Value, StringComparer.Ordinal));
    }

    private async Task<Hold?> LoadAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<Hold>(id, cancel);
    }

    /// <summary>Something to read dates by when there is no freight to read them for.</summary>
    private static PickupWindow AnyWindow(DateTimeOffset now) => new(now, now, "UTC");
}

/// <param name="Decision">"release", "release-as-exception", "rework", "return" or "refuse".</param>
/// <param name="Reason">Why, 5 to 2,000 characters; the shipper reads it.</param>
/// <param name="Supersedes">The id of the decision in force that this one takes the place of.</param>
/// <param name="Exception">With "release-as-exception": who accepts which risk, until when, on which conditions.</param>
public sealed record DecisionJson(string? Decision, string? Reason, Guid? Supersedes = null, ExceptionJson? Exception = null)
{
    public DecisionForm Form() => new()
    {
        Decision = Decision,
        Reason = Reason,
        Supersedes = Supersedes,
        Supersede = Supersedes is not null,
        AcceptedBy = Exception?.AcceptedBy,
        Risk = Exception?.Risk,
        Until = Exception?.Until,
        Conditions = Exception?.Conditions,
    };

    /// <summary>Errors by the fields of the request.</summary>
    public IEnumerable<KeyValuePair<string, string>> Named(IEnumerable<KeyValuePair<string, string>> errors) =>
        errors.Select(error => error.Key is "decision" or "reason" ? error : KeyValuePair.Create($"exception.{error.Key}", error.Value));
}

/// <param name="AcceptedBy">Who takes the risk on, by name; 2 to 100 characters.</param>
/// <param name="Risk">Which risk; 5 to 500 characters.</param>
/// <param name="Until">When the exception ends: a moment with its offset, or a date at the site.</param>
/// <param name="Conditions">What must be kept to; 2 to 500 characters.</param>
public sealed record ExceptionJson(string? AcceptedBy, string? Risk, string? Until, string? Conditions);

/// <param name="Holds">Ids, 1 to 200.</param>
/// <param name="Decision">The same for each of them.</param>
public sealed record BulkDecisionJson(IReadOnlyList<Guid>? Holds, DecisionJson? Decision)
{
    public const int Most = 200;
}

public sealed record BulkAnswer(IReadOnlyList<BulkResult> Results);

/// <param name="Result">"decided", "refused" or "not-found".</param>
/// <param name="Why">Why it was refused, in words.</param>
/// <param name="Decision">The decision that stood in the way.</param>
public sealed record BulkResult(Guid Hold, string Result, string? Why, DecisionAnswer? Decision);

/// <param name="Text">1 to 2,000 characters.</param>
public sealed record MessageJson(string? Text);

/// <param name="Work">What would be done, 5 to 1,000 characters.</param>
/// <param name="Cost">US dollars, 0 to 100,000, at most two decimals.</param>
/// <param name="ValidUntil">A moment with its offset, or a date at the site; at most 90 days from now.</param>
public sealed record OfferJson(string? Work, decimal? Cost, string? ValidUntil);

/// <param name="Reason">Why, 5 to 2,000 characters; the shipper reads it.</param>
public sealed record WithdrawalJson(string? Reason);

/// <param name="Answer">"authorise", "exception", "dispute" or "correct".</param>
/// <param name="Offer">With "authorise": the offer that was read.</param>
/// <param name="Text">With "exception" and "dispute": the reason, or what shows that the hold is wrong; 5 to 2,000 characters.</param>
/// <param name="HandlingUnit">With "correct": the whole line as it is to be, in the pickup's units; its reference and quantity stay.</param>
public sealed record AnswerJson(string? Answer, Guid? Offer = null, string? Text = null, UnitJson? HandlingUnit = null);
