using Fettle.Readiness.Scorecards;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Fettle.Web.Store;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Accounts.Accounts;

/// <summary>Whose freight is worth more, and why.</summary>
[Route("accounts")]
[Authorize(Policies.AccountManager)]
public sealed class AccountsController(IDocumentStore store, AccountDesk desk, TimeProvider clock) : Controller
{
    private Caller Caller => Caller.Of(User);

    private DateOnly Today => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel, string? name = null, string? lane = null, int? least = null, int? months = null, string? sort = null, bool up = false) =>
        View(await ListAsync(AccountFilter.Of(name, lane, least, months, sort, up), null, null, cancel));

    /// <summary>The same as a table for a spreadsheet.</summary>
    [HttpGet("scores.csv")]
    public async Task<IActionResult> Csv(CancellationToken cancel, string? name = null, string? lane = null, int? least = null, int? months = null, string? sort = null, bool up = false)
    {
        var list = await AccountList.OfAsync(store, Caller.Rights, AccountFilter.Of(name, lane, least, months, sort, up), Today, cancel);
        return File(ScoreCsv.Write(list.Rows), "text/csv; charset=utf-8", $"fettle-accounts-{Today:yyyy-MM-dd}.csv");
    }

    /// <summary>Keeps a way of looking at the list, for the person alone.</summary>
    [HttpPost("views")]
    public async Task<IActionResult> Keep(string? view, CancellationToken cancel, string? name = null, string? lane = null, int? least = null, int? months = null, string? sort = null, bool up = false)
    {
        var filter = AccountFilter.Of(name, lane, least, months, sort, up);
        var title = new string([.. (view ?? "").Where(c => !char.IsControl(c))]).Trim();
        await using var session = store.LightweightSession();
        var kept = await ViewsAsync(session, cancel);
        var id = StableId.From("view", Caller.Id, title);
        var error = title.Length is 0 or > SavedView.LongestName ? T("Give it a name of at most {0} characters.", SavedView.LongestName)
            : kept.Count >= SavedView.Most && kept.All(other => other.Id != id) ? T("You keep {0} views already: remove one first.", SavedView.Most)
            : null;
        if (error is not null)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return View("Index", await ListAsync(filter, view, error, cancel));
        }

        session.Store(new SavedView { Id = id, PersonId = Caller.Id, Name = title, Filter = filter });
        await session.SaveChangesAsync(cancel);
        this.Say(T("Kept as “{0}”.", title));
        return Redirect($"/accounts{filter.Query()}");
    }

    [HttpPost("views/{id:guid}/remove")]
    public async Task<IActionResult> Remove(Guid id, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<SavedView>(id, cancel) is not { } view || view.PersonId != Caller.Id)
            return NotFound();
        session.Delete(view);
        await session.SaveChangesAsync(cancel);
        return Redirect("/accounts");
    }

    [HttpGet("{id:guid}")]
    public async Task<IActionResult> Show(Guid id, CancellationToken cancel, int? months = null) =>
        await desk.AccountAsync(Caller.Rights, id, PeriodOf(months), cancel) is { } account
            ? View(new AccountPage(account.Shipper.Id, account.Shipper.Name, account.Evidence, account.Places, $"/accounts/{id}", IsOwn: false))
            : NotFound();

    [HttpGet("{id:guid}/lines")]
    public async Task<IActionResult> Lines(Guid id, [FromQuery] LineQuery query, CancellationToken cancel)
    {
        if (!Caller.Rights.AccountShipperIds.Contains(id) || query.Question is not { } question)
            return NotFound();
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Parties.Shipper>(id, cancel) is not { } shipper)
            return NotFound();
        var scope = new Scope(Caller.Rights.CarrierId, [id], null, PeriodOf(query.Months));
        var list = await LineList.OfAsync(store, scope, question, query.Page ?? 1, cancel);
        return View("Lines", new LinesPage(shipper.Name, $"/accounts/{id}", $"/accounts/{id}", list, question, await PlaceNames.OfAsync(session, [shipper], cancel), scope.Period));
    }

    /// <summary>The lines of all accounts behind a figure about rules.</summary>
    [HttpGet("lines")]
    public async Task<IActionResult> AllLines([FromQuery] LineQuery query, CancellationToken cancel)
    {
        if (query.Question is not { } question)
            return NotFound();
        await using var session = store.QuerySession();
        var scope = AllAccounts(PeriodOf(query.Months));
        var list = await LineList.OfAsync(store, scope, question, query.Page ?? 1, cancel);
        var shippers = await session.LoadManyAsync<Parties.Shipper>(cancel, [.. Caller.Rights.AccountShipperIds]);
        return View("Lines", new LinesPage(T("All your accounts"), "/accounts/rules", "/accounts", list, question, await PlaceNames.OfAsync(session, shippers, cancel), scope.Period));
    }

    /// <summary>Up to four accounts beside each other.</summary>
    [HttpGet("compare")]
    public async Task<IActionResult> Compare(CancellationToken cancel, [FromQuery] Guid[]? ids = null, int? months = null)
    {
        Guid[] asked = [.. (ids ?? []).Where(id => id != Guid.Empty).Distinct()];
        if (asked.Length == 0)
            return Redirect("/accounts");
        return await desk.CompareAsync(Caller.Rights, [.. asked.Take(ComparePage.Most)], PeriodOf(months), cancel) is { } accounts
            ? View(new ComparePage(accounts, asked.Length > ComparePage.Most))
            : NotFound();
    }

    /// <summary>Whether the rules tell the truth.</summary>
    [HttpGet("rules")]
    public async Task<IActionResult> Rules(CancellationToken cancel, int? months = null)
    {
        var scope = AllAccounts(PeriodOf(months));
        return View(new RulesPage(scope.Period, await store.RuleEffectsAsync(scope, cancel)));
    }

    private async Task<AccountsPage> ListAsync(AccountFilter filter, string? view, string? error, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return new(await AccountList.OfAsync(store, Caller.Rights, filter, Today, cancel), filter, await ViewsAsync(session, cancel), view, error);
    }

    private Task<IReadOnlyList<SavedView>> ViewsAsync(IQuerySession session, CancellationToken cancel) =>
        session.Query<SavedView>().Where(view => view.PersonId == Caller.Id).OrderBy(view => view.Name).ToListAsync(cancel);

    private Scope AllAccounts(Period period) => new(Caller.Rights.CarrierId, [.. Caller.Rights.AccountShipperIds], null, period);

    private Period PeriodOf(int? months) => Period.Last(AccountFilter.MonthsOf(months), Today);
}

/// <param name="View">The name under which somebody wanted to keep it, when that could not be.</param>
public sealed record AccountsPage(AccountList List, AccountFilter Filter, IReadOnlyList<SavedView> Views, string? View, string? Error);

/// <param name="WasMore">More were asked for than can be shown.</param>
public sealed record ComparePage(IReadOnlyList<ComparedAccount> Accounts, bool WasMore)
{
    public const int Most = 4;
}

public sealed record RulesPage(Period Period, RuleEffects Rules)
{
    /// <summary>The list of the lines behind a figure.</summary>
    public string Lines(LineQuestion question) => $"/accounts/lines{question.Query(Period.Length)}";
}
