using System.Net;
using AngleSharp.Html.Dom;
using Fettle.Web.Identity;
using Fettle.Web.Tests.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Admin;

public sealed class PeopleTests(Trade trade) : IClassFixture<Trade>
{
    private readonly FrontDoor door = trade.Door;

    [Theory]
    [InlineData(Role.ShipperClerk)]
    [InlineData(Role.TerminalReviewer)]
    [InlineData(Role.AccountManager)]
    public async Task Other_roles_are_turned_away_from_every_page_of_the_area(Role role)
    {
        var browser = await door.SignedInAsync(await door.AddAsync(role));
        var someone = await door.AddAsync(Role.ShipperClerk);
        var token = (await (await browser.GetAsync("/account")).PageAsync()).InputValue("input[name=__RequestVerificationToken]")!;

        foreach (var path in new[] { "/admin", "/admin/people", "/admin/people/add", $"/admin/people/{someone.Id}", "/admin/api-keys", "/admin/api-keys/add" })
            Assert.Equal(HttpStatusCode.Forbidden, (await browser.GetAsync(path)).Status);
        foreach (var path in new[] { "/admin/people/add", $"/admin/people/{someone.Id}", $"/admin/people/{someone.Id}/password", $"/admin/people/{someone.Id}/unlock", $"/admin/people/{someone.Id}/enable", $"/admin/people/{someone.Id}/disable", "/admin/api-keys/add", $"/admin/api-keys/{someone.Id}/revoke" })
            Assert.Equal(HttpStatusCode.Forbidden, (await browser.PostAsync(path, [("__RequestVerificationToken", token)])).Status);
        Assert.False((await door.ReadAsync(someone)).Disabled);
    }

