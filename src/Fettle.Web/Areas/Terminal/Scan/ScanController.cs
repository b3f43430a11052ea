using Fettle.Readiness.Inspections;
using Fettle.Readiness.Scans;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Scans;
using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using NetEscapades.AspNetCore.SecurityHeaders;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Terminal.Scan;

/// <summary>From a label to the freight that carries it: one field for scanner, camera and hand.</summary>
[Authorize(Policies.TerminalReviewer)]
[Route("scan")]
public sealed class ScanController(IDocumentStore store) : Controller
{
    private const int MostProposed = 20;

    private Caller Caller => Caller.Of(User);

    [HttpGet("")]
    [SecurityHeadersPolicy(HeaderPolicies.Scan)]
    public async Task<IActionResult> Index(CancellationToken cancel, string? code = null)
    {
        await using var session = store.QuerySession();
        if (code is null)
            return View(new ScanPage(await ProposedAsync(session, cancel)));
        var scanned = Scanned.Read(code);
        var complaint = ScanWords.Complaint(scanned);
        var matches = complaint is null ? await ScanDesk.FindAsync(session, scanned, Caller, cancel) : [];
        if (matches is [var only])
            return Redirect(PathOf(only, scanned));
        complaint ??= matches.Count == 0 ? T("Nothing that comes to your terminal carries this: {0}.", code.Trim()) : null;
        var shippers = (await session.LoadManyAsync<Parties.Shipper>(cancel, matches.Select(match => match.Pickup.Header.ShipperId).Distinct())).ToDictionary(shipper => shipper.Id, shipper => shipper.Name);
        if (complaint is not null)
            Response.StatusCode = matches.Count == 0 && scanned is not (WrongCheckDigit or WrongLength or NothingScanned) ? StatusCodes.Status404NotFound : StatusCodes.Status422UnprocessableEntity;
        return View(new ScanPage(await ProposedAsync(session, cancel)) { Code = code, Complaint = complaint, Matches = [.. matches.Select(match => new MatchRow(match, shippers[match.Pickup.Header.ShipperId], PathOf(match, scanned)))] });
    }

    private static string PathOf(Match match, Scanned scanned) =>
        $"/inspections/new?pickup={match.Pickup.Id}&line={Uri.EscapeDataString(match.Reference)}{(match.Unit is { } unit ? $"&unit={unit.Index}" : "")}{(scanned is ScannedSscc(var sscc) ? $"&sscc={sscc.Value}" : "")}";

    /// <summary>The latest inspection of each unit, where it proposes a hold that nobody has placed.</summary>
    private async Task<IReadOnlyList<Inspection>> ProposedAsync(IQuerySession session, CancellationToken cancel)
    {
        Guid[] terminals = [.. Caller.Rights.TerminalIds];
        var recent = await session.Query<Inspection>()
            .Where(inspection => inspection.Recorded.Pickup.TerminalId.IsOneOf(terminals))
            .OrderByDescending(inspection => inspection.Recorded.At).Take(500).ToListAsync(cancel);
        return
        [
            .. recent
                .Where(inspection => Caller.MaySee(inspection.Recorded.Pickup))
                .GroupBy(inspection => (inspection.Recorded.PickupId, inspection.Recorded.Reference, inspection.Recorded.Index))
                .Select(same => same.First())
                .Where(inspection => inspection.ProposesHold)
                .Take(MostProposed),
        ];
    }
}

/// <param name="Proposed">Inspections whose proposed hold waits for somebody to press.</param>
public sealed record ScanPage(IReadOnlyList<Inspection> Proposed)
{
    public string? Code { get; init; }

    public string? Complaint { get; init; }

    public IReadOnlyList<MatchRow> Matches { get; init; } = [];
}

public sealed record MatchRow(Match Match, string Shipper, string Path);
