using Fettle.Readiness.Holds;
using Fettle.Testing;
using Fettle.Web.Holds;
using Fettle.Web.Notices;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Holds;

/// <summary>Reminders and escalations: once each, whoever runs the job, however often and however late.</summary>
public sealed class WatchHoldsTests(SharedPortal shared)
{
    [Fact]
    public async Task Whoever_must_act_is_reminded_and_afterwards_the_terminal_and_the_account_managers_are_told()
    {
        var hold = (await shared.HeldAsync())[0];
        var portal = await shared.PortalAsync();
        var job = portal.Services.GetRequiredService<WatchHoldsJob>();
        var turn = hold.Turn!;

        Assert.Empty(await job.WatchAsync(hold.Id, turn.RemindFrom(hold.Hours()).AddMinutes(-1), CancellationToken.None));
        Assert.IsType<HoldReminded>(Assert.Single(await job.WatchAsync(hold.Id, turn.By.AddMinutes(-30), CancellationToken.None)));
        Assert.Empty(await job.WatchAsync(hold.Id, turn.By.AddMinutes(-20), CancellationToken.None));
        Assert.IsType<HoldEscalated>(Assert.Single(await job.WatchAsync(hold.Id, turn.By.AddMinutes(1), CancellationToken.None)));
        Assert.Empty(await job.WatchAsync(hold.Id, turn.By.AddDays(1), CancellationToken.None));

        await using var session = portal.Store.QuerySession();
        var notices = await session.Query<Notice>().Where(notice => notice.HoldId == hold.Id).OrderBy(notice => notice.CreatedAt).ToListAsync();
        Assert.Equal(NoticeKind.HoldReminderForShipper, notices[0].Kind);
        Assert.Equal(portal.Parties.Shipper.Email, notices[0].To);
        Assert.Equal(portal.Parties.Carrier.Terminals[0].Email, Assert.Single(notices, notice => notice.Kind == NoticeKind.HoldOverdueForTerminal).To);
        var managers = notices.Where(notice => notice.Kind == NoticeKind.HoldOverdueForAccounts).Select(notice => notice.To).ToArray();
        Assert.Contains("mona@fettle.example", managers);
        Assert.DoesNotContain("owen@fettle.example", managers);
        foreach (var notice in notices)
            Assert.Contains(hold.Placed.Number, (await (await shared.PersonAsync("mona")).GetAsync($"/messages/{notice.Id}/body")).Text);
    }

    [Fact]
    public async Task A_decision_that_races_a_reminder_leaves_at_most_one_reminder_and_never_one_after_it()
    {
        var portal = await shared.PortalAsync();
        var job = portal.Services.GetRequiredService<WatchHoldsJob>();
        var desk = portal.Services.GetRequiredService<HoldDesk>();
        for (var round = 0; round < 12; round++)
        {
            var hold = (await shared.HeldAsync())[0];
            var (due, late) = (hold.Turn!.By.AddMinutes(-5), hold.Turn.By.AddMinutes(5));
            var decide = new DecideHold(Guid.CreateVersion7(due), HoldDecision.Return, "It leans.", new(Guid.Empty, "Rita Reviewer"), due);
            Task[] all =
            [
                job.WatchAsync(hold.Id, due, CancellationToken.None),
                desk.DecideAsync(hold, state => Hold.Decide(state, decide), null, NoticeState.Due, CancellationToken.None),
                job.WatchAsync(hold.Id, due, CancellationToken.None),
                job.WatchAsync(hold.Id, late, CancellationToken.None),
            ];
            await Task.WhenAll(all);

            await using var session = portal.Store.QuerySession();
            HoldEvent[] events = [.. (await session.Events.FetchStreamAsync(hold.Id)).Select(e => e.Data).OfType<HoldEvent>()];
            Assert.IsType<HoldDecided>(events[^1]);
            Assert.Single(events.OfType<HoldDecided>());
            Assert.InRange(events.OfType<HoldReminded>().Count(), 0, 1);
            Assert.InRange(events.OfType<HoldEscalated>().Count(), 0, 1);
            // Each mail that is owed belongs to an event that happened.
            var steps = events.Select(HoldNotices.StepOf).ToHashSet();
            Assert.All(await session.Query<Notice>().Where(notice => notice.HoldId == hold.Id).ToListAsync(), notice => Assert.Contains(notice.StepId!.Value, steps));
            Assert.Empty(await job.WatchAsync(hold.Id, late, CancellationToken.None));
        }
    }

    [Fact]
    public async Task The_job_finds_what_is_due_and_two_of_it_do_it_once()
    {
        var hold = (await shared.HeldAsync())[0];
        var portal = await shared.PortalAsync();
        var past = hold.Turn!.By.AddHours(1);
        WatchHoldsJob NewJob() => ActivatorUtilities.CreateInstance<WatchHoldsJob>(portal.Services, new Microsoft.Extensions.Time.Testing.FakeTimeProvider(past));

        await Task.WhenAll(NewJob().RunAsync(CancellationToken.None), NewJob().RunAsync(CancellationToken.None));
        await NewJob().RunAsync(CancellationToken.None);

        await using var session = portal.Store.QuerySession();
        Assert.Single((await session.Events.FetchStreamAsync(hold.Id)).Select(e => e.Data).OfType<HoldEscalated>());
        var unit = (await session.LoadAsync<HeldUnit>(hold.Id))!;
        Assert.Equal((HeldUnit.Never, true), (unit.WatchFrom, unit.Waits));
    }
}
