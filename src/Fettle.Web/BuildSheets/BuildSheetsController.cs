using System.Globalization;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Fettle.Web.Papers;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.BuildSheets;

[Route("api/v1/pickups/{id:guid}/build-sheets.pdf")]
public sealed class BuildSheetsController(BuildSheetDesk desk) : ApiController
{
    /// <summary>A pickup's build sheets as one PDF, a page for each line: layers, steps, labels and cautions for whoever builds it.</summary>
    /// <param name="paper">"letter" or "a4"; by the units of the declaration when left out.</param>
    [HttpGet]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, SheetPdf.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Pdf(Guid id, CancellationToken cancel, string? paper = null)
    {
        if (await desk.LinesAsync(id, Caller, cancel) is not { } pickup)
            return Answers.NotFound("pickup");
        if (paper is not null && Wording.Parse<Paper>(paper) is null)
            return Answers.Unreadable([new("paper", "Choose \"letter\" or \"a4\".")]);
        if (pickup.Errors.Count > 0 || pickup.Lines.Contains(null))
            return Answers.Unreadable(pickup.Errors);
        if (pickup.Lines.Count == 0)
            return Answers.Unreadable([new("handlingUnits", "There is no handling unit to build.")]);
        return File(pickup.Pdf(Wording.Parse<Paper>(paper), CultureInfo.CurrentUICulture), SheetPdf.ContentType, $"{pickup.Number} build sheets.pdf");
    }
}
