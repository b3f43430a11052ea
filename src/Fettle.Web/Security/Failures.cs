using System.Diagnostics;
using System.Net;
using Microsoft.AspNetCore.Diagnostics;
using Npgsql;

namespace Fettle.Web.Security;

/// <summary>
/// What is answered when something broke: a problem under /api, else a page that needs neither the database nor a view, and
/// never a detail of what broke. The reference leads to the log.
/// </summary>
public static class Failures
{
    private const string RetrySeconds = "10";

    public static async Task AnswerAsync(HttpContext context)
    {
        var failure = context.Features.Get<IExceptionHandlerPathFeature>();
        if (failure?.Error is BadHttpRequestException unreadable)
        {
            // The caller's doing: the status says what, and the page of that status says it in words.
            context.Response.StatusCode = unreadable.StatusCode;
            return;
        }

        // The localisation lies inside what broke.
        Language.Of(context).Speak();
        var away = IsDatabaseAway(failure?.Error);
        var status = away ? StatusCodes.Status503ServiceUnavailable : StatusCodes.Status500InternalServerError;
        var title = away ? T("Not reachable just now") : T("Something went wrong here");
        var advice = away
            ? T("The database does not answer. Nothing you sent has been kept; try again in a moment.")
            : T("It is our fault, not yours, and it has been written down. Go back and try again; if it happens again, tell an administrator the reference.");
        var reference = Activity.Current?.TraceId.ToHexString() ?? context.TraceIdentifier;
        if (away)
            context.Response.Headers.RetryAfter = RetrySeconds;

        if (context.IsApi(failure?.Path))
            await Problems.WriteAsync(context, status, away ? "unavailable" : "failure", title, T("{0} Reference: {1}.", advice, reference));
        else if (context.Request.IsHtmx())
            await Fragments.WriteAsync(context, status, T("{0}. {1} Reference: {2}.", title, advice, reference));
        else
            await WritePageAsync(context, status, title, advice, reference);
    }

    /// <summary>Whether the answer must be a problem and not a page.</summary>
    public static bool IsApi(this HttpContext context, string? path = null) =>
        new PathString(path ?? context.Request.Path).StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);

    private static bool IsDatabaseAway(Exception? error) => error switch
    {
        null => false,
        PostgresException refused => refused.SqlState is PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CannotConnectNow or PostgresErrorCodes.TooManyConnections,
        NpgsqlException { IsTransient: true } => true,
        _ => IsDatabaseAway(error.InnerException),
    };

    private static Task WritePageAsync(HttpContext context, int status, string title, string advice, string reference)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsync($"""
            <!DOCTYPE html>
            <html lang="{Language.Current.Code}">
            <head>
              <meta charset="utf-8">
              <meta name="viewport" content="width=device-width, initial-scale=1">
              <title>{WebUtility.HtmlEncode(title)} · Fettle</title>
              <link rel="stylesheet" href="/css/fettle.css">
            </head>
            <body>
              <main class="page page--narrow">
                <h1>{WebUtility.HtmlEncode(title)}</h1>
                <p>{WebUtility.HtmlEncode(advice)}</p>
                <p class="quiet">{T("Reference:")} <code>{WebUtility.HtmlEncode(reference)}</code></p>
                <p><a class="button" href="/">{WebUtility.HtmlEncode(T("To the start page"))}</a></p>
              </main>
            </body>
            </html>
            """);
    }
}
