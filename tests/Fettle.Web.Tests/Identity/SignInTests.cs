using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Fettle.Web.Areas.Entrance.SignIn;
using Fettle.Web.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

public sealed class SignInTests(FrontDoor door) : IClassFixture<FrontDoor>
{
    [Fact]
    public async Task The_right_password_signs_in_with_a_cookie_that_scripts_cannot_read()
    {
        var user = await door.AddAsync(Role.ShipperClerk, "Maya Ortiz");
        var browser = door.Browser();

        var answer = await browser.SignInAsync(user.UserName, FrontDoor.Password);

        Assert.Equal("/", answer.Location);
        Assert.Matches("fettle\\.session=[^;]+; path=/; samesite=lax; httponly", answer.Headers["Set-Cookie"]);
        Assert.Equal("Maya Ortiz", (await browser.GetAsync("/whoami")).Text);
    }

    [Fact]
    public async Task Over_https_every_cookie_is_secure()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.FarBrowser();

        await browser.SignInAsync(user.UserName, FrontDoor.Password);

        Assert.NotEmpty(browser.Cookies);
        Assert.All(browser.Cookies, cookie => Assert.True(cookie.Secure, cookie.Name));
    }

    [Fact]
    public async Task The_name_may_be_typed_in_capitals_and_with_spaces_around()
    {
        var user = await door.AddAsync(Role.ShipperClerk);

        var answer = await door.Browser().SignInAsync($"  {user.UserName.ToUpperInvariant()} ", FrontDoor.Password);

        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
    }

    [Fact]
    public async Task A_page_asked_for_without_signing_in_leads_to_the_sign_in_page_and_back()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();

        var refused = await browser.GetAsync("/whoami?x=1");
        Assert.Equal(HttpStatusCode.Redirect, refused.Status);
        var answer = await browser.SignInAsync(user.UserName, FrontDoor.Password, new Uri(refused.Location!).PathAndQuery);

        Assert.Equal("/whoami?x=1", answer.Location);
    }

    [Theory]
    [InlineData("https://elsewhere.example/")]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example/")]
    [InlineData("\\\\elsewhere.example/")]
    [InlineData("/\t/elsewhere.example/")]
    [InlineData("javascript:alert(1)")]
    [InlineData("elsewhere.example")]
    public async Task Signing_in_never_leads_to_another_site(string returnUrl)
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();

        var fromPage = await browser.SignInAsync(user.UserName, FrontDoor.Password, $"/sign-in?returnUrl={Uri.EscapeDataString(returnUrl)}");
        var second = door.Browser();
        var page = await (await second.GetAsync("/sign-in")).PageAsync();
        var forged = await second.SubmitAsync(page, "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", FrontDoor.Password), ("Form.ReturnUrl", returnUrl));
        var already = await second.GetAsync($"/sign-in?returnUrl={Uri.EscapeDataString(returnUrl)}");

        Assert.Equal("/", fromPage.Location);
        Assert.Equal("/", forged.Location);
        Assert.Equal("/", already.Location);
    }

    [Fact]
    public async Task An_unknown_name_a_wrong_password_and_a_disabled_person_are_told_the_same_and_keep_the_name()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var disabled = await door.AddAsync(Role.ShipperClerk);
        await door.WithUsersAsync(users => users.DisableAsync(disabled));

        foreach (var (name, password) in new[] { ("nobody@fettle.example", FrontDoor.Password), (user.UserName, "not the password"), (disabled.UserName, FrontDoor.Password) })
        {
            var answer = await door.Browser().SignInAsync(name, password);
            var page = await answer.PageAsync();

            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
            Assert.Equal(SignInPage.Wrong, page.QuerySelector("[role=alert]")?.TextContent);
            Assert.Equal(name, page.InputValue("#Form_UserName"));
            Assert.DoesNotContain(password, answer.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Nothing_typed_is_told_in_words()
    {
        var page = await (await door.Browser().SignInAsync("", "")).PageAsync();

        Assert.Equal("Enter your e-mail address and your password.", page.QuerySelector("[role=alert]")?.TextContent);
    }

    [Fact]
    public async Task The_fields_let_password_managers_and_pasting_work()
    {
        var page = await (await door.Browser().GetAsync("/sign-in")).PageAsync();

        Assert.Equal("username", page.QuerySelector("#Form_UserName")?.GetAttribute("autocomplete"));
        Assert.Equal("current-password", page.QuerySelector("#Form_Password")?.GetAttribute("autocomplete"));
        Assert.DoesNotContain(page.All, element => element.HasAttribute("onpaste"));
    }

    [Fact]
    public async Task Someone_signed_in_is_not_asked_again()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));

        Assert.Equal("/whoami", (await browser.GetAsync("/sign-in?returnUrl=/whoami")).Location);
    }

    [Theory]
    [InlineData(Role.ShipperClerk, "/pickups")]
    [InlineData(Role.TerminalReviewer, "/board")]
    [InlineData(Role.AccountManager, "/accounts")]
    [InlineData(Role.Administrator, "/admin")]
    public async Task Each_role_starts_at_its_own_page(Role role, string start)
    {
        var browser = await door.SignedInAsync(await door.AddAsync(role));

        Assert.Equal(start, (await browser.GetAsync("/")).Location);
    }

    [Fact]
    public async Task Demo_people_are_listed_and_others_are_not()
    {
        var demo = await door.AddAsync(FrontDoor.RightsOf(Role.TerminalReviewer), "Demo Person", demo: true);
        var real = await door.AddAsync(Role.TerminalReviewer, "Real Person");

        var answer = await door.Browser().GetAsync("/sign-in");

        Assert.Contains(demo.UserName, answer.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(real.UserName, answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Signing_out_ends_the_session_and_needs_the_form_token()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));
        var page = await (await browser.GetAsync("/account")).PageAsync();

        Assert.Equal(HttpStatusCode.BadRequest, (await browser.PostAsync("/sign-out", [])).Status);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/whoami")).Status);
        Assert.Equal("/sign-in", (await browser.SubmitAsync(page, "form[action='/sign-out']")).Location);
        Assert.Equal(HttpStatusCode.Redirect, (await browser.GetAsync("/whoami")).Status);
    }
}
