using System.Net;
using System.Text.Json;
using Fettle.Readiness;
using Fettle.Web.Identity;
using Npgsql;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

/// <summary>Some tests move the clock, so each has a front door of its own.</summary>
public sealed class ApiKeyTests : IAsyncLifetime
{
    private static readonly Actor Issuer = new(Guid.CreateVersion7(), "Alex Boyd");

    private readonly FrontDoor door = new();

    public ValueTask InitializeAsync() => door.InitializeAsync();

    public ValueTask DisposeAsync() => door.DisposeAsync();

    [Fact]
    public async Task A_key_signs_in_under_the_API_with_its_own_rights()
    {
        var issued = await IssueAsync(Role.TerminalReviewer);

        Assert.Equal("Scanner as TerminalReviewer", (await CallAsync("/api/whoami", issued.Plain)).Text);
        Assert.Equal("yes", (await CallAsync("/api/terminal", issued.Plain)).Text);
    }

    [Fact]
    public async Task A_key_is_marked_and_holds_256_random_bits()
    {
        var keys = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => IssueAsync(Role.ShipperClerk)));

        Assert.All(keys, key => Assert.Matches("^fettle_[A-Za-z0-9_-]{43}$", key.Plain));
        Assert.All(keys, key => Assert.StartsWith(key.Key.Prefix, key.Plain, StringComparison.Ordinal));
        Assert.Equal(8, keys.Select(key => key.Plain).Distinct().Count());
    }

    [Fact]
    public async Task Only_a_hash_of_the_key_is_stored()
    {
        var issued = await IssueAsync(Role.ShipperClerk);

        await using var source = NpgsqlDataSource.Create(door.Database);
        await using var command = source.CreateCommand("select data::text from fettle.mt_doc_apikey where id = $1");
        command.Parameters.AddWithValue(issued.Key.Id);
        var stored = (string)(await command.ExecuteScalarAsync(TestContext.Current.CancellationToken))!;

        Assert.DoesNotContain(issued.Plain[12..], stored, StringComparison.Ordinal);
        Assert.Contains(ApiKeys.Hash(issued.Plain), stored, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_revoked_key_is_answered_like_one_that_never_was()
    {
        var issued = await IssueAsync(Role.TerminalReviewer);
        Assert.True(await door.Keys.RevokeAsync(issued.Key.Id, Issuer, TestContext.Current.CancellationToken));

        var revoked = await CallAsync("/api/whoami", issued.Plain);
        var unknown = await CallAsync("/api/whoami", "fettle_" + new string('a', 43));

        Assert.Equal(HttpStatusCode.Unauthorized, revoked.Status);
        Assert.Equal(Detail(unknown), Detail(revoked));
        Assert.Contains("not known here", Detail(revoked), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_many_who_revoke_at_once_exactly_one_did_it()
    {
        var issued = await IssueAsync(Role.TerminalReviewer);

        var results = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => Task.Run(() => door.Keys.RevokeAsync(issued.Key.Id, Issuer, TestContext.Current.CancellationToken))));

        Assert.Single(results, done => done);
    }

    [Fact]
    public async Task Last_use_is_noted_at_most_once_a_minute()
    {
        var issued = await IssueAsync(Role.TerminalReviewer);
        Assert.Null(await LastUseAsync(issued));

        var first = door.Clock.GetUtcNow();
        await CallAsync("/api/whoami", issued.Plain);
        door.Clock.Advance(TimeSpan.FromSeconds(59));
        await CallAsync("/api/whoami", issued.Plain);
        Assert.Equal(first, await LastUseAsync(issued));

        door.Clock.Advance(TimeSpan.FromSeconds(1));
        await CallAsync("/api/whoami", issued.Plain);
        Assert.Equal(first.AddMinutes(1), await LastUseAsync(issued));
    }

    [Fact]
    public async Task A_key_used_from_many_sides_at_once_while_it_is_revoked_never_fails_otherwise_than_refused()
    {
        var issued = await IssueAsync(Role.TerminalReviewer);
        var second = new FrontDoor();
        await second.InitializeAsync();
        await using var stopped = second;

        var calls = Enumerable.Range(0, 40).Select(i => Task.Run(() => CallAsync("/api/whoami", issued.Plain, i % 2 == 0 ? door : second))).ToList();
        Assert.True(await door.Keys.RevokeAsync(issued.Key.Id, Issuer, TestContext.Current.CancellationToken));
        var answers = await Task.WhenAll(calls);

        Assert.All(answers, answer => Assert.True(answer.Status is HttpStatusCode.OK or HttpStatusCode.Unauthorized, answer.Text));
        Assert.Equal(HttpStatusCode.Unauthorized, (await CallAsync("/api/whoami", issued.Plain)).Status);
    }

    [Fact]
    public async Task A_given_key_works_and_given_again_is_the_same_key()
    {
        const string given = "demo-key-of-bramblewick";
        var rights = FrontDoor.RightsOf(Role.ShipperClerk);

        var first = await door.Keys.IssueGivenAsync(given, "Demo", rights, Issuer, TestContext.Current.CancellationToken);
        var again = await door.Keys.IssueGivenAsync(given, "Demo", rights, Issuer, TestContext.Current.CancellationToken);

        Assert.Equal(first.Id, again.Id);
        Assert.Equal("Demo as ShipperClerk", (await CallAsync("/api/whoami", given)).Text);
        Assert.True(first.Prefix.Length <= given.Length / 3);
    }

    [Fact]
    public async Task A_given_key_that_is_short_is_refused()
    {
        await Assert.ThrowsAsync<ArgumentException>(() => door.Keys.IssueGivenAsync(new('k', 19), "Demo", FrontDoor.RightsOf(Role.ShipperClerk), Issuer, TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("Basic bWF5YTpwYXNz")]
    [InlineData("Bearer")]
    [InlineData("Bearer ")]
    [InlineData("Bearer fettle_wrong")]
    public async Task Without_a_known_key_the_API_answers_a_problem_that_says_what_to_send(string? header)
    {
        var answer = await CallRawAsync("/api/whoami", header);

        Assert.Equal(HttpStatusCode.Unauthorized, answer.Status);
        Assert.StartsWith("application/problem+json", answer.Headers["Content-Type"], StringComparison.Ordinal);
        Assert.StartsWith("Bearer", answer.Headers["WWW-Authenticate"], StringComparison.Ordinal);
        using var problem = JsonDocument.Parse(answer.Text);
        Assert.Equal("urn:fettle:problem:not-signed-in", problem.RootElement.GetProperty("type").GetString());
        Assert.Equal(401, problem.RootElement.GetProperty("status").GetInt32());
        Assert.Contains("API keys", Detail(answer), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_key_longer_than_any_of_ours_is_refused()
    {
        Assert.Equal(HttpStatusCode.Unauthorized, (await CallAsync("/api/whoami", new('k', 8000))).Status);
    }

    [Fact]
    public async Task A_key_of_another_role_is_answered_a_problem()
    {
        var issued = await IssueAsync(Role.ShipperClerk);

        var answer = await CallAsync("/api/terminal", issued.Plain);

        Assert.Equal(HttpStatusCode.Forbidden, answer.Status);
        Assert.StartsWith("application/problem+json", answer.Headers["Content-Type"], StringComparison.Ordinal);
        Assert.Contains("urn:fettle:problem:not-allowed", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_browser_that_is_signed_in_is_not_signed_in_under_the_API_nor_a_key_on_pages()
    {
        var browser = await door.SignedInAsync(await door.AddAsync(Role.TerminalReviewer));
        var issued = await IssueAsync(Role.TerminalReviewer);

        Assert.Equal(HttpStatusCode.Unauthorized, (await browser.GetAsync("/api/whoami")).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await browser.GetAsync("/API/whoami")).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await CallAsync("/whoami", issued.Plain)).Status);
    }

    private Task<IssuedKey> IssueAsync(Role role) => door.Keys.IssueAsync("Scanner", FrontDoor.RightsOf(role), Issuer, TestContext.Current.CancellationToken);

    private Task<Answer> CallAsync(string path, string key, FrontDoor? at = null) => CallRawAsync(path, $"Bearer {key}", at);

    private Task<Answer> CallRawAsync(string path, string? authorization, FrontDoor? at = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (authorization is not null)
            request.Headers.TryAddWithoutValidation("Authorization", authorization);
        return (at ?? door).Browser().SendAsync(request);
    }

    private async Task<DateTimeOffset?> LastUseAsync(IssuedKey issued) =>
        (await door.Keys.ListAsync(TestContext.Current.CancellationToken)).Single(entry => entry.Key.Id == issued.Key.Id).LastUsedAt;

    private static string Detail(Answer answer)
    {
        using var problem = JsonDocument.Parse(answer.Text);
        return problem.RootElement.GetProperty("detail").GetString()!;
    }
}
