using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.Tests.Identity;
using Hangfire;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace Fettle.Web.Tests.Notices;

/// <summary>
/// Mail that cannot be sent: every fault of a mail server, on a clock that the test moves, the jobs called as the job server
/// calls them.
/// </summary>
public sealed class SendNoticeTests(MailRoom room) : IClassFixture<MailRoom>, IAsyncLifetime
{
    private const string Shipper = "dock@bramblewick.example";

    private readonly FakeTimeProvider clock = room.Clock;
    private readonly Portal portal = room.Portal;
    private HttpClient clerk = null!;
    private Browser browser = null!;
    private int attemptsBefore;

    public async ValueTask InitializeAsync()
    {
        clerk = await portal.ApiAsync(portal.Parties.Clerk);
        browser = new(portal.Anonymous());
        var person = await portal.AddUserAsync($"N{Guid.CreateVersion7():N} Clerk", portal.Parties.Clerk);
        await browser.SignInAsync(person.UserName, Portal.Password);
        portal.Mail.Clear();
        attemptsBefore = portal.Mail.Attempts;
    }

    public async ValueTask DisposeAsync()
    {
        portal.Mail.Fault = MailFault.None;
        await portal.Mail.AcceptConnectionsAsync();
    }

    [Fact]
    public async Task A_mail_server_that_is_down_for_an_hour_delays_mail_and_loses_none()
    {
        await portal.Mail.RefuseConnectionsAsync();
        var notice = await OwedAsync();
        var messageId = notice.MessageId;
        var waits = new List<TimeSpan>();

        for (var down = clock.GetUtcNow().AddHours(1); clock.GetUtcNow() < down; clock.Advance(waits[^1]))
        {
            await SendAsync(notice.Id);
            notice = await ReadAsync(notice.Id);
            Assert.Equal((NoticeState.Due, waits.Count + 1), (notice.State, notice.Tries));
            Assert.NotEqual("", notice.LastError);
            waits.Add(notice.DueAt - clock.GetUtcNow());
            // Not before it is due.
            await SendAsync(notice.Id);
            Assert.Equal(waits.Count, (await ReadAsync(notice.Id)).Tries);
        }

        Assert.Equal([15, 30, 60, 120, 240, 480], waits.Take(6).Select(wait => wait.TotalSeconds));
        Assert.All(waits.Skip(6), wait => Assert.Equal(TimeSpan.FromMinutes(15), wait));
        await AssertShownAsync(notice, "due", "Due", "Next try");

        await portal.Mail.AcceptConnectionsAsync();
        await SendAsync(notice.Id);
        await SendAsync(notice.Id);

        var sent = await ReadAsync(notice.Id);
        Assert.Equal((NoticeState.Sent, null, clock.GetUtcNow()), (sent.State, sent.LastError, sent.SentAt!.Value));
        Assert.Equal(messageId, Assert.Single(portal.Mail.Messages).MessageId);
        await AssertShownAsync(sent, "sent", "Sent");
    }

    [Theory]
    [InlineData(MailFault.Unavailable, "service not available")]
    [InlineData(MailFault.MailboxBusy, "mailbox busy")]
    [InlineData(MailFault.SignInFirst, "sign in first")]
    [InlineData(MailFault.SenderNotAllowed, "sender not allowed")]
    [InlineData(MailFault.RelayDenied, "relay access denied")]
    [InlineData(MailFault.Stall, "")]
    [InlineData(MailFault.DropAfterData, "")]
    public async Task A_passing_fault_is_recorded_and_the_same_message_goes_out_afterwards(MailFault fault, string said)
    {
        portal.Mail.Fault = fault;
        var notice = await OwedAsync();

        await SendAsync(notice.Id);

        var waiting = await ReadAsync(notice.Id);
        Assert.Equal((NoticeState.Due, 1, clock.GetUtcNow().AddSeconds(15)), (waiting.State, waiting.Tries, waiting.DueAt));
        Assert.Contains(said, waiting.LastError);
        Assert.Null(waiting.SendingUntil);
        await AssertShownAsync(waiting, "due", "Due", "Next try");

        portal.Mail.Fault = MailFault.None;
        clock.Advance(TimeSpan.FromSeconds(15));
        await SendAsync(notice.Id);

        Assert.Equal(NoticeState.Sent, (await ReadAsync(notice.Id)).State);
        Assert.Equal(notice.MessageId, Assert.Single(portal.Mail.Messages).MessageId);
    }

