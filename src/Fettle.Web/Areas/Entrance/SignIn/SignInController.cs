using System.Globalization;
using Fettle.Web.Identity;
using Fettle.Web.Security;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Net.Http.Headers;

namespace Fettle.Web.Areas.Entrance.SignIn;

public sealed class SignInController(SignInGate gate, UserDirectory users, SignInAttempts attempts, CarriedForms carriedForms, ILogger<SignInController> log) : Controller
{
    /// <summary>Where someone lands who signed in again in another tab, while a page with typed text waits in the first.</summary>
    public const string SignedInAgain = "/signed-in";

    private const int LongestLogged = 100;

    [HttpGet("/sign-in")]
    [AllowAnonymous]
    public async Task<IActionResult> Index(string? returnUrl)
    {
        if (User.Identity?.IsAuthenticated == true)
            return LocalRedirect(Local(returnUrl) ?? "/");
        return View(await SignInPage.ShowAsync(users, new() { ReturnUrl = Local(returnUrl) }, HttpContext.RequestAborted));
    }

    [HttpPost("/sign-in")]
    [AllowAnonymous]
    public async Task<IActionResult> Index(SignInForm form)
    {
        form = form with { ReturnUrl = Local(form.ReturnUrl) };
        var userName = form.UserName?.Trim() ?? "";
        var password = form.Password ?? "";
        if (userName.Length == 0 || password.Length is 0 or > People.LongestPassword)
            return await AgainAsync(form, StatusCodes.Status422UnprocessableEntity, userName.Length == 0 || password.Length == 0
                ? T("Enter your e-mail address and your password.")
                : T(SignInPage.Wrong));

        if (attempts.Count(HttpContext, userName) is { } wait)
        {
            Refused(userName, "too many tries");
            var seconds = Math.Max(1, (int)Math.Ceiling(wait.TotalSeconds));
            Response.Headers[HeaderNames.RetryAfter] = seconds.ToString(CultureInfo.InvariantCulture);
            return await AgainAsync(form, StatusCodes.Status429TooManyRequests, T("Too many tries. Wait {0} seconds, then try again.", seconds));
        }

        var result = await gate.PasswordSignInAsync(userName, password, isPersistent: false, lockoutOnFailure: true);
        if (!result.Succeeded)
            Refused(userName, result.IsLockedOut ? "locked" : "wrong name or password");
        if (result.IsLockedOut)
            return await AgainAsync(form, StatusCodes.Status422UnprocessableEntity, T(SignInPage.LockedOut));
        if (!result.Succeeded)
            return await AgainAsync(form, StatusCodes.Status422UnprocessableEntity, T(SignInPage.Wrong));
        return carriedForms.Open(form.Carried) is { } carried ? View("CarryOn", carried) : LocalRedirect(form.ReturnUrl ?? "/");
    }

    [HttpPost("/sign-out")]
    [AllowAnonymous]
    public new async Task<IActionResult> SignOut()
    {
        await gate.SignOutAsync();
        return RedirectToAction(nameof(Index));
    }

    [HttpGet(SignedInAgain)]
    public IActionResult Again() => View();

    private async Task<IActionResult> AgainAsync(SignInForm form, int status, string error)
    {
        Response.StatusCode = status;
        return View(nameof(Index), await SignInPage.ShowAsync(users, form, HttpContext.RequestAborted) with { Error = error });
    }

    /// <summary>For whoever watches the log. The name comes from outside, so it must not be able to forge a line.</summary>
    private void Refused(string userName, string why) =>
        log.LogWarning("Sign-in of {UserName} from {Address} refused: {Why}", string.Concat(userName.Where(character => !char.IsControl(character)).Take(LongestLogged)), HttpContext.Connection.RemoteIpAddress, why);

    private string? Local(string? url) => Url.IsLocalUrl(url) ? url : null;
}

/// <param name="ReturnUrl">Where to go after signing in; a local address or nowhere.</param>
/// <param name="Carried">A form sent after the session had ended, protected by <see cref="CarriedForms"/>.</param>
public sealed record SignInForm(string? UserName = null, string? Password = null, string? ReturnUrl = null, string? Carried = null);

/// <param name="SessionEnded">Whoever reads this sent a form after their session had ended.</param>
/// <param name="Demo">The demo's sign-ins; empty outside a demo.</param>
public sealed record SignInPage(SignInForm Form, IReadOnlyList<User> Demo, string? Error = null, bool SessionEnded = false)
{
    public const string Wrong = "That e-mail address and password do not belong together. Check both, and the caps lock key.";
    public const string LockedOut = "There were too many wrong passwords, so this sign-in is locked for up to 10 minutes. Wait, or ask an administrator to unlock it.";

    public static async Task<SignInPage> ShowAsync(UserDirectory users, SignInForm form, CancellationToken cancellation) =>
        new(form with { Password = null }, await users.ListDemoAsync(cancellation));

    public static async Task<SignInPage> AfterSessionEndedAsync(HttpContext context)
    {
        var carried = CarriedForms.KeptOf(context);
        var page = await ShowAsync(context.RequestServices.GetRequiredService<UserDirectory>(), new() { Carried = carried }, context.RequestAborted);
        return page with { SessionEnded = true };
    }
}
