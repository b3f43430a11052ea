using System.Globalization;
using System.Net;
using Fettle.Web.Security;
using Fettle.Web.Tests.Identity;
using AngleSharp.Html.Dom;

namespace Fettle.Web.Tests.Security;

/// <summary>Each test has a front door of its own, since tries are counted over all of it.</summary>
public sealed class SignInAttemptsTests : IAsyncLifetime
{
    private readonly FrontDoor door = new();

    public ValueTask InitializeAsync() => door.InitializeAsync();

    public ValueTask DisposeAsync() => door.DisposeAsync();

    [Fact]
    public async Task The_eleventh_try_of_one_name_in_a_minute_is_told_how_long_to_wait()
    {
        var browser = door.Browser();
        var page = await (await browser.GetAsync("/sign-in")).PageAsync();
        for (var i = 0; i < SignInAttempts.TriesForOneName; i++)
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TryAsync(browser, page, "maya@fettle.example")).Status);

        var answer = await TryAsync(browser, page, " MAYA@fettle.example");

        Assert.Equal(HttpStatusCode.TooManyRequests, answer.Status);
        var seconds = int.Parse(answer.Headers["Retry-After"], CultureInfo.InvariantCulture);
        Assert.InRange(seconds, 1, 60);
        var again = await answer.PageAsync();
        Assert.Equal($"Too many tries. Wait {seconds} seconds, then try again.", again.QuerySelector("[role=alert]")?.TextContent);
        Assert.Equal("MAYA@fettle.example", again.InputValue("#Form_UserName")?.Trim());
    }

    [Fact]
    public async Task Another_name_and_another_address_are_not_slowed_down()
    {
        var browser = door.Browser();
        var page = await (await browser.GetAsync("/sign-in")).PageAsync();
        for (var i = 0; i <= SignInAttempts.TriesForOneName; i++)
            await TryAsync(browser, page, "maya@fettle.example");

        Assert.Equal(HttpStatusCode.TooManyRequests, (await TryAsync(browser, page, "maya@fettle.example")).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TryAsync(browser, page, "theo@fettle.example")).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TryAsync(browser, page, "maya@fettle.example", "127.0.0.2")).Status);
    }

    [Fact]
    public async Task One_address_that_tries_many_names_is_slowed_down()
    {
        var browser = door.Browser();
        var page = await (await browser.GetAsync("/sign-in")).PageAsync();
        for (var i = 0; i < new SignInSettings().TriesForOneAddress; i++)
            Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TryAsync(browser, page, $"name{i}@fettle.example")).Status);

        Assert.Equal(HttpStatusCode.TooManyRequests, (await TryAsync(browser, page, "one.more@fettle.example")).Status);
    }

    private static Task<Answer> TryAsync(Browser browser, IHtmlDocument page, string name, string address = "127.0.0.1") => browser.PostAsync(
        "/sign-in",
        [("Form.UserName", name), ("Form.Password", "not the password"), ("__RequestVerificationToken", page.InputValue("input[name=__RequestVerificationToken]")!)],
        (FrontDoor.AddressHeader, address));
}
