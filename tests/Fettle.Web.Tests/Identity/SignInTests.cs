using System.Net;
using Fettle.Web.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

public sealed class SignInTests(Site site) : IClassFixture<Site>
{
    [Fact]
    public async Task The_right_password_signs_in_and_sets_the_session_cookie()
    {
        var user = await site.AddAsync(Role.ShipperClerk, "Maya Ortiz");
        var browser = await site.SignedInAsync(user);

        var answer = await browser.GetAsync("/whoami");

        Assert.Equal("Maya Ortiz", answer.Text);
        var session = browser.Cookies[People.SessionCookie];
        Assert.NotNull(session);
        Assert.True(session.HttpOnly);
    }

    [Fact]
    public async Task A_page_asked_for_without_signing_in_leads_to_the_sign_in_page_and_back()
    {
        var user = await site.AddAsync(Role.ShipperClerk);
        var browser = site.Browser();

        var refused = await browser.GetAsync("/whoami?x=1");
        Assert.Equal(HttpStatusCode.Redirect, refused.Status);
        var signIn = new Uri(refused.Location!).PathAndQuery;
        var answer = await browser.SignInAsync(user.UserName, Site.Password, signIn);

        Assert.Equal("/whoami?x=1", answer.Location);
    }
}
