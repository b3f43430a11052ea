using System.Security.Claims;
using System.Text.Encodings.Web;
using Fettle.Web.Security;
using Microsoft.AspNetCore.Authentication;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;

namespace Fettle.Web.Identity;

/// <summary>Signs machines in by "Authorization: Bearer …" (RFC 6750), and answers those who may not with a problem that says what to do.</summary>
public sealed class ApiKeyHandler(ApiKeys keys, IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string SchemeName = "ApiKey";

    private const string Bearer = "Bearer ";

    /// <summary>No key of ours is longer; what is longer need not be hashed.</summary>
    private const int LongestKey = 200;

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase))
            return AuthenticateResult.NoResult();
        var presented = header[Bearer.Length..].Trim();
        if (presented.Length is 0 or > LongestKey || await keys.FindAsync(presented, Context.RequestAborted) is not { } key)
            return AuthenticateResult.Fail("No such API key, or it was revoked.");
        await keys.NoteUseAsync(key, Context.RequestAborted);
        var identity = new ClaimsIdentity(CallerClaims.Write(key.Id, key.Name, key.Rights), SchemeName);
        return AuthenticateResult.Success(new(new ClaimsPrincipal(identity), SchemeName));
    }

    protected override async Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        var presented = !string.IsNullOrEmpty(Request.Headers.Authorization);
        Response.Headers[HeaderNames.WWWAuthenticate] = presented ? "Bearer realm=\"Fettle\", error=\"invalid_token\"" : "Bearer realm=\"Fettle\"";
        await Problems.WriteAsync(Context, StatusCodes.Status401Unauthorized, "not-signed-in", "Not signed in", presented
            ? "The API key in the Authorization header is not known here, or it was revoked. An administrator can issue a new one under \"API keys\"."
            : "Send an API key: \"Authorization: Bearer fettle_…\". An administrator issues one under \"API keys\". A browser's sign-in does not count here.");
    }

    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) =>
        Problems.WriteAsync(Context, StatusCodes.Status403Forbidden, "not-allowed", "Not allowed",
            "This API key's role may not do this. Its role and party are listed under \"API keys\"; an administrator can issue a key with other rights.");
}