    [Fact]
    public async Task A_lost_acknowledgement_sends_the_same_message_again_so_that_the_receiver_can_tell()
    {
        portal.Mail.Fault = MailFault.LoseAcknowledgement;
        var notice = await OwedAsync();
        await SendAsync(notice.Id);
        Assert.Equal(NoticeState.Due, (await ReadAsync(notice.Id)).State);

        portal.Mail.Fault = MailFault.None;
        clock.Advance(TimeSpan.FromSeconds(15));
        await SendAsync(notice.Id);

        Assert.Equal(NoticeState.Sent, (await ReadAsync(notice.Id)).State);
        Assert.Equal([notice.MessageId, notice.MessageId], portal.Mail.Messages.Select(mail => mail.MessageId));
        Assert.Equal(portal.Mail.Messages[0].TextBody, portal.Mail.Messages[1].TextBody);
        Assert.Equal(portal.Mail.Messages[0].Date, portal.Mail.Messages[1].Date);
    }

    [Theory]
    [InlineData(MailFault.NoSuchMailbox, "no such mailbox")]
    [InlineData(MailFault.OverQuota, "over quota")]
    [InlineData(MailFault.ContentRefused, "content refused")]
    public async Task A_refusal_for_good_is_not_tried_again_until_a_person_presses_the_button(MailFault fault, string said)
    {
        portal.Mail.Fault = fault;
        var notice = await OwedAsync();
        await SendAsync(notice.Id);
        var failed = await ReadAsync(notice.Id);
        Assert.Equal(NoticeState.Failed, failed.State);
        Assert.Contains(said, failed.LastError);
        await AssertShownAsync(failed, "failed", "Failed");

        portal.Mail.Fault = MailFault.None;
        clock.Advance(TimeSpan.FromHours(7));
        await SendAsync(notice.Id);
        Assert.Empty(portal.Mail.Messages);
        Assert.Equal(1, (await ReadAsync(notice.Id)).Tries);

        await PressAgainAsync(notice.Id);
        Assert.Equal(NoticeState.Due, (await ReadAsync(notice.Id)).State);
        await SendAsync(notice.Id);

        Assert.Equal((NoticeState.Sent, 2), ((await ReadAsync(notice.Id)).State, (await ReadAsync(notice.Id)).Tries));
        Assert.Equal(notice.MessageId, Assert.Single(portal.Mail.Messages).MessageId);
    }

    [Fact]
    public async Task After_two_days_of_trying_a_person_is_asked()
    {
        await portal.Mail.RefuseConnectionsAsync();
        var notice = await OwedAsync();
        await SendAsync(notice.Id);
        clock.Advance(TimeSpan.FromHours(48));
        await SendAsync(notice.Id);
        Assert.Equal(NoticeState.Due, (await ReadAsync(notice.Id)).State);

        clock.Advance(TimeSpan.FromMinutes(15));
        await SendAsync(notice.Id);

        Assert.Equal(NoticeState.Failed, (await ReadAsync(notice.Id)).State);
    }

    [Fact]
    public async Task A_sent_mail_can_be_sent_again_and_is_the_same_message()
    {
        var notice = await OwedAsync();
        await SendAsync(notice.Id);

        clock.Advance(SendingAgain.Rest);
        await PressAgainAsync(notice.Id);
        await SendAsync(notice.Id);

        Assert.Equal([notice.MessageId, notice.MessageId], portal.Mail.Messages.Select(mail => mail.MessageId));
    }

    [Fact]
    public async Task A_mail_that_has_just_gone_out_rests_and_its_page_says_until_when()
    {
        var notice = await OwedAsync();
        await SendAsync(notice.Id);
        clock.Advance(SendingAgain.Rest - TimeSpan.FromSeconds(1));

        await AssertRefusedAsync(browser, notice.Id, $"It can be sent again from {clock.GetUtcNow().AddSeconds(1):d MMM yyyy HH:mm} UTC.");

        await SendAsync(notice.Id);
        Assert.Single(portal.Mail.Messages);
    }

