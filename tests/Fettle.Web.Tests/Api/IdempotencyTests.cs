using System.Net;
using System.Text.Json.Nodes;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Api;
using Fettle.Web.Declarations;
using Marten;

namespace Fettle.Web.Tests.Api;

public sealed class IdempotencyTests(SharedPortal shared)
{
    private const string Pickups = "/api/v1/pickups";
    private const int AtOnce = 50;

    private static string NewKey => Guid.CreateVersion7().ToString();

    [Fact]
    public async Task Fifty_calls_at_once_with_one_key_make_one_pickup_and_get_one_answer()
    {
        var clerk = await shared.ClerkAsync();
        var body = Unique(out var destination);
        var key = NewKey;

        var answers = await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => clerk.PostAsync(Pickups, body.DeepClone(), key)));

        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
        Assert.Single(answers.Select(answer => answer.Text).Distinct());
        Assert.Single(answers.Select(answer => answer.Headers.Location).Distinct());
        Assert.Equal("application/json", Assert.Single(answers.Select(answer => answer.ContentType).Distinct()));
        Assert.Equal(1, await CountAsync(destination));
    }

    [Fact]
    public async Task The_same_call_later_gets_the_same_answer_even_when_the_pickup_has_been_submitted_since()
    {
        var clerk = await shared.ClerkAsync();
        var body = Unique(out _);
        var key = NewKey;
        var first = await clerk.PostAsync(Pickups, body.DeepClone(), key);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"{Pickups}/{first.Json.At("id")}/submission", new JsonObject())).Status);

        var again = await clerk.PostAsync(Pickups, body, key);

        Assert.Equal((first.Status, first.Text, first.Headers.Location), (again.Status, again.Text, again.Headers.Location));
    }

    [Fact]
    public async Task A_key_is_remembered_for_its_time_and_not_for_ever()
    {
        var store = (await shared.PortalAsync()).Store;
        var now = DateTimeOffset.UtcNow;
        var (young, old) = (Answer(now - ForgetAnswersJob.Kept + TimeSpan.FromHours(1)), Answer(now - ForgetAnswersJob.Kept - TimeSpan.FromHours(1)));
        await using (var saving = store.LightweightSession())
        {
            saving.Store(young, old);
            await saving.SaveChangesAsync();
        }

        await new ForgetAnswersJob(store, TimeProvider.System).RunAsync(CancellationToken.None);

        await using var session = store.QuerySession();
        Assert.NotNull(await session.LoadAsync<RememberedAnswer>(young.Id));
        Assert.Null(await session.LoadAsync<RememberedAnswer>(old.Id));

        static RememberedAnswer Answer(DateTimeOffset at) => new() { Id = Guid.CreateVersion7(), BodyHash = "00", Status = 201, Body = "{}", At = at };
    }

    [Fact]
    public async Task Without_a_key_every_call_makes_a_pickup()
    {
        var clerk = await shared.ClerkAsync();
        var body = Unique(out var destination);

        await clerk.PostAsync(Pickups, body.DeepClone());
        await clerk.PostAsync(Pickups, body);

        Assert.Equal(2, await CountAsync(destination));
    }

    [Fact]
    public async Task Another_body_with_the_same_key_is_refused()
    {
        var clerk = await shared.ClerkAsync();
        var key = NewKey;
        await clerk.PostAsync(Pickups, Unique(out _), key);

        var other = await clerk.PostAsync(Pickups, Unique(out var destination), key);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.Status);
        Assert.Equal("urn:fettle:problem:idempotency-key-reused", other.Json.At("type"));
        Assert.Equal(0, await CountAsync(destination));
    }

    [Fact]
    public async Task Of_different_bodies_at_once_with_one_key_one_is_done_and_the_rest_are_refused()
    {
        var clerk = await shared.ClerkAsync();
        var key = NewKey;

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => clerk.PostAsync(Pickups, Unique(out string _), key)));

        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Created);
        Assert.Equal(19, answers.Count(answer => answer.Status == HttpStatusCode.UnprocessableEntity));
    }

    [Fact]
    public async Task Callers_do_not_share_keys()
    {
        var key = NewKey;
        var ours = await (await shared.ClerkAsync()).PostAsync(Pickups, Unique(out _), key);

        var theirs = await (await shared.OtherClerkAsync()).PostAsync(Pickups, Unique(out _), key);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (ours.Status, theirs.Status));
        Assert.NotEqual(ours.Json.At("id"), theirs.Json.At("id"));
        Assert.Equal("Cedar Gate Fasteners", theirs.Json.At("shipper"));
    }

    [Fact]
    public async Task A_call_that_failed_is_not_remembered()
    {
        var clerk = await shared.ClerkAsync();
        var key = NewKey;
        var wrong = Unique(out _);
        wrong["destination"] = "";
        Assert.Equal(HttpStatusCode.BadRequest, (await clerk.PostAsync(Pickups, wrong, key)).Status);

        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync(Pickups, Unique(out _), key)).Status);
    }

    [Fact]
    public async Task Fifty_submissions_at_once_with_one_key_get_one_answer()
    {
        var clerk = await shared.ClerkAsync();
        var path = $"{Pickups}/{(await clerk.PostAsync(Pickups, Unique(out _))).Json.At("id")}/submission";
        var key = NewKey;

        var answers = await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => clerk.PostAsync(path, new JsonObject(), key)));

        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
        Assert.Single(answers.Select(answer => answer.Text).Distinct());
    }

    [Fact]
    public async Task Submissions_at_once_without_a_key_are_done_once_and_the_rest_are_told_who_and_when()
    {
        var clerk = await shared.ClerkAsync();
        var path = $"{Pickups}/{(await clerk.PostAsync(Pickups, Unique(out _))).Json.At("id")}/submission";

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => clerk.PostAsync(path, new JsonObject())));

        Assert.Single(answers, answer => answer.Status == HttpStatusCode.Created);
        var late = await clerk.PostAsync(path, new JsonObject());
        Assert.Equal(HttpStatusCode.Conflict, late.Status);
        Assert.Equal("urn:fettle:problem:already-submitted", late.Json.At("type"));
        Assert.Equal("test", late.Json.At("submitted.by"));
        Assert.True(DateTimeOffset.UtcNow - DateTimeOffset.Parse(late.Json.At("submitted.at")!, System.Globalization.CultureInfo.InvariantCulture) < TimeSpan.FromMinutes(5));
        Assert.All(answers.Where(answer => answer.Status != HttpStatusCode.Created), answer => Assert.Equal(HttpStatusCode.Conflict, answer.Status));
    }

    [Fact]
    public async Task Fifty_decisions_at_once_with_one_key_are_one_decision_and_one_answer()
    {
        var reviewer = await shared.ReviewerAsync();
        var hold = (await shared.HeldAsync())[0];
        var key = NewKey;
        var body = new JsonObject { ["decision"] = "rework", ["reason"] = "Wrap it again." };

        var answers = await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", body.DeepClone(), key)));

        Assert.All(answers, answer => Assert.Equal(HttpStatusCode.Created, answer.Status));
        Assert.Single(answers.Select(answer => answer.Text).Distinct());
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Single((await session.Events.FetchStreamAsync(hold.Id)).Select(e => e.Data).OfType<HoldDecided>());
        Assert.Equal((await session.LoadAsync<Hold>(hold.Id))!.Decided!.DecisionId.ToString(), answers[0].Json.At("decision.id"));
    }

    [Fact]
    public async Task One_key_may_be_used_for_calls_to_different_addresses()
    {
        var clerk = await shared.ClerkAsync();
        var key = NewKey;
        var declared = await clerk.PostAsync(Pickups, Unique(out _), key);

        var submitted = await clerk.PostAsync($"{Pickups}/{declared.Json.At("id")}/submission", new JsonObject(), key);

        Assert.Equal(HttpStatusCode.Created, submitted.Status);
        Assert.True(submitted.Json.At("state") == "booked", submitted.ToString());
    }

    [Fact]
    public async Task The_address_in_a_creating_answer_leads_to_what_was_created()
    {
        var clerk = await shared.ClerkAsync();
        var reviewer = await shared.ReviewerAsync();
        var declared = await clerk.PostAsync(Pickups, Unique(out _));
        var hold = (await shared.HeldAsync())[0];
        var decided = await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "refuse", ["reason"] = "It leans." });

        var pickup = await clerk.ReadAsync(declared.Headers.Location!.OriginalString);
        var after = await reviewer.ReadAsync(decided.Headers.Location!.OriginalString);

        Assert.Equal(declared.Json.At("number"), pickup.Json.At("number"));
        Assert.Equal(decided.Text, after.Text);
    }

    /// <summary>A pickup to a destination that no other test's has.</summary>
    private static JsonObject Unique(out string destination)
    {
        destination = $"Consignee {Guid.CreateVersion7():N}";
        var body = Freight.Sound().AsPickup(DateTimeOffset.UtcNow);
        body["destination"] = destination;
        return body;
    }

    private async Task<int> CountAsync(string destination)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.Query<Draft>().CountAsync(draft => draft.Form.Destination == destination);
    }
}
