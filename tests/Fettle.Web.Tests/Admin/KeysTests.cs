using System.Net;
using Fettle.Readiness;
using Fettle.Web.Identity;
using Fettle.Web.Tests.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Admin;

public sealed class KeysTests(Trade trade) : IClassFixture<Trade>
{
    private readonly FrontDoor door = trade.Door;

    [Fact]
    public async Task A_key_is_shown_once_works_and_is_listed_by_how_it_begins()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.Administrator, "Alex Boyd"));

        var issued = await IssueAsync(browser, "Warehouse system");
        var plain = (await issued.PageAsync()).QuerySelector("#key")!.TextContent;
        var list = await browser.GetAsync("/admin/api-keys");

        Assert.Contains("no-store", issued.Headers["Cache-Control"], StringComparison.Ordinal);
        Assert.Equal("Warehouse system as ShipperClerk", (await CallAsync(plain)).Text);
        Assert.DoesNotContain(plain, list.Text, StringComparison.Ordinal);
        Assert.Contains(plain[..12], list.Text, StringComparison.Ordinal);
        Assert.Contains("Bramblewick Glassware: Mill dock", list.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_revoked_key_stays_listed_and_no_longer_works()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.Administrator, "Alex Boyd"));
        var plain = (await (await IssueAsync(browser, "Old scanner")).PageAsync()).QuerySelector("#key")!.TextContent;
        var key = (await door.Keys.FindAsync(plain, TestContext.Current.CancellationToken))!;

        var list = await (await browser.GetAsync("/admin/api-keys")).PageAsync();
        await browser.SubmitAsync(list, $"form[action='/admin/api-keys/{key.Id}/revoke']");

        Assert.Equal(HttpStatusCode.Unauthorized, (await CallAsync(plain)).Status);
        var after = await (await browser.GetAsync("/admin/api-keys")).PageAsync();
        Assert.Null(after.QuerySelector($"form[action='/admin/api-keys/{key.Id}/revoke']"));
        Assert.Contains(after.QuerySelectorAll("tr.table__off"), row => row.TextContent.Contains("Old scanner", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_key_without_a_name_and_a_role_is_refused_at_its_fields()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.Administrator));
        var page = await (await browser.GetAsync("/admin/api-keys/add")).PageAsync();

        var answer = await browser.SubmitAsync(page, "form[action='/admin/api-keys/add']");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var again = await answer.PageAsync();
        Assert.StartsWith("Say which system uses it", again.QuerySelector("#Form_Name-error")?.TextContent, StringComparison.Ordinal);
        Assert.Equal("Choose what they do.", again.QuerySelector("#role-error")?.TextContent);
    }

    [Fact]
    public async Task An_administrator_of_one_carrier_neither_sees_nor_revokes_the_keys_of_others()
    {
        var key = (await door.Keys.IssueAsync("Somebody else's", Rights.TerminalReviewer(trade.Heronway.Id, trade.Heronway.Terminals[0].Id), new Actor(Guid.CreateVersion7(), "Test"), TestContext.Current.CancellationToken)).Key;
        var browser = await door.SignedInAsync(await door.AddAsync(Rights.Administrator(trade.Larkspur.Id)));

        var list = await browser.GetAsync("/admin/api-keys");
        var token = (await list.PageAsync()).InputValue("input[name=__RequestVerificationToken]")!;
        var answer = await browser.PostAsync($"/admin/api-keys/{key.Id}/revoke", [("__RequestVerificationToken", token)]);

        Assert.DoesNotContain("Somebody else", list.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.Null((await door.Keys.ListAsync(TestContext.Current.CancellationToken)).Single(entry => entry.Key.Id == key.Id).Key.RevokedAt);
    }

    private async Task<Answer> IssueAsync(Browser browser, string name)
    {
        var page = await (await browser.GetAsync("/admin/api-keys/add")).PageAsync();
        return await browser.SubmitAsync(page, "form[action='/admin/api-keys/add']", ("Form.Name", name), ("Form.Rights.Role", "ShipperClerk"), ("Form.Rights.Dock", $"{trade.Glassware.Id}/{trade.Glassware.Sites[0].Id}"));
    }

    private Task<Answer> CallAsync(string plain) => door.Browser().GetAsync("/api/whoami", ("Authorization", $"Bearer {plain}"));
}
