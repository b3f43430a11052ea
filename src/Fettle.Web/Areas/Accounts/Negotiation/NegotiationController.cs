using Fettle.Web.Areas.Shared;
using Fettle.Web.BuildSheets;
using Fettle.Web.Declarations;
using Fettle.Web.FloorUse;
using Fettle.Web.Negotiations;
using Fettle.Web.Papers;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Accounts.Negotiation;

/// <summary>What stacking an account's freight is worth, and the sheet to bring to the table; a shipper gets its own.</summary>
[Route("accounts/{id:guid}")]
public sealed class NegotiationController(IDocumentStore store, FloorUseDesk floors, NegotiationDesk desk) : Controller
{
    private Caller Caller => Caller.Of(User);

    [HttpGet("worth")]
    public async Task<IActionResult> Worth(Guid id, CancellationToken cancel, int? months = null)
    {
        await using var session = store.QuerySession();
        if (FloorUseDesk.ScopeOf(Caller.Rights, id, floors.PeriodOf(months)) is not { } scope || await session.LoadAsync<Parties.Shipper>(id, cancel) is not { } shipper)
            return NotFound();
        return View(await WorthPage.OfAsync(session, floors, scope, shipper, cancel));
    }

    [HttpGet("negotiation.pdf")]
    public async Task<IActionResult> Pdf(Guid id, CancellationToken cancel, int? months = null, Guid? lane = null, string? paper = null) =>
        await desk.SheetAsync(Caller, id, months, lane, cancel) is { } sheet
            ? File(NegotiationPdf.Write(sheet, Wording.Parse<Paper>(paper) ?? Paper.Letter), SheetPdf.ContentType, $"{sheet.FileName}.pdf")
            : NotFound();

    [HttpGet("negotiation.xlsx")]
    public async Task<IActionResult> Xlsx(Guid id, CancellationToken cancel, int? months = null, Guid? lane = null) =>
        await desk.SheetAsync(Caller, id, months, lane, cancel) is { } sheet
            ? File(await NegotiationXlsx.WriteAsync(sheet, cancel), NegotiationXlsx.ContentType, $"{sheet.FileName}.xlsx")
            : NotFound();
}