    [Theory]
    [InlineData(NoticeKind.ClaimDeadline)]
    [InlineData(NoticeKind.ConcealedDamageDeadline)]
    public async Task A_reminder_is_not_sent_before_its_day_whoever_presses_and_is_sent_on_it(NoticeKind kind)
    {
        var reminder = await ReminderAsync(kind);
        var reviewer = new Browser(portal.Anonymous());
        await reviewer.SignInAsync("rita@fettle.example", Portal.Password);

        foreach (var person in (Browser[])[browser, reviewer])
            await AssertRefusedAsync(person, reminder.Id, $"This mail goes out on its day, {reminder.DueAt.UtcDateTime:d MMM yyyy HH:mm} UTC, and not before.");
        await SendAsync(reminder.Id);
        Assert.Equal((NoticeState.Due, 0, reminder.DueAt), ((await ReadAsync(reminder.Id)).State, (await ReadAsync(reminder.Id)).Tries, (await ReadAsync(reminder.Id)).DueAt));

        clock.Advance(reminder.DueAt - clock.GetUtcNow());
        await SendAsync(reminder.Id);
        Assert.Equal(NoticeState.Sent, (await ReadAsync(reminder.Id)).State);
    }

    [Fact]
    public async Task Who_may_not_see_a_mail_can_neither_read_nor_send_it()
    {
        var notice = await OwedAsync();
        var stranger = new Browser(portal.Anonymous());
        await stranger.SignInAsync("otto@fettle.example", Portal.Password);

        Assert.Equal(HttpStatusCode.NotFound, (await stranger.GetAsync($"/messages/{notice.Id}")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await SendFormAsync(stranger, notice.Id, await (await stranger.GetAsync("/messages")).PageAsync())).Status);
        Assert.Equal(notice.Version, (await ReadAsync(notice.Id)).Version);
    }

    [Theory]
    [InlineData(NoticeState.NotSent, "loaded history")]
    [InlineData(NoticeState.Overtaken, "has been replaced")]
    public async Task What_is_not_to_be_sent_is_not_sent_by_hand_either(NoticeState state, string said)
    {
        var notice = await OwedAsync();
        await using (var session = portal.Store.LightweightSession())
        {
            notice.State = state;
            session.Store(notice);
            await session.SaveChangesAsync();
        }

        await AssertRefusedAsync(browser, notice.Id, said);
        Assert.Equal(state, (await ReadAsync(notice.Id)).State);
    }

    /// <summary>It was written months before: that it has been there for long does not mean that it was tried for long.</summary>
    [Fact]
    public async Task A_reminder_that_meets_a_fault_on_its_day_is_tried_again()
    {
        var reminder = await ReminderAsync(NoticeKind.ClaimDeadline);
        clock.Advance(reminder.DueAt - clock.GetUtcNow());
        portal.Mail.Fault = MailFault.MailboxBusy;

        await SendAsync(reminder.Id);

        Assert.Equal(NoticeState.Due, (await ReadAsync(reminder.Id)).State);
    }

