using System.Globalization;
using Fettle.Web.Identity;
using Fettle.Web.Security;
using Microsoft.Net.Http.Headers;

namespace Fettle.Web.Languages;

/// <summary>A language that Fettle speaks. Its figures are written alike in all of them: what is shown can be typed again.</summary>
/// <param name="Code">As in HTML and in HTTP: "es".</param>
/// <param name="Name">As it calls itself.</param>
public sealed record Language(string Code, string Name)
{
    public static readonly Language English = new("en", "English");
    public static readonly Language Spanish = new("es", "Español");

    public static readonly IReadOnlyList<Language> All = [English, Spanish];

    /// <summary>Kept for whoever is not signed in.</summary>
    public const string Cookie = "fettle.language";

    /// <summary>That of the request or of the letter being written.</summary>
    public static Language Current => Of(CultureInfo.CurrentUICulture.TwoLetterISOLanguageName) ?? English;

    /// <summary>Names of days and months.</summary>
    public CultureInfo Calendar { get; } = Code == "en" ? CultureInfo.InvariantCulture : CultureInfo.GetCultureInfo(Code);

    /// <summary>Null when it is none of ours.</summary>
    public static Language? Of(string? code) => All.FirstOrDefault(language => string.Equals(language.Code, code, StringComparison.OrdinalIgnoreCase));

    /// <summary>From here to the end of the method that calls it, and in what that calls.</summary>
    public void Speak() => CultureInfo.CurrentUICulture = CultureInfo.GetCultureInfo(Code);

    /// <summary>
    /// A person's own language, else the one chosen in this browser, else what the browser asks for. Under /api only what the
    /// request asks for: a program's language must not depend on who pressed which button.
    /// </summary>
    public static Language Of(HttpContext context) =>
        (context.IsApi() ? null : Of(context.User.FindFirst(CallerClaims.Language)?.Value) ?? Of(context.Request.Cookies[Cookie]))
        ?? Asked(context.Request)
        ?? English;

    /// <summary>The first of ours in Accept-Language, by weight; null when there is none.</summary>
    private static Language? Asked(HttpRequest request) => request.GetTypedHeaders().AcceptLanguage
        .Where(asked => asked.Quality is not 0)
        .OrderByDescending(asked => asked, StringWithQualityHeaderValueComparer.QualityComparer)
        .Select(asked => Of(asked.Value.Value?.Split('-')[0]))
        .FirstOrDefault(language => language is not null);
}
