using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Declarations;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Terminal.Holds;

/// <summary>Held freight and what was decided about it. Shippers and account managers read; terminal reviewers decide.</summary>
[Route("holds")]
public sealed class HoldsController(IDocumentStore store, TimeProvider clock, HoldDesk desk) : Controller
{
    private const int Most = 300;

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel, bool decided = false)
    {
        await using var session = store.QuerySession();
        var visible = HoldList.VisibleTo(session.Query<Hold>(), Caller).Where(hold => hold.IsOpen != decided);
        var ordered = decided
            ? visible.OrderByDescending(hold => hold.Placed.At)
            : visible.OrderBy(hold => hold.Placed.DecideBy).ThenBy(hold => hold.Placed.At);
        var count = await visible.CountAsync(cancel);
        var holds = await ordered.Take(Most).ToListAsync(cancel);
        var shippers = (await session.Query<Parties.Shipper>().ToListAsync(cancel)).ToDictionary(shipper => shipper.Id);
        var carriers = (await session.Query<Carrier>().ToListAsync(cancel)).ToDictionary(carrier => carrier.Id);
        var now = clock.GetUtcNow();
        return View(new HoldListPage(
            [.. holds.Select(hold => new HoldRow(hold, PickupParties.Of(shippers[hold.Placed.Pickup.ShipperId], carriers[hold.Placed.Pickup.CarrierId], hold.Placed.Pickup), now))],
            count,
            decided,
            Caller.Role == Role.TerminalReviewer));
    }

    [HttpGet("{id:guid}")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await PageAsync(session, id, cancel) is { } page ? View(page) : NotFound();
    }

    [HttpPost("{id:guid}")]
    [Authorize(Policies.TerminalReviewer)]
    public async Task<IActionResult> Decide(Guid id, string? decision, string? reason, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { } page || !Caller.MayDecide(page.Hold.Placed.Pickup))
            return NotFound();
        var errors = DecisionForm.Errors(decision, reason);
        if (errors.Count > 0)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View("Show", page with { Decision = decision, Reason = reason, Errors = errors });
        }

        var now = clock.GetUtcNow();
        var command = new DecideHold(Guid.CreateVersion7(now), Wording.Parse<HoldDecision>(decision)!.Value, reason!.Trim(), Caller.Actor, now);
        var result = await desk.DecideAsync(page.Hold, command, null, NoticeState.Due, cancel);
        if (result.Refusal is null)
            return Redirect($"/holds/{id}");
        // Somebody was quicker: the page shows their decision, and keeps what this person had written.
        await using var fresh = store.QuerySession();
        var now2 = await PageAsync(fresh, id, cancel);
        Response.StatusCode = StatusCodes.Status409Conflict;
        return View("Show", now2! with { Decision = decision, Reason = reason, Refused = result.Refusal.Message.Say(page.Hold.Placed.Units) });
    }

    private async Task<HoldPage?> PageAsync(IQuerySession session, Guid id, CancellationToken cancel)
    {
        var hold = await session.LoadAsync<Hold>(id, cancel);
        if (hold is null || !Caller.MaySee(hold.Placed.Pickup))
            return null;
        var pickup = await session.LoadAsync<Pickup>(hold.Placed.PickupId, cancel);
        var notices = await NoticeList.VisibleTo(session.Query<Notice>(), Caller).Where(notice => notice.HoldId == id).OrderBy(notice => notice.CreatedAt).ToListAsync(cancel);
        return new(hold, pickup!, await PickupParties.LoadAsync(session, hold.Placed.Pickup, cancel), notices, Caller.MayDecide(hold.Placed.Pickup), clock.GetUtcNow());
    }
}

public sealed record HoldListPage(IReadOnlyList<HoldRow> Holds, int Count, bool Decided, bool MayDecide);

public sealed record HoldRow(Hold Hold, PickupParties Parties, DateTimeOffset Now)
{
    public HoldPlaced Placed => Hold.Placed;

    public bool IsOverdue => Hold.IsOpen && Placed.DecideBy < Now;

    public IEnumerable<Finding> Stops => Placed.Findings.Where(finding => finding.Severity == Severity.Stop);
}

public sealed record HoldPage(Hold Hold, Pickup Pickup, PickupParties Parties, IReadOnlyList<Notice> Notices, bool MayDecide, DateTimeOffset Now)
{
    public HoldPlaced Placed => Hold.Placed;

    public string? Decision { get; init; }

    public string? Reason { get; init; }

    public IReadOnlyDictionary<string, string> Errors { get; init; } = new Dictionary<string, string>();

    /// <summary>Why the decision just sent was not taken.</summary>
    public string? Refused { get; init; }
}
