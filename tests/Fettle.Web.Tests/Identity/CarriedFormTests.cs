using System.Net;
using AngleSharp.Html.Dom;
using Fettle.Web.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

public sealed class CarriedFormTests(FrontDoor door) : IClassFixture<FrontDoor>
{
    [Fact]
    public async Task A_form_sent_after_the_session_ended_is_carried_through_sign_in_and_sent_on_with_one_press()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();

        var stopped = await browser.PostAsync("/notes?draft=1", [("text", "two lines\n<b>& „quotes“ 箱"), ("row", "1"), ("row", "2"), ("__RequestVerificationToken", "old")]);
        Assert.Equal(HttpStatusCode.Unauthorized, stopped.Status);
        var signIn = await stopped.PageAsync();
        Assert.Contains("What you typed is kept", signIn.QuerySelector("[role=alert]")!.TextContent, StringComparison.Ordinal);

        var wrong = await browser.SubmitAsync(signIn, "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", "not the password"));
        var signedIn = await browser.SubmitAsync(await wrong.PageAsync(), "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", FrontDoor.Password));
        var carryOn = await signedIn.PageAsync();
        Assert.Equal("Carry on with what I typed", carryOn.QuerySelector("form[action='/notes?draft=1'] button")?.TextContent);

        var sent = await browser.SubmitAsync(carryOn, "form[action='/notes?draft=1']");

        Assert.Equal("text=two lines\n<b>& „quotes“ 箱&row=1,2", sent.Text.ReplaceLineEndings("\n"));
    }

    [Fact]
    public async Task A_carried_form_has_a_fresh_token_that_pages_accept()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();
        var stopped = await browser.PostAsync("/account/name", [("NameForm.Name", "Carried Name")]);

        var signedIn = await browser.SubmitAsync(await stopped.PageAsync(), "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", FrontDoor.Password));
        var sent = await browser.SubmitAsync(await signedIn.PageAsync(), "form[action='/account/name']");

        Assert.Equal("/account", sent.Location);
        Assert.Equal("Carried Name", (await door.ReadAsync(user)).Name);
    }

    [Fact]
    public async Task Passwords_are_left_out_and_the_page_says_so()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();
        var stopped = await browser.PostAsync("/account/password", [("PasswordForm.OldPassword", "old secret"), ("note", "kept")]);

        var carryOn = await (await browser.SubmitAsync(await stopped.PageAsync(), "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", FrontDoor.Password))).PageAsync();

        Assert.Equal("kept", carryOn.InputValue("input[name=note]"));
        Assert.Null(carryOn.QuerySelector("input[name='PasswordForm.OldPassword']"));
        Assert.Contains("passwords could not be kept", carryOn.QuerySelector(".notice--caution")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("Sec-Fetch-Site", "none")]
    [InlineData("Origin", "https://elsewhere.example")]
    [InlineData("Origin", "null")]
    [InlineData("Accept", "text/html")]
    public async Task A_form_from_another_site_or_from_nowhere_is_not_carried(string header, string value)
    {
        var stopped = await door.Browser().PostAsync("/notes", [("text", "forged")], (header, value));

        Assert.Equal("", Carried(await stopped.PageAsync()));
    }

    [Fact]
    public async Task A_browser_that_only_sends_Origin_is_believed()
    {
        var stopped = await door.Browser().PostAsync("/notes", [("text", "typed")], ("Origin", "http://localhost"));

        Assert.NotEqual("", Carried(await stopped.PageAsync()));
    }

    [Theory]
    [InlineData(500 * 1024, true)]
    [InlineData(512 * 1024, false)]
    public async Task A_form_is_carried_up_to_512_kB(int characters, bool carried)
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();
        var typed = new string('x', characters);

        var stopped = await browser.PostAsync("/notes", [("text", typed)]);
        var signIn = await stopped.PageAsync();
        Assert.Equal(carried, Carried(signIn).Length > 0);

        var signedIn = await browser.SubmitAsync(signIn, "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", FrontDoor.Password));
        Assert.Equal(carried ? HttpStatusCode.OK : HttpStatusCode.Redirect, signedIn.Status);
        if (carried)
            Assert.Equal($"text={typed}", (await browser.SubmitAsync(await signedIn.PageAsync(), "form[action='/notes']")).Text);
    }

    [Fact]
    public async Task What_was_tampered_with_is_not_carried_on()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = door.Browser();
        var signIn = await (await browser.PostAsync("/notes", [("text", "typed")])).PageAsync();
        var carried = Carried(signIn);
        var tampered = carried[..^9] + (carried[^9] == 'A' ? 'B' : 'A') + carried[^8..];

        var signedIn = await browser.SubmitAsync(signIn, "form[action='/sign-in']", ("Form.UserName", user.UserName), ("Form.Password", FrontDoor.Password), ("Form.Carried", tampered));

        Assert.Equal("/", signedIn.Location);
    }

    [Fact]
    public async Task What_is_carried_cannot_be_read_in_the_page()
    {
        var stopped = await door.Browser().PostAsync("/notes", [("text", "typed in confidence")]);

        Assert.DoesNotContain("typed in confidence", stopped.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_htmx_request_without_a_session_gets_a_status_and_a_sentence_and_is_sent_nowhere()
    {
        var get = await door.Browser().GetAsync("/whoami", ("HX-Request", "true"));
        var post = await door.Browser().PostAsync("/notes", [("text", "typed")], ("HX-Request", "true"), ("Sec-Fetch-Site", "same-origin"));

        foreach (var answer in new[] { get, post })
        {
            Assert.Equal(HttpStatusCode.Unauthorized, answer.Status);
            Assert.Null(answer.Location);
            Assert.DoesNotContain(answer.Headers.Keys, header => header.StartsWith("HX-", StringComparison.OrdinalIgnoreCase));
            Assert.Equal("<p class=\"notice notice--stop\">You have been signed out.</p>", answer.Text);
        }
    }

    private static string Carried(IHtmlDocument page) => page.InputValue("#Form_Carried")!;
}
