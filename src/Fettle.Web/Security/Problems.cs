using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Security;

/// <summary>RFC 9457 problems, as everything under /api answers when it cannot do what was asked.</summary>
public static class Problems
{
    public const string ContentType = "application/problem+json";

    /// <summary>The problem's type: a name, not an address, that ends in a short word which never changes.</summary>
    public static string TypeOf(string code) => $"urn:fettle:problem:{code}";

    /// <param name="code">A short word that never changes, such as a refusal's code.</param>
    /// <param name="title">The same for every problem of this type.</param>
    /// <param name="detail">A sentence that helps whoever reads it.</param>
    public static ProblemDetails Of(int status, string code, string title, string detail) =>
        new() { Type = TypeOf(code), Status = status, Title = title, Detail = detail };

    public static Task WriteAsync(HttpContext context, int status, string code, string title, string detail) =>
        TypedResults.Problem(Of(status, code, title, detail)).ExecuteAsync(context);
}
