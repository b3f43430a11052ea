using Fettle.Readiness.Scorecards;
using Fettle.Web.Api;
using Fettle.Web.BuildSheets;
using Fettle.Web.Declarations;
using Fettle.Web.Papers;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Negotiations;

[Route("api/v1/accounts/{id:guid}")]
public sealed class NegotiationsController(NegotiationDesk desk) : ApiController
{
    /// <summary>Two pages for the next rate negotiation: evidence, what stacking is worth, one pickup drawn before and after, and what the figures rest on. A shipper gets its own.</summary>
    /// <param name="months">3, 6, 12 (the default) or 24 months up to this one.</param>
    /// <param name="lane">Only this lane; its id is in the answer of floor-use.</param>
    /// <param name="paper">"letter" (the default) or "a4".</param>
    [HttpGet("negotiation.pdf")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, SheetPdf.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Pdf(Guid id, CancellationToken cancel, int? months = null, Guid? lane = null, string? paper = null)
    {
        if (Wrong(months) is { } wrong)
            return wrong;
        if (paper is not null && Wording.Parse<Paper>(paper) is null)
            return Answers.Unreadable([new("paper", "Choose \"letter\" or \"a4\".")]);
        return await desk.SheetAsync(Caller, id, months, lane, cancel) is { } sheet
            ? File(NegotiationPdf.Write(sheet, Wording.Parse<Paper>(paper) ?? Paper.Letter), SheetPdf.ContentType, $"{sheet.FileName}.pdf")
            : Answers.NotFound("account");
    }

    /// <summary>The same as a workbook, with every week and pickup behind the figures.</summary>
    /// <param name="months">3, 6, 12 (the default) or 24 months up to this one.</param>
    /// <param name="lane">Only this lane; its id is in the answer of floor-use.</param>
    [HttpGet("negotiation.xlsx")]
    [ProducesResponseType<Stream>(StatusCodes.Status200OK, NegotiationXlsx.ContentType)]
    [ProducesResponseType<ProblemDetails>(StatusCodes.Status404NotFound, AsProblem)]
    public async Task<IActionResult> Xlsx(Guid id, CancellationToken cancel, int? months = null, Guid? lane = null)
    {
        if (Wrong(months) is { } wrong)
            return wrong;
        return await desk.SheetAsync(Caller, id, months, lane, cancel) is { } sheet
            ? File(await NegotiationXlsx.WriteAsync(sheet, cancel), NegotiationXlsx.ContentType, $"{sheet.FileName}.xlsx")
            : Answers.NotFound("account");
    }

    private static ObjectResult? Wrong(int? months) =>
        months is { } asked && !Period.Choices.Contains(asked) ? Answers.Unreadable([new("months", $"Choose one of: {string.Join(", ", Period.Choices)}.")]) : null;
}
