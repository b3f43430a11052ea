using System.Text.Json.Nodes;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Fettle.Testing;
using Microsoft.Playwright;

namespace Fettle.Browser.Tests;

/// <summary>A portal with a draft, a submitted pickup, its hold and its notices.</summary>
public sealed class PortalWithHeldFreight : IAsyncLifetime
{
    public Portal Portal { get; private set; } = null!;

    public string Draft { get; private set; } = null!;

    public string Pickup { get; private set; } = null!;

    public string Hold { get; private set; } = null!;

    public string Notice { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        Portal = await Portal.StartAsync();
        var clerk = await Portal.ApiAsync(Portal.Parties.Clerk);
        Draft = await DeclareAsync(clerk);
        Pickup = await DeclareAsync(clerk);
        await clerk.PostAsync($"/api/v1/pickups/{Pickup}/submission", new JsonObject { ["exceptionRequest"] = "The consignee's line stops tonight." });
        await Portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("millbrook"), TimeSpan.FromSeconds(60));
        var reviewer = await Portal.ApiAsync(Portal.Parties.Reviewer);
        Hold = (await reviewer.ReadAsync("/api/v1/holds")).Json.At("holds.0.id")!;
        Notice = (await reviewer.ReadAsync("/api/v1/notices")).Json.At("notices.0.id")!;
    }

    public async ValueTask DisposeAsync() => await Portal.DisposeAsync();

    private static async Task<string> DeclareAsync(HttpClient clerk)
    {
        var answer = await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow));
        return answer.Json.At("id") ?? throw new InvalidOperationException(answer.ToString());
    }
}

/// <summary>Every page, at three widths, light and dark: axe finds nothing serious or critical (WCAG 2.2 A and AA rules it knows).</summary>
public sealed class AccessibilityTests(Browser browser, PortalWithHeldFreight held) : IClassFixture<PortalWithHeldFreight>
{
    private static readonly string[] Tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

    public static TheoryData<string, int, ColorScheme> Looks => new()
    {
        { "clara", 1280, ColorScheme.Light },
        { "clara", 820, ColorScheme.Dark },
        { "clara", 400, ColorScheme.Light },
        { "rita", 820, ColorScheme.Light },
        { "rita", 1280, ColorScheme.Dark },
        { "mona", 1280, ColorScheme.Light },
        { "mona", 400, ColorScheme.Dark },
        { "ada", 1280, ColorScheme.Light },
    };

    [Theory]
    [MemberData(nameof(Looks))]
    public async Task No_page_has_a_serious_fault_that_axe_knows(string who, int width, ColorScheme scheme)
    {
        await using var visitor = await browser.NewVisitorAsync(new() { BaseURL = held.Portal.Address.ToString(), ViewportSize = new() { Width = width, Height = 900 }, ColorScheme = scheme });
        // axe waits for an idle network, which a busy machine is slow to give.
        visitor.SetDefaultTimeout(120_000);
        var page = await visitor.NewPageAsync();
        await page.GotoAsync("/sign-in");
        await AssertSoundAsync(page);
        await page.GetByLabel("E-mail").FillAsync($"{who}@fettle.example");
        await page.GetByLabel("Password").FillAsync(Portal.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("sign-in"));
        foreach (var path in PathsOf(who))
        {
            await page.GotoAsync(path);
            await AssertSoundAsync(page);
            // A page that must be scrolled sideways hides things on a tablet.
            var overflow = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            Assert.True(overflow <= 0, $"{path} at {width} px is {overflow} px too wide.");
        }
    }

    private string[] PathsOf(string who) => who switch
    {
        "clara" => ["/pickups", $"/pickups/{held.Draft}", $"/pickups/{held.Pickup}", $"/pickups/{held.Pickup}/lines/1/build-sheet", $"/pickups/{held.Pickup}/floor-plan", "/catalogue", "/catalogue/cartons/add", $"/holds/{held.Hold}", $"/holds/{held.Hold}/correction", "/score", "/messages", $"/messages/{held.Notice}", "/account", "/no-such-page"],
        "rita" => ["/board", "/board?column=expected", "/board?column=overdue", "/holds", $"/holds/{held.Hold}", "/holds?decided=true", "/pickups", "/messages"],
        "mona" => ["/accounts", $"/accounts/{held.Portal.Parties.Shipper.Id}", $"/accounts/{held.Portal.Parties.Shipper.Id}/lines", "/accounts/rules", $"/pickups/{held.Pickup}", $"/holds/{held.Hold}"],
        _ => ["/admin", "/admin/rules", $"/admin/rules/{held.Portal.Parties.Carrier.Id}", "/messages", "/messages?all=true"],
    };

    private static async Task AssertSoundAsync(IPage page)
    {
        // The mail in its frame may run no script, axe's neither; axe would wait for it for ever.
        await page.EvaluateAsync("document.querySelectorAll('iframe').forEach(frame => frame.remove())");
        var found = await page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = [.. Tags] } });
        var grave = found.Violations
            .Where(violation => violation.Impact is "serious" or "critical")
            .Select(violation => $"{page.Url}: {violation.Id} ({violation.Help}) at {string.Join(", ", violation.Nodes.Take(3).Select(node => node.Html))}")
            .ToArray();
        Assert.True(grave.Length == 0, string.Join(Environment.NewLine, grave));
    }
}
