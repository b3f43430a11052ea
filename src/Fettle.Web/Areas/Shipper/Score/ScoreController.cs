using Fettle.Readiness.Scorecards;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Identity;
using Fettle.Web.Scorecards;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.Score;

/// <summary>How a shipper's own freight did, for the docks that the clerk works at. It tells of nobody else.</summary>
[Route("score")]
[Authorize(Policies.ShipperClerk)]
public sealed class ScoreController(IDocumentStore store, AccountDesk desk, TimeProvider clock) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    public async Task<IActionResult> Index(CancellationToken cancel, int? months = null) =>
        await desk.OwnAsync(Caller.Rights, PeriodOf(months), cancel) is { } account
            ? View(new AccountPage(account.Shipper.Id, account.Shipper.Name, account.Evidence, account.Places, "/score", IsOwn: true))
            : NotFound();

    [HttpGet("lines")]
    public async Task<IActionResult> Lines([FromQuery] LineQuery query, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (query.Question is not { } question || await session.LoadAsync<Parties.Shipper>(Caller.Rights.ShipperId!.Value, cancel) is not { } shipper)
            return NotFound();
        var scope = new Scope(null, [shipper.Id], [.. Caller.Rights.SiteIds], PeriodOf(query.Months));
        var list = await LineList.OfAsync(store, scope, question, query.Page ?? 1, cancel);
        return View(new LinesPage(shipper.Name, "/score", "/score", list, question, await PlaceNames.OfAsync(session, [shipper], cancel), scope.Period));
    }

    private Period PeriodOf(int? months) => Period.Last(AccountFilter.MonthsOf(months), DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime));
}
