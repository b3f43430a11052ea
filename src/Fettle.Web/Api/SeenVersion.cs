using Fettle.Web.Security;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Api;

/// <summary>
/// The version of something that a caller read: given as its ETag, sent back as If-Match (RFC 9110, section 13.1.1). A tag is
/// read with its quotes, without them, and made weak by a proxy on the way: our versions are the same thing or they are not.
/// </summary>
public static class SeenVersion
{
    public static string Tag(Guid version) => $"\"{version:N}\"";

    /// <summary>
    /// Null when the caller names no version, any ("*") or this one. 412 when they saw another; 400 when the header is there
    /// and names none, for whoever sends it means to be stopped.
    /// </summary>
    /// <param name="changed">What happened since, for whoever saw another version.</param>
    public static ObjectResult? Refusal(HttpRequest request, Guid version, string changed)
    {
        if (!request.Headers.TryGetValue("If-Match", out var header))
            return null;
        var wanted = header.ToString();
        if (wanted.Trim() == "*")
            return null;
        var tags = wanted.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Read).ToArray();
        if (tags.Length == 0 || tags.Contains(null))
            return Answers.Result(Problems.Of(StatusCodes.Status400BadRequest, "if-match", T("The If-Match cannot be read."), T("Send the ETag as you got it, in its quotes, or * for any version.")));
        return tags.Contains(Tag(version))
            ? null
            : Answers.Result(Problems.Of(StatusCodes.Status412PreconditionFailed, "changed-meanwhile", T("It was changed since."), changed));
    }

    /// <summary>In quotes, and no longer weak; null for what is no tag, such as half of one.</summary>
    private static string? Read(string text)
    {
        var tag = text.StartsWith("W/", StringComparison.Ordinal) ? text[2..] : text;
        var bare = tag is ['"', .. var within, '"'] ? within : tag;
        // "*" stands alone or in quotes; as one of several it would make the others meaningless.
        return bare.Length == 0 || tag == "*" || bare.Any(letter => letter is '"' or ' ' || char.IsControl(letter)) ? null : $"\"{bare}\"";
    }
}
