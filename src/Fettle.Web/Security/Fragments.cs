using System.Net;

namespace Fettle.Web.Security;

/// <summary>Answers to htmx, which puts pieces of HTML into a page that is already there.</summary>
public static class Fragments
{
    /// <summary>Whether htmx sent this request, so that the answer must be a piece and not a page.</summary>
    public static bool IsHtmx(this HttpRequest request) => request.Headers["HX-Request"] == "true";

    /// <summary>A status and one sentence. htmx leaves the page as it is on such a status; fettle.js says what happened.</summary>
    public static Task WriteAsync(HttpContext context, int status, string sentence)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/html; charset=utf-8";
        return context.Response.WriteAsync($"<p class=\"notice notice--stop\">{WebUtility.HtmlEncode(sentence)}</p>");
    }
}
