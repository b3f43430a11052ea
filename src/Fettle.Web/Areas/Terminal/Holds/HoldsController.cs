using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Inspections;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Terminal.Holds;

/// <summary>
/// Held freight: what happened to it, and what is said and decided about it. Account managers read; shippers and terminal
/// reviewers talk (HoldTalk.cs); terminal reviewers decide.
/// </summary>
[Route("holds")]
public sealed partial class HoldsController(IDocumentStore store, TimeProvider clock, HoldDesk desk) : Controller
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
            : visible.OrderBy(hold => hold.Turn!.By).ThenBy(hold => hold.Placed.At);
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
    public async Task<IActionResult> Decide(Guid id, [Bind(Prefix = "")] DecisionForm form, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await PageAsync(session, id, cancel) is not { } page || !page.MayDecide)
            return NotFound();
        var now = clock.GetUtcNow();
        var window = page.Placed.Pickup.Window;
        var errors = form.Errors(window, now);
        if (form.Supersedes is not null && !form.Supersede)
            errors["supersede"] = T("Say expressly that your decision takes the place of the one that stands.");
        if (errors.Count > 0)
            return Unfinished(page with { Decision = form, Errors = errors });
        var command = form.Command(Guid.CreateVersion7(now), window, Caller.Actor, now);
        var result = await desk.DecideAsync(page.Hold, state => Hold.Decide(state, command), null, NoticeState.Due, cancel);
        // When somebody was quicker the page shows their decision, and keeps what this person had written.
        return result.Refusal is { } refusal
            ? await RefusedAsync(id, refusal, page => page with { Decision = form with { Supersede = false } }, cancel)
            : Redirect($"/holds/{id}");
    }

    private ViewResult Unfinished(HoldPage page)
    {
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        // The page shows its own record of what was typed.
        ModelState.Clear();
        return View("Show", page);
    }

    /// <summary>The page as it is now, with what was typed and why it was not taken.</summary>
    private async Task<IActionResult> RefusedAsync(Guid id, Readiness.Refusal refusal, Func<HoldPage, HoldPage> typed, CancellationToken cancel)
    {
        await using var fresh = store.QuerySession();
        var page = await PageAsync(fresh, id, cancel);
        Response.StatusCode = StatusCodes.Status409Conflict;
        ModelState.Clear();
        return View("Show", typed(page!) with { Refused = refusal.Message.Say(page!.Placed.Units) });
    }

    private async Task<HoldPage?> PageAsync(IQuerySession session, Guid id, CancellationToken cancel)
    {
        var hold = await session.LoadAsync<Hold>(id, cancel);
        if (hold is null || !Caller.MaySee(hold.Placed.Pickup))
            return null;
        var pickup = await session.LoadAsync<Pickup>(hold.Placed.PickupId, cancel);
        var notices = await NoticeList.VisibleTo(session.Query<Notice>(), Caller).Where(notice => notice.HoldId == id).OrderBy(notice => notice.CreatedAt).ToListAsync(cancel);
        var happened = await session.Events.FetchStreamAsync(id, token: cancel);
        var now = clock.GetUtcNow();
        return new(hold, pickup!, await PickupParties.LoadAsync(session, hold.Placed.Pickup, cancel), notices, HoldList.SideOf(Caller, hold.Placed.Pickup), now)
        {
            Happened = [.. happened.Select(e => e.Data).OfType<HoldEvent>()],
            Inspected = await InspectionDesk.OfLineAsync(session, hold.Placed.PickupId, hold.Placed.HandlingUnit.Reference, cancel),
            Step = Guid.CreateVersion7(now),
        };
    }
}

public sealed record HoldListPage(IReadOnlyList<HoldRow> Holds, int Count, bool Decided, bool MayDecide);

public sealed record HoldRow(Hold Hold, PickupParties Parties, DateTimeOffset Now)
{
    public HoldPlaced Placed => Hold.Placed;

    /// <summary>When the time of whoever must act ends.</summary>
    public DateTimeOffset ActBy => Hold.Turn?.By ?? Placed.DecideBy;

    public bool IsOverdue => Hold.IsOpen && ActBy < Now;

    public IEnumerable<Finding> Stops => Hold.FoundNow().Where(finding => finding.Severity == Severity.Stop);
}

/// <param name="Side">On which the reader speaks; null for those who only read.</param>
public sealed record HoldPage(Hold Hold, Pickup Pickup, PickupParties Parties, IReadOnlyList<Notice> Notices, HoldSide? Side, DateTimeOffset Now)
{
    public HoldPlaced Placed => Hold.Placed;

    public bool MayDecide => Side == HoldSide.Terminal;

    /// <summary>All that happened, oldest first.</summary>
    public IReadOnlyList<HoldEvent> Happened { get; init; } = [];

    /// <summary>Inspections of the line, latest first.</summary>
    public IReadOnlyList<Inspection> Inspected { get; init; } = [];

    /// <summary>Names what is sent from this page, so that a second press does it once.</summary>
    public Guid Step { get; init; }

    public DecisionForm Decision { get; init; } = new();

    public OfferForm Offer { get; init; } = new();

    /// <summary>What was typed into the texts of the page: "message", "exception", "dispute", "withdrawal".</summary>
    public IReadOnlyDictionary<string, string?> Typed { get; init; } = new Dictionary<string, string?>();

    public IReadOnlyDictionary<string, string> Errors { get; init; } = new Dictionary<string, string>();

    /// <summary>Why what was just sent was not taken.</summary>
    public string? Refused { get; init; }

    /// <summary>What the person had written when it was not taken.</summary>
    public string? Written => Decision.Reason ?? Offer.Work ?? Typed.Values.FirstOrDefault(text => !string.IsNullOrWhiteSpace(text));

    public string? Error(string field) => Errors.GetValueOrDefault(field);
}

/// <summary>One text of the page, with its label and what is wrong with it.</summary>
public sealed record HoldTextView(HoldPage Page, string Name, string Label, string? Value, string? Hint = null, int Rows = 3, int Most = HoldText.Longest)
{
    public string? Error => Page.Error(Name);
}

/// <summary>One short field of the page.</summary>
public sealed record HoldLineView(string Name, string Label, string? Value, string? Error, string? Hint = null, string Type = "text", string Mode = "text");
