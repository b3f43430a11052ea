using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Findings;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.DockVisits;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Photos;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;
using ShipperParty = Fettle.Web.Parties.Shipper;

namespace Fettle.Web.Areas.Terminal.DockVisits;

/// <summary>A shipper asks, the terminal comes, and what was agreed is kept. Both read it; each does their own part.</summary>
[Route("dock-visits")]
public sealed class DockVisitsController(IDocumentStore store, TimeProvider clock, DockVisitDesk desk, CatalogueDesk catalogue) : Controller
{
    private const int LongestText = 2000;
    private const int LongestName = 100;
    private const int MostPhotos = 6;
    private const int Most = 200;

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var visits = await DockVisitList.VisibleTo(session.Query<DockVisit>(), Caller).OrderByDescending(visit => visit.Asked.At).Take(Most).ToListAsync(cancel);
        var shippers = (await session.Query<ShipperParty>().ToListAsync(cancel)).ToDictionary(shipper => shipper.Id);
        var carriers = (await session.Query<Carrier>().ToListAsync(cancel)).ToDictionary(carrier => carrier.Id);
        // What somebody has to do something about comes first.
        return View(new VisitListPage(
            [.. visits.OrderBy(visit => visit.State is DockVisitState.Concluded or DockVisitState.CalledOff).ThenByDescending(visit => visit.Asked.At).Select(visit => VisitRow.Of(visit, shippers[visit.Asked.ShipperId], carriers[visit.Asked.CarrierId]))],
            Caller.Role == Role.ShipperClerk));
    }

    [HttpGet("ask")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> Ask(CancellationToken cancel, Guid? build = null) =>
        View(await AskPageAsync(new() { VisitId = Guid.CreateVersion7(clock.GetUtcNow()), Builds = build is { } chosen ? [chosen] : [] }, cancel));

    [HttpPost("ask")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> Ask(AskVisitForm form, CancellationToken cancel)
    {
        var page = await AskPageAsync(form, cancel);
        if (form.VisitId == Guid.Empty)
            return BadRequest();
        var site = page.Sites.FirstOrDefault(site => site.Id == form.Site);
        if (site is null)
            Wrong("Form.Site", T("Choose the dock."));
        var (carrier, terminal) = page.Carriers.SelectMany(carrier => carrier.Terminals, (carrier, terminal) => (carrier, terminal)).FirstOrDefault(pair => pair.terminal.Id == form.Terminal);
        if (terminal is null)
            Wrong("Form.Terminal", T("Choose whom to ask."));
        Text("Question", form.Question, T("Say what you want to be looked at."), LongestText);
        if (!string.IsNullOrWhiteSpace(form.Preferred))
            Text("Preferred", form.Preferred, "", LongestName);
        CatalogueEntry[] builds = [.. page.Builds.Where(entry => form.Builds.Contains(entry.Id))];
        if (!ModelState.IsValid)
            return Again(View(page));
        var now = clock.GetUtcNow();
        await using (var session = store.QuerySession())
        {
            // The id comes from the form: what is stored under it already must be this clerk's visit.
            if (await session.Events.FetchStreamStateAsync(form.VisitId, cancel) is not null && (await session.LoadAsync<DockVisit>(form.VisitId, cancel) is not { } known || !DockVisitList.MaySee(known, Caller)))
                return BadRequest();
        }

        await NumberTaken.RetryAsync('V', number => desk.AskAsync(
            new(form.VisitId, number, Caller.Rights.ShipperId!.Value, site!.Id, carrier!.Id, terminal!.Id, form.Question!, [.. builds.Select(entry => new VisitedBuild(entry.Id, entry.Name, entry.Build!.Unit))], form.Preferred, Caller.Actor, now),
            cancel));
        this.Say(T("{0} is asked to come. You are told by mail when it is planned.", terminal!.Name));
        return Redirect($"/dock-visits/{form.VisitId}");
    }

    [HttpGet("{id:guid}")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel) =>
        await PageAsync(id, cancel) is { } page ? View(page) : NotFound();

    [HttpPost("{id:guid}/plan")]
    [Authorize(Policies.TerminalReviewer)]
    public async Task<IActionResult> Plan(Guid id, int seen, string? date, string? from, string? to, string? visitor, string? note, CancellationToken cancel)
    {
        if (await PageAsync(id, cancel) is not { } page)
            return NotFound();
        page = page with { Typed = new() { Date = date, From = from, To = to, Visitor = visitor, Note = note } };
        Text("visitor", visitor, T("Who comes?"), LongestName);
        if (!string.IsNullOrWhiteSpace(note))
            Text("note", note, "", LongestText);
        var begins = At(date, from, page.Zone);
        var ends = At(date, to, page.Zone);
        if (begins is null || ends is null)
            Wrong("date", T("The day and both clock times, where the dock is."));
        if (!ModelState.IsValid)
            return Again(View("Show", page));
        return await DoneAsync(page, await desk.PlanAsync(page.Visit, new(seen, begins!.Value, ends!.Value, visitor!, note, Caller.Actor, clock.GetUtcNow()), cancel), T("Planned. The shipper is told."), cancel);
    }

    [HttpPost("{id:guid}/call-off")]
    public async Task<IActionResult> CallOff(Guid id, int seen, string? reason, CancellationToken cancel)
    {
        if (await PageAsync(id, cancel) is not { } page || Caller.Role is not (Role.ShipperClerk or Role.TerminalReviewer))
            return NotFound();
        page = page with { Typed = new() { Reason = reason } };
        Text("reason", reason, T("Say why, in a few words."), LongestText);
        if (!ModelState.IsValid)
            return Again(View("Show", page));
        return await DoneAsync(page, await desk.CallOffAsync(page.Visit, new(seen, reason!, Caller.Actor, clock.GetUtcNow()), cancel), T("Called off. The other side is told."), cancel);
    }

    [HttpPost("{id:guid}/conclusion")]
    [Authorize(Policies.TerminalReviewer)]
    [RequestSizeLimit(MostPhotos * (long)PhotoReader.LargestUpload)]
    [RequestFormLimits(MultipartBodyLengthLimit = MostPhotos * (long)PhotoReader.LargestUpload)]
    public async Task<IActionResult> Conclude(Guid id, int seen, string? agreed, IFormFileCollection? photos, CancellationToken cancel)
    {
        if (await PageAsync(id, cancel) is not { } page)
            return NotFound();
        // Read here: a dictionary without an entry would be bound from the other fields.
        var verdicts = page.Visit.Asked.Builds.ToDictionary(
            build => build.EntryId,
            build => new VerdictForm { Verdict = Request.Form[$"verdicts[{build.EntryId}].Verdict"], Why = Request.Form[$"verdicts[{build.EntryId}].Why"] });
        page = page with { Typed = new() { Agreed = agreed, Verdicts = verdicts } };
        Text("agreed", agreed, T("Say what was agreed: what travels, what does not, and why."), LongestText);
        var judged = new List<VisitVerdict>();
        foreach (var build in page.Visit.Asked.Builds)
        {
            if (!verdicts.TryGetValue(build.EntryId, out var verdict) || verdict.Verdict is not ("approved" or "rejected"))
                continue;
            Text($"verdicts[{build.EntryId}].why", verdict.Why, T("Say why."), LongestText);
            judged.Add(new(build.EntryId, build.Name, verdict.Verdict == "approved", verdict.Why?.Trim() ?? ""));
        }

        var (read, complaint) = await PhotoUpload.ReadAsync(photos, MostPhotos, cancel);
        if (complaint is not null)
            Wrong("photos", complaint);
        if (!ModelState.IsValid)
            return Again(View("Show", page));
        return await DoneAsync(page, await desk.ConcludeAsync(page.Visit, new(seen, agreed!, judged, [], Caller.Actor, clock.GetUtcNow()), read, cancel), T("Kept. The shipper is told."), cancel);
    }

    private async Task<IActionResult> DoneAsync(VisitPage page, Decision<DockVisitEvent> decision, string said, CancellationToken cancel)
    {
        if (decision.Refusal is { } refusal)
        {
            Response.StatusCode = refusal is VisitIsPast or NotAskedAbout ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status409Conflict;
            // What was typed stays; what stands now is read anew.
            return View("Show", (await PageAsync(page.Visit.Id, cancel))! with { Typed = page.Typed, Refused = refusal.Message.Say(UnitSystem.Imperial) });
        }

        this.Say(said);
        return Redirect($"/dock-visits/{page.Visit.Id}");
    }

    private async Task<VisitPage?> PageAsync(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<DockVisit>(id, cancel) is not { } visit || !DockVisitList.MaySee(visit, Caller))
            return null;
        var shipper = await session.LoadAsync<ShipperParty>(visit.Asked.ShipperId, cancel);
        var carrier = await session.LoadAsync<Carrier>(visit.Asked.CarrierId, cancel);
        var row = VisitRow.Of(visit, shipper!, carrier!);
        return new(visit, row, Caller.Role);
    }

    private async Task<AskVisitPage> AskPageAsync(AskVisitForm form, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var shipper = await session.LoadAsync<ShipperParty>(Caller.Rights.ShipperId!.Value, cancel);
        var carriers = await session.Query<Carrier>().OrderBy(carrier => carrier.Name).ToListAsync(cancel);
        var builds = (await catalogue.ListAsync(shipper!.Id, cancel)).Where(entry => entry is { Kind: CatalogueKind.Build, IsRetired: false }).ToArray();
        return new(form, [.. shipper.Sites.Where(site => Caller.Rights.SiteIds.Contains(site.Id))], carriers, builds);
    }

    private void Wrong(string field, string message) => ModelState.AddModelError(field, message);

    private void Text(string field, string? typed, string missing, int longest)
    {
        if (string.IsNullOrWhiteSpace(typed))
            Wrong(field, missing);
        else if (typed.Trim().Length > longest || !UnitFormValidator.ReadableText(typed.ReplaceLineEndings(" ")))
            Wrong(field, T("At most {0} readable characters.", longest));
    }

    private ViewResult Again(ViewResult view)
    {
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return view;
    }

    private static DateTimeOffset? At(string? date, string? time, string zone)
    {
        if (!DateOnly.TryParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) || day.Year is < 2000 or > 2999
            || !TimeOnly.TryParseExact(time, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var clock))
            return null;
        var local = day.ToDateTime(clock);
        return new DateTimeOffset(local, TimeZoneInfo.FindSystemTimeZoneById(zone).GetUtcOffset(local)).ToUniversalTime();
    }
}

