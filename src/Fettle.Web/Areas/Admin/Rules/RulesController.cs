using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Admin.Rules;

/// <summary>Carriers' rule sets: their versions, the draft of the next one, and what it would do. A carrier's administrator has only the own carrier's.</summary>
[Authorize(Policies.Administrator)]
[Route("admin/rules")]
public sealed class RulesController(IDocumentStore store, CarrierRuleBook book, DueWork due, TimeProvider clock, ILogger<RulesController> log) : Controller
{
    private const string CarrierPath = "{carrierId:guid}";

    /// <summary>How much of the history a page shows.</summary>
    private const int Shown = 60;

    private const int MostTries = 4;

    private static readonly TimeSpan FurthestStart = TimeSpan.FromDays(731);

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var carriers = (await session.Query<Carrier>().OrderBy(carrier => carrier.Name).ToListAsync(cancel)).Where(carrier => Caller.MaySetRulesOf(carrier.Id)).ToList();
        if (carriers is [var only] && Caller.Rights.CarrierId is not null)
            return Redirect(PathOf(only.Id));
        var rows = new List<CarrierRow>();
        foreach (var carrier in carriers)
            rows.Add(new(carrier, await book.OfAsync(carrier.Id, cancel), clock.GetUtcNow()));
        return View(rows);
    }

    [HttpGet(CarrierPath)]
    public async Task<IActionResult> Carrier(Guid carrierId, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is not { } carrier)
            return NotFound();
        await using var session = store.QuerySession();
        var events = (await session.Events.FetchStreamAsync(carrierId, token: cancel)).Select(e => e.Data).OfType<RuleSetEvent>().ToList();
        var previews = await session.Query<RulePreview>().Where(preview => preview.CarrierId == carrierId).OrderByDescending(preview => preview.AskedAt).Take(5).ToListAsync(cancel);
        return View(new CarrierPage(carrier, await book.OfAsync(carrierId, cancel), clock.GetUtcNow(), [.. HistoryEntry.Of(events).Reverse().Take(Shown)], previews));
    }

    [HttpGet(CarrierPath + "/versions/{version:int}")]
    public async Task<IActionResult> Version(Guid carrierId, int version, int? against, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is not { } carrier
            || await book.OfAsync(carrierId, cancel) is not { } rules
            || rules.Versions.FirstOrDefault(one => one.Version == version) is not { } shown)
            return NotFound();
        // Any other number, and none, is the one before; before the first are the built-in rules.
        var other = rules.Versions.FirstOrDefault(one => one.Version == (against ?? version - 1));
        return View(new VersionPage(carrier, rules, shown, other));
    }

    [HttpPost(CarrierPath + "/draft/start")]
    public async Task<IActionResult> Start(Guid carrierId, bool ofBuiltIn, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is not { } carrier)
            return NotFound();
        var command = new DraftRuleSet(carrierId, carrier.Name, ofBuiltIn, Caller.Actor, clock.GetUtcNow());
        if ((await book.DecideAsync(carrierId, state => CarrierRules.Decide(state, command), cancel)).Refusal is { } refusal)
            this.Say(refusal.Message.Say(UnitSystem.Imperial));
        else
            Log("began a draft of the rules of", carrierId);
        return Redirect($"{PathOf(carrierId)}/draft");
    }

    [HttpGet(CarrierPath + "/draft")]
    public async Task<IActionResult> Draft(Guid carrierId, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is not { } carrier)
            return NotFound();
        if (await book.OfAsync(carrierId, cancel) is not { Draft: { } draft } rules)
        {
            this.Say(new NoRuleSetDraft().Message.Say(UnitSystem.Imperial));
            return Redirect(PathOf(carrierId));
        }

        return View(Page(carrier, rules, draft, DraftForm.Of(draft.Rules, rules.Revision), new Dictionary<string, string>()));
    }

    /// <summary>Every button of the draft's page. What was typed is saved first, and comes back when it cannot be.</summary>
    [HttpPost(CarrierPath + "/draft")]
    public async Task<IActionResult> Draft(Guid carrierId, [Bind(Prefix = "")] DraftForm form, string? @do, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is not { } carrier)
            return NotFound();
        // Fields that cannot be bound are told below, each at its place.
        ModelState.Clear();
        if (await book.OfAsync(carrierId, cancel) is not { Draft: { } draft } rules)
        {
            this.Say(new NoRuleSetDraft().Message.Say(UnitSystem.Imperial));
            return Redirect(PathOf(carrierId));
        }

        if (@do == "keep-mine")
            form = form with { Seen = rules.Revision };
        var (typed, errors) = form.Read(draft.Rules);
        var now = clock.GetUtcNow();
        var from = @do == "publish" ? StartOf(carrier, form, now, errors) : null;
        if (errors.Count > 0)
            return Again(Page(carrier, rules, draft, form, errors));

        var changed = await book.DecideAsync(carrierId, state => CarrierRules.Decide(state, new ChangeRuleSet(form.Seen, typed, Caller.Actor, now)), cancel);
        if (changed.Refusal is { } unsaved)
            return await RefusedAsync(carrier, form, unsaved, cancel);
        form = form with { Seen = form.Seen + changed.Events.Count };
        switch (@do)
        {
            case "publish":
                var published = await book.DecideAsync(carrierId, state => CarrierRules.Decide(state, new PublishRuleSet(form.Seen, from!.Value, form.Note!, Caller.Actor, now)), cancel);
                if (published.Refusal is { } refusal)
                    return await RefusedAsync(carrier, form, refusal, cancel);
                Log("published rules of", carrierId);
                due.RecheckBuilds(carrierId);
                this.Say($"{((RuleSetPublished)published.Events[0]).Rules.Identity} is published. It judges from {Clock.At(from!.Value, ZoneOf(carrier))} on.");
                return Redirect(PathOf(carrierId));
            case "preview":
                return await PreviewAsync(carrierId, form.Seen, now, cancel);
            default:
                this.Say(changed.Events.Count == 0 ? "Nothing was changed." : "Saved. Nothing is judged by it until it is published.");
                return Redirect($"{PathOf(carrierId)}/draft");
        }
    }

    [HttpPost(CarrierPath + "/draft/drop")]
    public async Task<IActionResult> Drop(Guid carrierId, int seen, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is null)
            return NotFound();
        var decision = await book.DecideAsync(carrierId, state => CarrierRules.Decide(state, new DropRuleSetDraft(seen, Caller.Actor, clock.GetUtcNow())), cancel);
        this.Say(decision.Refusal is { } refusal ? $"{refusal.Message.Say(UnitSystem.Imperial)} Look at it again before you give it up." : "The draft is given up. Versions that are published stay as they are.");
        return Redirect(PathOf(carrierId));
    }

    [HttpGet(CarrierPath + "/previews/{id:guid}")]
    public async Task<IActionResult> Preview(Guid carrierId, Guid id, CancellationToken cancel) =>
        await PreviewPageAsync(carrierId, id, cancel) is { } page ? View(page) : NotFound();

    /// <summary>The part of the page that changes while it is counted.</summary>
    [HttpGet(CarrierPath + "/previews/{id:guid}/state")]
    public async Task<IActionResult> PreviewState(Guid carrierId, Guid id, CancellationToken cancel) =>
        await PreviewPageAsync(carrierId, id, cancel) is { } page ? PartialView("_PreviewState", page) : NotFound();

    [HttpPost(CarrierPath + "/previews/{id:guid}/cancel")]
    public async Task<IActionResult> Cancel(Guid carrierId, Guid id, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is null || !await CancelAsync(carrierId, id, cancel))
            return NotFound();
        return Redirect($"{PathOf(carrierId)}/previews/{id}");
    }

    /// <summary>Asks for a preview of the draft, or shows the one that was asked for already.</summary>
    private async Task<IActionResult> PreviewAsync(Guid carrierId, int revision, DateTimeOffset now, CancellationToken cancel)
    {
        if (await book.OfAsync(carrierId, cancel) is not { Draft: { } draft } rules || rules.Revision != revision)
        {
            this.Say("Somebody changed the draft in this moment. Look at it again, then preview it.");
            return Redirect($"{PathOf(carrierId)}/draft");
        }

        await using var session = store.LightweightSession();
        var open = await session.Query<RulePreview>()
            .Where(preview => preview.CarrierId == carrierId && (preview.State == RulePreviewState.Due || preview.State == RulePreviewState.Running)).ToListAsync(cancel);
        if (open.FirstOrDefault(preview => preview.Revision == revision) is { } asked)
            return Redirect($"{PathOf(carrierId)}/previews/{asked.Id}");
        // An older draft interests nobody any more.
        foreach (var old in open)
            await CancelAsync(carrierId, old.Id, cancel);
        var preview = new RulePreview
        {
            Id = Guid.CreateVersion7(now),
            CarrierId = carrierId,
            Rules = draft.Rules,
            Against = rules.RulesAt(now),
            Revision = revision,
            AskedBy = Caller.Actor,
            AskedAt = now,
        };
        session.Insert(preview);
        await session.SaveChangesAsync(cancel);
        due.RulePreview(preview.Id);
        return Redirect($"{PathOf(carrierId)}/previews/{preview.Id}");
    }

    private async Task<bool> CancelAsync(Guid carrierId, Guid id, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            await using var session = store.LightweightSession();
            if (await session.LoadAsync<RulePreview>(id, cancel) is not { } preview || preview.CarrierId != carrierId)
                return false;
            if (!preview.IsOpen)
                return true;
            (preview.State, preview.EndedAt, preview.RunningUntil) = (RulePreviewState.Cancelled, clock.GetUtcNow(), null);
            session.Store(preview);
            try
            {
                await session.SaveChangesAsync(cancel);
                return true;
            }
            catch (Exception raced) when (attempt < MostTries && Streams.IsRace(raced))
            {
                // The run took a step in this moment.
            }
        }
    }

    private async Task<PreviewPage?> PreviewPageAsync(Guid carrierId, Guid id, CancellationToken cancel)
    {
        if (await FindAsync(carrierId, cancel) is not { } carrier)
            return null;
        await using var session = store.QuerySession();
        if (await session.LoadAsync<RulePreview>(id, cancel) is not { } preview || preview.CarrierId != carrierId)
            return null;
        Guid[] shippers = [.. (preview.Effect?.Shippers ?? []).Select(shipper => shipper.ShipperId)];
        var names = (await session.LoadManyAsync<Parties.Shipper>(cancel, shippers)).ToDictionary(shipper => shipper.Id, shipper => shipper.Name);
        var rules = await book.OfAsync(carrierId, cancel);
        return new(carrier, preview, names, rules?.Draft is not null && rules.Revision == preview.Revision, rules?.Draft is not null);
    }

    private async Task<IActionResult> RefusedAsync(Carrier carrier, DraftForm form, Refusal refusal, CancellationToken cancel)
    {
        if (await book.OfAsync(carrier.Id, cancel) is not { Draft: { } draft } rules)
        {
            this.Say(refusal.Message.Say(UnitSystem.Imperial));
            return Redirect(PathOf(carrier.Id));
        }

        var errors = refusal switch
        {
            RuleSetUnusable unusable => unusable.Problems.ToDictionary(problem => problem.Path, problem => problem.Message, StringComparer.Ordinal),
            StartsInThePast => new(StringComparer.Ordinal) { ["from"] = refusal.Message.Say(UnitSystem.Imperial) },
            NoReasonForRules => new(StringComparer.Ordinal) { ["note"] = refusal.Message.Say(UnitSystem.Imperial) },
            _ => [],
        };
        var page = Page(carrier, rules, draft, form, errors);
        return Again(page with
        {
            Notice = errors.Count == 0 ? refusal.Message.Say(UnitSystem.Imperial) : null,
            Conflict = refusal is RuleSetChangedMeanwhile ? Limit.Between(draft.Rules, form.Read(draft.Rules).Rules) : null,
        });
    }

    /// <summary>The moment at which the day begins at the carrier's first terminal, or now for today. Also sees to the note.</summary>
    private static DateTimeOffset? StartOf(Carrier carrier, DraftForm form, DateTimeOffset now, Dictionary<string, string> errors)
    {
        if (string.IsNullOrWhiteSpace(form.Note))
            errors["note"] = new NoReasonForRules().Message.Say(UnitSystem.Imperial);
        else if (form.Note.Length > CarrierRules.LongestNote || !UnitFormValidator.ReadableText(form.Note.ReplaceLineEndings(" ")))
            errors["note"] = $"At most {CarrierRules.LongestNote} readable characters.";
        if (!DateOnly.TryParseExact(form.From, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            errors["from"] = "The day on which it starts, for example 2026-12-01.";
            return null;
        }

        var zone = TimeZoneInfo.FindSystemTimeZoneById(ZoneOf(carrier));
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).Date);
        if (day < today)
            errors["from"] = new StartsInThePast().Message.Say(UnitSystem.Imperial);
        else if (day.DayNumber - today.DayNumber > FurthestStart.Days)
            errors["from"] = "Within the next two years.";
        if (errors.ContainsKey("from"))
            return null;
        if (day == today)
            return now;
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        // Where the clocks skip midnight the day begins an hour later.
        if (zone.IsInvalidTime(midnight))
            midnight = midnight.AddHours(1);
        return new DateTimeOffset(midnight, zone.GetUtcOffset(midnight)).ToUniversalTime();
    }

    private DraftPage Page(Carrier carrier, CarrierRules rules, RuleSetDraft draft, DraftForm form, IReadOnlyDictionary<string, string> errors)
    {
        var today = TimeZoneInfo.ConvertTime(clock.GetUtcNow(), TimeZoneInfo.FindSystemTimeZoneById(ZoneOf(carrier))).Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return new(carrier, draft, rules.RulesAt(clock.GetUtcNow()), form, errors, today);
    }

    private ViewResult Again(DraftPage page)
    {
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return View("Draft", page);
    }

    /// <summary>Null as well when its rules are not the caller's to set.</summary>
    private async Task<Carrier?> FindAsync(Guid carrierId, CancellationToken cancel)
    {
        if (!Caller.MaySetRulesOf(carrierId))
            return null;
        await using var session = store.QuerySession();
        return await session.LoadAsync<Carrier>(carrierId, cancel);
    }

    private void Log(string did, Guid carrierId) => log.LogInformation("Administrator {Administrator} {Did} {Carrier}", Caller.Id, did, carrierId);

    internal static string PathOf(Guid carrierId) => $"/admin/rules/{carrierId}";

    /// <summary>Where a carrier's days begin and end.</summary>
    internal static string ZoneOf(Carrier carrier) => carrier.Terminals is [var first, ..] ? first.TimeZone : "Etc/UTC";
}
