using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Boards;
using Fettle.Web.Declarations;
using Fettle.Web.Holds;
using Fettle.Web.Tests.Identity;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Caller = Fettle.Web.Identity.Caller;

namespace Fettle.Web.Tests.Boards;

public sealed class BoardTests(SharedPortal shared)
{
    [Fact]
    public async Task The_counts_are_those_of_the_lists_for_every_filter()
    {
        var portal = await shared.PortalAsync();
        await shared.HeldAsync();
        await FragileAsync();
        var here = await TodayAsync();
        await (await shared.ReviewerAsync()).PostAsync($"/api/v1/pickups/{here}/arrival", new JsonObject());
        await TodayAsync();
        var desk = portal.Services.GetRequiredService<BoardDesk>();
        var caller = new Caller(Guid.Empty, "Rita Reviewer", portal.Parties.Reviewer);
        var seen = 0;
        foreach (var column in Enum.GetValues<BoardColumn>())
        foreach (var shipper in (Guid?[])[null, portal.Parties.Shipper.Id, portal.Parties.OtherShipper.Id, Guid.CreateVersion7()])
        foreach (var reason in (string?[])[null, "overhang", "wrap-turns", "regulated"])
        foreach (var age in (int?[])[null, 4])
        foreach (var urgency in (BoardUrgency?[])[null, .. Enum.GetValues<BoardUrgency>()])
        {
            var filter = new BoardFilter(column, shipper, reason, age, urgency, 1);
            var view = await desk.ReadAsync(caller, filter, CancellationToken.None);
            var rows = new HashSet<Guid>();
            for (var page = 1; page <= view.Pages; page++)
            {
                var part = page == 1 ? view : await desk.ReadAsync(caller, filter with { Page = page }, CancellationToken.None);
                rows.UnionWith(part.Held.Select(unit => unit.Id).Concat(part.Pickups.Select(pickup => pickup.Id)));
            }

            // Other tests work beside this one: what is compared are two readings of one moment only when nothing came between.
            if (view.Counts[column] != rows.Count)
                Assert.Equal((await desk.ReadAsync(caller, filter, CancellationToken.None)).Counts[column], rows.Count);
            seen += rows.Count;
        }

        Assert.True(seen > 20, $"{seen} rows");
    }

    [Fact]
    public async Task A_reviewer_sees_what_is_held_at_their_terminal_and_nothing_else()
    {
        var hold = (await shared.HeldAsync())[0];

        Assert.Contains(hold.Placed.Number, await FindAsync("rita", hold));
        Assert.DoesNotContain(hold.Placed.Number, await FindAsync("otto", hold));
    }

    [Fact]
    public async Task The_filter_offers_the_shippers_whose_freight_is_on_the_board_and_no_others()
    {
        var hold = (await shared.HeldAsync())[0];
        var portal = await shared.PortalAsync();
        var stranger = portal.Parties.Shipper with { Id = Guid.CreateVersion7(), Name = "Tallow Lane Candles" };
        await using (var session = portal.Store.LightweightSession())
        {
            session.Store(stranger);
            await session.SaveChangesAsync();
        }

        var offered = (await (await (await shared.PersonAsync("rita")).GetAsync("/board?column=expected")).PageAsync()).QuerySelectorAll("#b-shipper option").Select(option => option.GetAttribute("value")).ToArray();

        Assert.Contains(hold.Placed.Pickup.ShipperId.ToString(), offered);
        Assert.DoesNotContain(stranger.Id.ToString(), offered);
    }

