using System.Net;
using AngleSharp.Dom;
using Fettle.Readiness.Scorecards;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Fettle.Web.Tests.Identity;
using Marten;
using static Fettle.Testing.AccountHistory;

namespace Fettle.Web.Tests.Scorecards;

/// <summary>The account manager's pages: sorted and filtered as asked, over a year, and only what is theirs.</summary>
public sealed class AccountsPageTests(SharedPortal shared) : IAsyncLifetime
{
    private const string Cmd = "=cmd|' /C calc'!A0";

    private static readonly DateTimeOffset Now = DateTimeOffset.UtcNow;

    private readonly Carrier carrier = new() { Id = Guid.CreateVersion7(), Name = "Larkspur Motor Freight", Terminals = [] };
    private Shipper[] shippers = [];
    private Browser browser = null!;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        var portal = await shared.PortalAsync();
        shippers = [.. ((string[])["Aspen Crates", Cmd, "Zinnia Tiles"]).Select(name => new Shipper { Id = Guid.CreateVersion7(), Name = name, Email = "x@fettle.example", Sites = [] })];
        await using (var session = portal.Store.LightweightSession())
        {
            session.Store(carrier with { Terminals = [new(TerminalOf(carrier.Id, 0), "Millbrook", "1 Mill Lane", "m@fettle.example", "America/Chicago")] });
            session.Store([.. shippers.Select(shipper => shipper with { Sites = [new(SiteOf(shipper.Id, 0), "Kiln Road dock", "4 Kiln Road", "America/Chicago")] })]);
            await session.SaveChangesAsync();
        }

        // Forty good lines and two thinly wrapped, one line of ninety that says little, and ten not declared stackable.
        await AppendAsync(
            portal.Store,
            [
                One(carrier.Id, shippers[0].Id, Now, BuiltAs.Sound, [.. Enumerable.Repeat(1, 40)]),
                One(carrier.Id, shippers[0].Id, Now, BuiltAs.ThinFilm, 2, 2),
                One(carrier.Id, shippers[1].Id, Now, BuiltAs.Sound, 90),
                One(carrier.Id, shippers[2].Id, Now, BuiltAs.NotStackable, [.. Enumerable.Repeat(1, 10)]),
                // Somebody else's carrier, and longer ago than a year.
                One(Guid.CreateVersion7(), shippers[2].Id, Now, BuiltAs.Sound, 500),
                One(carrier.Id, shippers[2].Id, Now.AddDays(-400), BuiltAs.Sound, 500),
            ],
            CancellationToken.None);

