using System.Net;
using AngleSharp.Dom;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Pickups;
using Fettle.Web.Tests.Identity;

namespace Fettle.Web.Tests.Scorecards;

/// <summary>The account manager's page: sorted as asked, over a year, and only what is theirs.</summary>
public sealed class AccountsPageTests(SharedPortal shared) : IAsyncLifetime
{
    private readonly Guid carrier = Guid.CreateVersion7();
    private Browser browser = null!;

    public async ValueTask InitializeAsync()
    {
        var portal = await shared.PortalAsync();
        Shipper[] shippers = [.. ((string[])["Aspen Crates", "=cmd|' /C calc'!A0", "Zinnia Tiles"]).Select(name => new Shipper { Id = Guid.CreateVersion7(), Name = name, Email = "x@fettle.example", Sites = [] })];
        await using (var session = portal.Store.LightweightSession())
        {
            session.Store(shippers);
            for (var i = 0; i < 9; i++)
                session.Store(Unit(shippers[0].Id, carrier, quantity: 1, stackable: true, well: true));
            session.Store(Unit(shippers[1].Id, carrier, quantity: 20, stackable: true, well: true));
            session.Store(Unit(shippers[2].Id, carrier, quantity: 10, stackable: false, well: false));
            // Somebody else's carrier, and longer ago than a year.
            session.Store(Unit(shippers[2].Id, Guid.CreateVersion7(), quantity: 500, stackable: true, well: true));
            session.Store(Unit(shippers[2].Id, carrier, quantity: 500, stackable: true, well: true, days: 367));
            await session.SaveChangesAsync();
        }

        var name = $"M{Guid.CreateVersion7():N}";
        await portal.AddUserAsync($"{name} Manager", Rights.AccountManager(carrier, [.. shippers.Select(shipper => shipper.Id)]));
        browser = await shared.PersonAsync(name.ToLowerInvariant());
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    [Theory]
    [InlineData("", "range", "descending", "Aspen Crates", "=cmd|' /C calc'!A0", "Zinnia Tiles")]
    [InlineData("?sort=units", "units", "descending", "=cmd|' /C calc'!A0", "Zinnia Tiles", "Aspen Crates")]
    [InlineData("?sort=units&up=true", "units", "ascending", "Aspen Crates", "Zinnia Tiles", "=cmd|' /C calc'!A0")]
    [InlineData("?sort=shipper&up=true", "shipper", "ascending", "=cmd|' /C calc'!A0", "Aspen Crates", "Zinnia Tiles")]
    [InlineData("?sort=%00&up=perhaps", "range", "descending", "Aspen Crates", "=cmd|' /C calc'!A0", "Zinnia Tiles")]
    public async Task The_page_is_sorted_as_its_head_says(string query, string column, string direction, params string[] order)
    {
        var page = await (await browser.GetAsync($"/accounts{query}")).PageAsync();

        Assert.Equal(order, page.QuerySelectorAll("tbody tr td:first-child").Select(cell => cell.TextContent));
        var sorted = Assert.Single(page.QuerySelectorAll("th[aria-sort]"));
        Assert.Equal(direction, sorted.GetAttribute("aria-sort"));
        Assert.Contains($"sort={column}&", sorted.QuerySelector("a")!.GetAttribute("href"));
    }

    [Fact]
    public async Task A_second_press_on_a_column_turns_the_order_round()
    {
        var once = await (await browser.GetAsync("/accounts?sort=lines&up=false")).PageAsync();
        var link = once.QuerySelector("th[aria-sort] a")!.GetAttribute("href")!;
        Assert.Contains("up=true", link);

        var twice = await (await browser.GetAsync(link)).PageAsync();

        Assert.Equal("ascending", twice.QuerySelector("th[aria-sort]")!.GetAttribute("aria-sort"));
        Assert.Contains("up=false", twice.QuerySelector("th[aria-sort] a")!.GetAttribute("href"));
    }

    [Fact]
    public async Task Only_a_year_at_ones_own_carrier_counts()
    {
        var page = await (await browser.GetAsync("/accounts?sort=shipper&up=true")).PageAsync();
        var units = page.QuerySelectorAll("tbody tr").Select(row => row.QuerySelectorAll("td")[1].TextContent);

        Assert.Equal(["20", "9", "10"], units);
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

    private static DeclaredUnit Unit(Guid shipper, Guid carrier, int quantity, bool stackable, bool well, int days = 1) => new()
    {
        Id = Guid.CreateVersion7(),
        PickupId = Guid.CreateVersion7(),
        ShipperId = shipper,
        CarrierId = carrier,
        At = DateTimeOffset.UtcNow.AddDays(-days),
        Quantity = quantity,
        Held = false,
        DeclaredStackable = stackable,
        CarriesLikeUnit = well,
        Stops = [],
    };
}
