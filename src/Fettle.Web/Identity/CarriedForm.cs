using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.DataProtection;

namespace Fettle.Web.Identity;

/// <summary>A form that was sent after the session had ended: where it was going, and what was typed.</summary>
/// <param name="To">A local path with its query.</param>
/// <param name="LeftOut">Something could not come along: files, or passwords.</param>
public sealed record CarriedForm(string To, IReadOnlyList<CarriedField> Fields, bool LeftOut);

public sealed record CarriedField(string Name, string Value);

/// <summary>
/// Carries a form through the sign-in page, encrypted in the page itself, so that nothing is stored for people who are not
/// signed in. Only a form that came from a page of ours is carried: another site must not be able to have someone send it on.
/// </summary>
public sealed class CarriedForms(IDataProtectionProvider protection)
{
    /// <summary>Largest form that is carried: 512 kB.</summary>
    public const int LargestBody = 512 * 1024;

    private const string TokenField = "__RequestVerificationToken";

    private static readonly TimeSpan Lifetime = TimeSpan.FromHours(2);
    private static readonly object Kept = new();

    private readonly ITimeLimitedDataProtector protector = protection.CreateProtector("Fettle.CarriedForm").ToTimeLimitedDataProtector();

    /// <summary>Reads the form of a request that may not go on, for the page that answers it.</summary>
    public async Task KeepAsync(HttpContext context)
    {
        if (await ReadAsync(context) is { } form)
            context.Items[Kept] = protector.Protect(JsonSerializer.Serialize(form), Lifetime);
    }

    /// <summary>What <see cref="KeepAsync"/> kept of this request, protected; null when there was nothing that could be kept.</summary>
    public static string? KeptOf(HttpContext context) => context.Items[Kept] as string;

    /// <summary>Null when it was tampered with, is older than two hours, or was never carried.</summary>
    public CarriedForm? Open(string? carried)
    {
        if (string.IsNullOrEmpty(carried))
            return null;
        try
        {
            return JsonSerializer.Deserialize<CarriedForm>(protector.Unprotect(carried));
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    private static async Task<CarriedForm?> ReadAsync(HttpContext context)
    {
        var request = context.Request;
        if (!HttpMethods.IsPost(request.Method) || !request.HasFormContentType || request.ContentLength is not <= LargestBody || !CameFromHere(request))
            return null;
        try
        {
            var form = await request.ReadFormAsync(context.RequestAborted);
            var fields =
                from field in form
                where field.Key != TokenField
                from value in field.Value
                select new CarriedField(field.Key, value ?? "");
            var carried = fields.Where(field => !IsPassword(field.Name)).ToList();
            return new(request.PathBase + request.Path + request.QueryString, carried, form.Files.Count > 0 || form.Keys.Any(IsPassword));
        }
        catch (Exception unreadable) when (unreadable is InvalidDataException or BadHttpRequestException or IOException)
        {
            return null;
        }
    }

    private static bool IsPassword(string field) => field.Contains("password", StringComparison.OrdinalIgnoreCase);

    /// <summary>Every browser that is kept up to date says where a POST comes from, in one of these headers.</summary>
    private static bool CameFromHere(HttpRequest request) =>
        request.Headers["Sec-Fetch-Site"].ToString() is { Length: > 0 } site
            ? site == "same-origin"
            : Uri.TryCreate(request.Headers.Origin.ToString(), UriKind.Absolute, out var origin) && origin.Authority == request.Host.Value;
}
