using System.Net;
using Fettle.Web.Areas.Entrance.SignIn;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

public sealed class LockoutTests(FrontDoor door) : IClassFixture<FrontDoor>
{
    [Fact]
    public async Task After_five_wrong_passwords_the_right_one_is_refused_too_and_the_page_says_why()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        for (var i = 0; i < 5; i++)
            await door.Browser().SignInAsync(user.UserName, "not the password");

        var page = await (await door.Browser().SignInAsync(user.UserName, FrontDoor.Password)).PageAsync();

        Assert.Equal(SignInPage.LockedOut, page.QuerySelector("[role=alert]")?.TextContent);
        var end = (await door.ReadAsync(user)).LockoutEnd!.Value;
        Assert.InRange(end, DateTimeOffset.UtcNow.AddMinutes(9), DateTimeOffset.UtcNow.AddMinutes(10));
    }

    [Fact]
    public async Task After_four_wrong_passwords_the_right_one_signs_in_and_clears_the_count()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        for (var i = 0; i < 4; i++)
            await door.Browser().SignInAsync(user.UserName, "not the password");

        await door.SignedInAsync(user);

        Assert.Equal(0, (await door.ReadAsync(user)).AccessFailedCount);
    }

    [Fact]
    public async Task A_lockout_that_is_over_lets_the_right_password_in()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        var stored = await door.ReadAsync(user);
        stored.LockoutEnd = DateTimeOffset.UtcNow.AddSeconds(-1);
        Assert.True((await door.WithUsersAsync(users => users.UpdateAsync(stored))).Succeeded);

        Assert.Equal(HttpStatusCode.Redirect, (await door.Browser().SignInAsync(user.UserName, FrontDoor.Password)).Status);
    }

    [Fact]
    public async Task Wrong_passwords_tried_at_the_same_moment_all_count()
    {
        var user = await door.AddAsync(Role.ShipperClerk);

        await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => Task.Run(async () => await door.WithUsersAsync(async users => await users.AccessFailedAsync((await users.FindAsync(user.Id))!)))));

        Assert.NotNull((await door.ReadAsync(user)).LockoutEnd);
    }

    [Fact]
    public async Task An_administrator_unlocks()
    {
        var user = await door.AddAsync(Role.ShipperClerk);
        for (var i = 0; i < 5; i++)
            await door.WithUsersAsync(async users => await users.AccessFailedAsync((await users.FindAsync(user.Id))!));
        Assert.NotNull((await door.ReadAsync(user)).LockoutEnd);

        await door.WithUsersAsync(async users => await users.UnlockAsync((await users.FindAsync(user.Id))!));

        Assert.Equal(HttpStatusCode.Redirect, (await door.Browser().SignInAsync(user.UserName, FrontDoor.Password)).Status);
    }
}
