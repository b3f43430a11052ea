using Fettle.Readiness.Scorecards;
using Fettle.Web.Identity;
using Fettle.Web.Scorecards;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Accounts.Accounts;

/// <summary>Whose freight stacks well, and whose is held.</summary>
[Route("accounts")]
[Authorize(Policies.AccountManager)]
public sealed class AccountsController(IDocumentStore store, TimeProvider clock) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel, string? sort = null, bool up = false)
    {
        await using var session = store.QuerySession();
        var rows = await Scoreboard.OfAsync(session, Caller.Rights, clock.GetUtcNow(), cancel);
        var column = ScoreColumn.Find(sort);
        return View(new AccountsPage(column.Sort(rows, up), column.Key, up));
    }

    /// <summary>The same as a table for a spreadsheet.</summary>
    [HttpGet("scores.csv")]
    public async Task<IActionResult> Csv(CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var now = clock.GetUtcNow();
        var rows = await Scoreboard.OfAsync(session, Caller.Rights, now, cancel);
        return File(ScoreCsv.Write(rows), "text/csv; charset=utf-8", $"fettle-accounts-{now:yyyy-MM-dd}.csv");
    }
}

public sealed record AccountsPage(IReadOnlyList<ShipperRow> Rows, string Sort, bool Up);
