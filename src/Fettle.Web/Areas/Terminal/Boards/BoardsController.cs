using Fettle.Readiness;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Areas.Terminal.Holds;
using Fettle.Web.Boards;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Terminal.Boards;

/// <summary>Where a terminal works: what comes today, what is here, what is held, and what has waited too long.</summary>
[Route("board")]
[Authorize(Policies.TerminalReviewer)]
public sealed class BoardsController(IDocumentStore store, TimeProvider clock, BoardDesk board, HoldDesk desk) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel, string? column = null, Guid? shipper = null, string? reason = null, int? age = null, string? urgency = null, int? page = null) =>
        View(new BoardPage(await board.ReadAsync(Caller, BoardFilter.Read(column, shipper, reason, age, urgency, page), cancel)));

    /// <summary>The part that renews itself.</summary>
    [HttpGet("list")]
    public async Task<IActionResult> List(CancellationToken cancel, string? column = null, Guid? shipper = null, string? reason = null, int? age = null, string? urgency = null, int? page = null) =>
        PartialView("_List", await board.ReadAsync(Caller, BoardFilter.Read(column, shipper, reason, age, urgency, page), cancel));

    /// <summary>"It is here."</summary>
    [HttpPost("arrivals/{id:guid}")]
    public async Task<IActionResult> Arrive(Guid id, string? from, CancellationToken cancel)
    {
        Pickup? pickup;
        await using (var session = store.QuerySession())
            pickup = await session.LoadAsync<Pickup>(id, cancel);
        if (pickup is null || !Caller.MayDecide(pickup.Header))
            return NotFound();
        await board.NoteArrivalAsync(id, Caller.Actor, clock.GetUtcNow(), cancel);
        this.Say(T("{0} is noted as here.", pickup.Header.Number));
        return Redirect(Back(from));
    }

    /// <summary>One decision about several holds that are alike, each decided by itself.</summary>
    [HttpPost("decisions")]
    public async Task<IActionResult> Decide([FromForm(Name = "holds")] List<Guid>? ids, [Bind(Prefix = "")] DecisionForm form, string? from, CancellationToken cancel)
    {
        Guid[] chosen = [.. (ids ?? []).Distinct().Take(BulkDecisionJson.Most)];
        IReadOnlyList<Hold> found;
        IReadOnlyList<HeldUnit> units;
        await using (var session = store.QuerySession())
        {
            found = await session.LoadManyAsync<Hold>(cancel, chosen);
            units = await session.LoadManyAsync<HeldUnit>(cancel, chosen);
        }

        Hold[] own = [.. found.Where(hold => Caller.MayDecide(hold.Placed.Pickup)).OrderBy(hold => hold.Placed.Number, StringComparer.Ordinal)];
        var now = clock.GetUtcNow();
        var errors = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var error in own.SelectMany(hold => form.Errors(hold.Placed.Pickup.Window, now)))
            errors.TryAdd(error.Key, error.Value);
        if (own.Length == 0)
            errors["holds"] = T("Tick at least one hold on the board.");
        else if (units.Where(unit => own.Any(hold => hold.Id == unit.Id)).Select(unit => (unit.ShipperId, unit.StopSet)).Distinct().Count() > 1)
            errors["holds"] = T("Only holds that are alike are decided together: one shipper, and stopped for the same reasons.");
        ModelState.Clear();
        if (errors.Count > 0)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View("Together", new TogetherPage(own, chosen.Length - own.Length, form, errors, [], Back(from)));
        }

        // Each is its first decision: one that somebody else has decided meanwhile is told, not overridden.
        var first = form with { Supersedes = null };
        var results = await desk.DecideAllAsync(own, hold => first.Command(Guid.CreateVersion7(now), hold.Placed.Pickup.Window, Caller.Actor, now), cancel);
        return View("Together", new TogetherPage(own, chosen.Length - own.Length, form, errors, results, Back(from)));
    }

    /// <summary>The board as the person left it, and nowhere else.</summary>
    private static string Back(string? from) => from is not null && (from == "/board" || from.StartsWith("/board?", StringComparison.Ordinal)) ? from : "/board";
}

