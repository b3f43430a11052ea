using System.Net;
using Fettle.Web.Identity;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

/// <summary>How long a sign-in lasts, and what ends it. Each test moves the clock, so each has a front door of its own.</summary>
public sealed class SessionTests : IAsyncLifetime
{
    private readonly FrontDoor door = new();

    public ValueTask InitializeAsync() => door.InitializeAsync();

    public ValueTask DisposeAsync() => door.DisposeAsync();

    [Fact]
    public async Task Changing_the_password_signs_other_browsers_out_within_a_minute_and_keeps_this_one()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var here = await door.SignedInAsync(user);
        var elsewhere = await door.SignedInAsync(user);

        var page = await (await here.GetAsync("/account")).PageAsync();
        var changed = await here.SubmitAsync(page, "form[action='/account/password']", ("PasswordForm.OldPassword", FrontDoor.Password), ("PasswordForm.NewPassword", "nine crates of quince"));
        Assert.Equal("/account", changed.Location);
        door.Clock.Advance(TimeSpan.FromSeconds(61));

        Assert.Equal(HttpStatusCode.OK, (await here.GetAsync("/whoami")).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await elsewhere.GetAsync("/whoami")).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await door.Browser().SignInAsync(user.UserName, FrontDoor.Password)).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await door.Browser().SignInAsync(user.UserName, "nine crates of quince")).Status);
    }

    [Fact]
    public async Task A_disabled_person_is_signed_out_within_a_minute()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var browser = await door.SignedInAsync(user);

        await door.WithUsersAsync(async users => await users.DisableAsync((await users.FindAsync(user.Id))!));
        door.Clock.Advance(TimeSpan.FromSeconds(61));

        Assert.Equal(HttpStatusCode.Redirect, (await browser.GetAsync("/whoami")).Status);
    }

    [Fact]
    public async Task Changed_rights_count_within_a_minute_without_signing_in_again()
    {
        var user = await door.AddAsync(Role.AccountManager);
        var browser = await door.SignedInAsync(user);
        var added = Guid.CreateVersion7();

        var stored = await door.ReadAsync(user);
        stored.Rights = stored.Rights with { AccountShipperIds = [added] };
        await door.WithUsersAsync(users => users.UpdateAsync(stored));
        door.Clock.Advance(TimeSpan.FromSeconds(61));

        Assert.Equal(added.ToString(), (await browser.GetAsync("/shippers")).Text);
    }

    [Fact]
    public async Task A_session_that_is_used_goes_on_and_one_left_for_eight_hours_ends()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));

        for (var hours = 0; hours < 15; hours += 5)
        {
            door.Clock.Advance(TimeSpan.FromHours(5));
            Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/whoami")).Status);
        }

        door.Clock.Advance(TimeSpan.FromHours(8) + TimeSpan.FromMinutes(1));
        Assert.Equal(HttpStatusCode.Redirect, (await browser.GetAsync("/whoami")).Status);
    }

    [Fact]
    public async Task A_session_is_read_by_another_node_and_after_a_restart()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk, "Maya Ortiz"));
        var node = new FrontDoor();
        await node.InitializeAsync();
        await using var stopped = node;

        var other = node.Browser();
        var answer = await other.GetAsync("/whoami", ("Cookie", $"{People.SessionCookie}={browser.Cookies[People.SessionCookie]!.Value}"));

        Assert.Equal("Maya Ortiz", answer.Text);
    }

    [Fact]
    public async Task A_new_name_is_shown_at_once()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk, "Maya Ortiz"));
        var page = await (await browser.GetAsync("/account")).PageAsync();

        await browser.SubmitAsync(page, "form[action='/account/name']", ("NameForm.Name", "  Maya O. Ruiz "));

        Assert.Equal("Maya O. Ruiz", (await browser.GetAsync("/whoami")).Text);
    }

    [Theory]
    [InlineData("wrong password", "nine crates of quince", "#PasswordForm_OldPassword-error", "This is not the present password.")]
    [InlineData(FrontDoor.Password, "short", "#PasswordForm_NewPassword-error", "Use at least 10 characters. A few words in a row are easy to remember.")]
    [InlineData("", "nine crates of quince", "#PasswordForm_OldPassword-error", "Enter your present password.")]
    public async Task A_password_change_that_is_refused_says_why_beside_the_field(string old, string wanted, string where, string why)
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.ShipperClerk));
        var page = await (await browser.GetAsync("/account")).PageAsync();

        var answer = await browser.SubmitAsync(page, "form[action='/account/password']", ("PasswordForm.OldPassword", old), ("PasswordForm.NewPassword", wanted));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Equal(why, (await answer.PageAsync()).QuerySelector(where)?.TextContent);
        Assert.DoesNotContain(wanted, answer.Text, StringComparison.Ordinal);
    }
}