        var name = $"M{Guid.CreateVersion7():N}";
        await portal.AddUserAsync($"{name} Manager", Rights.AccountManager(carrier.Id, [.. shippers.Select(shipper => shipper.Id)]));
        browser = await shared.PersonAsync(name.ToLowerInvariant());
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Theory]
    [InlineData("", "stack", "descending", "Aspen Crates", Cmd, "Zinnia Tiles")]
    [InlineData("?sort=units", "units", "descending", Cmd, "Aspen Crates", "Zinnia Tiles")]
    [InlineData("?sort=units&up=true", "units", "ascending", "Zinnia Tiles", "Aspen Crates", Cmd)]
    [InlineData("?sort=shipper&up=true", "shipper", "ascending", Cmd, "Aspen Crates", "Zinnia Tiles")]
    [InlineData("?sort=%00&up=perhaps&least=many&months=lots&lane=%00", "stack", "descending", "Aspen Crates", Cmd, "Zinnia Tiles")]
    public async Task The_page_is_sorted_as_its_head_says(string query, string column, string direction, params string[] order)
    {
        var page = await (await browser.GetAsync($"/accounts{query}")).PageAsync();

        Assert.Equal(order, Names(page));
        var sorted = Assert.Single(page.QuerySelectorAll("th[aria-sort]"));
        Assert.Equal(direction, sorted.GetAttribute("aria-sort"));
        Assert.Equal(column == "stack", !sorted.QuerySelector("a")!.GetAttribute("href")!.Contains("sort=", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("?months=3", "by week")]
    [InlineData("?months=6", "by week")]
    [InlineData("?months=6&lane=millbrook", "by month")]
    [InlineData("", "by month")]
    [InlineData("?months=24", "by month")]
    public async Task A_short_time_is_drawn_by_week_and_a_longer_one_by_month(string query, string by)
    {
        var page = await (await browser.GetAsync($"/accounts{query}")).PageAsync();

        Assert.Equal(by, page.QuerySelector("thead th:last-child .quiet")!.TextContent);
        // Forty-two lines today, forty of them sound: the last dot tells of them however the time is divided.
        Assert.Equal("At the end 40 of 42 lines; at its lowest 95 %.", page.QuerySelectorAll("tbody tr").Single(row => row.TextContent.Contains("Aspen Crates", StringComparison.Ordinal)).QuerySelector("desc")!.TextContent);
    }

    [Fact]
    public async Task A_second_press_on_a_column_turns_the_order_round()
    {
        var once = await (await browser.GetAsync("/accounts?sort=lines")).PageAsync();
        var link = once.QuerySelector("th[aria-sort] a")!.GetAttribute("href")!;
        Assert.Contains("up=true", link);

        var twice = await (await browser.GetAsync(link)).PageAsync();

        Assert.Equal("ascending", twice.QuerySelector("th[aria-sort]")!.GetAttribute("aria-sort"));
        Assert.DoesNotContain("up=true", twice.QuerySelector("th[aria-sort] a")!.GetAttribute("href"));
    }

    [Theory]
    [InlineData("?name=aSPEN", "Aspen Crates")]
    [InlineData("?least=10", "Aspen Crates", "Zinnia Tiles")]
    [InlineData("?name=nobody")]
    [InlineData("?lane=saltgrass&sort=shipper&up=true", Cmd, "Aspen Crates", "Zinnia Tiles")]
    [InlineData("?lane=millb&least=20", "Aspen Crates")]
    [InlineData("?lane=Timbuktu")]
    [InlineData("?months=24&sort=units", "Zinnia Tiles", Cmd, "Aspen Crates")]
    public async Task Only_what_was_asked_for_is_shown(string query, params string[] names)
    {
        var page = await (await browser.GetAsync($"/accounts{query}")).PageAsync();

        Assert.Equal(names, Names(page));
    }

    [Fact]
    public async Task A_lane_is_found_by_any_part_of_its_end_in_small_letters_or_capitals()
    {
        var told = One(carrier.Id, shippers[2].Id, Now, BuiltAs.Sound, 3);
        var portal = await shared.PortalAsync();
        await AppendAsync(portal.Store, [told with { Submitted = told.Submitted with { Header = told.Submitted.Header with { Destination = "Ägir Ölmühle, Øresund" } } }], Cancel);
        foreach (var asked in (string[])["ölmühle", "ØRESUND", "ägir"])
        {
            var page = await (await browser.GetAsync($"/accounts?lane={Uri.EscapeDataString(asked)}")).PageAsync();
            Assert.Equal(["Zinnia Tiles"], Names(page));
            Assert.Equal("3", page.QuerySelectorAll("tbody tr td")[2].TextContent);
        }
    }

    [Fact]
    public async Task Only_a_year_at_ones_own_carrier_counts()
    {
        var page = await (await browser.GetAsync("/accounts?sort=shipper&up=true")).PageAsync();

        Assert.Equal(["90", "44", "10"], page.QuerySelectorAll("tbody tr").Select(row => row.QuerySelectorAll("td")[2].TextContent));
    }

    [Fact]
    public async Task One_line_of_many_units_is_said_to_be_too_few()
    {
        var page = await (await browser.GetAsync("/accounts?name=cmd")).PageAsync();
        Assert.Contains("too few to say", page.QuerySelector("td[data-label='Carry a like unit']")!.TextContent);
        Assert.Contains("1 of 1 line", page.QuerySelector("td[data-label='Carry a like unit']")!.TextContent);
    }

    [Fact]
    public async Task The_download_is_named_typed_and_inert()
    {
        var answer = await browser.GetAsync("/accounts/scores.csv");

        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.StartsWith("text/csv", answer.Headers["Content-Type"], StringComparison.Ordinal);
        Assert.Contains("fettle-accounts-", answer.Headers["Content-Disposition"]);
        Assert.Contains("'=cmd", answer.Text);
        Assert.DoesNotContain("\n=cmd", answer.Text);
        Assert.Equal(4, answer.Text.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public async Task One_accounts_page_begins_with_its_trouble_and_every_figure_leads_to_its_lines()
    {
        var page = await (await browser.GetAsync($"/accounts/{shippers[0].Id}")).PageAsync();
        Assert.Contains("The true trouble is too little film: it stopped 2 of 2 held lines.", page.QuerySelector("#trouble")!.TextContent);
        var links = page.QuerySelectorAll($"main a[href^='/accounts/{shippers[0].Id}/lines']").Select(link => (Href: link.GetAttribute("href")!, Text: link.TextContent)).ToArray();
        Assert.True(links.Length > 12, $"{links.Length} links");
        foreach (var (href, text) in links)
        {
            var list = await browser.GetAsync(href);
            Assert.True(list.Status == HttpStatusCode.OK, $"{href}: {list.Status}");
            // The figure is the number of lines of the list, or the first number of "40 of 42 lines".
            if (int.TryParse(text.Split(' ')[0], out var figure) && figure > 0)
                Assert.Contains($"{figure} line", (await list.PageAsync()).QuerySelector("main .card > p")!.TextContent);
        }
    }

    [Fact]
    public async Task Names_of_docks_and_terminals_are_shown_and_who_built_it()
    {
        var text = (await (await browser.GetAsync($"/accounts/{shippers[0].Id}")).PageAsync()).QuerySelector("main")!.TextContent;
        Assert.Contains("Kiln Road dock", text);
        Assert.Contains("Millbrook → Harbour Stores, Saltgrass", text);
        Assert.Contains("Robin Field", text);
    }

    [Fact]
    public async Task Up_to_four_are_shown_side_by_side()
    {
        var page = await (await browser.GetAsync($"/accounts/compare?{string.Join('&', shippers.Select(shipper => $"ids={shipper.Id}"))}&ids=nonsense")).PageAsync();
        Assert.Equal(shippers.Select(shipper => shipper.Name), page.QuerySelectorAll("thead th").Skip(1).Select(head => head.TextContent));
        Assert.Equal(HttpStatusCode.Redirect, (await browser.GetAsync("/accounts/compare")).Status);
    }

    [Fact]
    public async Task Somebody_elses_account_is_not_there_in_any_company()
    {
        var others = (await shared.PortalAsync()).Parties.OtherShipper.Id;
        foreach (var path in (string[])[$"/accounts/{others}", $"/accounts/{others}/lines", $"/accounts/compare?ids={shippers[0].Id}&ids={others}", $"/accounts/{Guid.CreateVersion7()}"])
            Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync(path)).Status);
    }

    [Theory]
    [InlineData("what=nothing")]
    [InlineData("what=lines&week=yesterday")]
    [InlineData("what=lines&week=9999-12-31")]
    [InlineData("what=lines&builder=%00")]
    public async Task A_list_of_no_figure_that_there_is_is_not_there(string query) =>
        Assert.Equal(HttpStatusCode.NotFound, (await browser.GetAsync($"/accounts/{shippers[0].Id}/lines?{query}")).Status);

    [Theory]
    [InlineData("what=lines&page=-1&months=7")]
    [InlineData("what=held&site=nonsense&finding=%27%3B--&page=99999999")]
    [InlineData("what=units&freight=%0A%0A&stop=%3F")]
    [InlineData("what=heldMinutes&builder=%25")]
    public async Task Whatever_else_is_asked_a_list_answers(string query) =>
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync($"/accounts/{shippers[0].Id}/lines?{query}")).Status);

    [Fact]
    public async Task A_view_is_kept_for_the_person_alone_replaced_by_its_name_and_removed()
    {
        Assert.Equal(HttpStatusCode.Redirect, (await KeepAsync("Big ones", ("least", "10"))).Status);
        var kept = await KeepAsync(" Big ones ", ("least", "20"), ("sort", "units"));
        Assert.Equal("/accounts?least=20&sort=units", kept.Headers["Location"]);

        var page = await (await browser.GetAsync("/accounts")).PageAsync();
        var link = Assert.Single(page.QuerySelectorAll("nav.jumps a"));
        Assert.Equal(("Big ones", "/accounts?least=20&sort=units"), (link.TextContent, link.GetAttribute("href")));
        Assert.DoesNotContain("Big ones", (await (await shared.PersonAsync("mona")).GetAsync("/accounts")).Text);

        var remove = page.QuerySelector("form[action$='/remove']")!.GetAttribute("action")!;
        await (await shared.PersonAsync("mona")).PostAsync(remove, [("__RequestVerificationToken", await TokenAsync(await shared.PersonAsync("mona")))]);
        Assert.Single((await (await browser.GetAsync("/accounts")).PageAsync()).QuerySelectorAll("nav.jumps a"));
        await browser.PostAsync(remove, [("__RequestVerificationToken", await TokenAsync(browser))]);
        Assert.Empty((await (await browser.GetAsync("/accounts")).PageAsync()).QuerySelectorAll("nav.jumps a"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("A name that is far longer than anybody would want to read above a list of shippers")]
    public async Task A_view_without_a_usable_name_is_said_so_at_the_field_and_what_was_typed_stays(string name)
    {
        var answer = await KeepAsync(name, ("least", "10"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        var page = await answer.PageAsync();
        Assert.Equal("view-error", page.QuerySelector("#view")!.GetAttribute("aria-describedby"));
        Assert.Equal("10", page.QuerySelector("#least")!.GetAttribute("value"));
    }

    [Fact]
    public async Task No_more_views_are_kept_than_a_person_can_read()
    {
        for (var number = 1; number <= SavedView.Most; number++)
            Assert.Equal(HttpStatusCode.Redirect, (await KeepAsync($"View {number}")).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await KeepAsync("One more")).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await KeepAsync("View 7", ("least", "3"))).Status);
    }

    [Fact]
    public async Task A_clerk_sees_their_own_docks_freight_and_nobodys_name()
    {
        var portal = await shared.PortalAsync();
        var name = $"C{Guid.CreateVersion7():N}";
        await portal.AddUserAsync($"{name} Clerk", Rights.ShipperClerk(shippers[0].Id, SiteOf(shippers[0].Id, 0)));
        var clerk = await shared.PersonAsync(name.ToLowerInvariant());
        var page = await clerk.GetAsync("/score");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        Assert.Contains("it stopped 2 of 2 held lines", page.Text);
        Assert.DoesNotContain("Zinnia", page.Text);
        Assert.DoesNotContain("your accounts", page.Text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("42 lines", (await clerk.GetAsync("/score/lines?what=lines")).Text);

        var elsewhere = $"D{Guid.CreateVersion7():N}";
        await portal.AddUserAsync($"{elsewhere} Clerk", Rights.ShipperClerk(shippers[0].Id, SiteOf(shippers[0].Id, 1)));
        Assert.Contains("No freight was handed in", (await (await shared.PersonAsync(elsewhere.ToLowerInvariant())).GetAsync("/score")).Text);
    }

    [Fact]
    public async Task The_rules_page_names_what_is_too_few_to_say()
    {
        var page = await (await browser.GetAsync("/accounts/rules")).PageAsync();
        Assert.Contains("Too few to say", page.QuerySelector("tbody")!.TextContent);
    }

    [Fact]
    public async Task The_api_tells_the_same_with_count_interval_and_period()
    {
        var portal = await shared.PortalAsync();
        var machine = await portal.ApiAsync(Rights.AccountManager(carrier.Id, [.. shippers.Select(shipper => shipper.Id)]));
        var list = await machine.ReadAsync("/api/v1/accounts");
        Assert.Equal((HttpStatusCode.OK, "Aspen Crates", "12"), (list.Status, list.Json.At("accounts.0.name"), list.Json.At("period.months")));
        Assert.Equal(("42", "42"), (list.Json.At("accounts.0.counts.lines"), list.Json.At("accounts.0.stacking.carries.whole")));
        var one = await machine.ReadAsync($"/api/v1/accounts/{shippers[0].Id}?months=3");
        Assert.Equal(("stopped", "wrap-turns", "2"), (one.Json.At("trouble.kind"), one.Json.At("trouble.code"), one.Json.At("trouble.lines")));
        Assert.Equal(("3", "42", "Kiln Road dock"), (one.Json.At("period.months"), one.Json.At("freight.0.lines"), one.Json.At("sites.0.name")));
        Assert.True(double.Parse(one.Json.At("ready.low")!, System.Globalization.CultureInfo.InvariantCulture) < double.Parse(one.Json.At("ready.high")!, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(HttpStatusCode.OK, (await machine.ReadAsync("/api/v1/rules/effect")).Status);
        foreach (var path in (string[])["/api/v1/accounts?months=7", $"/api/v1/accounts/{shippers[0].Id}?months=many", "/api/v1/rules/effect?months=0"])
            Assert.Equal(HttpStatusCode.BadRequest, (await machine.ReadAsync(path)).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await machine.ReadAsync($"/api/v1/accounts/{portal.Parties.OtherShipper.Id}")).Status);
    }

    private static string[] Names(IDocument page) => [.. page.QuerySelectorAll("tbody tr td:nth-child(2)").Select(cell => cell.TextContent)];

    private async Task<Answer> KeepAsync(string name, params (string, string)[] fields) =>
        await browser.PostAsync("/accounts/views", [("__RequestVerificationToken", await TokenAsync(browser)), ("view", name), .. fields]);

    private static async Task<string> TokenAsync(Browser browser) =>
        (await (await browser.GetAsync("/account")).PageAsync()).QuerySelector("input[name='__RequestVerificationToken']")!.GetAttribute("value")!;
}
