using Fettle.Web.Declarations;
using Fettle.Web.Papers;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.Papers;

/// <summary>The papers of submitted freight, shown in the browser, from where they are printed. Whoever may see the freight may have them.</summary>
[Route("")]
public sealed class PapersController(PaperDesk desk) : Controller
{
    /// <param name="unit">Only this one of the pickup's units, counted from 1.</param>
    [HttpGet("pickups/{id:guid}/labels.pdf")]
    public async Task<IActionResult> Labels(Guid id, int? unit, CancellationToken cancel) =>
        Pdf(await desk.FreightAsync(id, Caller.Of(User), cancel) is { } freight ? PaperDesk.LabelsOf(freight, unit) : null);

    [HttpGet("pickups/{id:guid}/bill-of-lading.pdf")]
    public async Task<IActionResult> Bill(Guid id, string? paper, CancellationToken cancel) =>
        Pdf(await desk.FreightAsync(id, Caller.Of(User), cancel) is { } freight ? PaperDesk.BillOf(freight, Wording.Parse<Paper>(paper)) : null);

    [HttpGet("pickups/{id:guid}/manifest.pdf")]
    public async Task<IActionResult> Manifest(Guid id, string? paper, CancellationToken cancel) =>
        Pdf(await desk.FreightAsync(id, Caller.Of(User), cancel) is { } freight ? PaperDesk.ManifestOf(freight, Wording.Parse<Paper>(paper)) : null);

    [HttpGet("holds/{id:guid}/exception.pdf")]
    public async Task<IActionResult> Exception(Guid id, string? paper, CancellationToken cancel) =>
        Pdf(await desk.ExceptionAsync(id, Caller.Of(User), Wording.Parse<Paper>(paper), cancel));

    private IActionResult Pdf(PaperFile? file) => file is null ? NotFound() : File(file.Content, PaperPages.ContentType);
}
