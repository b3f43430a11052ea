using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.Declarations;
using Fettle.Web.Demo;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Pickups;
using Fettle.Web.Scorecards;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Demo;

/// <summary>The scenario with few pickups, loaded into real databases.</summary>
public sealed class DemoLoadTests
{
    private static readonly Scenario Whole = Scenario.Read(Scenario.Folder);

    /// <summary>All parties and people, and a pickup of each shipper about every third week.</summary>
    private static readonly Scenario Small = Whole with { Shippers = [.. Whole.Shippers.Select(shipper => shipper with { PickupsPerWeek = 0.35 })] };

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Loading_makes_what_was_planned_with_the_times_of_then_and_without_mail()
    {
        var connection = await DemoNode.DatabaseAsync();
        await using var node = DemoNode.On(connection, Small);

        await node.LoadAsync();

        await using var session = node.Store.QuerySession();
        var load = (await session.LoadAsync<DemoLoad>(DemoLoad.OnlyId, Cancel))!;
        Assert.NotNull(load.FinishedAt);
        var history = History.Of(Small, load.StartedAt);
        await AssertIsThereOnceAsync(session, history);
        var planned = history.Pickups.ToDictionary(pickup => pickup.Id);
        Assert.All(await session.Query<Pickup>().ToListAsync(Cancel), pickup => Assert.Equal(planned[pickup.Id].SubmittedAt, pickup.SubmittedAt, TimeSpan.FromMilliseconds(1)));

        // Whatever had three weeks has arrived, and each of its units is accounted for.
        var old = (await session.Query<Pickup>().ToListAsync(Cancel)).Where(pickup => pickup.SubmittedAt < load.StartedAt.AddDays(-21)).ToArray();
        Assert.NotEmpty(old);
        Assert.All(old, pickup => Assert.Equal(pickup.Declaration.HandlingUnits.Sum(unit => unit.Quantity), pickup.Outcome!.Units.Sum(unit => unit.Count)));
        Assert.Contains(old, pickup => !pickup.Outcome!.IsClean);

        var holds = await session.Query<Hold>().ToListAsync(Cancel);
        Assert.All(holds, hold => Assert.Equal(planned[hold.Placed.PickupId].Fate == PickupFate.Waits, hold.IsOpen));
        Assert.All(holds.Where(hold => !hold.IsOpen), hold =>
        {
            Assert.InRange(hold.Decided!.At, hold.Placed.At, load.StartedAt);
            Assert.Contains(Small.ReviewersAt(hold.Placed.Pickup.TerminalId), reviewer => reviewer.Actor == hold.Decided.By);
        });
        // What was to be rebuilt has been, and waits for nobody.
        Assert.DoesNotContain(holds, hold => hold.AwaitsInspection);
        Assert.Contains(holds, hold => hold is { Decisions.Count: 2, Inspections.Count: 1, Decided.Decision: HoldDecision.Release });
        Assert.True(holds.Select(hold => hold.Decided?.Decision).OfType<HoldDecision>().Distinct().Count() >= 3);

        // What is new goes the way of all pickups: no job runs on this node, so its follow-up is still due.
        var fresh = history.Pickups.Where(pickup => pickup.Fate == PickupFate.New).Select(pickup => pickup.Id).ToArray();
        Assert.NotEmpty(fresh);
        var due = await session.Query<FollowUp>().Where(followUp => followUp.DoneAt == null).Select(followUp => followUp.Id).ToListAsync(Cancel);
        Assert.Equal(fresh.Order(), due.Order());
        Assert.All(await session.Query<Notice>().ToListAsync(Cancel), notice => Assert.Equal(NoticeState.NotSent, notice.State));
        Assert.Equal(fresh.Length, await CountAsync(connection, "select count(*) from hangfire.job"));
    }

    [Fact]
    public async Task Loading_again_and_on_two_nodes_at_once_makes_nothing_twice()
    {
        var connection = await DemoNode.DatabaseAsync();
        await using var first = DemoNode.On(connection, Small);
        await using var second = DemoNode.On(connection, Small);

        await Task.WhenAll(first.LoadAsync(), second.LoadAsync());
        var events = await CountAsync(connection, "select count(*) from fettle.mt_events");
        await second.LoadAsync();

        Assert.Equal(events, await CountAsync(connection, "select count(*) from fettle.mt_events"));
        await using var session = first.Store.QuerySession();
        var load = Assert.Single(await session.Query<DemoLoad>().ToListAsync(Cancel));
        await AssertIsThereOnceAsync(session, History.Of(Small, load.StartedAt));
    }

