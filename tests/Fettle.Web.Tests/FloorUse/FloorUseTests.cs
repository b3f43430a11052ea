using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Fettle.Engineering.TrailerFloor;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Scorecards;
using Fettle.Testing;
using Fettle.Web.Demo;
using Fettle.Web.FloorPlans;
using Fettle.Web.FloorUse;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using static Fettle.Testing.AccountHistory;

namespace Fettle.Web.Tests.FloorUse;

/// <summary>What pickups take of trailers: planned once in the background, added up for those who may see it.</summary>
public sealed class FloorUseTests(SharedPortal shared) : IAsyncLifetime
{
    private static readonly DateTimeOffset Now = DateTimeOffset.UtcNow;

    private readonly Guid carrier = Guid.CreateVersion7();
    private readonly Guid otherCarrier = Guid.CreateVersion7();
    private readonly Shipper shipper = new() { Id = Guid.CreateVersion7(), Name = "Finch Pantry", Email = "x@fettle.example", Sites = [] };
    private readonly List<Told> told = [];
    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        portal = await shared.PortalAsync();
        await using var session = portal.Store.LightweightSession();
        session.Store(shipper with { Sites = [new(SiteOf(shipper.Id, 0), "Kiln Road dock", "4 Kiln Road", "America/Chicago")] });
        session.Store(
            new Carrier { Id = carrier, Name = "Larkspur", Terminals = [new(TerminalOf(carrier, 0), "Millbrook", "1 Mill Lane", "m@fettle.example", "America/Chicago")] },
            new Carrier { Id = otherCarrier, Name = "Heronway", Terminals = [new(TerminalOf(otherCarrier, 0), "Reedham", "2 Reed Bank", "r@fettle.example", "America/Denver")] });
        await session.SaveChangesAsync();
        told.AddRange(
        [
            One(carrier, shipper.Id, Now.AddDays(-15), BuiltAs.Sound, 8),
            One(carrier, shipper.Id, Now.AddDays(-15), BuiltAs.NotStackable, 6),
            One(carrier, shipper.Id, Now.AddDays(-29), BuiltAs.Sound, 4, 3),
            One(otherCarrier, shipper.Id, Now.AddDays(-15), BuiltAs.Sound, 20),
        ]);
        await AppendAsync(portal.Store, told, CancellationToken.None);
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Fact]
    public async Task What_is_not_planned_yet_is_said_and_then_the_figures_are_those_of_the_plans()
    {
        var manager = await portal.ApiAsync(Rights.AccountManager(carrier, shipper.Id));
        var before = await manager.ReadAsync(Path);
        Assert.Equal((HttpStatusCode.OK, "3", "0"), (before.Status, before.Json.At("waiting"), before.Json.At("worth.pickups")));

        await PlanAsync();
        var after = await manager.ReadAsync(Path);

        FloorTaken[] taken = [.. told.Take(3).Select(Taken)];
        Assert.Equal(("0", "3"), (after.Json.At("waiting"), after.Json.At("worth.pickups")));
        Assert.Equal(taken.Sum(t => t.Flat.Feet), Number(after.Json, "worth.linearFeet.flat"), .002);
        Assert.Equal(taken.Sum(t => t.Stacked.Feet), Number(after.Json, "worth.linearFeet.stacked"), .002);
        Assert.Equal(taken.Sum(t => t.Decked.Feet), Number(after.Json, "worth.linearFeet.decked"), .002);
        // Four rows of eight pallets become two, and what is not declared stackable saves nothing.
        Assert.True(taken[0].SavedByStacking.Feet > 5);
        Assert.Equal(0, taken[1].SavedByStacking.Feet);
        // Weeks from the one with the first pickup to the last that is over.
        var weeks = after.Json["weeks"]!.AsArray();
        Assert.Equal(Weeks.Of(DateOnly.FromDateTime(Now.AddDays(-29).UtcDateTime)).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), (string?)weeks[0]!["monday"]);
        Assert.Equal(taken.Sum(t => t.SavedByStacking.Feet), weeks.Sum(week => (double)week!["linearFeet"]!["flat"]! - (double)week["linearFeet"]!["stacked"]!), .01);
        // 420 miles each, $2.50 a mile, a third of a year's weeks are not guessed but counted.
        var money = taken.Sum(t => t.SavedByStacking.Feet) / 53 * 420 * 2.5 / weeks.Count * 365.2425 / 7;
        Assert.Equal(money, Number(after.Json, "worth.moneyAYear"), .02);
        Assert.Equal(money * .3, Number(after.Json, "worth.offeredAYear"), .02);
        Assert.Equal(("2.50", "0.3"), (after.Json.At("costPerTrailerMile"), after.Json.At("shareOffered")));
    }

    [Fact]
    public async Task Each_sees_their_own_and_the_shipper_all_its_carriers()
    {
        await PlanAsync();
        var dock = SiteOf(shipper.Id, 0);
        foreach (var (rights, pickups) in (List<(Rights, string?)>)
        [
            (Rights.AccountManager(carrier, shipper.Id), "3"),
            (Rights.AccountManager(otherCarrier, shipper.Id), "1"),
            (Rights.AccountManager(carrier, Guid.CreateVersion7()), null),
            (Rights.ShipperClerk(shipper.Id, dock), "4"),
            (Rights.ShipperClerk(shipper.Id, Guid.CreateVersion7()), "0"),
            (Rights.ShipperClerk(Guid.CreateVersion7(), dock), null),
            (Rights.TerminalReviewer(carrier, TerminalOf(carrier, 0)), null),
            (Rights.Administrator(null), null),
        ])
        {
            var answer = await (await portal.ApiAsync(rights)).ReadAsync(Path);
            Assert.Equal(pickups is null ? HttpStatusCode.NotFound : HttpStatusCode.OK, answer.Status);
            Assert.Equal(pickups, pickups is null ? null : answer.Json.At("worth.pickups"));
        }
    }

    [Theory]
    [InlineData("?months=5")]
    [InlineData("?months=lots")]
    public async Task Months_that_cannot_be_are_refused(string query) =>
        Assert.Equal(HttpStatusCode.BadRequest, (await (await portal.ApiAsync(Rights.AccountManager(carrier, shipper.Id))).ReadAsync(Path + query)).Status);

    [Fact]
    public async Task Planning_again_changes_nothing()
    {
        await PlanAsync();
        await using var session = portal.Store.QuerySession();
        var first = await session.LoadAsync<PickupFloorUse>(told[0].Submitted.PickupId);
        await PlanAsync();
        await using var later = portal.Store.QuerySession();

        Assert.Equal(first, await later.LoadAsync<PickupFloorUse>(told[0].Submitted.PickupId));
        Assert.Equal(Taken(told[0]), first!.Taken);
    }

    [Fact]
    public async Task What_an_earlier_way_planned_is_in_no_figure_and_planned_again()
    {
        await PlanAsync();
        var first = told[0].Submitted.PickupId;
        await using (var session = portal.Store.LightweightSession())
        {
            session.Store((await session.LoadAsync<PickupFloorUse>(first))! with { Method = PickupFloorUse.CurrentMethod - 1 });
            await session.SaveChangesAsync();
        }

        var manager = await portal.ApiAsync(Rights.AccountManager(carrier, shipper.Id));
        var stale = await manager.ReadAsync(Path);
        Assert.Equal(("1", "2"), (stale.Json.At("waiting"), stale.Json.At("worth.pickups")));

        await portal.Services.GetRequiredService<FloorUseJob>().PlanAsync(first, CancellationToken.None);
        var again = await manager.ReadAsync(Path);
        Assert.Equal(("0", "3"), (again.Json.At("waiting"), again.Json.At("worth.pickups")));
    }

    [Fact]
    public async Task The_page_says_what_is_taken_for_granted_beside_the_money()
    {
        await PlanAsync();
        var name = $"W{Guid.CreateVersion7():N}";
        await portal.AddUserAsync($"{name} Manager", Rights.AccountManager(carrier, shipper.Id));
        var browser = await shared.PersonAsync(name.ToLowerInvariant());

        var page = await (await browser.GetAsync($"/accounts/{shipper.Id}/worth")).PageAsync();

        var section = page.QuerySelector("#worth-of-stacking")!;
        Assert.Contains("$2.50 for a mile of a whole trailer (a round figure of ours, no source", section.TextContent);
        Assert.Contains("Middle week (median)", section.TextContent);
        Assert.NotNull(section.QuerySelector("figure svg[role=img] title"));
        Assert.NotNull(section.QuerySelector($"a[href^='/accounts/{shipper.Id}/negotiation.pdf']"));
        Assert.Contains("by the carrier's tariff", section.QuerySelector(".care")!.TextContent);
        Assert.Equal(HttpStatusCode.NotFound, (await (await shared.PersonAsync("mona")).GetAsync($"/accounts/{shipper.Id}/worth")).Status);
    }

    [Fact]
    public async Task A_portal_of_its_own_has_all_its_pickups_planned_by_the_job_once()
    {
        await using var own = await Portal.StartAsync(runsJobs: false);
        await AppendAsync(own.Store, [One(carrier, shipper.Id, Now.AddDays(-15), BuiltAs.Sound, 8), One(carrier, shipper.Id, Now.AddDays(-3), BuiltAs.Sound, 201)], CancellationToken.None);
        var job = own.Services.GetRequiredService<FloorUseJob>();
        var loading = new DemoLoad { StartedAt = Now };
        await StoreAsync(loading);

        // Not while the demo's year is being loaded.
        Assert.Equal(0, await job.RunAsync(CancellationToken.None));
        await StoreAsync(loading with { FinishedAt = Now });
        Assert.Equal(2, await job.RunAsync(CancellationToken.None));
        Assert.Equal(0, await job.RunAsync(CancellationToken.None));

        await using var session = own.Store.QuerySession();
        var uses = await session.Query<PickupFloorUse>().ToListAsync();
        Assert.All(uses, use => Assert.Equal(PickupFloorUse.CurrentMethod, use.Method));
        // More units than are planned at once: told, and in no figure.
        Assert.Equal([8, 201], uses.Select(use => use.Units).Order());
        Assert.Null(uses.Single(use => use.Units == 201).Taken);

        // What an earlier way planned is planned again.
        await StoreAsync(uses[0] with { Method = PickupFloorUse.CurrentMethod - 1 });
        Assert.Equal(1, await job.RunAsync(CancellationToken.None));

        async Task StoreAsync<T>(T document)
            where T : notnull
        {
            await using var saving = own.Store.LightweightSession();
            saving.Store(document);
            await saving.SaveChangesAsync();
        }
    }

    private string Path => $"/api/v1/accounts/{shipper.Id}/floor-use";

    private async Task PlanAsync()
    {
        var job = portal.Services.GetRequiredService<FloorUseJob>();
        foreach (var one in told)
            await job.PlanAsync(one.Submitted.PickupId, CancellationToken.None);
    }

    private static FloorTaken Taken(Told told)
    {
        var pickup = Pickup.Evolve(null, told.Submitted)!;
        LoadUnits[] units = [.. pickup.Declaration.HandlingUnits.Zip(pickup.Units, DeclaredLoad.Of)];
        return FloorTaken.Of(units, Trailer.Van53)!;
    }

    private static double Number(JsonNode json, string path) => double.Parse(json.At(path)!, System.Globalization.CultureInfo.InvariantCulture);
}
