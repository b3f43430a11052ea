using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Shared;

/// <summary>One sentence about what was just done, shown once at the top of the next page.</summary>
public static class NextPage
{
    internal const string Key = "Notice";

    public static void Say(this Controller controller, string sentence) => controller.TempData[Key] = sentence;
}
