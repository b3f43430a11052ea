using Fettle.Web.Identity;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

public sealed class MartenUserStoreTests(FrontDoor door) : IClassFixture<FrontDoor>
{
    private readonly IdentityErrorDescriber errors = new();

    [Fact]
    public async Task A_person_is_found_by_id_and_by_name_in_any_case()
    {
        var user = await door.AddAsync(Role.TerminalReviewer, "Theo Lindqvist");

        var byId = await door.WithUsersAsync(users => users.FindAsync(user.Id));
        var byName = await door.WithUsersAsync(users => users.FindByNameAsync(user.UserName.ToUpperInvariant()));

        Assert.Equal("Theo Lindqvist", byId?.Name);
        Assert.Equal(user.Id, byName?.Id);
        Assert.Equal(user.Rights.TerminalIds, byName!.Rights.TerminalIds);
    }

    [Fact]
    public async Task A_new_person_gets_an_id_from_the_clock()
    {
        var user = await door.AddAsync(Role.Administrator);

        Assert.Equal(7, user.Id.Version);
    }

    [Fact]
    public async Task A_second_person_with_the_same_address_is_refused()
    {
        var first = await door.AddAsync(Role.ShipperClerk);

        var result = await CreateAsync(first.UserName.ToUpperInvariant());

        Assert.False(result.Succeeded);
        Assert.Contains(result.Errors, error => error.Code == errors.DuplicateUserName("").Code);
    }

    [Fact]
    public async Task Of_many_who_take_one_address_at_once_exactly_one_gets_it()
    {
        var results = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => CreateAsync("race@fettle.example"))));

        Assert.Single(results, result => result.Succeeded);
        Assert.All(results.Where(result => !result.Succeeded), result => Assert.Equal(errors.DuplicateUserName("").Code, result.Errors.Single().Code));
    }

    [Fact]
    public async Task A_change_to_an_outdated_copy_is_refused_and_changes_nothing()
    {
        var stale = await door.ReadAsync(await door.AddAsync(Role.ShipperClerk, "Before"));
        var fresh = await door.ReadAsync(stale);
        fresh.Name = "First";
        Assert.True((await door.WithUsersAsync(users => users.UpdateAsync(fresh))).Succeeded);

        stale.Name = "Second";
        var result = await door.WithUsersAsync(users => users.UpdateAsync(stale));

        Assert.Equal(errors.ConcurrencyFailure().Code, result.Errors.Single().Code);
        Assert.Equal("First", (await door.ReadAsync(stale)).Name);
    }

    [Fact]
    public async Task One_copy_can_be_changed_again_and_again()
    {
        var user = await door.ReadAsync(await door.AddAsync(Role.ShipperClerk));
        foreach (var name in new[] { "One", "Two", "Three" })
        {
            user.Name = name;
            Assert.True((await door.WithUsersAsync(users => users.UpdateAsync(user))).Succeeded);
        }

        Assert.Equal("Three", (await door.ReadAsync(user)).Name);
    }

    [Fact]
    public async Task An_outdated_copy_stays_refused_when_it_is_saved_again()
    {
        var stale = await door.ReadAsync(await door.AddAsync(Role.ShipperClerk));
        var fresh = await door.ReadAsync(stale);
        Assert.True((await door.WithUsersAsync(users => users.UpdateAsync(fresh))).Succeeded);

        Assert.False((await door.WithUsersAsync(users => users.UpdateAsync(stale))).Succeeded);
        Assert.False((await door.WithUsersAsync(users => users.UpdateAsync(stale))).Succeeded);
    }

    [Fact]
    public async Task People_cannot_be_deleted()
    {
        var user = await door.AddAsync(Role.ShipperClerk);

        await Assert.ThrowsAsync<NotSupportedException>(() => door.WithUsersAsync(users => users.DeleteAsync(user)));
        Assert.NotNull(await door.ReadAsync(user));
    }

    [Fact]
    public async Task A_password_is_stored_as_a_hash_only()
    {
        var user = await door.AddAsync(Role.ShipperClerk);

        await using var source = NpgsqlDataSource.Create(door.Database);
        await using var command = source.CreateCommand("select data::text from fettle.mt_doc_user where id = $1");
        command.Parameters.AddWithValue(user.Id);
        var stored = (string)(await command.ExecuteScalarAsync(TestContext.Current.CancellationToken))!;

        Assert.DoesNotContain(FrontDoor.Password, stored, StringComparison.Ordinal);
        Assert.Contains("passwordHash", stored, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_password_of_nine_characters_is_refused_and_one_of_ten_is_not()
    {
        var nine = await door.WithUsersAsync(users => users.CreateAsync(New("nine@fettle.example"), new string('a', 9)));
        var ten = await door.WithUsersAsync(users => users.CreateAsync(New("ten@fettle.example"), new string('a', 10)));

        Assert.Equal(errors.PasswordTooShort(10).Code, nine.Errors.Single().Code);
        Assert.True(ten.Succeeded);
    }

    [Fact]
    public void The_store_offers_no_queries_that_Marten_could_only_answer_synchronously()
    {
        using var scope = door.Services.CreateScope();

        Assert.False(scope.ServiceProvider.GetRequiredService<UserDirectory>().SupportsQueryableUsers);
    }

    private Task<IdentityResult> CreateAsync(string userName) => door.WithUsersAsync(users => users.CreateAsync(New(userName), FrontDoor.Password));

    private static User New(string userName) => new() { UserName = userName, Name = "Someone", Rights = FrontDoor.RightsOf(Role.ShipperClerk) };
}
