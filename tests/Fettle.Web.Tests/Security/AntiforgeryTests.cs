using System.Net;
using Fettle.Web.Tests.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Security;

public sealed class AntiforgeryTests(FrontDoor door) : IClassFixture<FrontDoor>
{
    [Fact]
    public async Task A_form_without_its_token_is_refused_in_words_and_changes_nothing()
    {
        var user = await door.AddAsync(Role.ShipperClerk, "Maya Ortiz");
        var browser = await door.SignedInAsync(user);

        var answer = await browser.PostAsync("/account/name", [("NameForm.Name", "Forged")]);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("That page was out of date", (await answer.PageAsync()).QuerySelector("h1")?.TextContent);
        Assert.Equal("Maya Ortiz", (await door.ReadAsync(user)).Name);
    }

    [Fact]
    public async Task The_token_of_someone_else_is_refused()
    {
        var user = await door.AddAsync(Role.ShipperClerk, "Maya Ortiz");
        var other = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));
        var token = (await (await other.GetAsync("/account")).PageAsync()).InputValue("input[name=__RequestVerificationToken]")!;
        var browser = await door.SignedInAsync(user);

        var answer = await browser.PostAsync("/account/name", [("NameForm.Name", "Forged"), ("__RequestVerificationToken", token)]);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("Maya Ortiz", (await door.ReadAsync(user)).Name);
    }

    [Fact]
    public async Task The_token_in_the_page_s_meta_element_is_accepted_in_a_header_as_htmx_sends_it()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = await door.SignedInAsync(user);
        var page = await (await browser.GetAsync("/account")).PageAsync();
        var token = page.QuerySelector("meta[name=request-token]")!.GetAttribute("content")!;

        var answer = await browser.PostAsync("/account/name", [("NameForm.Name", "By header")], ("RequestVerificationToken", token));

        Assert.Equal("/account", answer.Location);
        Assert.Equal("By header", (await door.ReadAsync(user)).Name);
    }

    [Fact]
    public async Task Every_form_that_posts_has_a_token()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.Administrator));
        foreach (var path in new[] { "/account", "/admin/people/add", "/admin/api-keys/add" })
        {
            var forms = (await (await browser.GetAsync(path)).PageAsync()).QuerySelectorAll("form[method=post]");

            Assert.True(forms.Length >= 2, path);
            Assert.All(forms, form => Assert.Single(form.QuerySelectorAll("input[name=__RequestVerificationToken]")));
        }
    }
}