public sealed record BoardPage(BoardView View)
{
    public BoardFilter Filter => View.Filter;

    /// <summary>The reasons that freight can be held for, by their titles.</summary>
    public IEnumerable<(string Code, string Title)> Reasons =>
        RuleBook.All.Select(entry => (entry.Code, Title: T(FindingCodes.Title(entry.Code)))).OrderBy(reason => reason.Title, StringComparer.CurrentCulture);
}

/// <param name="NotOwn">How many of those ticked are not the reviewer's to decide, or are gone.</param>
/// <param name="Results">What happened to each; empty while the form is not finished.</param>
public sealed record TogetherPage(
    IReadOnlyList<Hold> Holds, int NotOwn, DecisionForm Form, IReadOnlyDictionary<string, string> Errors, IReadOnlyList<(Hold Hold, Refusal? Refusal)> Results, string Back);

/// <summary>How the board names its columns and filters.</summary>
public static class BoardWords
{
    public static string Label(this BoardColumn column) => column switch
    {
        BoardColumn.Expected => T("Expected today"),
        BoardColumn.Unseen => T("Not seen"),
        BoardColumn.Floor => T("On the floor"),
        BoardColumn.Held => T("Held"),
        BoardColumn.Overdue => T("Overdue"),
    };

    public static string Label(this BoardUrgency urgency) => urgency switch
    {
        BoardUrgency.Deadline => T("Time ends within 2 hours"),
        BoardUrgency.Window => T("Truck leaves within a day"),
        BoardUrgency.Fragile => T("Fragile"),
        BoardUrgency.Space => T("Takes 100 sq ft or more"),
    };

    public static string Empty(BoardColumn column) => column switch
    {
        BoardColumn.Expected => T("Nothing more is expected today."),
        BoardColumn.Unseen => T("All that was expected in the last three days was seen."),
        BoardColumn.Floor => T("Nothing is noted as here. Press “It is here” when freight comes in."),
        BoardColumn.Held => T("Nothing is held."),
        BoardColumn.Overdue => T("Nothing is overdue."),
    };

    /// <summary>The first reasons, and how many more: a row is read at a glance, the hold says the rest.</summary>
    public static string Why(IReadOnlyList<string> codes)
    {
        const int Shown = 3;
        var first = string.Join(", ", codes.Take(Shown).Select(code => T(FindingCodes.Title(code))));
        return codes.Count > Shown ? T("{0} and {1} more", first, codes.Count - Shown) : first;
    }

    /// <summary>"16:00", with the day when that is another: a board is read today, at one place.</summary>
    public static string When(DateTimeOffset moment, string timeZone, DateTimeOffset now)
    {
        var (day, clock) = Local(moment, timeZone, now);
        return day + clock;
    }

    /// <summary>"10:00–12:00", "Fri 10:00–12:00", "Fri 22:00–Sat 02:00".</summary>
    public static string Window(DateTimeOffset from, DateTimeOffset to, string timeZone, DateTimeOffset now)
    {
        var (first, last) = (Local(from, timeZone, now), Local(to, timeZone, now));
        return $"{first.Day}{first.Clock}–{(first.Day == last.Day ? "" : last.Day)}{last.Clock}";
    }

    private static (string Day, string Clock) Local(DateTimeOffset moment, string timeZone, DateTimeOffset now)
    {
        var zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);
        var local = TimeZoneInfo.ConvertTime(moment, zone);
        var days = (local.Date - TimeZoneInfo.ConvertTime(now, zone).Date).TotalDays;
        var day = days == 0 ? "" : Math.Abs(days) < 6 ? $"{local.ToString("ddd", Language.Current.Calendar)} " : $"{local.ToString("d MMM", Language.Current.Calendar)} ";
        return (day, local.ToString("HH:mm", Language.Current.Calendar));
    }

    /// <summary>"3 h", "2 days": how long it has waited.</summary>
    public static string Age(TimeSpan age) => age < TimeSpan.FromHours(1) ? T("{0} min", Math.Max(0, (int)age.TotalMinutes))
        : age < TimeSpan.FromDays(2) ? T("{0} h", (int)age.TotalHours)
        : T("{0} days", (int)age.TotalDays);
}
