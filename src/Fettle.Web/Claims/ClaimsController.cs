using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Marten;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Claims;

[Route("api/v1")]
public sealed class ClaimsController(IDocumentStore store, TimeProvider clock, ClaimDesk desk, Idempotency idempotency) : ApiController
{
    /// <summary>Claims that the caller may see, of the 200 pickups with claims that were handed in last: first those that the carrier must do something about soonest, then the newest.</summary>
    /// <param name="state">"open" (the default: the carrier still has something to do), "closed" or "all".</param>
    [HttpGet("claims")]
    [ProducesResponseType<ClaimsAnswer>(StatusCodes.Status200OK, AsJson)]
    public async Task<IActionResult> List(CancellationToken cancel, string state = "open")
    {
        if (state is not ("open" or "closed" or "all"))
            return Answers.Unreadable([new("state", T("Choose one of: {0}.", "open, closed, all"))]);
        await using var session = store.QuerySession();
        var claims = await ClaimList.OfAsync(session, Caller, onlyOpen: state == "open", cancel);
        return Ok(new ClaimsAnswer([
            .. claims.Where(row => state == "all" || row.Claim.IsOpen == (state == "open")).Select(row => ClaimFile.Of(row.Pickup, row.Claim)),
        ]));
    }

    /// <summary>Files a claim for freight that was recorded damaged, missing or not taken at delivery.</summary>
    [HttpPost("pickups/{id:guid}/claims")]
    [Idempotent]
    [ProducesResponseType<ClaimFile>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status422UnprocessableEntity, AsProblem)]
    public async Task<IActionResult> FileClaim(Guid id, ClaimJson request, CancellationToken cancel)
    {
        var (pickup, refused) = await LoadAsync(id, Caller.MayClaim, cancel);
        if (pickup is null)
            return refused!;
        var reading = ClaimReading.Of(request);
        if (reading.Errors.Count > 0)
            return Answers.Unreadable(reading.Errors);
        var now = clock.GetUtcNow();
        var command = new FileClaim(Guid.CreateVersion7(now), Draft.NewNumber('C'), request.OutcomeId!.Value, default, reading.Lines, request.Grounds!, new(), Caller.Actor, now);
        return await AnswerAsync(pickup, command.ClaimId, alongside => desk.FileAsync(pickup, command, alongside, cancel), cancel);
    }

    /// <summary>A claim with all that was said about it.</summary>
    [HttpGet("pickups/{id:guid}/claims/{claim:guid}")]
    [ProducesResponseType<ClaimFile>(StatusCodes.Status200OK, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Get(Guid id, Guid claim, CancellationToken cancel) =>
        await FindAsync(id, claim, cancel) is { } found ? Ok(found) : Answers.NotFound("claim");

    /// <summary>
    /// The carrier's answer: acknowledged, offered, disallowed or paid. Whoever had not seen the last step (seen is the
    /// revision that the caller read) is told whose it was (409).
    /// </summary>
    [HttpPost("pickups/{id:guid}/claims/{claim:guid}/answers")]
    [Idempotent]
    [ProducesResponseType<ClaimFile>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status422UnprocessableEntity, AsProblem)]
    public async Task<IActionResult> Answer(Guid id, Guid claim, ClaimAnswerJson request, CancellationToken cancel)
    {
        var (pickup, refused) = await LoadAsync(id, Caller.MayAnswerClaim, cancel);
        if (pickup is null)
            return refused!;
        var now = clock.GetUtcNow();
        var form = request.Form(Guid.CreateVersion7(now));
        var command = form.Read(claim, Caller.Actor, now, out var errors);
        if (request.Seen is null)
            errors["seen"] = T("The revision of the claim that you read.");
        if (command is null || errors.Count > 0)
            return Answers.Unreadable(errors.Select(error => KeyValuePair.Create(error.Key == "sum" ? "amount" : error.Key, error.Value)));
        return await AnswerAsync(pickup, claim, alongside => desk.AnswerAsync(pickup, command, alongside, cancel), cancel);
    }

    /// <summary>Takes the offer that stands.</summary>
    [HttpPost("pickups/{id:guid}/claims/{claim:guid}/acceptance")]
    [Idempotent]
    [ProducesResponseType<ClaimFile>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Accept(Guid id, Guid claim, ClaimSeenJson request, CancellationToken cancel)
    {
        var (pickup, refused) = await LoadAsync(id, Caller.MayClaim, cancel);
        if (pickup is null)
            return refused!;
        if (request.Seen is not { } seen)
            return Answers.Unreadable([new("seen", T("The revision of the claim that you read."))]);
        return await AnswerAsync(pickup, claim, alongside => desk.AcceptAsync(pickup, new(claim, seen, Caller.Actor, clock.GetUtcNow()), alongside, cancel), cancel);
    }

    /// <summary>Takes the claim back.</summary>
    [HttpPost("pickups/{id:guid}/claims/{claim:guid}/withdrawal")]
    [Idempotent]
    [ProducesResponseType<ClaimFile>(StatusCodes.Status201Created, AsJson)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status403Forbidden, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status409Conflict, AsProblem)]
    public async Task<IActionResult> Withdraw(Guid id, Guid claim, ClaimWithdrawalJson request, CancellationToken cancel)
    {
        var (pickup, refused) = await LoadAsync(id, Caller.MayClaim, cancel);
        if (pickup is null)
            return refused!;
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        if (request.Seen is null)
            errors["seen"] = T("The revision of the claim that you read.");
        if (Holds.HoldText.Complaint(request.Reason, 1, ClaimForm.LongestText, T("Say why, in a few words.")) is { } complaint)
            errors["reason"] = complaint;
        if (errors.Count > 0)
            return Answers.Unreadable(errors);
        return await AnswerAsync(pickup, claim, alongside => desk.WithdrawAsync(pickup, new(claim, request.Seen!.Value, request.Reason!, Caller.Actor, clock.GetUtcNow()), alongside, cancel), cancel);
    }

    private async Task<ClaimFile?> FindAsync(Guid id, Guid claim, CancellationToken cancel) =>
        (await LoadAsync(id, _ => true, cancel)).Pickup is { } pickup && pickup.ClaimOf(claim) is { } found ? ClaimFile.Of(pickup, found) : null;

    /// <summary>The pickup, or why the caller gets nothing of it.</summary>
    private async Task<(Pickup? Pickup, IActionResult? Refused)> LoadAsync(Guid id, Func<PickupHeader, bool> may, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Pickup>(id, cancel) is not { } pickup || !Caller.MaySee(pickup.Header))
            return (null, Answers.NotFound("pickup"));
        return may(pickup.Header) ? (pickup, null) : (null, Forbid());
    }

    /// <summary>The answer is remembered with the events, for the key of the call.</summary>
    private async Task<IActionResult> AnswerAsync(Pickup pickup, Guid claim, Func<Action<IDocumentSession, Claim>, Task<Decision<PickupEvent>>> decide, CancellationToken cancel)
    {
        ClaimFile? answer = null;
        var location = $"/api/v1/pickups/{pickup.Id}/claims/{claim}";
        var decision = await decide((session, changed) =>
        {
            answer = ClaimFile.Of(pickup, changed);
            idempotency.Remember(session, StatusCodes.Status201Created, answer, location);
        });
        if (decision.Refusal is { } refusal)
            return Answers.Refused(refusal);
        // Nothing happened when it stood so already: who asks twice is told the same twice.
        return Created(location, answer ?? await FindAsync(pickup.Id, claim, cancel));
    }
}

