using System.Globalization;
using Fettle.Web.Areas.Shared;
using Fettle.Web.BuildSheets;
using Fettle.Web.Declarations;
using Fettle.Web.Drawings;
using Fettle.Web.Papers;
using Microsoft.AspNetCore.Mvc;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Areas.Shipper.BuildSheets;

/// <summary>For whoever builds the unit: a line of a pickup as a sheet, on a screen or on paper. Whoever may see the pickup may see it.</summary>
[Route("pickups/{id:guid}")]
public sealed class BuildSheetsController(BuildSheetDesk desk) : Controller
{
    [HttpGet("lines/{line:int}/build-sheet")]
    public async Task<IActionResult> Show(Guid id, int line, string? paper, CancellationToken cancel)
    {
        if (await LinesAsync(id, line, cancel) is not { } pickup)
            return NotFound();
        if (pickup.Lines[line - 1] is null)
            return Unfinished(id, line);
        return View(new BuildSheetPage(
            pickup.Sheet(line, DrawingOptions.ForMail, CultureInfo.CurrentUICulture),
            $"/pickups/{id}/lines/{line}/build-sheet",
            Wording.Parse<Paper>(paper) ?? PaperSizes.For(pickup.Units),
            $"/pickups/{id}",
            $"Pickup {pickup.Number}"));
    }

    [HttpGet("lines/{line:int}/build-sheet.pdf")]
    public async Task<IActionResult> Pdf(Guid id, int line, string? paper, CancellationToken cancel)
    {
        if (await LinesAsync(id, line, cancel) is not { } pickup)
            return NotFound();
        if (pickup.Lines[line - 1] is null)
            return Unfinished(id, line);
        var sheet = pickup.Sheet(line, DrawingOptions.ForMail, CultureInfo.CurrentUICulture);
        // Shown in the browser, from where it is printed.
        return File(SheetPdf.Write([sheet], Wording.Parse<Paper>(paper) ?? PaperSizes.For(pickup.Units)), SheetPdf.ContentType);
    }

    /// <summary>All lines, a page each.</summary>
    [HttpGet("build-sheets.pdf")]
    public async Task<IActionResult> All(Guid id, string? paper, CancellationToken cancel)
    {
        if (await desk.LinesAsync(id, Caller.Of(User), cancel) is not { } pickup)
            return NotFound();
        var unread = pickup.Lines.ToList().IndexOf(null);
        if (pickup.Lines.Count == 0 || unread >= 0)
            return Unfinished(id, unread + 1);
        return File(pickup.Pdf(Wording.Parse<Paper>(paper), CultureInfo.CurrentUICulture), SheetPdf.ContentType);
    }

    private async Task<PickupLines?> LinesAsync(Guid id, int line, CancellationToken cancel) =>
        await desk.LinesAsync(id, Caller.Of(User), cancel) is { } pickup && line >= 1 && line <= pickup.Lines.Count ? pickup : null;

    private RedirectResult Unfinished(Guid id, int line)
    {
        this.Say(line == 0
            ? "There is no build sheet yet: no unit is declared."
            : $"Unit {line} has no build sheet yet: fill in what is missing, and how far it travels.");
        return Redirect($"/pickups/{id}");
    }
}

/// <param name="Path">Of this page; the PDF's has .pdf behind it.</param>
/// <param name="Back">Where one came from, and its name.</param>
public sealed record BuildSheetPage(BuildSheet Sheet, string Path, Paper Paper, string Back, string BackName);
