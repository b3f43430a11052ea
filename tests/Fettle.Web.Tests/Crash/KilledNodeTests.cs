using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;
using Fettle.Web.Notices;
using Fettle.Web.Store;

namespace Fettle.Web.Tests.Crash;

/// <summary>Nodes are killed, as by kill -9, at the wrong moment. What was accepted is neither lost nor done twice.</summary>
[Collection(nameof(OneAtATime))]
public sealed class KilledNodeTests : IAsyncLifetime
{
    /// <summary>Some rounds of the nodes' sweep, in which a second hold or mail would appear.</summary>
    private static readonly TimeSpan AWhile = TimeSpan.FromSeconds(6);

    private Yard yard = null!;

    public async ValueTask InitializeAsync() => yard = await Yard.OpenAsync();

    public async ValueTask DisposeAsync() => await yard.DisposeAsync();

    [Fact]
    public async Task Freight_submitted_to_a_node_that_is_then_killed_is_held_and_told_of_once_by_another()
    {
        Guid pickup;
        await using (var web = await yard.StartNodeAsync("web"))
        {
            pickup = await SubmitAsync(web, "one");
            await web.KillAsync();
        }

        Assert.Empty(await yard.HoldsAsync(pickup));
        await using var worker = await yard.StartNodeAsync("worker");
        await yard.AllSentAsync(pickup);

        await Task.Delay(AWhile);
        await AssertHeldAndToldAsync(pickup, copies: 1);
    }

    [Fact]
    public async Task A_node_killed_while_the_mail_server_is_slow_leaves_a_mail_that_the_next_node_sends_under_the_same_id()
    {
        yard.Mail.Fault = MailFault.Stall;
        Guid pickup;
        IReadOnlyList<Notice> begun = [];
        await using (var first = await yard.StartNodeAsync("both"))
        {
            pickup = await SubmitAsync(first, "one");
            await Yard.UntilAsync(
                async () =>
                {
                    begun = await yard.NoticesAsync(pickup);
                    return yard.Mail.Attempts >= 2 && begun.Count == 2 && begun.All(notice => notice.State == NoticeState.Sending);
                },
                () => $"{yard.Mail.Attempts} mails begun");
            await first.KillAsync();
        }

        yard.Mail.Fault = MailFault.None;
        Assert.Empty(yard.Mail.Messages);
        await using var second = await yard.StartNodeAsync("both");
        var sent = await yard.AllSentAsync(pickup);

        Assert.Equal(begun.Select(notice => notice.MessageId).Order(), sent.Select(notice => notice.MessageId).Order());
        await Task.Delay(AWhile);
        await AssertHeldAndToldAsync(pickup, copies: 1);
    }

    [Fact]
    public async Task A_mail_whose_receipt_was_lost_with_the_node_comes_again_under_the_same_id()
    {
        // The server has the message, and the node does not learn of it before it is killed.
        yard.Mail.Fault = MailFault.LoseAcknowledgement;
        Guid pickup;
        await using (var first = await yard.StartNodeAsync("both"))
        {
            pickup = await SubmitAsync(first, "one");
            await Yard.UntilAsync(() => Task.FromResult(yard.Mail.Messages.Count >= 2), () => $"{yard.Mail.Messages.Count} mails received");
            await first.KillAsync();
        }

        yard.Mail.Fault = MailFault.None;
        await using var second = await yard.StartNodeAsync("both");
        await yard.AllSentAsync(pickup);

        await AssertHeldAndToldAsync(pickup, copies: 2);
    }

    [Fact]
    public async Task Killed_again_and_again_just_after_accepting_nothing_is_lost_and_nothing_doubled()
    {
        const int Rounds = 5;
        const int Each = 4;
        var random = new Random(20);
        var accepted = new List<Guid>();
        var unsure = new List<string>();
        for (var round = 1; round <= Rounds; round++)
        {
            await using var node = await yard.StartNodeAsync("both");
            // Whoever did not get an answer asks again with the same key.
            string[] keys = [.. unsure, .. Enumerable.Range(1, Each).Select(n => $"{round}.{n}")];
            unsure.Clear();
            var asking = keys.Select(key => (Key: key, Answer: SubmitAsync(node, key))).ToList();
            await Task.WhenAny(asking.Select(asked => asked.Answer));
            await Task.Delay(random.Next(0, 400));
            await node.KillAsync();
            foreach (var (key, answer) in asking)
            {
                try
                {
                    accepted.Add(await answer);
                }
                catch (HttpRequestException)
                {
                    unsure.Add(key);
                }
            }
        }

        await using var last = await yard.StartNodeAsync("both");
        foreach (var key in unsure)
            accepted.Add(await SubmitAsync(last, key));
        foreach (var pickup in accepted)
            await yard.AllSentAsync(pickup);

        Assert.Equal(Rounds * Each, accepted.Distinct().Count());
        Assert.Equal(accepted.Order(), (await yard.SubmittedAsync()).Order());
        foreach (var pickup in accepted)
            await AssertHeldAndToldAsync(pickup, copies: null);
    }

    /// <summary>One hold, opened once, and one mail to each of the two parties, though perhaps delivered more than once.</summary>
    /// <param name="copies">How often each mail was delivered; null when it cannot be known.</param>
    private async Task AssertHeldAndToldAsync(Guid pickup, int? copies)
    {
        var hold = Assert.Single(await yard.HoldsAsync(pickup));
        Assert.Equal(1, await yard.EventsOfAsync(hold));
        var notices = await yard.NoticesAsync(pickup);
        Assert.Equal([NoticeKind.PickupForTerminal, NoticeKind.PickupForShipper], notices.Select(notice => notice.Kind).Order());
        Assert.All(notices, notice => Assert.Equal(NoticeState.Sent, notice.State));
        foreach (var notice in notices)
        {
            var received = yard.Mail.Messages.Where(mail => mail.MessageId == notice.MessageId).ToList();
            Assert.Equal(copies ?? Math.Clamp(received.Count, 1, 2), received.Count);
            Assert.Single(received.Select(mail => (mail.To.ToString(), mail.Subject, mail.TextBody)).Distinct());
        }

        Assert.Equal(notices.Count, yard.Mail.Messages.Where(mail => mail.Subject!.Contains(notices[0].About)).Select(mail => mail.MessageId).Distinct().Count());
    }

    /// <summary>Declares troubled freight and hands it in. Safe to repeat with the same key.</summary>
    private async Task<Guid> SubmitAsync(Node node, string key)
    {
        using var client = yard.ClientOf(node);
        var declared = await client.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow), $"declare {key}");
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var id = declared.Json.At("id")!;
        var submitted = await client.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject { ["exceptionRequest"] = "The consignee's line stops tonight." }, $"submit {key}");
        Assert.Equal(HttpStatusCode.Created, submitted.Status);
        return Guid.Parse(id);
    }
}

/// <summary>Each of these tests starts processes that are busy while they start.</summary>
[CollectionDefinition(nameof(OneAtATime), DisableParallelization = true)]
public sealed class OneAtATime;