public sealed record ClaimsAnswer(IReadOnlyList<ClaimFile> Claims);

/// <param name="Seen">The revision of the claim that the caller read.</param>
/// <param name="Answer">"acknowledged", "offered", "disallowed" or "paid".</param>
/// <param name="AnsweredOn">The day of the carrier's letter, "2026-11-26".</param>
/// <param name="Amount">US dollars, when something is offered or paid; at most two decimals.</param>
/// <param name="Reason">Asked for when it is disallowed, and when less is paid than was claimed and agreed.</param>
public sealed record ClaimAnswerJson(int? Seen, string? Answer, string? AnsweredOn, decimal? Amount, string? Reason)
{
    internal ClaimAnswerForm Form(Guid id) => new()
    {
        AnswerId = id,
        Seen = Seen ?? 0,
        Answer = Answer,
        AnsweredOn = AnsweredOn,
        Sum = Amount?.ToString(System.Globalization.CultureInfo.InvariantCulture),
        Reason = Reason,
    };
}

/// <param name="Seen">The revision of the claim that the caller read.</param>
public sealed record ClaimSeenJson(int? Seen);

/// <param name="Seen">The revision of the claim that the caller read.</param>
/// <param name="Reason">1 to 2,000 characters.</param>
public sealed record ClaimWithdrawalJson(int? Seen, string? Reason);

