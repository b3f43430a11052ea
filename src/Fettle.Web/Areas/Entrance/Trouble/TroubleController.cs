using Fettle.Web.Areas.Entrance.SignIn;
using Fettle.Web.Identity;
using Fettle.Web.Security;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.WebUtilities;

namespace Fettle.Web.Areas.Entrance.Trouble;

/// <summary>What is said in words where an answer would be a bare status: on a page, or as a problem under /api.</summary>
[AllowAnonymous]
[IgnoreAntiforgeryToken]
public sealed class TroubleController : Controller
{
    public const string Path = "/trouble";

    /// <summary>Binds no parameter: a form that could not be read the first time would spoil that too.</summary>
    [Route(Path)]
    public async Task<IActionResult> Index()
    {
        if (HttpContext.Features.Get<IStatusCodeReExecuteFeature>() is not { } asked)
            return NotFound();
        var status = asked.OriginalStatusCode;
        // A form that is too large is first noticed by the search for its token, which calls it a bad request.
        if (status == StatusCodes.Status400BadRequest && Request.ContentLength > HttpContext.Features.Get<IHttpMaxRequestBodySizeFeature>()?.MaxRequestBodySize)
            status = StatusCodes.Status413PayloadTooLarge;
        Response.StatusCode = status;
        if (HttpContext.IsApi(asked.OriginalPath))
        {
            var problem = Trouble.UnderApi(status);
            await Problems.WriteAsync(HttpContext, status, problem.Code, problem.Title, problem.Advice);
            return new EmptyResult();
        }

        var trouble = Trouble.OnPage(status);
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
public sealed record Trouble(string Code, string Title, string Advice)
{
    public static Trouble OnPage(int status) => status switch
    {
        StatusCodes.Status400BadRequest => new("bad-request", T("That page was out of date"), T("It may have been open for long, or in two tabs. Go back, load the page again, and send it once more.")),
        StatusCodes.Status404NotFound => new("not-found", T("There is nothing here"), T("The address may be mistyped, or what it showed belongs to someone else.")),
        StatusCodes.Status413PayloadTooLarge => new("too-large", T("That was too large"), T("Go back and send fewer or smaller files.")),
        _ => Known(status) ?? Unknown(status, T("Go back and try again.")),
    };

    public static Trouble UnderApi(int status) => status switch
    {
        StatusCodes.Status400BadRequest => new("bad-request", T("The request could not be read"), T("Compare it with the description of the API, under /api/reference.")),
        StatusCodes.Status404NotFound => new("not-found", T("There is nothing here"), T("The address may be mistyped, or what it names belongs to someone else.")),
        StatusCodes.Status413PayloadTooLarge => new("too-large", T("The request is too large"), T("Send it in parts.")),
        StatusCodes.Status415UnsupportedMediaType => new("unsupported-media-type", T("That kind of content cannot be read here"), T("Most often \"Content-Type: application/json\" is missing.")),
        _ => Known(status) ?? Unknown(status, T("The description of the API is under /api/reference.")),
    };

    private static Trouble? Known(int status) => status switch
    {
        StatusCodes.Status401Unauthorized => new("not-signed-in", T("You are not signed in"), T("Sign in and try again.")),
        StatusCodes.Status403Forbidden => new("not-allowed", T("Your sign-in does not allow this"), T("If it should, ask an administrator to change your role.")),
        StatusCodes.Status405MethodNotAllowed => new("method-not-allowed", T("That cannot be done here"), T("The address exists, but not for this kind of request.")),
        StatusCodes.Status429TooManyRequests => new("too-many-requests", T("Too many at once"), T("Wait a minute and try again.")),
        _ => null,
    };

    private static Trouble Unknown(int status, string advice) =>
        new($"status-{status}", ReasonPhrases.GetReasonPhrase(status) is { Length: > 0 } phrase ? phrase : T("Something went wrong here"), advice);
}
