using System.Security.Cryptography;
using System.Text.Json;
using Fettle.Web.Identity;
using Fettle.Web.Security;
using Fettle.Web.Store;
using Marten;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.Extensions.Options;

namespace Fettle.Web.Api;

/// <summary>The answer to a call that carried an Idempotency-Key, saved in the transaction that the call made.</summary>
public sealed record RememberedAnswer
{
    /// <summary>From caller, path and key.</summary>
    public Guid Id { get; init; }

    public required string BodyHash { get; init; }

    public required int Status { get; init; }

    public required string Body { get; init; }

    public string? Location { get; init; }

    public required DateTimeOffset At { get; init; }

    public static void Configure(StoreOptions marten) => marten.Schema.For<RememberedAnswer>().Duplicate(answer => answer.At);
}

/// <summary>Forgets answers that nobody will ask for again: a key is for trying a call again, not for ever.</summary>
public sealed class ForgetAnswersJob(IDocumentStore store, TimeProvider clock)
{
    public const string Id = "forget-answers";

    /// <summary>For how long a key is good; our choice, long enough for a system that stood still over the holidays.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromDays(30);

    public async Task RunAsync(CancellationToken cancel)
    {
        var limit = clock.GetUtcNow() - Kept;
        await using var session = store.LightweightSession();
        session.DeleteWhere<RememberedAnswer>(answer => answer.At < limit);
        await session.SaveChangesAsync(cancel);
    }
}

/// <summary>
/// Makes a creating call safe to repeat: with the same Idempotency-Key and body the first answer is given again; with
/// another body the call is refused (422). The header is optional. As in the IETF draft of that name.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class IdempotentAttribute : Attribute, IAsyncResourceFilter, IAsyncActionFilter
{
    public const string Header = "Idempotency-Key";

    internal const int LongestKey = 255;

    public async Task OnResourceExecutionAsync(ResourceExecutingContext context, ResourceExecutionDelegate next)
    {
        var http = context.HttpContext;
        if (!http.Request.Headers.TryGetValue(Header, out var header))
        {
            await next();
            return;
        }

        var key = header.ToString();
        if (key.Length is 0 or > LongestKey || key.Any(char.IsControl))
        {
            context.Result = Answers.Result(Problems.Of(StatusCodes.Status400BadRequest, "idempotency-key", "The Idempotency-Key cannot be used.", $"Send 1 to {LongestKey} ordinary characters."));
            return;
        }

        http.Request.EnableBuffering();
        var hash = Convert.ToHexString(await SHA256.HashDataAsync(http.Request.Body, http.RequestAborted));
        http.Request.Body.Position = 0;
        var pending = new PendingAnswer(StableId.From("idempotency", Caller.Of(http.User).Id, http.Request.Path, key), hash);
        var store = http.RequestServices.GetRequiredService<IDocumentStore>();
        if (await RepeatAsync(store, pending, http) is { } known)
        {
            context.Result = known;
            return;
        }

        http.Items[typeof(PendingAnswer)] = pending;
        await next();
    }

    /// <summary>Whoever lost a race with the same key is given the winner's answer in place of their own, which is not written yet here.</summary>
    public async Task OnActionExecutionAsync(ActionExecutingContext context, ActionExecutionDelegate next)
    {
        var done = await next();
        var http = context.HttpContext;
        if (http.Items[typeof(PendingAnswer)] is not PendingAnswer pending)
            return;
        var lost = done.Exception is { } e ? Streams.IsRace(e) : done.Result is ObjectResult { StatusCode: >= 400 };
        if (lost && await RepeatAsync(http.RequestServices.GetRequiredService<IDocumentStore>(), pending, http) is { } winners)
        {
            done.ExceptionHandled = true;
            done.Result = winners;
        }
    }

    private static async Task<IActionResult?> RepeatAsync(IDocumentStore store, PendingAnswer pending, HttpContext http)
    {
        await using var session = store.QuerySession();
        var known = await session.LoadAsync<RememberedAnswer>(pending.Id, http.RequestAborted);
        if (known is null)
            return null;
        if (known.BodyHash != pending.BodyHash)
            return Answers.Result(Problems.Of(StatusCodes.Status422UnprocessableEntity, "idempotency-key-reused", "The Idempotency-Key was used before.", "The same key came with another body. Use a new key for a new request."));
        if (known.Location is { } location)
            http.Response.Headers.Location = location;
        return new ContentResult { StatusCode = known.Status, Content = known.Body, ContentType = "application/json; charset=utf-8" };
    }
}

internal sealed record PendingAnswer(Guid Id, string BodyHash);

/// <summary>Saves the answer of a call with an Idempotency-Key along with what the call does.</summary>
public sealed class Idempotency(IHttpContextAccessor http, IOptions<JsonOptions> json, TimeProvider clock)
{
    public void Remember(IDocumentSession session, int status, object answer, string? location)
    {
        if (http.HttpContext?.Items[typeof(PendingAnswer)] is not PendingAnswer pending)
            return;
        session.Insert(new RememberedAnswer
        {
            Id = pending.Id,
            BodyHash = pending.BodyHash,
            Status = status,
            Body = JsonSerializer.Serialize(answer, answer.GetType(), json.Value.JsonSerializerOptions),
            Location = location,
            At = clock.GetUtcNow(),
        });
    }
}
