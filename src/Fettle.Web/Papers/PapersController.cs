using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Papers;

/// <summary>The papers of submitted freight as PDF, in the language that is asked for; wording with a legal sense stays English.</summary>
[Route("api/v1")]
public sealed class PapersController(PaperDesk desk) : ApiController
{
    /// <summary>Labels of 4 × 6 in, a page for each handling unit, with its SSCC as GS1-128; with the shipper's own number as Code 128 where the shipper has no GS1 company prefix.</summary>
    /// <param name="unit">Only this one of the pickup's units, counted from 1.</param>
    [HttpGet("pickups/{id:guid}/labels.pdf")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, PaperPages.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Labels(Guid id, CancellationToken cancel, int? unit = null)
    {
        if (await desk.FreightAsync(id, Caller, cancel) is not { } freight)
            return Answers.NotFound("pickup");
        return PaperDesk.LabelsOf(freight, unit) is { } labels
            ? Pdf(labels)
            : Answers.Unreadable([new("unit", T("A unit of this pickup, 1 to {0}.", freight.Pickup.Numbers.Count))]);
    }

    /// <summary>A straight bill of lading made from the declaration.</summary>
    /// <param name="paper">"letter" or "a4"; by the units of the declaration when left out.</param>
    [HttpGet("pickups/{id:guid}/bill-of-lading.pdf")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, PaperPages.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public Task<IActionResult> Bill(Guid id, CancellationToken cancel, string? paper = null) => OfPickupAsync(id, paper, PaperDesk.BillOf, cancel);

    /// <summary>The driver's manifest: units, weights, what each asks for, what is held, linear feet and a drawing of the trailer.</summary>
    /// <param name="paper">"letter" or "a4"; by the units of the declaration when left out.</param>
    [HttpGet("pickups/{id:guid}/manifest.pdf")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, PaperPages.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public Task<IActionResult> Manifest(Guid id, CancellationToken cancel, string? paper = null) => OfPickupAsync(id, paper, PaperDesk.ManifestOf, cancel);

    /// <summary>The numbered document of a hold that was released as an exception; 404 for any other hold.</summary>
    /// <param name="paper">"letter" or "a4"; by the units of the declaration when left out.</param>
    [HttpGet("holds/{id:guid}/exception.pdf")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, PaperPages.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Exception(Guid id, CancellationToken cancel, string? paper = null)
    {
        if (paper is not null && Wording.Parse<Paper>(paper) is null)
            return Unknown();
        return await desk.ExceptionAsync(id, Caller, Wording.Parse<Paper>(paper), cancel) is { } file ? Pdf(file) : Answers.NotFound("exception");
    }

    private async Task<IActionResult> OfPickupAsync(Guid id, string? paper, Func<PickupFreight, Paper?, PaperFile> write, CancellationToken cancel)
    {
        if (await desk.FreightAsync(id, Caller, cancel) is not { } freight)
            return Answers.NotFound("pickup");
        return paper is not null && Wording.Parse<Paper>(paper) is null ? Unknown() : Pdf(write(freight, Wording.Parse<Paper>(paper)));
    }

    private static ObjectResult Unknown() => Answers.Unreadable([new("paper", T("Choose one of: {0}.", string.Join(", ", Wording.All<Paper>())))]);

    private FileContentResult Pdf(PaperFile file) => File(file.Content, PaperPages.ContentType, file.Name);
}
