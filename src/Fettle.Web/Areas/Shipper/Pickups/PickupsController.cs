using System.Security.Cryptography;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Catalogue;
using Fettle.Web.Declarations;
using Fettle.Web.DockVisits;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;
using ShipperParty = Fettle.Web.Parties.Shipper;

namespace Fettle.Web.Areas.Shipper.Pickups;

[Area("Shipper")]
[Route("pickups")]
public sealed class PickupsController(IDocumentStore store, TimeProvider clock, Submission submission, CarrierRuleBook rules, UnitCosts costs, CatalogueDesk catalogue) : Controller
{
    /// <summary>How many of the newest submitted pickups the list shows.</summary>
    private const int Shown = 40;

    /// <summary>A line that holds more figures than a page can carry back is refused before it is read.</summary>
    private const int LargestForm = 2_000_000;

    private const string Submitted = "This pickup has been submitted already. What was changed since, in another tab or on another device, is not part of it.";

    private const int MostTries = 4;
    private const int TabLength = 16;

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var shippers = (await session.Query<ShipperParty>().ToListAsync(cancel)).ToDictionary(shipper => shipper.Id);
        var carriers = (await session.Query<Carrier>().ToListAsync(cancel)).ToDictionary(carrier => carrier.Id);
        var sites = Caller.Rights.SiteIds.ToArray();
        var drafts = Caller.Role == Role.ShipperClerk
            ? await session.Query<Draft>()
                .Where(draft => draft.ShipperId == Caller.Rights.ShipperId && sites.Contains(draft.SiteId) && draft.SubmittedAt == null)
                .OrderByDescending(draft => draft.ChangedAt).Take(Shown).ToListAsync(cancel)
            : [];
        var pickups = await PickupList.VisibleTo(session.Query<Pickup>(), Caller)
            .OrderByDescending(pickup => pickup.SubmittedAt).Take(Shown).ToListAsync(cancel);
        Guid[] ids = [.. pickups.Select(pickup => pickup.Id)];
        var holds = await session.Query<Hold>().Where(hold => hold.Placed.PickupId.IsOneOf(ids)).ToListAsync(cancel);
        return View(new PickupListPage(
            drafts,
            [.. pickups.Select(pickup => new PickupRow(
                pickup,
                PickupParties.Of(shippers[pickup.Header.ShipperId], carriers[pickup.Header.CarrierId], pickup.Header),
                [.. holds.Where(hold => hold.Placed.PickupId == pickup.Id)]))],
            Caller.Role == Role.ShipperClerk));
    }

    /// <summary>Opens a new draft, or one that starts as a copy of an earlier pickup.</summary>
    [HttpPost("")]
    [Authorize(Policies.ShipperClerk)]
    public async Task<IActionResult> Start(Guid? from, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var shipper = await ShipperAsync(session, cancel);
        var now = clock.GetUtcNow();
        var site = shipper.Sites.First(site => Caller.Rights.SiteIds.Contains(site.Id));
        var tomorrow = TimeZoneInfo.ConvertTime(now, TimeZoneInfo.FindSystemTimeZoneById(site.TimeZone)).AddDays(1);
        var form = from is { } earlier ? await CopyAsync(session, earlier, cancel) : new PickupForm { Units = "imperial", Lane = new() { Transfers = "2" }, HandlingUnits = [UnitForm.Ordinary("A1")] };
        if (form is null)
            return NotFound();
        form = form with
        {
            Site = form.Site ?? site.Id.ToString(),
            Equipment = form.Equipment ?? Equipment.Van53.Word(),
            Window = new() { Date = tomorrow.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), From = form.Window.From ?? "14:00", To = form.Window.To ?? "16:00" },
        };
        var draft = await NumberTaken.RetryAsync('P', async number =>
        {
            var draft = new Draft
            {
                Id = Guid.CreateVersion7(now),
                Number = number,
                ShipperId = shipper.Id,
                SiteId = Heading.SiteOf(form, shipper, Caller.Rights.SiteIds)?.Id ?? site.Id,
                Form = form,
                ChangedBy = Caller.Actor,
                ChangedAt = now,
            };
            await using var saving = store.LightweightSession();
            saving.Insert(draft);
            await saving.SaveChangesAsync(cancel);
            return draft;
        });
        return Redirect($"/pickups/{draft.Id}");
    }

    [HttpGet("{id:guid}")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Pickup>(id, cancel) is { } pickup)
        {
            if (!Caller.MaySee(pickup.Header))
                return NotFound();
            var holds = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == id).ToListAsync(cancel);
            var notices = await NoticeList.VisibleTo(session.Query<Notice>(), Caller).Where(notice => notice.PickupId == id).OrderBy(notice => notice.CreatedAt).ToListAsync(cancel);
            return View(new PickupPage(pickup, await PickupParties.LoadAsync(session, pickup.Header, cancel), holds, notices, Caller.Role == Role.ShipperClerk, Caller.MayRecordOutcome(pickup.Header)) { Approvals = await ApprovalsAsync(session, pickup, cancel) });
        }

        if (await DraftAsync(session, id, cancel) is not { } draft)
            return NotFound();
        return View("Edit", await PageAsync(session, draft, draft.Form, NewTab(), null, cancel));
    }

    /// <summary>What this carrier's people had said about a build, where a line is declared just like it.</summary>
    private async Task<ILookup<string, BuildApproval>> ApprovalsAsync(IQuerySession session, Pickup pickup, CancellationToken cancel)
    {
        var said = (await DockVisitList.ApprovalsAsync(session, pickup.Header.ShipperId, cancel)).Where(approval => approval.CarrierId == pickup.Header.CarrierId && approval.At <= pickup.SubmittedAt).ToArray();
        var limits = said.Length == 0 ? new() : (await rules.ThatJudgedAsync(pickup, cancel)).Weight;
        return pickup.Declaration.HandlingUnits
            .SelectMany(line => said.Where(approval => approval.IsFor(line, limits)), (line, approval) => (line.Reference, approval))
            .ToLookup(pair => pair.Reference, pair => pair.approval, StringComparer.Ordinal);
    }

    /// <summary>Every change of a page with JavaScript: saves what was typed, answers the parts that changed.</summary>
    [HttpPost("{id:guid}/check")]
    [Authorize(Policies.ShipperClerk)]
    [RequestSizeLimit(LargestForm)]
    public async Task<IActionResult> Check(Guid id, [Bind(Prefix = "")] PickupForm form, Guid version, string? tab, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await DraftAsync(session, id, cancel) is not { } draft)
            return NotFound();
        if (Unusable(form) is { } status)
            return StatusCode(status);
        tab = TabOf(tab);
        (draft, var conflict) = await SaveAsync(draft, form, version, tab, null, cancel);
        if (draft.SubmittedAt is not null)
        {
            await Fragments.WriteAsync(HttpContext, StatusCodes.Status409Conflict, $"{T(Submitted)} {T("Load the page again to see it.")}");
            return new EmptyResult();
        }

        var page = await PageAsync(session, draft, form, tab, Changed(form), cancel);
        return PartialView("_Checked", page with { Conflict = conflict, Version = conflict is null ? draft.Version : version });
    }

    /// <summary>Every button of the page. Works alike with and without JavaScript: the whole page comes back.</summary>
    [HttpPost("{id:guid}")]
    [Authorize(Policies.ShipperClerk)]
    [RequestSizeLimit(LargestForm)]
    public async Task<IActionResult> Edit(Guid id, [Bind(Prefix = "")] PickupForm form, Guid version, string? tab, string? @do, string? exceptionRequest, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await DraftAsync(session, id, cancel) is not { } draft)
            return NotFound();
        if (Unusable(form) is { } status)
            return StatusCode(status);
        var action = (@do ?? "check").Split(':', 3);
        tab = TabOf(tab);
        if (action[0] == "take-saved")
            return Redirect($"/pickups/{id}");
        if (action[0] == "keep-mine")
            version = draft.Version;

        var line = action.Length > 1 && int.TryParse(action[1], out var index) && index >= 0 && index < form.HandlingUnits.Count ? index : -1;
        var notice = action[0] switch
        {
            "add" => Add(form),
            "duplicate" when line >= 0 => Duplicate(form, line),
            "remove" when line >= 0 => Remove(form, line),
            "apply" when line >= 0 && action.Length == 3 => Apply(form, line, action[2], await RulesAsync(session, form, cancel)),
            "add-carton" when line >= 0 => AddCarton(form.HandlingUnits[line].Contents.Lines),
            "remove-carton" when line >= 0 && action.Length == 3 => RemoveCarton(form.HandlingUnits[line].Contents.Lines, action[2]),
            _ => null,
        };
        var done = await new CatalogueActions(catalogue).DoAsync(action, line, form, Request.Form, await session.Query<Carrier>().ToListAsync(cancel), draft.SiteId, Caller, cancel);
        // The page that comes back is another one: a check that the first still had under way must not undo what the button did.
        var next = NewTab();
        (draft, var conflict) = await SaveAsync(draft, form, version, tab, next, cancel);
        if (draft.SubmittedAt is not null)
        {
            this.Say(T(Submitted));
            return Redirect($"/pickups/{id}");
        }

        // The form was changed in place; what the page shows is the form, not what the browser sent.
        ModelState.Clear();
        var page = await PageAsync(session, draft, form, conflict is null ? next : tab, null, cancel) with
        {
            Conflict = conflict,
            Version = conflict is null ? draft.Version : version,
            ShowMissing = action[0] is "check" or "submit",
            Notice = done.Notice ?? notice,
            BuildNotSaved = done.NotSaved,
            ExceptionRequest = exceptionRequest,
        };
        if (action[0] != "submit" || conflict is not null)
            return View("Edit", page);
        return await SubmitAsync(session, draft, page, exceptionRequest, cancel);
    }

    private async Task<IActionResult> SubmitAsync(IDocumentSession session, Draft draft, EditorPage page, string? exceptionRequest, CancellationToken cancel)
    {
        var shipper = await ShipperAsync(session, cancel);
        var now = clock.GetUtcNow();
        var errors = page.Errors.ToDictionary(StringComparer.Ordinal);
        var header = Heading.Of(page.Form, draft.Number, shipper, Caller.Rights.SiteIds, page.Carriers, errors);
        if (header is not null && header.Window.To <= now)
            errors.TryAdd("window.date", T("That pickup window has passed."));
        if (page.Verdict == Verdict.Hold && string.IsNullOrWhiteSpace(exceptionRequest))
            errors.TryAdd("exceptionRequest", T("Say why the carrier should take it as it is, or put it right first."));
        else if (exceptionRequest?.Length > SubmissionJson.LongestRequest || !UnitFormValidator.ReadableText(exceptionRequest?.ReplaceLineEndings(" ")))
            errors.TryAdd("exceptionRequest", T("At most {0} readable characters.", SubmissionJson.LongestRequest));
        if (header is null || errors.Count > 0 || page.Reading.Readable is not { HandlingUnits.Count: > 0 } declaration)
            return View("Edit", page with { Errors = errors, Notice = EditorNotice.Refused(T("Not submitted yet: the marked fields need you first.")) });
        var decision = await submission.SubmitAsync(draft, header, declaration, exceptionRequest, Caller.Actor, now, null, cancel);
        for (var attempt = 1; attempt < MostTries && decision.Refusal is ChangedMeanwhile; attempt++)
        {
            // An earlier check of this same page was saved in between: what is submitted is what the page shows.
            await using var fresh = store.QuerySession();
            if (await fresh.LoadAsync<Draft>(draft.Id, cancel) is not { } newer || newer.ChangedIn != page.Tab)
                break;
            decision = await submission.SubmitAsync(newer, header, declaration, exceptionRequest, Caller.Actor, now, null, cancel);
        }

        return decision.Refusal is { } refusal
            ? View("Edit", page with { Notice = EditorNotice.Refused(refusal.Message.Say(page.Units)) })
            : Redirect($"/pickups/{draft.Id}");
    }

    /// <summary>Saves what was typed, unless somebody else saved since this page was made.</summary>
    /// <param name="tab">The open page that sends it.</param>
    /// <param name="next">The page that takes its place, when one of its buttons was pressed.</param>
    /// <returns>The draft as it is saved now, and the conflict when it is somebody else's.</returns>
    private async Task<(Draft Saved, EditConflict? Conflict)> SaveAsync(Draft draft, PickupForm form, Guid version, string tab, string? next, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            // Submitted, perhaps in this moment: what was submitted stays as it was.
            if (draft.SubmittedAt is not null)
                return (draft, null);
            // A change of this same page that is still under way, or whose answer got lost, is no conflict.
            var ownLastChange = draft.ChangedIn == tab || (next is not null && draft.ReplacedPage == tab);
            if (version != draft.Version && !ownLastChange)
                return (draft, new(draft.ChangedBy.Name, draft.ChangedAt, FormDifference.Between(draft.Form, form)));
            await using var session = store.LightweightSession();
            var shipper = await ShipperAsync(session, cancel);
            draft.SiteId = Heading.SiteOf(form, shipper, Caller.Rights.SiteIds)?.Id ?? draft.SiteId;
            draft.Form = Storable(form);
            draft.ChangedBy = Caller.Actor;
            draft.ChangedAt = clock.GetUtcNow();
            draft.ChangedIn = next ?? tab;
            draft.ReplacedPage = next is null ? null : tab;
            session.Store(draft);
            try
            {
                await session.SaveChangesAsync(cancel);
                return (draft, null);
            }
            catch (Exception raced) when (attempt < MostTries && Store.Streams.IsRace(raced))
            {
                await using var fresh = store.QuerySession();
                draft = await fresh.LoadAsync<Draft>(draft.Id, cancel) ?? throw new InvalidOperationException($"Draft {draft.Id} is gone.");
            }
        }
    }

    /// <summary>PostgreSQL's JSON refuses NUL, and halves of characters are no text; everything else stays as typed.</summary>
    private static PickupForm Storable(PickupForm form) => FormText.Clean(form);

    private async Task<EditorPage> PageAsync(IQuerySession session, Draft draft, PickupForm form, string tab, IReadOnlySet<int>? only, CancellationToken cancel)
    {
        var shipper = await ShipperAsync(session, cancel);
        var carriers = await session.Query<Carrier>().OrderBy(carrier => carrier.Name).ToListAsync(cancel);
        var page = EditorPage.Of(draft, form, tab, shipper, Caller.Rights.SiteIds, carriers, await RulesAsync(form, carriers, cancel), costs, only);
        // Parts of a page show nothing of the catalogue.
        return only is not null ? page : page with { Catalogue = [.. (await catalogue.ListAsync(shipper.Id, cancel)).Where(entry => !entry.IsRetired)] };
    }

    private async Task<RuleSet> RulesAsync(IQuerySession session, PickupForm form, CancellationToken cancel) =>
        await RulesAsync(form, await session.Query<Carrier>().ToListAsync(cancel), cancel);

    /// <summary>Of the carrier whose terminal is chosen; the built-in ones until one is.</summary>
    private Task<RuleSet> RulesAsync(PickupForm form, IReadOnlyList<Carrier> carriers, CancellationToken cancel) =>
        rules.InForceAsync(Heading.TerminalOf(form, carriers)?.Carrier.Id, clock.GetUtcNow(), cancel);

    private async Task<Draft?> DraftAsync(IQuerySession session, Guid id, CancellationToken cancel) =>
        await session.LoadAsync<Draft>(id, cancel) is { } draft && Caller.MayDeclareFor(draft.ShipperId, draft.SiteId) ? draft : null;

    private async Task<ShipperParty> ShipperAsync(IQuerySession session, CancellationToken cancel) =>
        await session.LoadAsync<ShipperParty>(Caller.Rights.ShipperId!.Value, cancel)
        ?? throw new InvalidOperationException($"There is no shipper {Caller.Rights.ShipperId}.");

    private async Task<PickupForm?> CopyAsync(IQuerySession session, Guid earlier, CancellationToken cancel)
    {
        var draft = await DraftAsync(session, earlier, cancel);
        return draft is null ? null : draft.Form with { };
    }

    /// <summary>The lines whose parts must come back: those named by the page's script, or all when the lane changed or nothing is named.</summary>
    private HashSet<int>? Changed(PickupForm form)
    {
        var names = Request.Headers["X-Changed"].ToString().Split(',', StringSplitOptions.RemoveEmptyEntries);
        if (names.Length == 0)
            return null;
        var lines = new HashSet<int>();
        foreach (var name in names)
        {
            // Typed for the catalogue, and no part of the declaration.
            if (name.StartsWith(CatalogueActions.Prefix, StringComparison.Ordinal))
                continue;
            if (LinePage.Split(name) is var (index, field) && index < form.HandlingUnits.Count && field != "reference")
                lines.Add(index);
            else
                return null;
        }

        return lines;
    }

    /// <summary>The status for a form that no page of ours sends: with more lines than a pickup holds, or with gaps between them.</summary>
    private static int? Unusable(PickupForm form)
    {
        if (form.HandlingUnits.Count > PickupFormValidator.MostLines)
            return StatusCodes.Status413PayloadTooLarge;
        return form.HandlingUnits.Contains(null!) || form.HandlingUnits.Any(unit => unit.Contents.Lines.Contains(null!)) ? StatusCodes.Status400BadRequest : null;
    }

    /// <summary>The word of an open page, as <see cref="NewTab"/> made it; a new one for anything else.</summary>
    private static string TabOf(string? tab) => tab?.Length == TabLength && tab.All(char.IsAsciiHexDigit) ? tab : NewTab();

    private static EditorNotice? Add(PickupForm form)
    {
        if (form.HandlingUnits.Count >= PickupFormValidator.MostLines)
            return EditorNotice.Refused(T("A pickup holds at most {0} lines.", PickupFormValidator.MostLines));
        form.HandlingUnits.Add(UnitForm.Ordinary(FreeReference(form)));
        return null;
    }

    private static EditorNotice? Duplicate(PickupForm form, int line)
    {
        if (form.HandlingUnits.Count >= PickupFormValidator.MostLines)
            return EditorNotice.Refused(T("A pickup holds at most {0} lines.", PickupFormValidator.MostLines));
        var original = form.HandlingUnits[line];
        form.HandlingUnits.Insert(line + 1, FormText.Copy(original) with { Reference = FreeReference(form) });
        return null;
    }

    private static EditorNotice? AddCarton(List<CartonLineForm> cartons)
    {
        if (cartons.Count >= MixedCartonContents.MostLines)
            return EditorNotice.Refused(T("A unit holds at most {0} kinds of carton.", MixedCartonContents.MostLines));
        cartons.Add(new() { Carton = new() { Board = new() { Flute = "C", EdgeCrush = "32" } } });
        return null;
    }

    private static EditorNotice? RemoveCarton(List<CartonLineForm> cartons, string row)
    {
        if (int.TryParse(row, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var index) && index < cartons.Count)
            cartons.RemoveAt(index);
        return null;
    }

    private static EditorNotice Remove(PickupForm form, int line)
    {
        var removed = form.HandlingUnits[line].Reference;
        form.HandlingUnits.RemoveAt(line);
        return EditorNotice.Done(T("{0} was removed.", removed));
    }

    /// <summary>Puts an alternative's lines in the place of the line. It is computed anew: the form may have changed since it was offered.</summary>
    private EditorNotice Apply(PickupForm form, int line, string key, RuleSet rules)
    {
        var reading = Reading.Of(form);
        if (line >= reading.Lines.Count || reading.Lines[line] is not { } unit || reading.Lane is not { } lane)
            return EditorNotice.Refused(T("The figures have changed since that was offered. Look again."));
        var result = Readiness.Rules.ReadinessCheck.Run(unit, lane, rules, reading.Units);
        var chosen = AlternativeFinder.Find(unit, result, lane, rules, costs, EditorPage.Names(form)).Alternatives.FirstOrDefault(a => a.Key == key);
        if (chosen is null)
            return EditorNotice.Refused(T("The figures have changed since that was offered. Look again."));
        if (form.HandlingUnits.Count - 1 + chosen.HandlingUnits.Count > PickupFormValidator.MostLines)
            return EditorNotice.Refused(T("A pickup holds at most {0} lines, and this would make more.", PickupFormValidator.MostLines));
        var typed = form.HandlingUnits[line];
        form.HandlingUnits.RemoveAt(line);
        form.HandlingUnits.InsertRange(line, chosen.HandlingUnits.Select(made => Writing.KeepTyped(Writing.Form(made, reading.Units), typed, reading.Units)));
        return EditorNotice.Done(T("Done: {0}.", chosen.Summary.Say(reading.Units)));
    }

    /// <summary>The first of A1, A2, … that no line has.</summary>
    internal static string FreeReference(PickupForm form)
    {
        var taken = EditorPage.Names(form);
        return Enumerable.Range(1, PickupFormValidator.MostLines + 1).Select(n => $"A{n}").First(reference => !taken.Contains(reference));
    }

    private static string NewTab() => RandomNumberGenerator.GetHexString(TabLength);
}

/// <summary>Drafts and submitted pickups, newest first.</summary>
public sealed record PickupListPage(IReadOnlyList<Draft> Drafts, IReadOnlyList<PickupRow> Pickups, bool MayDeclare);

public sealed record PickupRow(Pickup Pickup, PickupParties Parties, IReadOnlyList<Hold> Holds);

public sealed record PickupPage(Pickup Pickup, PickupParties Parties, IReadOnlyList<Hold> Holds, IReadOnlyList<Notice> Notices, bool MayDeclare, bool MayRecordOutcome)
{
    /// <summary>Standard builds that this carrier's people had seen before, by the line that is declared like one.</summary>
    public required ILookup<string, BuildApproval> Approvals { get; init; }
}