/// <summary>A claim with all that was said about it.</summary>
/// <param name="State">"filed", "acknowledged", "offered", "agreed", "disallowed", "paid" or "withdrawn".</param>
/// <param name="Revision">Things that happened so far; named as seen by whoever adds one.</param>
/// <param name="Amount">US dollars claimed in all.</param>
/// <param name="IsLate">Filed after the last day by the carrier's terms.</param>
/// <param name="AcknowledgeBy">Last day for the carrier to say that it has the claim, by its terms.</param>
/// <param name="AnswerBy">Last day for the carrier to pay, offer or disallow, by its terms.</param>
/// <param name="SuitBy">Last day for a suit by the carrier's terms; null unless a disallowance stands. A reminder: tariff and law have the last word.</param>
public sealed record ClaimFile(
    Guid Id,
    string Number,
    Guid PickupId,
    string PickupNumber,
    string State,
    int Revision,
    DateOnly FiledOn,
    bool IsLate,
    DateOnly AcknowledgeBy,
    DateOnly AnswerBy,
    DateOnly? SuitBy,
    decimal Amount,
    IReadOnlyList<ClaimLineJson> Lines,
    string Grounds,
    string By,
    IReadOnlyList<ClaimAnswerFile> Answers,
    DateTimeOffset? AgreedAt,
    DateTimeOffset? WithdrawnAt)
{
    public static ClaimFile Of(Pickup pickup, Claim claim) => new(
        claim.Id,
        claim.Filed.Number,
        pickup.Id,
        pickup.Header.Number,
        claim.State.Word(),
        claim.Revision,
        claim.Filed.FiledOn,
        claim.Filed.IsLate,
        claim.Filed.AcknowledgeBy,
        claim.Filed.AnswerBy,
        claim.SuitBy,
        claim.Filed.Total.Amount,
        [.. claim.Filed.Lines.Select(line => new ClaimLineJson(line.Reference, line.Count, line.Amount.Amount))],
        claim.Filed.Grounds,
        claim.Filed.By.Name,
        [.. claim.Answers.Select(answer => new ClaimAnswerFile(answer.AnswerId, answer.Answer.Word(), answer.AnsweredOn, answer.Total.Amount, answer.Reason, answer.SuitBy, answer.By.Name, answer.At))],
        claim.Agreed?.At,
        claim.Withdrawn?.At);
}

/// <param name="Answer">"acknowledged", "offered", "disallowed" or "paid".</param>
/// <param name="Amount">US dollars offered or paid; 0 when no sum was named.</param>
public sealed record ClaimAnswerFile(Guid Id, string Answer, DateOnly AnsweredOn, decimal Amount, string? Reason, DateOnly? SuitBy, string By, DateTimeOffset At);
