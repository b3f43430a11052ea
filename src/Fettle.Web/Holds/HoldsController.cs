using Fettle.Readiness.Holds;
using Fettle.Readiness.RuleSets;
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

    /// <summary>Held freight that the caller may see, most urgent first: what must be decided soonest, then what waits longest.</summary>
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
            .OrderBy(hold => hold.Placed.DecideBy).ThenBy(hold => hold.Placed.At)
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

    /// <summary>Decides about held freight. Whoever is second is told by whom and how it was decided (409).</summary>
    [HttpPost("{id:guid}/decisions")]
    [Authorize(Policies.TerminalReviewer)]
    [Idempotent]
    [ProducesResponseType<HoldAnswer>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Decide(Guid id, DecisionJson request, CancellationToken cancel)
    {
        Hold? hold;
        await using (var session = store.QuerySession())
            hold = await session.LoadAsync<Hold>(id, cancel);
        if (hold is null || !Caller.MayDecide(hold.Placed.Pickup))
            return Answers.NotFound("hold");
        var errors = DecisionForm.Errors(request.Decision, request.Reason);
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        var now = clock.GetUtcNow();
        var command = new DecideHold(Guid.CreateVersion7(now), Wording.Parse<HoldDecision>(request.Decision)!.Value, request.Reason!.Trim(), Caller.Actor, now);
        var answer = HoldAnswer.Of(hold with { Decided = new(hold.Id, command.DecisionId, command.Decision, command.Reason, command.By, command.At) });
        var location = $"/api/v1/holds/{id}";
        var decision = await desk.DecideAsync(hold, command, session => idempotency.Remember(session, StatusCodes.Status201Created, answer, location), NoticeState.Due, cancel);
        return decision.Refusal is { } refusal ? Answers.Refused(refusal) : Created(location, answer);
    }
}

/// <param name="Decision">"release", "release-as-exception", "rework", "return" or "refuse".</param>
/// <param name="Reason">Why, 5 to 2,000 characters; the shipper reads it.</param>
public sealed record DecisionJson(string? Decision, string? Reason);

public sealed record HoldsAnswer(IReadOnlyList<HoldAnswer> Holds);

/// <param name="Reason">Why it is held, composed from the findings that stop it.</param>
/// <param name="State">"open" or "decided".</param>
public sealed record HoldAnswer(
    Guid Id,
    string Number,
    Guid PickupId,
    string Reference,
    int Quantity,
    string Reason,
    string? ExceptionRequest,
    IReadOnlyList<FindingAnswer> Findings,
    UnitJson HandlingUnit,
    DateTimeOffset PlacedAt,
    DateTimeOffset DecideBy,
    string State,
    DecisionAnswer? Decision)
{
    public static HoldAnswer Of(Hold hold) => new(
        hold.Id,
        hold.Placed.Number,
        hold.Placed.PickupId,
        hold.Placed.HandlingUnit.Reference,
        hold.Placed.HandlingUnit.Quantity,
        hold.Placed.Reason.Say(hold.Placed.Units),
        hold.Placed.ExceptionRequest,
        [.. hold.Placed.Findings.Select(finding => FindingAnswer.Of(finding, hold.Placed.Units))],
        UnitJson.Of(hold.Placed.HandlingUnit, hold.Placed.Units),
        hold.Placed.At,
        hold.Placed.DecideBy,
        hold.IsOpen ? "open" : "decided",
        hold.Decided is { } decided ? DecisionAnswer.Of(decided) : null);
}