    [Fact]
    public async Task A_load_that_was_cut_off_is_completed_by_the_next_start()
    {
        var connection = await DemoNode.DatabaseAsync();
        long cutAt;
        await using (var killed = DemoNode.On(connection, Small))
        {
            await killed.Parties.SettleAsync(Cancel);
            using var kill = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
            var running = killed.History.RunAsync(kill.Token);
            while (await CountAsync(connection, "select count(*) from fettle.mt_doc_pickup") < 20)
                await Task.Delay(1, Cancel);
            await kill.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
            cutAt = await CountAsync(connection, "select count(*) from fettle.mt_doc_pickup");
        }

        await using var next = DemoNode.On(connection, Small);
        await using var session = next.Store.QuerySession();
        var load = (await session.LoadAsync<DemoLoad>(DemoLoad.OnlyId, Cancel))!;
        var history = History.Of(Small, load.StartedAt);
        Assert.Null(load.FinishedAt);
        Assert.InRange(cutAt, 20, history.Pickups.Count - 1);

        await next.LoadAsync();

        await AssertIsThereOnceAsync(session, history);
        Assert.NotNull((await session.Query<DemoLoad>().SingleAsync(Cancel)).FinishedAt);
    }

    [Fact]
    public async Task A_load_that_was_cut_off_between_a_hold_and_its_decision_decides_it_later()
    {
        await using var node = DemoNode.On(await DemoNode.DatabaseAsync(), Small);
        var (load, _) = (await node.Parties.SettleAsync(Cancel))!.Value;
        var planned = History.Of(Small, load.StartedAt).Pickups.First(pickup => pickup is { Fate: PickupFate.Decided, ExceptionRequest: not null });
        var header = Heading.Of(planned.Form, planned.Number, planned.Shipper.Party(), [.. planned.Shipper.Party().Sites.Select(site => site.Id)], [.. Small.Carriers.Select(carrier => carrier.Party())], new Dictionary<string, string>())!;
        var draft = new Draft { Id = planned.Id, Number = planned.Number, ShipperId = header.ShipperId, SiteId = header.SiteId, Form = planned.Form, ChangedBy = planned.Clerk.Actor, ChangedAt = planned.SubmittedAt };
        await using var session = node.Store.QuerySession();
        var parties = await PickupParties.LoadAsync(session, header, Cancel);
        await node.Get<Submission>().RecordAsync(
            draft,
            header,
            Reading.Of(planned.Form).Readable!,
            planned.ExceptionRequest,
            planned.Clerk.Actor,
            planned.SubmittedAt,
            (saving, pickup) => FollowUpJob.Write(saving, pickup, parties, RuleSet.BuiltIn.Hold, planned.SubmittedAt, NoticeState.NotSent),
            Cancel);
        Assert.True(await session.Query<Hold>().AnyAsync(hold => hold.Placed.PickupId == planned.Id && hold.IsOpen, Cancel));

        await node.History.RunAsync(Cancel);

        var holds = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == planned.Id).ToListAsync(Cancel);
        Assert.NotEmpty(holds);
        Assert.All(holds, hold => Assert.False(hold.IsOpen));
    }

    [Fact]
    public async Task Everyone_signs_in_with_the_password_that_is_printed_and_sees_what_the_data_says()
    {
        await using var node = DemoNode.On(await DemoNode.DatabaseAsync(), Small);
        await node.Parties.SettleAsync(Cancel);

        foreach (var person in Small.People.People)
        {
            var user = (await node.FindUserAsync(person.UserName))!;
            Assert.True(user.Demo);
            Assert.Equal(person.Name, user.Name);
            Assert.Equivalent(Small.RightsOf(person.Rights), user.Rights, strict: true);
        }

        // One of each role: checking a password is slow on purpose.
        foreach (var person in Small.People.People.DistinctBy(person => person.Rights.Role))
            Assert.True(await node.CheckPasswordAsync((await node.FindUserAsync(person.UserName))!, Small.People.Password));
    }

    [Fact]
    public async Task A_key_that_was_not_set_is_told_once_and_works()
    {
        await using var node = DemoNode.On(await DemoNode.DatabaseAsync(), Small);

        var first = (await node.Parties.SettleAsync(Cancel))!.Value.Keys;
        var later = (await node.Parties.SettleAsync(Cancel))!.Value.Keys;

        Assert.Equal(3, first.Count);
        foreach (var told in first)
            Assert.Equivalent(Small.RightsOf(told.Key.Rights), (await node.Get<ApiKeys>().FindAsync(told.Plain!, Cancel))!.Rights, strict: true);
        Assert.All(later, told => Assert.Null(told.Plain));
        Assert.Equal(3, (await node.Get<ApiKeys>().ListAsync(Cancel)).Count);
    }

    [Fact]
    public async Task A_key_that_was_set_is_told_at_every_start_and_one_too_short_is_not_used()
    {
        var settings = new DemoSettings { ShipperKey = "bramblewick-warehouse-key", TerminalKey = "too short" };
        await using var node = DemoNode.On(await DemoNode.DatabaseAsync(), Small, settings);

        for (var start = 0; start < 2; start++)
        {
            var told = (await node.Parties.SettleAsync(Cancel))!.Value.Keys.ToDictionary(key => key.Setting, key => key.Plain);
            Assert.Equal(settings.ShipperKey, told[nameof(DemoSettings.ShipperKey)]);
            Assert.DoesNotContain(nameof(DemoSettings.TerminalKey), told.Keys);
        }

        Assert.Equal(Role.ShipperClerk, (await node.Get<ApiKeys>().FindAsync(settings.ShipperKey, Cancel))!.Rights.Role);
        Assert.Null(await node.Get<ApiKeys>().FindAsync(settings.TerminalKey, Cancel));
        Assert.Equal(2, (await node.Get<ApiKeys>().ListAsync(Cancel)).Count);
    }

    [Fact]
    public async Task A_key_that_was_set_and_then_revoked_stays_revoked_and_stops_no_start()
    {
        var settings = new DemoSettings { AccountKey = "larkspur-rates-system-key" };
        await using var node = DemoNode.On(await DemoNode.DatabaseAsync(), Small, settings);
        await node.Parties.SettleAsync(Cancel);
        var keys = node.Get<ApiKeys>();
        await keys.RevokeAsync((await keys.FindAsync(settings.AccountKey, Cancel))!.Id, Small.People.People[0].Actor, Cancel);

        var told = (await node.Parties.SettleAsync(Cancel))!.Value.Keys;

        Assert.DoesNotContain(told, key => key.Setting == nameof(DemoSettings.AccountKey));
        Assert.Null(await keys.FindAsync(settings.AccountKey, Cancel));
    }

    [Fact]
    public async Task A_database_with_shippers_of_its_own_is_left_alone()
    {
        await using var node = DemoNode.On(await DemoNode.DatabaseAsync(), Small);
        await using (var session = node.Store.LightweightSession())
        {
            session.Store(new Shipper { Id = Guid.CreateVersion7(), Name = "Somebody's own", Email = "dock@own.example", Sites = [] });
            await session.SaveChangesAsync(Cancel);
        }

        Assert.Null(await node.Parties.SettleAsync(Cancel));
        await node.History.RunAsync(Cancel);

        await using var after = node.Store.QuerySession();
        Assert.Equal(1, await after.Query<Shipper>().CountAsync(Cancel));
        Assert.Equal(0, await after.Query<User>().CountAsync(Cancel));
        Assert.Equal(0, await after.Query<Pickup>().CountAsync(Cancel));
        Assert.Empty(await node.Get<ApiKeys>().ListAsync(Cancel));
    }

    [Fact]
    public async Task A_portal_without_the_demo_has_none_of_its_people()
    {
        await using var portal = await Portal.StartAsync(runsJobs: false);
        await using var scope = portal.Services.CreateAsyncScope();

        Assert.Empty(await scope.ServiceProvider.GetRequiredService<UserDirectory>().ListDemoAsync(Cancel));
        Assert.Empty(portal.Services.GetServices<Microsoft.Extensions.Hosting.IHostedService>().OfType<DemoLoader>());
        Assert.Null(portal.Services.GetService<Scenario>());
    }

    [Theory]
    [InlineData(null, true, true)]
    [InlineData(null, false, false)]
    [InlineData(true, false, true)]
    [InlineData(false, true, false)]
    public void The_demo_is_loaded_on_a_private_server_unless_told_otherwise(bool? load, bool isPrivate, bool loads)
    {
        var services = new ServiceCollection().AddDemo(new Settings { Demo = new() { Load = load } }, isPrivate);

        Assert.Equal(loads, services.Any(service => service.ImplementationType == typeof(DemoLoader)));
    }

    /// <summary>Everything planned is stored, once, and nothing besides; no job has run.</summary>
    private static async Task AssertIsThereOnceAsync(IQuerySession session, History history)
    {
        Assert.Equal(Small.Carriers.Select(carrier => carrier.Id).Order(), (await session.Query<Carrier>().Select(carrier => carrier.Id).ToListAsync(Cancel)).Order());
        Assert.Equal(Small.Shippers.Select(shipper => shipper.Id).Order(), (await session.Query<Shipper>().Select(shipper => shipper.Id).ToListAsync(Cancel)).Order());
        Assert.Equal(Small.People.People.Select(person => person.Id).Order(), (await session.Query<User>().Select(user => user.Id).ToListAsync(Cancel)).Order());
        Assert.Equal(Small.People.ApiKeys.Count, await session.Query<ApiKey>().CountAsync(Cancel));

        Assert.Equal(history.Pickups.Select(pickup => pickup.Id).Order(), (await session.Query<Pickup>().Select(pickup => pickup.Id).ToListAsync(Cancel)).Order());
        Assert.Equal(history.Pickups.Sum(pickup => pickup.Form.HandlingUnits.Count), await session.Query<LineRecord>().CountAsync(Cancel));
        Assert.Equal(history.Drafts.Select(draft => draft.Id).Order(), (await session.Query<Draft>().Where(draft => draft.SubmittedAt == null).Select(draft => draft.Id).ToListAsync(Cancel)).Order());
        Assert.Equal(history.Pickups.Count + history.Drafts.Count, await session.Query<Draft>().CountAsync(Cancel));

        var followed = history.Pickups.Where(pickup => pickup.Fate != PickupFate.New).ToArray();
        var held = (await session.Query<Pickup>().ToListAsync(Cancel))
            .IntersectBy(followed.Select(pickup => pickup.Id), pickup => pickup.Id)
            .Sum(pickup => pickup.Units.Count(unit => unit.Verdict == Readiness.Findings.Verdict.Hold));
        var holds = await session.Query<Hold>().ToListAsync(Cancel);
        Assert.Equal(held, holds.Count);
        Assert.Equal(followed.Length * 2 + holds.Sum(hold => hold.Decisions.Count), await session.Query<Notice>().CountAsync(notice => notice.OutcomeId == null && notice.VisitId == null && notice.ClaimId == null, Cancel));
        Assert.Equal(history.Pickups.Count, await session.Query<FollowUp>().CountAsync(Cancel));

        // Each claim is filed once and has come as far as its time allows.
        var harmed = (await session.Query<Pickup>().ToListAsync(Cancel)).Where(pickup => pickup.Outcome is { IsClean: false }).ToArray();
        Assert.NotEmpty(harmed.SelectMany(pickup => pickup.Claims));
        var now = DateTimeOffset.UtcNow;
        Assert.All(harmed, pickup =>
        {
            var planned = DemoClaim.Of(pickup, pickup.Outcome!) is { } claim && claim.FiledAt < now ? claim : null;
            Assert.Equal(planned is null ? [] : (int[])[1 + planned.Steps.Count(step => step.At < now)], pickup.Claims.Select(claim => claim.Revision));
        });
    }

    private static async Task<long> CountAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync(Cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        return (long)(await command.ExecuteScalarAsync(Cancel))!;
    }
}
