using System.Net;
using System.Text.Json;
using Fettle.Readiness;
using Fettle.Web.Tests.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Security;

public sealed class HeaderTests(FrontDoor door) : IClassFixture<FrontDoor>
{
    private const string Csp = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; object-src 'none'";

    [Theory]
    [InlineData("/sign-in", HttpStatusCode.OK)]
    [InlineData("/", HttpStatusCode.Redirect)]
    [InlineData("/css/fettle.css", HttpStatusCode.OK)]
    [InlineData("/lib/htmx.min.js", HttpStatusCode.OK)]
    [InlineData("/broken", HttpStatusCode.InternalServerError)]
    [InlineData("/database-away", HttpStatusCode.ServiceUnavailable)]
    [InlineData("/api/whoami", HttpStatusCode.Unauthorized)]
    [InlineData("/api/nothing", HttpStatusCode.Unauthorized)]
    public async Task Every_kind_of_answer_carries_the_same_headers(string path, HttpStatusCode status)
    {
        var answer = await door.FarBrowser().GetAsync(path);

        Assert.Equal(status, answer.Status);
        AssertHeaders(answer);
        Assert.Equal("max-age=31536000; includeSubDomains", answer.Headers["Strict-Transport-Security"]);
    }

    [Fact]
    public async Task So_do_the_answers_to_those_who_are_signed_in()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));

        AssertHeaders(await browser.GetAsync("/nothing"));
        AssertHeaders(await browser.GetAsync("/admin/people"));
        AssertHeaders(await browser.GetAsync("/account"));
        AssertHeaders(await browser.PostAsync("/account/name", []));
        AssertHeaders(await browser.GetAsync("/nothing", ("HX-Request", "true")));
    }

    [Theory]
    [InlineData("api-reference", "DENY", "default-src 'none'; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; object-src 'none'")]
    [InlineData("shows-mail", "DENY", Csp + "; frame-src 'self'")]
    [InlineData("mail", "SAMEORIGIN", "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; form-action 'none'; base-uri 'none'; frame-ancestors 'self'; sandbox")]
    public async Task An_endpoint_that_needs_another_policy_names_it(string policy, string frames, string expected)
    {
        var answer = await door.Browser().GetAsync($"/policy/{policy}");

        Assert.Equal(expected, answer.Headers["Content-Security-Policy"].TrimEnd(' ', ';'));
        Assert.Equal(frames, answer.Headers["X-Frame-Options"]);
        Assert.Equal("nosniff", answer.Headers["X-Content-Type-Options"]);
    }

    [Fact]
    public async Task This_machine_itself_is_not_told_to_use_https()
    {
        Assert.DoesNotContain("Strict-Transport-Security", (await door.Browser().GetAsync("/sign-in")).Headers.Keys);
    }

    [Fact]
    public async Task Pages_hold_no_inline_script_or_style_which_the_policy_would_refuse()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.Administrator));
        foreach (var path in new[] { "/sign-in", "/account", "/signed-in", "/admin/people", "/admin/people/add", "/admin/api-keys", "/admin/api-keys/add", "/nothing" })
        {
            var page = await (await (path == "/sign-in" ? door.Browser() : browser).GetAsync(path)).PageAsync();

            Assert.NotNull(page.QuerySelector("h1"));
            Assert.DoesNotContain(page.All, element => element.HasAttribute("style") || element.Attributes.Any(attribute => attribute.Name.StartsWith("on", StringComparison.OrdinalIgnoreCase)));
            Assert.Empty(page.QuerySelectorAll("style, script:not([src])"));
        }
    }

    [Fact]
    public async Task Pages_are_not_kept_by_browsers_and_versioned_files_are()
    {
        var page = await door.Browser().GetAsync("/sign-in");
        var sheet = (await page.PageAsync()).QuerySelector("link[rel=stylesheet]")!.GetAttribute("href")!;

        Assert.Contains("no-store", page.Headers["Cache-Control"], StringComparison.Ordinal);
        Assert.Equal("public, max-age=31536000, immutable", (await door.Browser().GetAsync(sheet)).Headers["Cache-Control"]);
        Assert.Equal("no-cache", (await door.Browser().GetAsync("/css/fettle.css")).Headers["Cache-Control"]);
    }

    [Fact]
    public async Task A_page_that_is_not_there_says_so_in_words()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));

        var answer = await browser.GetAsync("/nothing");

        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.Equal("There is nothing here", (await answer.PageAsync()).QuerySelector("h1")?.TextContent);
    }

    [Fact]
    public async Task The_page_that_words_trouble_is_no_page_of_its_own()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));

        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync("/trouble")).Status);
    }

    [Theory]
    [InlineData("GET", "/api/nothing", 404, "urn:fettle:problem:not-found")]
    [InlineData("DELETE", "/api/whoami", 405, "urn:fettle:problem:method-not-allowed")]
    [InlineData("GET", "/api/broken", 500, "urn:fettle:problem:failure")]
    public async Task Under_the_API_trouble_is_a_problem_in_JSON(string method, string path, int status, string type)
    {
        var key = await door.Keys.IssueAsync("Machine", FrontDoor.RightsOf(Role.ShipperClerk), new Actor(Guid.CreateVersion7(), "Test"), TestContext.Current.CancellationToken);
        var request = new HttpRequestMessage(new(method), path);
        request.Headers.Add("Authorization", $"Bearer {key.Plain}");

        var answer = await door.Browser().SendAsync(request);

        Assert.Equal(status, (int)answer.Status);
        Assert.StartsWith("application/problem+json", answer.Headers["Content-Type"], StringComparison.Ordinal);
        using var problem = JsonDocument.Parse(answer.Text);
        Assert.Equal(type, problem.RootElement.GetProperty("type").GetString());
        Assert.Equal(status, problem.RootElement.GetProperty("status").GetInt32());
        Assert.DoesNotContain("secret detail", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_body_that_cannot_be_read_is_the_caller_s_doing()
    {
        var key = await door.Keys.IssueAsync("Machine", FrontDoor.RightsOf(Role.ShipperClerk), new Actor(Guid.CreateVersion7(), "Test"), TestContext.Current.CancellationToken);
        var request = new HttpRequestMessage(HttpMethod.Post, "/api/echo") { Content = new StringContent("{", null, "application/json") };
        request.Headers.Add("Authorization", $"Bearer {key.Plain}");

        var answer = await door.Browser().SendAsync(request);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains("urn:fettle:problem:bad-request", answer.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/broken", "Something went wrong here")]
    [InlineData("/database-away", "Not reachable just now")]
    public async Task When_something_breaks_the_page_gives_a_reference_and_no_detail(string path, string title)
    {
        var answer = await door.Browser().GetAsync(path);

        var page = await answer.PageAsync();
        Assert.Equal(title, page.QuerySelector("h1")?.TextContent);
        Assert.NotEmpty(page.QuerySelector("code")!.TextContent);
        Assert.DoesNotContain("secret detail", answer.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", answer.Text, StringComparison.Ordinal);
    }

    private static void AssertHeaders(Answer answer)
    {
        Assert.Equal(Csp, answer.Headers["Content-Security-Policy"]);
        Assert.Equal("nosniff", answer.Headers["X-Content-Type-Options"]);
        Assert.Equal("DENY", answer.Headers["X-Frame-Options"]);
        Assert.Equal("same-origin", answer.Headers["Referrer-Policy"]);
        Assert.Equal("same-origin", answer.Headers["Cross-Origin-Opener-Policy"]);
        Assert.Equal("same-origin", answer.Headers["Cross-Origin-Resource-Policy"]);
        Assert.Contains("camera=()", answer.Headers["Permissions-Policy"], StringComparison.Ordinal);
        Assert.DoesNotContain("Server", answer.Headers.Keys);
    }
}