public sealed class AskVisitForm
{
    /// <summary>Made with the page, so that a form sent twice asks once.</summary>
    public Guid VisitId { get; set; }

    public Guid? Site { get; set; }

    public Guid? Terminal { get; set; }

    public string? Question { get; set; }

    public string? Preferred { get; set; }

    public List<Guid> Builds { get; set; } = [];
}

/// <summary>What somebody typed on a visit's page; it stays when it was not taken.</summary>
public sealed record TypedVisit
{
    public string? Date { get; init; }

    public string? From { get; init; }

    public string? To { get; init; }

    public string? Visitor { get; init; }

    public string? Note { get; init; }

    public string? Reason { get; init; }

    public string? Agreed { get; init; }

    public Dictionary<Guid, VerdictForm> Verdicts { get; init; } = [];
}

public sealed class VerdictForm
{
    /// <summary>"approved", "rejected", or empty when it was not judged.</summary>
    public string? Verdict { get; set; }

    public string? Why { get; set; }
}

public sealed record AskVisitPage(AskVisitForm Form, IReadOnlyList<Site> Sites, IReadOnlyList<Carrier> Carriers, IReadOnlyList<CatalogueEntry> Builds);

public sealed record VisitListPage(IReadOnlyList<VisitRow> Visits, bool MayAsk);

