using System.Globalization;
using System.Text.Json.Nodes;
using Fettle.Testing;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Fettle.Browser.Tests;

/// <summary>A claim as its two sides live with it, in a real browser: filed, acknowledged, offered, taken, paid.</summary>
public sealed class ClaimJourneyTests(Browser browser) : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        SetDefaultExpectTimeout(20_000);
        portal = await Portal.StartAsync();
    }

    public async ValueTask DisposeAsync() => await portal.DisposeAsync();

    [Fact]
    public async Task From_a_crushed_pallet_to_a_sum_that_both_sides_agree_to()
    {
        var pickup = await HarmedAsync();

        // The clerk finds what was recorded, and files on it.
        var clerk = await browser.SignInAsync(portal, "clara");
        await clerk.GotoAsync($"/pickups/{pickup}");
        await clerk.GetByRole(AriaRole.Link, new() { Name = "File a claim" }).ClickAsync();
        await Expect(clerk.GetByLabel("Units")).ToHaveValueAsync("1");
        await clerk.GetByLabel("What happened, and how the sum comes about").FillAsync("Corner crushed, twelve cartons lost; invoice follows.");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "File the claim" }).ClickAsync();
        await Expect(clerk.Locator(".field--wrong .field__error")).ToContainTextAsync("what sum is claimed");
        await clerk.PictureAsync("claim-new");
        await clerk.AssertSoundAsync();
        await clerk.GetByLabel("Sum in US dollars, for all of them").FillAsync("412.80");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "File the claim" }).ClickAsync();
        await Expect(clerk.Locator(".page__head")).ToContainTextAsync("Filed");
        var mail = await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("millbrook") && mail.Subject!.Contains("claims 412.80 USD"), Patience);
        Assert.Contains("Corner crushed, twelve cartons lost; invoice follows.", mail.TextBody);

        // The account manager finds it in the list, and offers half.
        var manager = await browser.SignInAsync(portal, "mona");
        await manager.GotoAsync("/claims");
        await Expect(manager.GetByText("1 open, 412.80 USD claimed")).ToBeVisibleAsync();
        await manager.PictureAsync("claims");
        await manager.AssertSoundAsync();
        await manager.Locator("a.number-name").ClickAsync();
        await manager.GetByLabel("Offer a sum").CheckAsync();
        await manager.GetByLabel("Sum in US dollars").FillAsync("206.40");
        await manager.GetByRole(AriaRole.Textbox, new() { Name = "Why" }).FillAsync("Half of the cartons could be sold.");
        await manager.PictureAsync("claim-answer");
        await manager.AssertSoundAsync();
        await manager.GetByRole(AriaRole.Button, new() { Name = "Send the answer" }).ClickAsync();
        await Expect(manager.Locator(".page__head")).ToContainTextAsync("Offer made");

        // The clerk takes it in one press, and the carrier pays what was agreed without another word.
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.Subject!.Contains("offers 206.40 USD"), Patience);
        await clerk.ReloadAsync();
        await clerk.PictureAsync("claim-offer");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Take 206.40 USD" }).ClickAsync();
        await Expect(clerk.Locator(".page__head")).ToContainTextAsync("Offer taken, to be paid");
        await manager.ReloadAsync();
        await Expect(manager.GetByLabel("Sum in US dollars")).ToHaveValueAsync("206.40");
        await manager.GetByRole(AriaRole.Button, new() { Name = "Send the answer" }).ClickAsync();
        await Expect(manager.Locator(".page__head")).ToContainTextAsync("Paid");
        await manager.PictureAsync("claim-paid");
        await Expect(manager.GetByText("Put the sum right that was paid")).ToBeVisibleAsync();
        await clerk.GotoAsync("/claims");
        await Expect(clerk.GetByText("No claim is open.")).ToBeVisibleAsync();
    }

    private async Task<string> HarmedAsync()
    {
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var id = (await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!;
        await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
        var reviewer = await portal.ApiAsync(portal.Parties.Reviewer);
        var recorded = await reviewer.PostAsync($"/api/v1/pickups/{id}/outcome", new JsonObject
        {
            ["deliveredOn"] = DateTimeOffset.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["units"] = new JsonArray(
                new JsonObject { ["reference"] = "A1", ["count"] = 3, ["kind"] = "clean" },
                new JsonObject { ["reference"] = "A1", ["count"] = 1, ["kind"] = "damaged", ["where"] = "corner", ["how"] = "crushed" }),
        });
        Assert.Equal("1", recorded.Json.At("units.1.count"));
        return id;
    }
}
