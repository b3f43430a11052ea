using Fettle.Testing;
using Fettle.Web.Identity;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Fettle.Browser.Tests;

/// <summary>A carrier's administrator makes the rules stricter, in a real browser, with jobs that run by themselves.</summary>
public sealed class RuleSetTests(Browser browser) : IAsyncLifetime
{
    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        SetDefaultExpectTimeout(20_000);
        portal = await Portal.StartAsync();
    }

    public async ValueTask DisposeAsync() => await portal.DisposeAsync();

    [Fact]
    public async Task From_a_copy_through_a_preview_to_a_version_that_judges_what_comes_and_not_what_was()
    {
        await portal.AddUserAsync("Lena Admin", Rights.Administrator(portal.Parties.Carrier.Id));
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var before = await SubmitAsync(clerk);

        // Copy, and a slip of the finger that is told at its field.
        var page = await browser.SignInAsync(portal, "lena");
        await page.GetByRole(AriaRole.Link, new() { Name = "Rules", Exact = true }).ClickAsync();
        await page.PictureAsync("rules-none");
        await page.GetByRole(AriaRole.Button, new() { Name = "Copy the built-in rules" }).ClickAsync();
        await page.GetByLabel("Full turns of film").FillAsync("four");
        await page.GetByLabel("Bare deck wanted on each side").FillAsync("5 cm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save and preview" }).ClickAsync();
        await Expect(page.Locator("#limit-wrap-turns-error")).ToHaveTextAsync("A whole number.");
        await Expect(page.GetByLabel("Bare deck wanted on each side")).ToHaveValueAsync("5 cm");
        await page.PictureAsync("rules-wrong");

        // The preview counts by itself and says what would have been held.
        await page.GetByLabel("Full turns of film").FillAsync("4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save and preview" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "4 more units held, 0 let go" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Row).Filter(new() { HasText = "Bramblewick Glassware" }).Locator("td[data-label='Newly held']")).ToHaveTextAsync("4");
        await page.PictureAsync("rules-preview");

        // Publish from today on, with a reason.
        await page.GetByRole(AriaRole.Link, new() { Name = "Back to the draft" }).ClickAsync();
        await page.PictureAsync("rules-draft");
        await page.GetByLabel("Starts on").FillAsync(await page.GetByLabel("Starts on").GetAttributeAsync("min") ?? "");
        await page.GetByLabel("Why").FillAsync("Three turns came loose on the way.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Save and publish" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Row).Filter(new() { HasText = "Three turns came loose" }).Locator(".verdict")).ToHaveTextAsync("In force");
        await page.PictureAsync("rules-published");
        await page.GetByRole(AriaRole.Link, new() { Name = "Version 1", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Row).Filter(new() { HasText = "Full turns of film" }).First).ToContainTextAsync("4");
        await page.PictureAsync("rules-version");

        // What comes is judged by it; what was keeps the version that judged it.
        var after = await SubmitAsync(clerk);
        Assert.Equal(("Larkspur Motor Freight", "held"), await StandingAsync(clerk, after));
        Assert.Equal(("Common practice", "booked"), await StandingAsync(clerk, before));
    }

    private static async Task<string> SubmitAsync(HttpClient clerk)
    {
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow));
        var id = declared.Json.At("id") ?? throw new InvalidOperationException(declared.ToString());
        Assert.Equal(System.Net.HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new System.Text.Json.Nodes.JsonObject())).Status);
        return id;
    }

    private static async Task<(string? Rules, string? State)> StandingAsync(HttpClient clerk, string pickup)
    {
        var read = (await clerk.ReadAsync($"/api/v1/pickups/{pickup}")).Json;
        return (read.At("ruleSet.name"), read.At("state"));
    }
}
