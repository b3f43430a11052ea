using Fettle.Web.Areas.Entrance.SignIn;
using Fettle.Web.Identity;
using Fettle.Web.Security;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;

namespace Fettle.Web.Areas.Entrance.Trouble;

/// <summary>What is said in words where an answer would be a bare status: on a page, or as a problem under /api.</summary>
[AllowAnonymous]
[IgnoreAntiforgeryToken]
public sealed class TroubleController : Controller
{
    public const string PathFormat = "/trouble/{0}";

    [Route("/trouble/{status:int:range(400,599)}")]
    public async Task<IActionResult> Index(int status)
    {
        var asked = HttpContext.Features.Get<IStatusCodeReExecuteFeature>();
        if (asked is null)
            return NotFound();
        var trouble = Trouble.Of(status);
        Response.StatusCode = status;
        if (HttpContext.IsApi(asked.OriginalPath))
        {
            await Problems.WriteAsync(HttpContext, status, trouble.Code, trouble.Title, trouble.Advice);
            return new EmptyResult();
        }

        if (Request.IsHtmx())
        {
            await Fragments.WriteAsync(HttpContext, status, $"{trouble.Title}. {trouble.Advice}");
            return new EmptyResult();
        }

        if (status == StatusCodes.Status401Unauthorized)
            return View("/Areas/Entrance/SignIn/Index.cshtml", await SignInPage.AfterSessionEndedAsync(HttpContext));
        return View(trouble);
    }
}

/// <param name="Code">The problem's short word under /api.</param>
/// <param name="Advice">What whoever meets it can do.</param>
public sealed record Trouble(int Status, string Code, string Title, string Advice)
{
    public static Trouble Of(int status) => status switch
    {
        StatusCodes.Status400BadRequest => new(status, "bad-request", "That page was out of date", "It may have been open for long, or in two tabs. Go back, load the page again, and send it once more."),
        StatusCodes.Status401Unauthorized => new(status, "not-signed-in", "You are not signed in", "Sign in and try again."),
        StatusCodes.Status403Forbidden => new(status, "not-allowed", "Your sign-in does not allow this", "If it should, ask an administrator to change your role."),
        StatusCodes.Status404NotFound => new(status, "not-found", "There is nothing here", "The address may be mistyped, or what it showed belongs to someone else."),
        StatusCodes.Status405MethodNotAllowed => new(status, "method-not-allowed", "That cannot be done here", "The address exists, but not for this kind of request."),
        StatusCodes.Status413PayloadTooLarge => new(status, "too-large", "That was too large", "Send less at once: fewer lines, shorter texts, smaller files."),
        StatusCodes.Status415UnsupportedMediaType => new(status, "unsupported-media-type", "That kind of content cannot be read here", "Under /api, send JSON: \"Content-Type: application/json\"."),
        StatusCodes.Status429TooManyRequests => new(status, "too-many-requests", "Too many at once", "Wait a minute and try again."),
        _ => new(status, "status", ReasonPhrases.GetReasonPhrase(status) is { Length: > 0 } phrase ? phrase : "Something went wrong here", "Go back and try again."),
    };
}