    [Fact]
    public async Task The_page_for_those_turned_away_is_in_words()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));

        Assert.Equal("Your sign-in does not allow this", (await (await browser.GetAsync("/admin/people")).PageAsync()).QuerySelector("h1")?.TextContent);
    }

    [Fact]
    public async Task A_clerk_who_is_added_can_sign_in_and_has_the_chosen_dock()
    {
        var browser = await AdministratorAsync();

        var answer = await AddAsync(browser, "new.clerk@fettle.example", ("Form.Rights.Role", "ShipperClerk"), ("Form.Rights.Dock", $"{trade.Glassware.Id}/{trade.Glassware.Sites[1].Id}"));

        Assert.Equal("/admin/people", answer.Location);
        Assert.Contains("can sign in as new.clerk@fettle.example", (await browser.GetAsync("/admin/people")).Text, StringComparison.Ordinal);
        var user = (await door.WithUsersAsync(users => users.FindByNameAsync("new.clerk@fettle.example")))!;
        Assert.Equal(trade.Glassware.Id, user.Rights.ShipperId);
        Assert.Equal([trade.Glassware.Sites[1].Id], user.Rights.SiteIds);
        await door.SignedInAsync(user);
    }

    [Fact]
    public async Task Each_role_gets_what_was_chosen_for_it()
    {
        var browser = await AdministratorAsync();

        await AddAsync(browser, "all.docks@fettle.example", ("Form.Rights.Role", "ShipperClerk"), ("Form.Rights.Dock", trade.Glassware.Id.ToString()));
        await AddAsync(browser, "terminal@fettle.example", ("Form.Rights.Role", "TerminalReviewer"), ("Form.Rights.Terminal", $"{trade.Larkspur.Id}/{trade.Larkspur.Terminals[0].Id}"));
        await AddAsync(browser, "accounts@fettle.example", ("Form.Rights.Role", "AccountManager"), ("Form.Rights.AccountCarrier", trade.Larkspur.Id.ToString()), ("Form.Rights.AccountShippers", trade.Glassware.Id.ToString()), ("Form.Rights.AccountShippers", trade.Castings.Id.ToString()));
        await AddAsync(browser, "carrier.admin@fettle.example", ("Form.Rights.Role", "Administrator"), ("Form.Rights.Scope", trade.Larkspur.Id.ToString()));

        Assert.Equal(trade.Glassware.Sites.Select(s => s.Id), (await RightsAsync("all.docks@fettle.example")).SiteIds);
        Assert.Equal([trade.Larkspur.Terminals[0].Id], (await RightsAsync("terminal@fettle.example")).TerminalIds);
        Assert.Equal([trade.Glassware.Id, trade.Castings.Id], (await RightsAsync("accounts@fettle.example")).AccountShipperIds);
        Assert.Equal(trade.Larkspur.Id, (await RightsAsync("carrier.admin@fettle.example")).CarrierId);
    }

    [Fact]
    public async Task An_empty_form_comes_back_with_a_message_at_each_field()
    {
        var answer = await AddAsync(await AdministratorAsync(), "", ("Form.Name", ""), ("Form.Password", ""));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Equal("Enter the name as others should see it.", page.QuerySelector("#Form_Name-error")?.TextContent);
        Assert.Equal("Enter the e-mail address they sign in with.", page.QuerySelector("#Form_UserName-error")?.TextContent);
        Assert.Equal("Choose what they do.", page.QuerySelector("#role-error")?.TextContent);
        Assert.Equal("Enter a new password.", page.QuerySelector("#Form_Password-error")?.TextContent);
        Assert.Equal("true", page.QuerySelector("#Form_Name")?.GetAttribute("aria-invalid"));
        Assert.Equal("Form_Name-error Form_Name-hint", page.QuerySelector("#Form_Name")?.GetAttribute("aria-describedby"));
    }

    [Theory]
    [InlineData("ShipperClerk", "#Form_Rights_Dock-error", "Choose the dock they work at.")]
    [InlineData("TerminalReviewer", "#Form_Rights_Terminal-error", "Choose the terminal they work at.")]
    [InlineData("AccountManager", "#Form_Rights_AccountCarrier-error", "Choose the carrier they speak for.")]
    [InlineData("AccountManager", "#shippers-error", "Choose at least one shipper.")]
    [InlineData("Administrator", "#Form_Rights_Scope-error", "Choose what they administer.")]
    public async Task A_role_without_its_place_is_refused_and_what_was_typed_is_kept(string role, string where, string why)
    {
        var answer = await AddAsync(await AdministratorAsync(), "kept@fettle.example", ("Form.Rights.Role", role), ("Form.Rights.Dock", "nonsense"), ("Form.Rights.Scope", "nonsense"));

        var page = await answer.PageAsync();
        Assert.Equal(why, page.QuerySelector(where)?.TextContent);
        Assert.Equal("kept@fettle.example", page.InputValue("#Form_UserName"));
        Assert.True((page.QuerySelector($"input[type=radio][value={role}]") as IHtmlInputElement)?.IsChecked);
        Assert.Null(await door.WithUsersAsync(users => users.FindByNameAsync("kept@fettle.example")));
    }

    [Fact]
    public async Task An_address_that_is_taken_is_told_at_its_field()
    {
        var taken = await door.AddAsync(Role.ShipperClerk);

        var answer = await AddAsync(await AdministratorAsync(), taken.UserName.ToUpperInvariant(), ("Form.Rights.Role", "Administrator"), ("Form.Rights.Scope", "all"));

        Assert.Equal("Someone already signs in with this address.", (await answer.PageAsync()).QuerySelector("#Form_UserName-error")?.TextContent);
    }

    [Fact]
    public async Task Disabling_and_enabling_end_and_begin_sign_in_and_never_delete()
    {
        var browser = await AdministratorAsync();
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id));

        await PressAsync(browser, person, "disable");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await door.Browser().SignInAsync(person.UserName, FrontDoor.Password)).Status);
        Assert.Contains(person.UserName, (await browser.GetAsync("/admin/people")).Text, StringComparison.Ordinal);

        await PressAsync(browser, person, "enable");
        Assert.Equal(HttpStatusCode.Redirect, (await door.Browser().SignInAsync(person.UserName, FrontDoor.Password)).Status);
    }

    [Fact]
    public async Task Nobody_disables_themselves()
    {
        var me = await door.AddAsync(Role.Administrator);
        var browser = await door.SignedInAsync(me);
        var page = await (await browser.GetAsync($"/admin/people/{me.Id}")).PageAsync();
        Assert.Null(page.QuerySelector("form[action$='/disable']"));

        await browser.PostAsync($"/admin/people/{me.Id}/disable", [("__RequestVerificationToken", page.InputValue("input[name=__RequestVerificationToken]")!)]);

        Assert.False((await door.ReadAsync(me)).Disabled);
    }

    [Fact]
    public async Task A_new_password_replaces_the_old_one_and_ends_a_lockout()
    {
        var browser = await AdministratorAsync();
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id));
        for (var i = 0; i < 5; i++)
            await door.WithUsersAsync(async users => await users.AccessFailedAsync((await users.FindAsync(person.Id))!));

        await PressAsync(browser, person, "password", ("PasswordForm.NewPassword", "nine crates of quince"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await door.Browser().SignInAsync(person.UserName, FrontDoor.Password)).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await door.Browser().SignInAsync(person.UserName, "nine crates of quince")).Status);
    }

    [Fact]
    public async Task A_short_new_password_is_told_at_its_field_and_changes_nothing()
    {
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id));

        var answer = await PressAsync(await AdministratorAsync(), person, "password", ("PasswordForm.NewPassword", "short"));

        Assert.StartsWith("Use at least 10 characters.", (await answer.PageAsync()).QuerySelector("#PasswordForm_NewPassword-error")?.TextContent, StringComparison.Ordinal);
        await door.SignedInAsync(person);
    }

    [Fact]
    public async Task A_locked_person_is_shown_as_locked_and_can_be_unlocked()
    {
        var browser = await AdministratorAsync();
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id));
        for (var i = 0; i < 5; i++)
            await door.WithUsersAsync(async users => await users.AccessFailedAsync((await users.FindAsync(person.Id))!));
        Assert.NotNull((await (await browser.GetAsync($"/admin/people/{person.Id}")).PageAsync()).QuerySelector(".tag--stop"));

        await PressAsync(browser, person, "unlock");

        await door.SignedInAsync(person);
    }

    [Fact]
    public async Task A_person_s_name_and_docks_are_changed_together()
    {
        var browser = await AdministratorAsync();
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id), "Before");
        var page = await (await browser.GetAsync($"/admin/people/{person.Id}")).PageAsync();

        await browser.SubmitAsync(page, $"form[action='/admin/people/{person.Id}']", ("Form.Name", "After"), ("Form.Parts", trade.Glassware.Sites[1].Id.ToString()));

        var changed = await door.ReadAsync(person);
        Assert.Equal("After", changed.Name);
        Assert.Equal([trade.Glassware.Sites[1].Id], changed.Rights.SiteIds);
    }

    [Fact]
    public async Task Of_two_administrators_who_change_one_person_the_later_is_told_and_overwrites_nothing()
    {
        var browser = await AdministratorAsync();
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id), "Before");
        var first = await (await browser.GetAsync($"/admin/people/{person.Id}")).PageAsync();
        var second = await (await browser.GetAsync($"/admin/people/{person.Id}")).PageAsync();

        await browser.SubmitAsync(first, $"form[action='/admin/people/{person.Id}']", ("Form.Name", "First"));
        var answer = await browser.SubmitAsync(second, $"form[action='/admin/people/{person.Id}']", ("Form.Name", "Second"));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("Someone else changed this", (await answer.PageAsync()).QuerySelector(".validation-summary-errors")?.TextContent, StringComparison.Ordinal);
        Assert.Equal("First", (await door.ReadAsync(person)).Name);
    }

    [Fact]
    public async Task Docks_of_another_shipper_cannot_be_handed_out_by_a_forged_form()
    {
        var browser = await AdministratorAsync();
        var person = await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id));
        var page = await (await browser.GetAsync($"/admin/people/{person.Id}")).PageAsync();

        var answer = await browser.SubmitAsync(page, $"form[action='/admin/people/{person.Id}']", ("Form.Parts", trade.Castings.Sites[0].Id.ToString()));

        Assert.Equal("Choose at least one.", (await answer.PageAsync()).QuerySelector("#parts-error")?.TextContent);
        Assert.Equal([trade.Glassware.Sites[0].Id], (await door.ReadAsync(person)).Rights.SiteIds);
    }

    [Fact]
    public async Task An_administrator_of_one_carrier_sees_and_changes_only_that_carrier_s_people()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Rights.Administrator(trade.Larkspur.Id)));
        var own = await door.AddAsync(Rights.TerminalReviewer(trade.Larkspur.Id, trade.Larkspur.Terminals[0].Id));
        var others = new[]
        {
            await door.AddAsync(Rights.TerminalReviewer(trade.Heronway.Id, trade.Heronway.Terminals[0].Id)),
            await door.AddAsync(Rights.ShipperClerk(trade.Glassware.Id, trade.Glassware.Sites[0].Id)),
            await door.AddAsync(Rights.Administrator(null)),
        };

        var list = await browser.GetAsync("/admin/people");

        Assert.Contains(own.UserName, list.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync($"/admin/people/{own.Id}")).Status);
        foreach (var other in others)
        {
            Assert.DoesNotContain(other.UserName, list.Text, StringComparison.Ordinal);
            Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync($"/admin/people/{other.Id}")).Status);
            var token = (await list.PageAsync()).InputValue("input[name=__RequestVerificationToken]")!;
            foreach (var press in new[] { "", "/password", "/disable", "/enable", "/unlock" })
                Assert.Equal(HttpStatusCode.NotFound, (await browser.PostAsync($"/admin/people/{other.Id}{press}", [("__RequestVerificationToken", token)])).Status);
        }
    }

    [Theory]
    [InlineData("Administrator", "Form.Rights.Scope", "all")]
    [InlineData("Administrator", "Form.Rights.Scope", "heronway")]
    [InlineData("TerminalReviewer", "Form.Rights.Terminal", "heronway")]
    [InlineData("AccountManager", "Form.Rights.AccountCarrier", "heronway")]
    [InlineData("ShipperClerk", "Form.Rights.Dock", "glassware")]
    public async Task An_administrator_of_one_carrier_cannot_hand_out_more_than_they_have(string role, string field, string value)
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Rights.Administrator(trade.Larkspur.Id)));
        value = value switch { "heronway" => trade.Heronway.Id.ToString(), "glassware" => trade.Glassware.Id.ToString(), _ => value };
        var name = $"{Guid.CreateVersion7():N}@fettle.example";

        var answer = await AddAsync(browser, name, ("Form.Rights.Role", role), (field, value), ("Form.Rights.AccountShippers", trade.Glassware.Id.ToString()));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Null(await door.WithUsersAsync(users => users.FindByNameAsync(name)));
    }

    private async Task<Browser> AdministratorAsync() => await door.SignedInAsync(await door.AddAsync(Role.Administrator, "Alex Boyd"));

    private static async Task<Answer> AddAsync(Browser browser, string userName, params (string Name, string Value)[] typed)
    {
        var page = await (await browser.GetAsync("/admin/people/add")).PageAsync();
        var usual = new[] { ("Form.Name", "New Person"), ("Form.Password", FrontDoor.Password), ("Form.UserName", userName) };
        return await browser.SubmitAsync(page, "form[action='/admin/people/add']", [.. usual.Where(field => typed.All(t => t.Name != field.Item1)), .. typed]);
    }

    private static async Task<Answer> PressAsync(Browser browser, User person, string what, params (string Name, string Value)[] typed)
    {
        var page = await (await browser.GetAsync($"/admin/people/{person.Id}")).PageAsync();
        return await browser.SubmitAsync(page, $"form[action='/admin/people/{person.Id}/{what}']", typed);
    }

    private async Task<Rights> RightsAsync(string userName) => (await door.WithUsersAsync(users => users.FindByNameAsync(userName)))!.Rights;
}