public sealed record VisitRow(DockVisit Visit, ShipperParty Shipper, Site Site, Carrier Carrier, Fettle.Web.Parties.Terminal Terminal)
{
    public static VisitRow Of(DockVisit visit, ShipperParty shipper, Carrier carrier) => new(
        visit, shipper, shipper.Sites.Single(site => site.Id == visit.Asked.SiteId), carrier, carrier.Terminals.Single(terminal => terminal.Id == visit.Asked.TerminalId));

    public string State => Visit.State switch
    {
        DockVisitState.Asked => T("Asked for"),
        DockVisitState.Planned => T("Planned"),
        DockVisitState.Concluded => T("Concluded"),
        DockVisitState.CalledOff => T("Called off"),
    };

    public string Tone => Visit.State switch
    {
        DockVisitState.Asked or DockVisitState.Planned or DockVisitState.CalledOff => "cautions",
        DockVisitState.Concluded => "ready",
    };
}

public sealed record VisitPage(DockVisit Visit, VisitRow Row, Role Role)
{
    public TypedVisit Typed { get; init; } = new();

    /// <summary>Why what was just sent was not taken.</summary>
    public string? Refused { get; init; }

    public string Zone => Row.Site.TimeZone;

    public bool IsOpen => Visit.State is DockVisitState.Asked or DockVisitState.Planned;

    public bool MayPlan => Role == Role.TerminalReviewer && IsOpen;

    public bool MayConclude => Role == Role.TerminalReviewer && Visit.State != DockVisitState.CalledOff;

    public bool MayCallOff => Role is Role.TerminalReviewer or Role.ShipperClerk && IsOpen;
}
