using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Fettle.Browser.Tests;

/// <summary>An account manager prepares a negotiation, in a real browser: list, one account, the pallets behind a figure, two beside each other, and whether the rules are worth their trouble.</summary>
public sealed class AccountsTests(Browser browser) : IAsyncLifetime
{
    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        SetDefaultExpectTimeout(20_000);
        portal = await Portal.StartAsync(runsJobs: false);
    }

    public async ValueTask DisposeAsync() => await portal.DisposeAsync();

    [Fact]
    public async Task From_the_list_to_an_account_to_its_pallets_and_two_side_by_side()
    {
        string[] names = ["Bramblewick Glassware", "Cedar Gate Fasteners", "Finch & Barrow Pantry Goods", "Quillfeather Paper", "Tallow Lane Candles"];
        await SettleAsync(names);
        var page = await browser.SignInAsync(portal, "vera");

        // The list, by how sure it is that freight carries another pallet.
        await page.GetByRole(AriaRole.Link, new() { Name = "Shippers", Exact = true }).ClickAsync();
        await Expect(page.Locator("tbody tr")).ToHaveCountAsync(names.Length);
        await Expect(page.Locator("th[aria-sort]")).ToContainTextAsync("Carry a like unit");
        await LookAsync(page, "accounts-list");
        await page.GetByLabel("At least so many lines").FillAsync("40");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show", Exact = true }).ClickAsync();
        await page.GetByLabel("Keep this view as").FillAsync("Worth a visit");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Navigation, new() { Name = "Your views" }).GetByRole(AriaRole.Link)).ToHaveTextAsync("Worth a visit");

        // One account: its trouble first, then the evidence.
        await page.GetByRole(AriaRole.Link, new() { Name = names[0], Exact = true }).ClickAsync();
        await Expect(page.Locator("#trouble")).ToBeVisibleAsync();
        await page.GetByText("The same as a table").ClickAsync();
        await LookAsync(page, "accounts-one");

        // The very pallets behind a figure.
        var figure = page.Locator("section[aria-labelledby=habits] tbody tr").First.GetByRole(AriaRole.Link);
        var count = await figure.TextContentAsync();
        await figure.ClickAsync();
        await Expect(page.Locator("main .card > p").First).ToContainTextAsync($"{count} line");
        await LookAsync(page, "accounts-lines");
        await page.Locator("p.back a").ClickAsync();
        await page.Locator("p.back a").ClickAsync();

        // Two beside each other, by keyboard.
        await page.GetByLabel($"Compare {names[0]}").FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await page.GetByLabel($"Compare {names[2]}").FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await page.GetByRole(AriaRole.Button, new() { Name = "Compare those ticked" }).ClickAsync();
        await Expect(page.Locator("thead th a")).ToHaveCountAsync(2);
        await LookAsync(page, "accounts-compare");

        await page.GotoAsync("/accounts/rules");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Do the rules tell the truth?" })).ToBeVisibleAsync();
        await LookAsync(page, "accounts-rules");

        // The shipper sees its own, and no other name.
        var clerk = await browser.SignInAsync(portal, "cleo");
        await clerk.GetByRole(AriaRole.Link, new() { Name = "Your score" }).ClickAsync();
        await Expect(clerk.GetByRole(AriaRole.Heading, new() { Name = "Your score" })).ToBeVisibleAsync();
        await Expect(clerk.Locator("main")).Not.ToContainTextAsync(names[1]);
        await LookAsync(clerk, "score");
    }

    private async Task SettleAsync(string[] names)
    {
        var carrier = portal.Parties.Carrier.Id;
        Guid[] shippers = [.. names.Select(_ => Guid.CreateVersion7())];
        await using (var session = portal.Store.LightweightSession())
        {
            session.Store(portal.Parties.Carrier with { Terminals = [.. ((string[])["Millbrook", "Saltgrass", "Copper Fork"]).Select((name, number) => new Terminal(AccountHistory.TerminalOf(carrier, number), name, "1 Mill Lane", "t@fettle.example", "America/Chicago"))] });
            session.Store([.. names.Zip(shippers, (name, id) => new Shipper
            {
                Id = id,
                Name = name,
                Email = "dock@fettle.example",
                Sites = [.. ((string[])["Kiln Road dock", "Gate House dock", "River dock"]).Select((site, number) => new Site(AccountHistory.SiteOf(id, number), site, "4 Kiln Road", "America/Chicago"))],
            })]);
            await session.SaveChangesAsync();
        }

        foreach (var some in new AccountHistory(11, [carrier], shippers, DateTimeOffset.UtcNow).Pickups(24_000).Chunk(40))
            await AccountHistory.AppendAsync(portal.Store, some, CancellationToken.None);
        await portal.AddUserAsync("Vera Manager", Rights.AccountManager(carrier, shippers));
        await portal.AddUserAsync("Cleo Clerk", Rights.ShipperClerk(shippers[0], AccountHistory.SiteOf(shippers[0], 0)));
    }

    /// <summary>Axe finds nothing serious, nothing is wider than the window, and with FETTLE_PICTURES set to a folder it is kept how the page looks.</summary>
    private static async Task LookAsync(IPage page, string name)
    {
        await page.PictureAsync(name);
        await page.AssertSoundAsync();
    }
}
