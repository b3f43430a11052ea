using Fettle.Testing;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Fettle.Browser.Tests;

/// <summary>The main job as people do it, in a real browser, with a real mail server and database.</summary>
public sealed class JourneyTests(Browser browser) : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private Portal portal = null!;

    public async ValueTask InitializeAsync()
    {
        // Two cores build, serve and browse at once: a page may take its time.
        SetDefaultExpectTimeout(20_000);
        portal = await Portal.StartAsync();
    }

    public async ValueTask DisposeAsync() => await portal.DisposeAsync();

    [Fact]
    public async Task From_a_badly_built_pallet_to_a_released_exception_that_the_account_page_counts()
    {
        // The clerk declares one pallet of 16 × 12 cartons: over the edge, over 2,000 lb, one thin turn of film.
        var clerk = await browser.SignInAsync(portal, "clara");
        await Expect(clerk).ToHaveURLAsync(new Uri(portal.Address, "/pickups").ToString());
        await clerk.GetByRole(AriaRole.Button, new() { Name = "New pickup" }).ClickAsync();
        await FillAsync(clerk, "terminal", "Larkspur Motor Freight, Millbrook");
        await FillAsync(clerk, "destination", "Quillfeather Paper, Saltgrass");
        await FillAsync(clerk, "lane.miles", "740");
        await DeclareTroubledPalletAsync(clerk);

        // Findings appear beside the fields, without pressing anything.
        await Expect(clerk.Locator("#m-handlingUnits-0-outer-length")).ToContainTextAsync("sticks out at each end");
        await Expect(clerk.Locator("#m-handlingUnits-0-grossWeight")).ToContainTextAsync("2,000");
        await Expect(clerk.Locator("#m-handlingUnits-0-protection-wrapTurns")).ToContainTextAsync("at least 2 full turns");
        await Expect(clerk.Locator("#standing")).ToContainTextAsync("Would be held");
        await Expect(clerk.Locator("#result-0 svg").First).ToBeVisibleAsync();
        await clerk.PictureAsync("editor-findings");

        // One press applies the first alternative, and it is what it promised.
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Use this" }).First.ClickAsync();
        await Expect(clerk.Locator("#standing")).Not.ToContainTextAsync("Would be held");
        await Expect(clerk.Locator("#f-handlingUnits-0-protection-wrapTurns")).ToHaveValueAsync("2");
        await clerk.PictureAsync("editor-applied");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Submit pickup" }).ClickAsync();
        await Expect(clerk.Locator(".page__head .verdict")).ToHaveTextAsync("Booked");
        await clerk.PictureAsync("pickup-booked");
        var booked = await NumberAsync(clerk);
        await portal.Mail.WaitForAsync(mail => mail.Subject!.Contains(booked) && mail.To.ToString().Contains("millbrook"), Patience);

        // A second pickup goes in as it is, with a request for an exception, and is held from the start.
        await clerk.GotoAsync("/pickups");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "New pickup" }).ClickAsync();
        await FillAsync(clerk, "terminal", "Larkspur Motor Freight, Millbrook");
        await FillAsync(clerk, "destination", "Quillfeather Paper, Saltgrass");
        await FillAsync(clerk, "lane.miles", "740");
        await DeclareTroubledPalletAsync(clerk);
        await Expect(clerk.Locator("#standing")).ToContainTextAsync("Would be held");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Submit pickup" }).ClickAsync();
        await Expect(clerk.Locator("#m-exceptionRequest")).ToContainTextAsync("Say why");
        await clerk.Locator("#f-exceptionRequest").FillAsync("The consignee's line stops tonight without it.");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Submit pickup" }).ClickAsync();
        await Expect(clerk.Locator(".page__head .verdict")).ToHaveTextAsync("Held");
        var held = await NumberAsync(clerk);
        Assert.NotEqual(booked, held);
        var told = await portal.Mail.WaitForAsync(mail => mail.Subject!.Contains(held) && mail.To.ToString().Contains("millbrook"), Patience);
        Assert.Contains("The consignee's line stops tonight", told.TextBody);
        await portal.Mail.WaitForAsync(mail => mail.Subject!.Contains(held) && mail.To.ToString().Contains("bramblewick"), Patience);

        // The terminal sees why, and releases it as an exception.
        var reviewer = await browser.SignInAsync(portal, "rita");
        await Expect(reviewer).ToHaveURLAsync(new Uri(portal.Address, "/board").ToString());
        await reviewer.GotoAsync("/holds");
        await reviewer.PictureAsync("holds");
        await reviewer.GetByRole(AriaRole.Link, new() { Name = $"{held}/A1" }).ClickAsync();
        await Expect(reviewer.GetByText("The consignee's line stops tonight without it.").First).ToBeVisibleAsync();
        await reviewer.PictureAsync("hold");
        await reviewer.GetByLabel("Release as an exception").CheckAsync();
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(reviewer.GetByText("Say why, in a few words")).ToBeVisibleAsync();
        await reviewer.GetByLabel("Reason").FillAsync("Rides alone at the nose, nothing on top.");
        await reviewer.GetByLabel("Who accepts the risk").FillAsync("Larkspur Motor Freight");
        await reviewer.GetByLabel("Which risk").FillAsync("Cartons crushed at the edge.");
        await reviewer.Locator("#t-until").FillAsync(DateTimeOffset.UtcNow.AddDays(9).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        await reviewer.GetByLabel("Conditions").FillAsync("Nothing on top.");
        await reviewer.GetByRole(AriaRole.Button, new() { Name = "Decide" }).ClickAsync();
        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = "Released as an exception" })).ToBeVisibleAsync();
        await reviewer.PictureAsync("hold-decided");
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.TextBody!.Contains("Rides alone at the nose"), Patience);

        // The account page counts both pickups: one pallet booked, one held.
        var manager = await browser.SignInAsync(portal, "mona");
        await Expect(manager).ToHaveURLAsync(new Uri(portal.Address, "/accounts").ToString());
        var row = manager.GetByRole(AriaRole.Row).Filter(new() { HasText = "Bramblewick Glassware" });
        await Expect(row.Locator("td[data-label='Units']")).ToHaveTextAsync("2");
        await Expect(row.Locator("td[data-label='Lines']")).ToHaveTextAsync("2");
        await manager.PictureAsync("accounts");

        await clerk.GotoAsync("/messages");
        await Expect(clerk.GetByRole(AriaRole.Row).Filter(new() { HasText = held })).ToHaveCountAsync(3);
        await clerk.PictureAsync("messages");
        Assert.Equal(5, portal.Mail.Messages.Count);
    }

    [Fact]
    public async Task A_build_kept_from_a_passed_line_is_declared_again_in_one_press_and_has_a_sheet_for_the_dock()
    {
        var clerk = await browser.SignInAsync(portal, "clara");
        await Expect(clerk).ToHaveURLAsync(new Uri(portal.Address, "/pickups").ToString());
        await clerk.GetByRole(AriaRole.Button, new() { Name = "New pickup" }).ClickAsync();
        await FillAsync(clerk, "terminal", "Larkspur Motor Freight, Millbrook");
        await FillAsync(clerk, "lane.miles", "300");
        await DeclareTroubledPalletAsync(clerk);
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Use this" }).First.ClickAsync();
        await Expect(clerk.Locator("#standing")).Not.ToContainTextAsync("Would be held");
        await clerk.GetByText("Keep as a standard build").ClickAsync();
        await clerk.GetByLabel("Name of the build").FillAsync("Tumblers, low");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Save this build" }).ClickAsync();
        await Expect(clerk.Locator(".notice").First).ToContainTextAsync("Tumblers, low is in your catalogue now.");
        await clerk.PictureAsync("build-kept");

        await clerk.GotoAsync("/pickups");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "New pickup" }).ClickAsync();
        await FillAsync(clerk, "terminal", "Larkspur Motor Freight, Millbrook");
        await FillAsync(clerk, "lane.miles", "300");
        await FillAsync(clerk, "catalogue-build", "Tumblers, low");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Add this build" }).ClickAsync();
        await Expect(clerk.Locator(".notice").First).ToContainTextAsync("A1 was added from Tumblers, low.");
        await Expect(clerk.Locator("#standing")).ToContainTextAsync("1 handling unit checked");
        await Expect(clerk.Locator("#standing")).Not.ToContainTextAsync("Would be held");
        await clerk.PictureAsync("build-declared-again");

        await clerk.GetByRole(AriaRole.Link, new() { Name = "Build sheet for the dock" }).ClickAsync();
        await Expect(clerk.Locator(".sheet h1")).ToHaveTextAsync("A1");
        await Expect(clerk.Locator(".sheet__steps")).ToContainTextAsync("Film");
        await clerk.GotoAsync("/catalogue");
        await Expect(clerk.GetByRole(AriaRole.Row).Filter(new() { HasText = "Tumblers, low" })).ToBeVisibleAsync();
        await clerk.PictureAsync("catalogue");
    }

    [Fact]
    public async Task A_pickups_floor_plan_is_a_press_away_and_turns_to_decking_beams()
    {
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var freight = Freight.Sound();
        var lines = freight["handlingUnits"]!.AsArray();
        lines[0]!["quantity"] = 16;
        // Nothing may be put on them; on a deck above them the low ones fit.
        lines[0]!["stackable"] = false;
        var tall = lines[0]!.DeepClone();
        tall["reference"] = "TALL";
        tall["quantity"] = 3;
        tall["stackable"] = false;
        tall["outer"]!["height"] = 89.5;
        tall["contents"]!["layers"] = 7;
        tall["grossWeight"] = 1_600;
        var low = lines[0]!.DeepClone();
        low["reference"] = "LOW";
        low["quantity"] = 9;
        low["stackable"] = false;
        low["outer"]!["height"] = 41.5;
        low["contents"]!["layers"] = 3;
        low["grossWeight"] = 715;
        lines.Add(tall);
        lines.Add(low);
        var declared = await clerk.PostAsync("/api/v1/pickups", freight.AsPickup(DateTimeOffset.UtcNow));
        var id = declared.Json.At("id");
        Assert.NotNull(id);
        await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new System.Text.Json.Nodes.JsonObject { ["exceptionRequest"] = "For this test." });

        var reviewer = await browser.SignInAsync(portal, "rita");

        await Expect(reviewer).ToHaveURLAsync(new Uri(portal.Address, "/board").ToString());
        await reviewer.GotoAsync($"/pickups/{id}");
        await reviewer.GetByRole(AriaRole.Link, new() { Name = "floor plan" }).ClickAsync();
        await Expect(reviewer.GetByRole(AriaRole.Heading, new() { Name = "Floor plan" })).ToBeVisibleAsync();
        await Expect(reviewer.GetByRole(AriaRole.Img, new() { Name = "Floor plan" })).ToBeVisibleAsync();
        await Expect(reviewer.Locator("tbody tr")).ToHaveCountAsync(28);
        await reviewer.PictureAsync("floor-plan");
        var oneFloor = await FeetAsync(reviewer);

        await reviewer.GetByRole(AriaRole.Link, new() { Name = "With decking beams" }).ClickAsync();
        await Expect(reviewer.Locator(".tabs [aria-current=page]")).ToHaveTextAsync("With decking beams");
        await Expect(reviewer.Locator(".fd-on-deck").First).ToBeVisibleAsync();
        Assert.True(await FeetAsync(reviewer) < oneFloor);
        await reviewer.PictureAsync("floor-plan-decked");

        static async Task<double> FeetAsync(IPage page) => double.Parse(
            await page.Locator(".figures--large dd").First.InnerTextAsync(), System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public async Task A_clerk_switches_to_Spanish_and_reads_what_is_wrong_with_a_pallet()
    {
        var clerk = await browser.SignInAsync(portal, "clara");
        await Expect(clerk).ToHaveURLAsync(new Uri(portal.Address, "/pickups").ToString());
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Español" }).ClickAsync();
        await Expect(clerk.Locator("html")).ToHaveAttributeAsync("lang", "es");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Nueva recolección" }).ClickAsync();
        await FillAsync(clerk, "terminal", "Larkspur Motor Freight, Millbrook");
        await FillAsync(clerk, "destination", "Quillfeather Paper, Saltgrass");
        await FillAsync(clerk, "lane.miles", "740");
        await DeclareTroubledPalletAsync(clerk);

        // What htmx swaps in is Spanish, too.
        await Expect(clerk.Locator("#m-handlingUnits-0-outer-length")).ToContainTextAsync("sobresale");
        await Expect(clerk.Locator("#standing")).ToContainTextAsync("Quedaría retenida");
        await Expect(clerk.GetByRole(AriaRole.Button, new() { Name = "Usar esta" }).First).ToBeVisibleAsync();
        await clerk.Locator("#result-0 summary").First.ClickAsync();
        await clerk.PictureAsync("editor-spanish");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Usar esta" }).First.ClickAsync();
        await Expect(clerk.Locator("#standing")).Not.ToContainTextAsync("Quedaría retenida");
        await clerk.GetByRole(AriaRole.Button, new() { Name = "Enviar la recolección" }).ClickAsync();
        await Expect(clerk.Locator(".page__head .verdict")).ToHaveTextAsync("Programada");
        await clerk.PictureAsync("pickup-spanish");
        var mail = await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick"), Patience);
        Assert.Contains("programada", mail.Subject!);

        await clerk.GetByRole(AriaRole.Button, new() { Name = "English" }).ClickAsync();
        await Expect(clerk.Locator(".page__head .verdict")).ToHaveTextAsync("Booked");
    }

    private static async Task DeclareTroubledPalletAsync(IPage page)
    {
        const string Unit = "handlingUnits[0].";
        await FillAsync(page, Unit + "outer.length", "52");
        await FillAsync(page, Unit + "outer.width", "48");
        await FillAsync(page, Unit + "outer.height", "77 1/2");
        await FillAsync(page, Unit + "grossWeight", "2056");
        await FillAsync(page, Unit + "contents.carton.length", "16");
        await FillAsync(page, Unit + "contents.carton.width", "12");
        await FillAsync(page, Unit + "contents.carton.height", "12");
        await FillAsync(page, Unit + "contents.carton.grossWeight", "28");
        await FillAsync(page, Unit + "contents.perLayer", "12");
        await FillAsync(page, Unit + "contents.layers", "6");
        await FillAsync(page, Unit + "protection.wrapTurns", "1");
    }

    private static async Task FillAsync(IPage page, string field, string value)
    {
        var control = page.Locator($"[name='{field}']");
        if (await control.EvaluateAsync<string>("e => e.tagName") == "SELECT")
            await control.SelectOptionAsync(new SelectOptionValue { Label = value });
        else
            await control.FillAsync(value);
    }

    private static async Task<string> NumberAsync(IPage page) =>
        (await page.Locator("h1").InnerTextAsync()).Split(' ')[^1];
}
