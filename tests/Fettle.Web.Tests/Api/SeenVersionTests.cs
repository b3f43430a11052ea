using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;

namespace Fettle.Web.Tests.Api;

/// <summary>If-Match: only the version that was seen is submitted, however a client writes it down.</summary>
public sealed class SeenVersionTests(SharedPortal shared)
{
    private const string Pickups = "/api/v1/pickups";
    private const string Stale = "0123456789abcdef0123456789abcdef";

    [Fact]
    public async Task Only_the_version_that_was_seen_is_submitted_when_it_is_named()
    {
        var (id, seen) = await DraftAsync();

        Assert.Equal(HttpStatusCode.PreconditionFailed, (await SubmitAsync(id, $"\"{Stale}\"")).Status);
        Assert.Equal(HttpStatusCode.Created, (await SubmitAsync(id, $"\"other\", {seen}")).Status);
    }

    [Fact]
    public async Task Any_version_is_submitted_for_a_star_and_one_that_a_proxy_made_weak()
    {
        var (any, _) = await DraftAsync();
        var (weakened, seen) = await DraftAsync();

        Assert.Equal(HttpStatusCode.Created, (await SubmitAsync(any, "*")).Status);
        Assert.Equal(HttpStatusCode.Created, (await SubmitAsync(weakened, $"W/{seen}")).Status);
    }

    [Theory]
    [InlineData("00000000000000000000000000000000")]
    [InlineData("other, " + Stale)]
    [InlineData("\"other\", " + Stale)]
    [InlineData("W/" + Stale)]
    [InlineData("\"*\"")]
    public async Task A_stale_version_without_its_quotes_is_stale_all_the_same(string version)
    {
        var (id, _) = await DraftAsync();

        var answer = await SubmitAsync(id, version);

        Assert.Equal((HttpStatusCode.PreconditionFailed, "urn:fettle:problem:changed-meanwhile"), (answer.Status, answer.Json.At("type")));
        Assert.Equal("draft", (await (await shared.ClerkAsync()).ReadAsync($"{Pickups}/{id}")).Json.At("state"));
    }

    [Fact]
    public async Task The_current_version_without_its_quotes_is_submitted()
    {
        var (id, seen) = await DraftAsync();

        Assert.Equal(HttpStatusCode.Created, (await SubmitAsync(id, seen.Trim('"'))).Status);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" , ")]
    [InlineData("\"")]
    [InlineData("\"\"")]
    [InlineData("\"half")]
    [InlineData("half\"")]
    [InlineData("what I saw")]
    [InlineData("\"other\", what I saw")]
    [InlineData("*, \"other\"")]
    public async Task What_names_no_version_is_refused_in_words_and_never_passed_over(string version)
    {
        var (id, _) = await DraftAsync();

        var answer = await SubmitAsync(id, version);

        Assert.Equal((HttpStatusCode.BadRequest, "application/problem+json", "urn:fettle:problem:if-match"), (answer.Status, answer.ContentType, answer.Json.At("type")));
        Assert.Contains("ETag", answer.Json.At("detail")!, StringComparison.Ordinal);
        Assert.Equal("draft", (await (await shared.ClerkAsync()).ReadAsync($"{Pickups}/{id}")).Json.At("state"));
    }

    private async Task<(string Id, string Seen)> DraftAsync()
    {
        var clerk = await shared.ClerkAsync();
        var id = (await clerk.PostAsync(Pickups, Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!;
        return (id, (await clerk.ReadAsync($"{Pickups}/{id}")).Headers.ETag!.Tag);
    }

    private async Task<ApiAnswer> SubmitAsync(string id, string version)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"{Pickups}/{id}/submission") { Content = JsonOf(new()) };
        request.Headers.TryAddWithoutValidation("If-Match", version);
        return await (await shared.ClerkAsync()).AnswerAsync(request);
    }

    private static StringContent JsonOf(JsonObject body) => new(body.ToJsonString(), System.Text.Encoding.UTF8, "application/json");
}
