using System.Net;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Tests.Identity;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Security;

/// <summary>What holds for every endpoint of the portal as Program.cs composes it, those of other concepts included.</summary>
public sealed class WholePortalTests : IAsyncLifetime
{
    private Portal portal = null!;

    public async ValueTask InitializeAsync() => portal = await Portal.StartAsync(runsJobs: false);

    public ValueTask DisposeAsync() => portal.DisposeAsync();

    /// <summary>A new endpoint that lets anybody in fails here until it is listed with its reason.</summary>
    [Fact]
    public void Only_these_addresses_let_anybody_in()
    {
        string[] open =
        [
            "/sign-in", "/sign-out", // where one becomes, or stops being, somebody
            "/account/language", // the switch of the sign-in page; changes nothing but the asking browser
            "/trouble", // words for a status that was already given
            "/health", // for load balancers; tells nothing
            "/api/{documentName}/openapi.json", "/api/reference/favicon.svg", "/api/reference/{documentName?}", "/api/reference/scalar.js", "/api/reference/scalar.aspnetcore.js", // how the API is used, not what is in it
        ];

        var anonymous = portal.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(endpoint => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null)
            .Select(endpoint => "/" + endpoint.RoutePattern.RawText!.TrimStart('/'))
            .Distinct();

        Assert.Empty(anonymous.Except(open));
    }

    [Fact]
    public async Task Every_page_a_role_starts_from_has_the_headers_and_nothing_that_they_refuse()
    {
        foreach (var (rights, name) in new[] { (portal.Parties.Clerk, "clara"), (portal.Parties.Reviewer, "rita"), (portal.Parties.Manager, "mona"), (portal.Parties.Administrator, "ada") })
        {
            using var client = portal.Anonymous();
            var browser = new Browser(client);
            await browser.SignInAsync($"{name}@fettle.example", Portal.Password);
            var start = (await browser.GetAsync("/")).Location!;
            if (rights.Role == Role.Administrator)
                start = (await browser.GetAsync(start)).Location!;

            var answer = await browser.GetAsync(start);
            var page = await answer.PageAsync();

            Assert.Equal(HttpStatusCode.OK, answer.Status);
            Assert.StartsWith("default-src 'none'; script-src 'self'; style-src 'self';", answer.Headers["Content-Security-Policy"], StringComparison.Ordinal);
            Assert.DoesNotContain(page.All, element => element.HasAttribute("style"));
            Assert.Empty(page.QuerySelectorAll("style, script:not([src])"));
            foreach (var place in page.QuerySelectorAll("nav[aria-label=Main] a"))
                Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync(place.GetAttribute("href")!)).Status);
        }
    }

    [Fact]
    public async Task A_form_too_large_for_the_server_is_told_as_that()
    {
        using var client = portal.Anonymous();
        var browser = new Browser(client);
        await browser.SignInAsync("clara@fettle.example", Portal.Password);

        var answer = await browser.PostAsync("/account/name", [("NameForm.Name", new string('x', 31_000_000))], ("Expect", "100-continue"));

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.Status);
        Assert.Equal("That was too large", (await answer.PageAsync()).QuerySelector("h1")?.TextContent);
    }
}
