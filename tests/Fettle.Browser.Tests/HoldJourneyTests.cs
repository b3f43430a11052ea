using System.Globalization;
using System.Text.Json.Nodes;
using Fettle.Testing;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Fettle.Browser.Tests;

/// <summary>A hold as its two sides live with it, in a real browser: what is said, offered, authorised, decided, and decided anew.</summary>
public sealed class HoldJourneyTests(Browser browser) : IAsyncLifetime
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
    public async Task From_a_message_over_an_offer_that_is_authorised_to_a_decision_that_another_supersedes()
    {
        var hold = await HeldAsync();

        // The clerk writes, and the terminal is mailed.
        var clerk = await browser.SignInAsync(portal, "clara");
        await clerk.GotoAsync($"/holds/{hold}");
        await Expect(clerk.Locator(".page__head")).ToContainTextAsync("Waits for the shipper");
        await clerk.GetByLabel("Write to Millbrook").FillAsync("Could you wrap it for us?");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Send", Exact = true }).ClickAsync();
        await Expect(clerk.Locator(".notice--good").First).ToContainTextAsync("Your message was sent.");
        var mail = await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("millbrook") && mail.Subject!.Contains("message from"), Patience);
        Assert.Contains("Could you wrap it for us?", mail.TextBody);
        Assert.Contains($"/holds/{hold}", mail.TextBody);

        // The reviewer finds it on the board by keyboard, and offers rework at a cost.
        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync("/board");
        await Expect(reviewer.Locator("#tab-held .board__count")).ToHaveTextAsync("1");
        await reviewer.PictureAsync("board-one");
        await reviewer.Keyboard.PressAsync("ArrowDown");
        await reviewer.Keyboard.PressAsync("Enter");
        await Expect(reviewer.GetByText("Could you wrap it for us?")).ToBeVisibleAsync();
        await reviewer.GetByText("Offer rework at a cost").ClickAsync();
        await reviewer.GetByLabel("What would be done").FillAsync("Film, three turns over the pallet.");
        await reviewer.GetByLabel("Cost, US dollars").FillAsync("eighty");
        await reviewer.GetByLabel("Stands until").FillAsync(DateTimeOffset.UtcNow.AddDays(2).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture));
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Send the offer" }).ClickAsync();
        await Expect(reviewer.Locator("#t-cost-error")).ToContainTextAsync("US dollars");
        await Expect(reviewer.GetByLabel("What would be done")).ToHaveValueAsync("Film, three turns over the pallet.");
        await reviewer.GetByLabel("Cost, US dollars").FillAsync("85.50");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Send the offer" }).ClickAsync();
        await Expect(reviewer.GetByText("Your offer at 85.50 USD stands until")).ToBeVisibleAsync();
        await reviewer.PictureAsync("hold-terminal");

        // The clerk authorises it in one press.
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.Subject!.Contains("rework offered at 85.50 USD"), Patience);
        await clerk.ReloadAsync();
        await clerk.PictureAsync("hold-shipper");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Authorise rework at 85.50 USD" }).ClickAsync();
        await Expect(clerk.Locator(".page__head")).ToContainTextAsync("Waits for the terminal");

        // The reviewer decides; a second one sees it and supersedes expressly.
        await reviewer.ReloadAsync();
        await Expect(reviewer.GetByText("Clara Clerk authorised rework at 85.50 USD.")).ToBeVisibleAsync();
        var second = await browser.SignInAsync(portal, "rolf");
        await second.GotoAsync($"/holds/{hold}");
        await reviewer.GetByLabel("Rework here").CheckAsync();
        await Expect(reviewer.GetByLabel("Who accepts the risk")).ToBeHiddenAsync();
        await reviewer.GetByLabel("Reason").FillAsync("Wrapped this afternoon.");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(reviewer.Locator(".decision")).ToContainTextAsync("waits for an inspection");
        await reviewer.PictureAsync("hold-rework");

        await second.GetByLabel("Return").CheckAsync();
        await second.GetByLabel("Reason").FillAsync("The pallet is broken under it.");
        await second.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(second.Locator("[role=alert]")).ToContainTextAsync("Rita Reviewer has already decided");
        await Expect(second.GetByLabel("Reason")).ToHaveValueAsync("The pallet is broken under it.");
        await second.PictureAsync("hold-second");
        await second.GetByRole(AriaRole.Button, new() { Name = "Decide anew" }).ClickAsync();
        await Expect(second.GetByText("Say expressly")).ToBeVisibleAsync();
        await second.GetByLabel("My decision takes the place of").CheckAsync();
        await second.GetByRole(AriaRole.Button, new() { Name = "Decide anew" }).ClickAsync();
        await Expect(second.Locator(".decision h2")).ToHaveTextAsync("Returned to the shipper");
        await Expect(second.Locator(".talk")).ToContainTextAsync("Wrapped this afternoon.");
        await Expect(second.Locator(".talk")).ToContainTextAsync("The pallet is broken under it.");
        await second.PictureAsync("hold-superseded");
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.TextBody!.Contains("takes the place of an earlier decision"), Patience);
    }

    [Fact]
    public async Task A_clerk_corrects_a_held_line_and_the_reviewer_reads_what_changed()
    {
        var hold = await HeldAsync();
        var clerk = await browser.SignInAsync(portal, "clara");
        await clerk.GotoAsync($"/holds/{hold}");
        await clerk.GetByRole(AriaRole.Link, new() { Name = "Correct what was declared" }).ClickAsync();
        await clerk.GetByLabel("Full turns of film").FillAsync("3");
        await clerk.GetByLabel("Film comes down over the pallet").CheckAsync();
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Check" }).Last.ClickAsync();
        await Expect(clerk.Locator("#result-0")).ToContainTextAsync("Would be held");
        await clerk.PictureAsync("correction");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Send the correction" }).ClickAsync();
        await Expect(clerk.Locator(".talk table")).ToContainTextAsync("turns of film");
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("millbrook") && mail.Subject!.Contains("declaration corrected"), Patience);

        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync($"/holds/{hold}");
        await reviewer.GetByText("As it was declared first").ClickAsync();
        await Expect(reviewer.GetByText("1 turn, not over the pallet")).ToBeVisibleAsync();
        await reviewer.PictureAsync("hold-corrected");
    }

    [Fact]
    public async Task Like_holds_are_ticked_by_keyboard_kept_over_a_renewal_and_decided_together()
    {
        for (var i = 0; i < 3; i++)
            await HeldAsync();
        var fragile = await HeldAsync(body => body["handlingUnits"]![0]!["fragile"] = "glass");
        await ExpectedAsync();
        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync("/board?column=expected");
        await Expect(reviewer.Locator("tbody tr")).ToHaveCountAsync(1);
        await reviewer.PictureAsync("board-expected");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "It is here" }).ClickAsync();
        await Expect(reviewer.Locator("#tab-floor .board__count")).ToHaveTextAsync("1");
        await reviewer.Keyboard.PressAsync("f");
        await Expect(reviewer.Locator(".tabs [aria-current=page]")).ToContainTextAsync("On the floor");
        await reviewer.Keyboard.PressAsync("h");
        await Expect(reviewer.Locator("tbody tr")).ToHaveCountAsync(4);

        await reviewer.Locator("tbody tr[data-like$='wrap-turns'] a.number-name").First.FocusAsync();
        await reviewer.Keyboard.PressAsync("x");
        await Expect(reviewer.Locator($"#tick-{fragile}")).ToBeDisabledAsync();
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Tick all that are alike" }).ClickAsync();
        await Expect(reviewer.Locator("input[name=holds]:checked")).ToHaveCountAsync(3);
        await reviewer.Locator("tbody tr a.number-name").Nth(1).FocusAsync();
        var focused = await reviewer.EvaluateAsync<string>("document.activeElement.id");
        // As the board renews itself, without waiting for it.
        await reviewer.EvaluateAsync("htmx.ajax('GET', document.getElementById('board').getAttribute('hx-get'), { target: '#board', swap: 'outerHTML' })");
        await Expect(reviewer.Locator("input[name=holds]:checked")).ToHaveCountAsync(3);
        Assert.Equal(focused, await reviewer.EvaluateAsync<string>("document.activeElement.id"));
        await reviewer.PictureAsync("board-ticked");

        await reviewer.GetByLabel("Rework here").CheckAsync();
        await reviewer.GetByLabel("Reason", new() { Exact = true }).Last.FillAsync("Wrap all three again.");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Decide about the ticked ones" }).ClickAsync();
        await Expect(reviewer.Locator(".notice[role=status]")).ToContainTextAsync("3 of 3 decided");
        await reviewer.PictureAsync("board-together");
    }

    private async Task<string> HeldAsync(Action<JsonObject>? change = null)
    {
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var body = Freight.Troubled().AsPickup(DateTimeOffset.UtcNow);
        change?.Invoke(body);
        var id = (await clerk.PostAsync("/api/v1/pickups", body)).Json.At("id")!;
        await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
        for (var end = DateTimeOffset.UtcNow + Patience; DateTimeOffset.UtcNow < end; await Task.Delay(100))
        {
            var holds = (await clerk.ReadAsync($"/api/v1/holds?pickup={id}")).Json["holds"]!.AsArray();
            if (holds.Count > 0)
                return holds[0].At("id")!;
        }

        throw new TimeoutException("The hold was not opened.");
    }

    private async Task ExpectedAsync()
    {
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var body = Freight.Sound().AsPickup(DateTimeOffset.UtcNow);
        var now = DateTimeOffset.UtcNow;
        // A window lies within one day at the site.
        var left = (TimeSpan.FromDays(1) - TimeZoneInfo.ConvertTimeBySystemTimeZoneId(now, "America/Chicago").TimeOfDay).TotalMinutes;
        body["window"] = new JsonObject { ["from"] = now.AddMinutes(1).ToString("O", CultureInfo.InvariantCulture), ["to"] = now.AddMinutes(Math.Min(30, left - 1)).ToString("O", CultureInfo.InvariantCulture) };
        var id = (await clerk.PostAsync("/api/v1/pickups", body)).Json.At("id")!;
        await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
    }
}
