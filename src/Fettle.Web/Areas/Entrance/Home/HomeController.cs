using Fettle.Web.Identity;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Entrance.Home;

/// <summary>The start: each role's own first page.</summary>
public sealed class HomeController : Controller
{
    [HttpGet("/")]
    public IActionResult Index() => LocalRedirect(StartOf(Caller.Of(User).Role));

    public static string StartOf(Role role) => role switch
    {
        Role.ShipperClerk => "/pickups",
        Role.TerminalReviewer => "/board",
        Role.AccountManager => "/accounts",
        Role.Administrator => "/admin",
    };
}