    [Fact]
    public async Task What_is_expected_today_is_on_the_floor_once_somebody_pressed_that_it_is_here()
    {
        var id = await TodayAsync();
        var number = (await (await shared.ClerkAsync()).ReadAsync($"/api/v1/pickups/{id}")).Json.At("number")!;
        var rita = await shared.PersonAsync("rita");
        var page = await (await rita.GetAsync("/board?column=expected")).PageAsync();
        Assert.Contains(number, await AllAsync(rita, "expected"));
        var token = ((IHtmlInputElement)page.QuerySelector("input[name=__RequestVerificationToken]")!).Value;

        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => rita.PostAsync($"/board/arrivals/{id}", [("__RequestVerificationToken", token), ("from", "/board?column=expected")])));

        Assert.All(answers, answer => Assert.Equal("/board?column=expected", answer.Location));
        Assert.DoesNotContain(number, await AllAsync(rita, "expected"));
        Assert.Contains(number, await AllAsync(rita, "floor"));
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        Assert.Single((await session.Events.FetchStreamAsync(id)).Select(e => e.Data).OfType<FreightArrived>());
    }

    [Fact]
    public async Task What_nobody_saw_is_looked_for_three_days_more()
    {
        var (id, seen) = (await TodayAsync(), await TodayAsync());
        await (await shared.ReviewerAsync()).PostAsync($"/api/v1/pickups/{seen}/arrival", new JsonObject());
        var portal = await shared.PortalAsync();
        var caller = new Caller(Guid.Empty, "Rita Reviewer", portal.Parties.Reviewer);

        Assert.Equal(["expected", "unseen", "unseen", ""], [await WhereAsync(id, 0), await WhereAsync(id, 1), await WhereAsync(id, 3), await WhereAsync(id, 5)]);
        Assert.Equal(["floor", "floor"], [await WhereAsync(seen, 0), await WhereAsync(seen, 1)]);

        // The columns that a pickup is in so many days after its window ended.
        async Task<string> WhereAsync(Guid pickup, int days)
        {
            await using var session = portal.Store.QuerySession();
            var ended = (await session.LoadAsync<DockPickup>(pickup))!.WindowTo;
            var desk = new BoardDesk(portal.Store, new FakeTimeProvider(ended.AddDays(days)));
            var columns = new List<string>();
            foreach (var column in Enum.GetValues<BoardColumn>().Where(column => !BoardDesk.IsOfHolds(column)))
            {
                var filter = new BoardFilter(column, portal.Parties.Shipper.Id, null, null, null, 1);
                var pages = (await desk.ReadAsync(caller, filter, CancellationToken.None)).Pages;
                for (var page = 1; page <= pages; page++)
                {
                    if ((await desk.ReadAsync(caller, filter with { Page = page }, CancellationToken.None)).Pickups.Any(row => row.Id == pickup))
                        columns.Add(column.Word());
                }
            }

            return string.Join(' ', columns);
        }
    }

    [Theory]
    [InlineData("https://elsewhere.example/")]
    [InlineData("//elsewhere.example")]
    [InlineData("/boards")]
    [InlineData("")]
    public async Task After_a_press_the_way_leads_back_to_the_board_and_nowhere_else(string from)
    {
        var id = await TodayAsync();
        var rita = await shared.PersonAsync("rita");
        var token = ((IHtmlInputElement)(await (await rita.GetAsync("/board")).PageAsync()).QuerySelector("input[name=__RequestVerificationToken]")!).Value;

        Assert.Equal("/board", (await rita.PostAsync($"/board/arrivals/{id}", [("__RequestVerificationToken", token), ("from", from)])).Location);
    }

    [Fact]
    public async Task Holds_that_are_alike_are_decided_together_and_the_page_tells_what_happened_to_each()
    {
        var (first, second, third) = ((await shared.HeldAsync())[0], (await shared.HeldAsync())[0], (await shared.HeldAsync())[0]);
        await (await shared.ReviewerAsync()).PostAsync($"/api/v1/holds/{second.Id}/decisions", new JsonObject { ["decision"] = "return", ["reason"] = "It leans." });

        var answer = await TogetherAsync([first.Id, second.Id, third.Id, Guid.CreateVersion7()], ("decision", "rework"), ("reason", "Wrap all of them again."));

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        var page = await answer.PageAsync();
        Assert.Contains("2 of 4 decided", page.QuerySelector(".notice[role=status]")!.TextContent);
        var rows = page.QuerySelectorAll("tbody tr").ToDictionary(row => row.QuerySelector("a")!.TextContent, row => row.TextContent);
        Assert.Contains("Already decided", rows[second.Placed.Number]);
        Assert.Contains("It leans.", rows[second.Placed.Number]);
        Assert.DoesNotContain("Already", rows[first.Placed.Number]);
        Assert.Equal(HoldDecision.Rework, (await LoadAsync(third)).Decided!.Decision);
        Assert.Equal(HoldDecision.Return, (await LoadAsync(second)).Decided!.Decision);
    }

    [Fact]
    public async Task Holds_that_differ_are_not_decided_together_and_what_was_written_is_kept()
    {
        var (one, other) = ((await shared.HeldAsync())[0], await FragileAsync());

        var answer = await TogetherAsync([one.Id, other.Id], ("decision", "release"), ("reason", "Seen on the floor."));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Contains("alike", page.QuerySelector("[role=alert]")!.TextContent);
        Assert.Equal("Seen on the floor.", ((IHtmlTextAreaElement)page.QuerySelector("textarea[name=reason]")!).Value);
        Assert.True((await LoadAsync(one)).IsOpen && (await LoadAsync(other)).IsOpen);
    }

    [Fact]
    public async Task Nothing_ticked_or_no_reason_decides_nothing()
    {
        var hold = (await shared.HeldAsync())[0];

        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TogetherAsync([], ("decision", "release"), ("reason", "Seen on the floor."))).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TogetherAsync([hold.Id], ("decision", "release"), ("reason", ""))).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TogetherAsync([hold.Id], ("decision", "shred"), ("reason", "Seen on the floor."))).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await TogetherAsync([hold.Id], ("decision", "release-as-exception"), ("reason", "Seen on the floor."))).Status);
        Assert.True((await LoadAsync(hold)).IsOpen);
    }

    [Theory]
    [InlineData("column=nonsense&reason=nothing&age=7&urgency=never&page=-4")]
    [InlineData("column=held&shipper=not-an-id&page=999999999")]
    [InlineData("column=overdue&page=99999999999999999999")]
    [InlineData("column=expected&urgency=space&age=72&reason=overhang")]
    public async Task A_filter_that_means_nothing_still_shows_a_board(string query)
    {
        var answer = await (await shared.PersonAsync("rita")).GetAsync($"/board?{query}");

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal(Enum.GetValues<BoardColumn>().Length, (await answer.PageAsync()).QuerySelectorAll(".board__count").Length);
    }

    [Fact]
    public async Task The_part_that_renews_itself_asks_for_the_same_filter_again()
    {
        var part = await (await (await shared.PersonAsync("rita")).GetAsync("/board/list?column=held&reason=overhang&age=4")).PageAsync();

        Assert.Equal("/board/list?column=held&reason=overhang&age=4", part.QuerySelector("#board")!.GetAttribute("hx-get"));
        Assert.Null(part.QuerySelector("h1"));
    }

    [Fact]
    public async Task The_boards_row_says_the_same_as_the_hold_whatever_happened()
    {
        var hold = (await shared.HeldAsync())[0];
        var (clerk, reviewer) = (await shared.ClerkAsync(), await shared.ReviewerAsync());
        await SameAsync();
        await clerk.PostAsync($"/api/v1/holds/{hold.Id}/messages", new JsonObject { ["text"] = "Good morning." });
        await SameAsync();
        await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "rework", ["reason"] = "Wrap it again." });
        await SameAsync();
        var first = (await LoadAsync(hold)).Decided!.DecisionId;
        await reviewer.PostAsync($"/api/v1/holds/{hold.Id}/decisions", new JsonObject { ["decision"] = "release", ["reason"] = "It stands now.", ["supersedes"] = first.ToString() });
        Assert.False((await SameAsync()).Waits);

        async Task<HeldUnit> SameAsync()
        {
            var state = await LoadAsync(hold);
            await using var session = (await shared.PortalAsync()).Store.QuerySession();
            var unit = (await session.LoadAsync<HeldUnit>(hold.Id))!;
            Assert.Equal((state.Turn, state.IsOpen, state.Decided?.Decision, state.Turn?.Side), (unit.Turn, unit.IsOpen, unit.Decision, unit.WaitsFor));
            Assert.Equal(state.FoundNow().Where(finding => finding.Severity == Readiness.Findings.Severity.Stop).Select(finding => finding.Code).Distinct().Order(StringComparer.Ordinal), unit.Stops);
            return unit;
        }
    }

    private async Task<string> FindAsync(string who, Hold hold)
    {
        var browser = await shared.PersonAsync(who);
        var text = "";
        for (var page = 1; page <= 20 && !text.Contains(hold.Placed.Number, StringComparison.Ordinal); page++)
            text += (await browser.GetAsync($"/board?column=held&shipper={hold.Placed.Pickup.ShipperId}&page={page.ToString(CultureInfo.InvariantCulture)}")).Text;
        return text;
    }

    private static async Task<string> AllAsync(Browser browser, string column)
    {
        var text = "";
        for (var page = 1; page <= 20; page++)
        {
            var answer = await (await browser.GetAsync($"/board?column={column}&page={page.ToString(CultureInfo.InvariantCulture)}")).PageAsync();
            text += answer.QuerySelector(".board__table")?.TextContent;
            if (answer.QuerySelector("#page-after") is null)
                break;
        }

        return text;
    }

    private async Task<Answer> TogetherAsync(Guid[] holds, params (string, string)[] fields)
    {
        var rita = await shared.PersonAsync("rita");
        var token = ((IHtmlInputElement)(await (await rita.GetAsync("/board")).PageAsync()).QuerySelector("input[name=__RequestVerificationToken]")!).Value;
        return await rita.PostAsync("/board/decisions", [("__RequestVerificationToken", token), .. holds.Select(id => ("holds", id.ToString())), .. fields]);
    }

    private async Task<Hold> FragileAsync()
    {
        var body = Freight.Troubled().AsPickup(DateTimeOffset.UtcNow);
        body["handlingUnits"]![0]!["fragile"] = "glass";
        return (await HeldAsync(body))[0];
    }

    /// <summary>A pickup whose window is now.</summary>
    private async Task<Guid> TodayAsync()
    {
        var body = Freight.Sound().AsPickup(DateTimeOffset.UtcNow);
        var now = DateTimeOffset.UtcNow;
        // A window lies within one day at the site.
        var left = (TimeSpan.FromDays(1) - TimeZoneInfo.ConvertTimeBySystemTimeZoneId(now, "America/Chicago").TimeOfDay).TotalMinutes;
        body["window"] = new JsonObject { ["from"] = now.AddMinutes(1).ToString("O", CultureInfo.InvariantCulture), ["to"] = now.AddMinutes(Math.Min(30, left - 1)).ToString("O", CultureInfo.InvariantCulture) };
        var clerk = await shared.ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", body);
        var id = Guid.Parse(declared.Json.At("id") ?? throw new InvalidOperationException(declared.ToString()));
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        return id;
    }

    private async Task<IReadOnlyList<Hold>> HeldAsync(JsonObject body)
    {
        var clerk = await shared.ClerkAsync();
        var id = Guid.Parse((await clerk.PostAsync("/api/v1/pickups", body)).Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        return await shared.OpenHoldsAsync(id);
    }

    private async Task<Hold> LoadAsync(Hold hold)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.LoadAsync<Hold>(hold.Id))!;
    }
}
