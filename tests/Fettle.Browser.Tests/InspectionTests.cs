using System.Globalization;
using System.Text.Json.Nodes;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Marten;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Fettle.Browser.Tests;

/// <summary>The terminal's floor: scan, measure, photograph, hold; with and without a connection.</summary>
public sealed class InspectionTests(Browser browser) : IAsyncLifetime
{
    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        SetDefaultExpectTimeout(20_000);
        portal = await Portal.StartAsync();
    }

    public async ValueTask DisposeAsync() => await portal.DisposeAsync();

    [Fact]
    public async Task From_a_scanned_label_over_a_hold_with_two_photos_and_rework_that_the_shipper_pays_to_a_release()
    {
        var pickup = await SubmittedAsync();
        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync("/scan");
        await Expect(reviewer.GetByLabel("Label, pickup or hold")).ToBeFocusedAsync();
        await reviewer.AssertSoundAsync();
        await reviewer.PictureAsync("scan");

        // A scanner types fast and presses Enter.
        await reviewer.Keyboard.TypeAsync("]C100" + pickup.Numbers[1].Sscc!.Value);
        await reviewer.Keyboard.PressAsync("Enter");
        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = $"Inspect {pickup.Header.Number}/A1" })).ToBeVisibleAsync();
        await Expect(reviewer.GetByLabel("Which of the 4")).ToHaveValueAsync("2");

        await reviewer.GetByLabel("Height").FillAsync("57.5");
        await reviewer.GetByLabel("Gross weight").FillAsync("1240");
        await reviewer.GetByLabel("Take a photo").SetInputFilesAsync([Photo("side.jpg", 40), Photo("end.png", 90)]);
        await Expect(reviewer.Locator("#shots li")).ToHaveCountAsync(2);
        await reviewer.AssertSoundAsync();
        await reviewer.PictureAsync("inspect");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();

        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = "It should be held" })).ToBeVisibleAsync();
        await Expect(reviewer.Locator(".photos img")).ToHaveCountAsync(2);
        await Expect(reviewer.Locator(".decision")).ToContainTextAsync("320\u00a0lb apart");
        await reviewer.AssertSoundAsync();
        await reviewer.PictureAsync("inspection");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Hold it" }).ClickAsync();

        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = $"Hold {pickup.Header.Number}/A1" })).ToBeVisibleAsync();
        await reviewer.PictureAsync("inspection-held");
        var told = await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.TextBody!.Contains("1,240"), TimeSpan.FromSeconds(60));
        Assert.Contains(pickup.Header.Number, told.Subject);

        // Rework is offered at a cost, and the shipper authorises it.
        await reviewer.GetByText("Offer rework at a cost").ClickAsync();
        await reviewer.GetByLabel("What would be done").FillAsync("Top layer off, onto a second pallet.");
        await reviewer.GetByLabel("Cost, US dollars").FillAsync("62");
        await reviewer.GetByLabel("Stands until").FillAsync(DateTimeOffset.UtcNow.AddDays(2).ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture));
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Send the offer" }).ClickAsync();
        await Expect(reviewer.GetByText("Your offer at 62.00 USD stands until")).ToBeVisibleAsync();
        var clerk = await browser.SignInAsync(portal, "clara");
        await clerk.GotoAsync(reviewer.Url);
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Authorise rework at 62.00 USD" }).ClickAsync();
        await Expect(clerk.Locator(".page__head")).ToContainTextAsync("Waits for the terminal");

        // It is rebuilt, looked at again, and released.
        await reviewer.ReloadAsync();
        await reviewer.GetByLabel("Rework here").CheckAsync();
        await reviewer.GetByLabel("Reason").FillAsync("Top layer moved to a second pallet.");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(reviewer.Locator(".decision")).ToContainTextAsync("waits for an inspection");
        await reviewer.GetByRole(AriaRole.Link, new() { Name = "Inspect it" }).ClickAsync();
        await reviewer.GetByLabel("Height").FillAsync("53.5");
        await reviewer.GetByLabel("Gross weight").FillAsync("940");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();
        await Expect(reviewer.Locator("h1")).ToContainTextAsync("Inspection of");
        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = "It should be held" })).ToHaveCountAsync(0);
        await reviewer.PictureAsync("inspection-after-rework");
        await reviewer.GotoAsync(clerk.Url);
        await reviewer.Locator("summary").Filter(new() { HasText = "Decide anew" }).ClickAsync();
        await reviewer.Locator("#decision-release").CheckAsync();
        await reviewer.GetByLabel("Reason").FillAsync("Rebuilt, measured and weighed again: as declared.");
        await reviewer.GetByLabel("My decision takes the place of").CheckAsync();
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Decide anew" }).ClickAsync();
        await Expect(reviewer.Locator(".decision h2")).ToHaveTextAsync("Released");
        await reviewer.PictureAsync("hold-released-after-rework");
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.TextBody!.Contains("measured and weighed again"), TimeSpan.FromSeconds(60));
    }

    [Fact]
    public async Task What_was_recorded_without_a_connection_is_kept_on_the_device_and_sent_once_when_it_is_back()
    {
        var pickup = await SubmittedAsync();
        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync($"/inspections/new?pickup={pickup.Id}&line=A1");
        await reviewer.GetByLabel("Take a photo").SetInputFilesAsync([Photo("side.jpg", 40)]);
        await Expect(reviewer.Locator("#shots li")).ToHaveCountAsync(1);
        await reviewer.GetByLabel("Turns of film").FillAsync("1");

        await reviewer.Context.SetOfflineAsync(true);
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();
        await Expect(reviewer.Locator("#kept")).ToContainTextAsync("Kept on this device, not yet sent.");
        await Expect(reviewer.Locator("#kept")).ToContainTextAsync("There is no connection.");
        await reviewer.PictureAsync("inspect-offline");
        Assert.Equal(0, await CountAsync(pickup));

        await reviewer.Context.SetOfflineAsync(false);
        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = "It should be held" })).ToBeVisibleAsync();
        await Expect(reviewer.Locator(".photos img")).ToHaveCountAsync(1);
        Assert.Equal(1, await CountAsync(pickup));

        // Nothing is left to be sent, and nothing is sent again.
        await reviewer.GotoAsync("/scan");
        await Expect(reviewer.Locator("#kept")).ToBeEmptyAsync();
        Assert.Equal(1, await CountAsync(pickup));
    }

    [Fact]
    public async Task What_was_typed_survives_a_reload_and_an_ended_session()
    {
        var pickup = await SubmittedAsync();
        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync($"/inspections/new?pickup={pickup.Id}&line=A1");
        await reviewer.GetByLabel("Turns of film").FillAsync("1");
        await reviewer.GetByLabel("Take a photo").SetInputFilesAsync([Photo("side.jpg", 40)]);
        await Expect(reviewer.Locator("#shots li")).ToHaveCountAsync(1);
        await reviewer.ReloadAsync();
        await Expect(reviewer.GetByLabel("Turns of film")).ToHaveValueAsync("1");
        await Expect(reviewer.Locator("#shots li")).ToHaveCountAsync(1);

        await reviewer.Context.ClearCookiesAsync();
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();
        await Expect(reviewer.Locator("#kept")).ToContainTextAsync("You have been signed out.");
        Assert.Equal(0, await CountAsync(pickup));
        await reviewer.Locator("#kept").GetByRole(AriaRole.Link, new() { Name = "Sign in" }).ClickAsync();
        await reviewer.GetByLabel("E-mail").FillAsync("rolf@fettle.example");
        await reviewer.GetByLabel("Password").FillAsync(Portal.Password);
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();

        // Rita measured it: nothing goes out in another's name, unless that one says so.
        await Expect(reviewer.Locator("#kept")).ToContainTextAsync($"{pickup.Header.Number}/A1: kept on this device by Rita Reviewer, and sent when they sign in here.");
        await reviewer.PictureAsync("inspection-kept-by-another");
        Assert.Equal(0, await CountAsync(pickup));
        reviewer.Dialog += (_, dialog) => dialog.AcceptAsync();
        await reviewer.Locator("#kept").GetByRole(AriaRole.Button, new() { Name = "Send as mine" }).ClickAsync();
        await Expect(reviewer.Locator("#live")).ToContainTextAsync($"{pickup.Header.Number}/A1: sent.");
        await Expect(reviewer.Locator("#kept")).ToBeEmptyAsync();
        Assert.Equal(1, await CountAsync(pickup));
        await using var session = portal.Store.QuerySession();
        var inspection = await session.Query<Inspection>().SingleAsync(inspection => inspection.Recorded.PickupId == pickup.Id);
        Assert.Equal((1, "Rolf Reviewer"), (inspection.Photos.Count, inspection.Recorded.By.Name));
    }

    [Fact]
    public async Task A_field_that_cannot_be_read_is_told_at_the_field_and_nothing_is_lost()
    {
        var pickup = await SubmittedAsync();
        var reviewer = await browser.SignInAsync(portal, "rita");
        await reviewer.GotoAsync($"/inspections/new?pickup={pickup.Id}&line=A1");
        await reviewer.GetByLabel("Height").FillAsync("tall");
        await reviewer.GetByLabel("Note").FillAsync("Second from the door.");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();

        await Expect(reviewer.Locator("[data-field='measured.height'] .field__error")).ToContainTextAsync("A length such as");
        await Expect(reviewer.GetByLabel("Note")).ToHaveValueAsync("Second from the door.");
        await reviewer.GetByLabel("Height").FillAsync("53 1/2");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Record" }).ClickAsync();
        await Expect(reviewer.GetByText("Nothing was found that stops it")).ToBeVisibleAsync();
        Assert.Equal(1, await CountAsync(pickup));
    }

    [Fact]
    public async Task Where_there_is_no_camera_the_page_says_so_and_where_no_script_decodes_one_of_ours_is_loaded()
    {
        var reviewer = await browser.SignInAsync(portal, "rita");
        List<string> complaints = [];
        reviewer.Console += (_, message) =>
        {
            if (message.Type == "error")
                complaints.Add(message.Text);
        };
        await reviewer.GotoAsync("/scan");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Use the camera" }).ClickAsync();
        await Expect(reviewer.Locator("#camera-says")).ToContainTextAsync("use a scanner, or type the number.");
        await reviewer.PictureAsync("scan-no-camera");

        // The decoder runs under the page's policy.
        await reviewer.AddScriptTagAsync(new() { Url = "/lib/zxing.min.js" });
        Assert.True(await reviewer.EvaluateAsync<bool>("typeof ZXing.MultiFormatReader === 'function' && new ZXing.MultiFormatReader() !== null && typeof ZXing.HTMLCanvasElementLuminanceSource === 'function'"));
        Assert.Empty(complaints);
    }

    private async Task<int> CountAsync(Pickup pickup)
    {
        await using var session = portal.Store.QuerySession();
        return await session.Query<Inspection>().CountAsync(inspection => inspection.Recorded.PickupId == pickup.Id);
    }

    private async Task<Pickup> SubmittedAsync()
    {
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var id = Guid.Parse((await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!);
        await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
        await using var session = portal.Store.QuerySession();
        return await session.LoadAsync<Pickup>(id) ?? throw new InvalidOperationException("It was not submitted.");
    }

    private static FilePayload Photo(string name, byte shade)
    {
        using var bitmap = new SkiaSharp.SKBitmap(800, 600);
        bitmap.Erase(new SkiaSharp.SKColor(shade, 120, 90));
        using var data = bitmap.Encode(name.EndsWith(".png", StringComparison.Ordinal) ? SkiaSharp.SKEncodedImageFormat.Png : SkiaSharp.SKEncodedImageFormat.Jpeg, 90);
        return new() { Name = name, MimeType = name.EndsWith(".png", StringComparison.Ordinal) ? "image/png" : "image/jpeg", Buffer = data.ToArray() };
    }
}
