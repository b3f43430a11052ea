using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ViewFeatures;

namespace Fettle.Web.Areas.Shared;

/// <summary>One sentence about what was just done, shown once at the top of the next page.</summary>
public static class NextPage
{
    internal const string Cookie = "fettle.notice";

    private const string Key = "Notice";

    public static void Say(this Controller controller, string sentence) => controller.TempData[Key] = sentence;

    /// <summary>What the page before said; looked for only where it can be, since looking sets a cookie.</summary>
    internal static string? Said(HttpContext context, ITempDataDictionary held) =>
        context.Request.Cookies.ContainsKey(Cookie) ? held[Key] as string : null;
}
