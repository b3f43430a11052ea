using Fettle.Web.Areas.Shared;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Microsoft.AspNetCore.Authorization;
using FluentValidation;
using Microsoft.AspNetCore.Mvc;

namespace Fettle.Web.Areas.Entrance.Account;

/// <summary>One's own name and password.</summary>
public sealed class AccountController(UserDirectory users, SignInGate gate) : Controller
{
    [HttpGet("/account")]
    public async Task<IActionResult> Index() =>
        await MeAsync() is { } me ? View(AccountPage.Of(me)) : NotFound();

    [HttpPost("/account/name")]
    public async Task<IActionResult> Name([Bind(Prefix = "NameForm")] NameForm form)
    {
        if (await MeAsync() is not { } me)
            return NotFound();
        if (!ModelState.Accept(new NameForm.Rules().Validate(form), nameof(NameForm)))
            return Again(AccountPage.Of(me) with { NameForm = form });
        me.Name = form.Name!.Trim();
        if (!ModelState.Accept(await users.UpdateAsync(me), "NameForm.Name", "NameForm.Name"))
            return Again(AccountPage.Of(me) with { NameForm = form });
        await gate.RefreshSignInAsync(me);
        this.Say(T("Your name is changed. What you did before keeps the old one."));
        return RedirectToAction(nameof(Index));
    }

    [HttpPost("/account/password")]
    public async Task<IActionResult> Password([Bind(Prefix = "PasswordForm")] PasswordForm form)
    {
        if (await MeAsync() is not { } me)
            return NotFound();
        if (!ModelState.Accept(new PasswordForm.Rules().Validate(form), nameof(PasswordForm)))
            return Again(AccountPage.Of(me));
        var result = await users.ChangePasswordAsync(me, form.OldPassword!, form.NewPassword!);
        if (!ModelState.Accept(result, "", "PasswordForm.NewPassword", "PasswordForm.OldPassword"))
            return Again(AccountPage.Of(me));
        await gate.RefreshSignInAsync(me);
        this.Say(T("Your password is changed. Other browsers that were signed in as you are signed out within a minute."));
        return RedirectToAction(nameof(Index));
    }

    /// <summary>The language switch of every page: a signed-in person's own, else this browser's.</summary>
    [HttpPost("/account/language")]
    [AllowAnonymous]
    public async Task<IActionResult> SetLanguage(string? language, string? returnUrl)
    {
        if (Language.Of(language) is not { } chosen)
            return BadRequest();
        if (await MeAsync() is { } me)
        {
            me.Language = chosen.Code;
            // Someone who changes the same account in this moment keeps their change; this one can be pressed again.
            if ((await users.UpdateAsync(me)).Succeeded)
                await gate.RefreshSignInAsync(me);
        }
        else
            Response.Cookies.Append(Language.Cookie, chosen.Code, new()
            {
                MaxAge = TimeSpan.FromDays(365), HttpOnly = true, SameSite = SameSiteMode.Lax, Secure = Request.IsHttps, IsEssential = true,
            });

        return LocalRedirect(Url.IsLocalUrl(returnUrl) ? returnUrl : "/");
    }

    private Task<User?> MeAsync() => users.GetUserAsync(User);

    private ViewResult Again(AccountPage page)
    {
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return View(nameof(Index), page);
    }
}

public sealed record AccountPage(string UserName, Role Role, NameForm NameForm)
{
    /// <summary>Always empty: passwords are not shown again.</summary>
    public PasswordForm PasswordForm { get; } = new();

    public static AccountPage Of(User user) => new(user.UserName, user.Rights.Role, new(user.Name));
}

public sealed record NameForm(string? Name = null)
{
    public sealed class Rules : AbstractValidator<NameForm>
    {
        public Rules() => RuleFor(form => form.Name).PersonName();
    }
}

public sealed record PasswordForm(string? OldPassword = null, string? NewPassword = null)
{
    public sealed class Rules : AbstractValidator<PasswordForm>
    {
        public Rules()
        {
            RuleFor(form => form.OldPassword).NotEmpty().WithMessage(_ => T("Enter your present password."));
            RuleFor(form => form.NewPassword).NewPassword();
        }
    }
}

/// <summary>What is asked of names and passwords, wherever they are entered.</summary>
public static class PersonRules
{
    private const int LongestName = 80;

    public static IRuleBuilderOptions<TForm, string?> PersonName<TForm>(this IRuleBuilderInitial<TForm, string?> rule) => rule.Cascade(CascadeMode.Stop)
        .NotEmpty().WithMessage(_ => T("Enter the name as others should see it."))
        .MaximumLength(LongestName).WithMessage(_ => T("Use at most {0} characters.", LongestName))
        .Must(UnitFormValidator.ReadableText).WithMessage(_ => T("Letters, digits and ordinary signs only."));

    /// <summary>Length is what makes a password strong; nothing else is asked of it.</summary>
    public static IRuleBuilderOptions<TForm, string?> NewPassword<TForm>(this IRuleBuilderInitial<TForm, string?> rule) => rule.Cascade(CascadeMode.Stop)
        .NotEmpty().WithMessage(_ => T("Enter a new password."))
        .MinimumLength(People.ShortestPassword).WithMessage(_ => T("Use at least {0} characters. A few words in a row are easy to remember.", People.ShortestPassword))
        .MaximumLength(People.LongestPassword).WithMessage(_ => T("Use at most {0} characters.", People.LongestPassword));
}