    [Fact]
    public async Task A_job_that_runs_many_times_at_once_sends_once()
    {
        var notice = await OwedAsync();

        await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => SendAsync(notice.Id)));

        Assert.Equal((NoticeState.Sent, 1), ((await ReadAsync(notice.Id)).State, (await ReadAsync(notice.Id)).Tries));
        Assert.Single(portal.Mail.Messages);
        Assert.Equal(1, portal.Mail.Attempts - attemptsBefore);
    }

    [Fact]
    public async Task While_one_sends_nobody_else_does_and_the_button_leaves_it_alone()
    {
        portal.Mail.Fault = MailFault.Stall;
        var notice = await OwedAsync();
        var sending = SendAsync(notice.Id);
        for (var patience = 0; patience < 200 && (await ReadAsync(notice.Id)).State != NoticeState.Sending; patience++)
            await Task.Delay(10);
        Assert.Equal(NoticeState.Sending, (await ReadAsync(notice.Id)).State);

        await SendAsync(notice.Id);
        await AssertRefusedAsync(browser, notice.Id, "being sent in this moment");
        Assert.Equal((NoticeState.Sending, 1), ((await ReadAsync(notice.Id)).State, (await ReadAsync(notice.Id)).Tries));
        await sending;

        Assert.Equal(1, portal.Mail.Attempts - attemptsBefore);
        Assert.Equal(NoticeState.Due, (await ReadAsync(notice.Id)).State);
    }

    [Fact]
    public async Task What_a_process_that_died_was_sending_is_taken_up_once_it_must_have_ended()
    {
        var notice = await OwedAsync();
        await using (var session = portal.Store.LightweightSession())
        {
            notice.State = NoticeState.Sending;
            notice.Tries = 1;
            notice.SendingUntil = clock.GetUtcNow().AddMinutes(1);
            session.Store(notice);
            await session.SaveChangesAsync();
        }

        await SendAsync(notice.Id);
        Assert.Empty(portal.Mail.Messages);
        clock.Advance(TimeSpan.FromMinutes(1));
        await SendAsync(notice.Id);

        Assert.Equal((NoticeState.Sent, 2), ((await ReadAsync(notice.Id)).State, (await ReadAsync(notice.Id)).Tries));
        Assert.Equal(notice.MessageId, Assert.Single(portal.Mail.Messages).MessageId);
    }

    [Fact]
    public async Task A_follow_up_that_runs_many_times_at_once_opens_each_hold_and_owes_each_mail_once()
    {
        var id = await SubmitAsync();

        await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => portal.Services.GetRequiredService<FollowUpJob>().RunAsync(id, CancellationToken.None)));

        await using var session = portal.Store.QuerySession();
        Assert.Equal(1, await session.Query<Hold>().CountAsync(hold => hold.Placed.PickupId == id));
        Assert.Equal(
            [NoticeKind.PickupForTerminal, NoticeKind.PickupForShipper],
            (await session.Query<Notice>().Where(notice => notice.PickupId == id).ToListAsync()).Select(notice => notice.Kind).Order());
    }

    /// <summary>A hint to the job server that got lost is only a delay: the sweep finds what is due, and only that.</summary>
    [Fact]
    public async Task The_sweep_finds_what_is_due()
    {
        var id = await SubmitAsync();
        Assert.Contains(id, await SweptAsync(nameof(FollowUpJob)));
        await portal.Services.GetRequiredService<FollowUpJob>().RunAsync(id, CancellationToken.None);
        Assert.DoesNotContain(id, await SweptAsync(nameof(FollowUpJob)));
        Guid[] notices = [.. (await NoticesAsync(id)).Select(notice => notice.Id)];
        Assert.Equal(notices.Order(), (await SweptAsync(nameof(SendNoticeJob))).Intersect(notices).Order());

        await SendAsync(notices[0]);
        portal.Mail.Fault = MailFault.MailboxBusy;
        await SendAsync(notices[1]);

        Assert.Empty((await SweptAsync(nameof(SendNoticeJob))).Intersect(notices));
        clock.Advance(TimeSpan.FromSeconds(15));
        Assert.Equal([notices[1]], (await SweptAsync(nameof(SendNoticeJob))).Intersect(notices));
    }

    /// <summary>The notice for the shipper about a pickup that was just submitted.</summary>
    private async Task<Notice> OwedAsync()
    {
        var id = await SubmitAsync();
        await portal.Services.GetRequiredService<FollowUpJob>().RunAsync(id, CancellationToken.None);
        return (await NoticesAsync(id)).Single(notice => notice.To == Shipper);
    }

    private async Task<Guid> SubmitAsync()
    {
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(clock.GetUtcNow()));
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{declared.Json.At("id")}/submission", new JsonObject())).Status);
        return Guid.Parse(declared.Json.At("id")!);
    }

    private async Task<IReadOnlyList<Notice>> NoticesAsync(Guid pickup)
    {
        await using var session = portal.Store.QuerySession();
        return await session.Query<Notice>().Where(notice => notice.PickupId == pickup).ToListAsync();
    }

    private Task SendAsync(Guid notice) => portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(notice, CancellationToken.None);

    private async Task<Notice> ReadAsync(Guid id)
    {
        await using var session = portal.Store.QuerySession();
        return (await session.LoadAsync<Notice>(id))!;
    }

    /// <summary>The ids with which a sweep now enqueues jobs of this kind.</summary>
    private async Task<IReadOnlyList<Guid>> SweptAsync(string job)
    {
        var storage = portal.Services.GetRequiredService<JobStorage>();
        var queued = storage.GetMonitoringApi();
        using (var connection = storage.GetConnection())
        {
            // Nobody works here, and the sweep leaves a long queue alone: what earlier tests put there is taken out.
            while (queued.EnqueuedCount("default") > 0)
            {
                using var earlier = connection.FetchNextJob(["default"], TestContext.Current.CancellationToken);
                earlier.RemoveFromQueue();
            }
        }

        await portal.Services.GetRequiredService<SweepJob>().RunAsync(CancellationToken.None);
        return
        [
            .. queued.EnqueuedJobs("default", 0, 1_000).Select(enqueued => enqueued.Value.Job)
                .Where(enqueued => enqueued.Type.Name == job).Select(enqueued => (Guid)enqueued.Args[0]),
        ];
    }

    private async Task PressAgainAsync(Guid notice)
    {
        var page = await (await browser.GetAsync($"/messages/{notice}")).PageAsync();
        var pressed = await browser.SubmitAsync(page, $"form[action='/messages/{notice}/again']");
        Assert.Equal($"/messages/{notice}", pressed.Location);
    }

    /// <summary>The page has no button, and who sends its form all the same is told why not.</summary>
    private static async Task AssertRefusedAsync(Browser person, Guid notice, string said)
    {
        var page = await (await person.GetAsync($"/messages/{notice}")).PageAsync();
        Assert.Null(page.QuerySelector($"form[action='/messages/{notice}/again']"));
        Assert.Contains(said, page.QuerySelector("main")!.TextContent);
        var pressed = await SendFormAsync(person, notice, page);
        Assert.Equal(HttpStatusCode.Conflict, pressed.Status);
        Assert.Contains(said, (await pressed.PageAsync()).QuerySelector("[role=alert]")!.TextContent);
    }

    /// <summary>The button's form from a page that has none, with the token of the page's other forms.</summary>
    private static Task<Answer> SendFormAsync(Browser person, Guid notice, IParentNode page) =>
        person.PostAsync($"/messages/{notice}/again", [("__RequestVerificationToken", page.InputValue("input[name='__RequestVerificationToken']")!)]);

    /// <summary>What the shipper is told before a day that follows from damage delivered today.</summary>
    private async Task<Notice> ReminderAsync(NoticeKind kind)
    {
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(clock.GetUtcNow()));
        var id = Guid.Parse(declared.Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        var recorded = await (await portal.ApiAsync(portal.Parties.Reviewer)).PostAsync($"/api/v1/pickups/{id}/outcome", new JsonObject
        {
            ["deliveredOn"] = clock.GetUtcNow().ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            ["units"] = new JsonArray(
                new JsonObject { ["reference"] = "A1", ["count"] = 3, ["kind"] = "clean" },
                new JsonObject { ["reference"] = "A1", ["count"] = 1, ["kind"] = "damaged", ["where"] = "corner", ["how"] = "crushed", ["concealed"] = true }),
        });
        Assert.Equal(HttpStatusCode.Created, recorded.Status);
        return (await NoticesAsync(id)).Single(notice => notice.Kind == kind);
    }

    /// <summary>The API, the list of messages, the message and the pickup all show how it stands.</summary>
    private async Task AssertShownAsync(Notice notice, string word, params string[] texts)
    {
        var listed = (await clerk.ReadAsync($"/api/v1/notices?pickup={notice.PickupId}")).Json["notices"]!.AsArray().Single(each => each.At("id") == notice.Id.ToString())!;
        Assert.Equal((word, notice.Tries, notice.LastError), (listed.At("state"), (int)listed["tries"]!, listed.At("lastError")));
        foreach (var path in (string[])["/messages", $"/pickups/{notice.PickupId}"])
        {
            var row = (await (await browser.GetAsync(path)).PageAsync()).QuerySelectorAll("tbody tr").Single(each => each.QuerySelector($"a[href='/messages/{notice.Id}']") is not null);
            Assert.All(texts, text => Assert.Contains(text, row.TextContent));
            Assert.Contains(notice.LastError ?? "", row.TextContent);
        }

        Assert.Contains(texts[0], (await (await browser.GetAsync($"/messages/{notice.Id}")).PageAsync()).QuerySelector(".figures")!.TextContent);
    }
}

/// <summary>A portal on a clock that the test moves, with little patience for its mail server.</summary>
public sealed class MailRoom : IAsyncLifetime
{
    /// <summary>On a whole second: the database keeps microseconds.</summary>
    public FakeTimeProvider Clock { get; } = new(DateTimeOffset.FromUnixTimeSeconds(DateTimeOffset.UtcNow.ToUnixTimeSeconds()));

    public Portal Portal { get; private set; } = null!;

    public async ValueTask InitializeAsync() =>
        Portal = await Portal.StartAsync(runsJobs: false, clock: Clock, settings: new Dictionary<string, string?> { ["Fettle:Smtp:PatienceSeconds"] = "1" });

    public ValueTask DisposeAsync() => Portal.DisposeAsync();
}
