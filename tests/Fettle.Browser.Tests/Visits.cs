using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Fettle.Testing;
using Microsoft.Playwright;

namespace Fettle.Browser.Tests;

/// <summary>What every journey does: come in, look, and keep a picture.</summary>
internal static class Visits
{
    private const int Patience = 60_000;

    /// <summary>The widths of a tablet held upright and of a desk.</summary>
    private static readonly (int Width, string Name)[] Widths = [(820, "tablet"), (1280, "desktop")];

    private static readonly string[] Rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

    /// <summary>A visitor of their own, signed in and on the page where their role begins.</summary>
    /// <param name="name">The part of the sign-in name before the @: "clara".</param>
    public static async Task<IPage> SignInAsync(this Browser browser, Portal portal, string name)
    {
        var visitor = await browser.NewVisitorAsync(new() { BaseURL = portal.Address.ToString(), ViewportSize = new() { Width = 1280, Height = 900 } });
        visitor.SetDefaultTimeout(Patience);
        var page = await visitor.NewPageAsync();
        await page.GotoAsync("/");
        await page.GetByLabel("E-mail").FillAsync($"{name}@fettle.example");
        await page.GetByLabel("Password").FillAsync(Portal.Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in", Exact = true }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("sign-in"));
        return page;
    }

    /// <summary>With FETTLE_PICTURES set to a folder, keeps what the page looks like at desktop and tablet width.</summary>
    public static async Task PictureAsync(this IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("FETTLE_PICTURES") is not { Length: > 0 } folder)
            return;
        foreach (var (width, suffix) in Widths)
        {
            await page.SetViewportSizeAsync(width, 900);
            await page.EvaluateAsync("window.scrollTo(0, 0)");
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-{suffix}.png"), FullPage = true });
        }
    }

    /// <summary>Axe finds nothing serious, and nothing is wider than the window.</summary>
    public static async Task AssertSoundAsync(this IPage page)
    {
        foreach (var (width, _) in Widths)
        {
            await page.SetViewportSizeAsync(width, 900);
            var found = await page.RunAxe(new AxeRunOptions { RunOnly = new RunOnlyOptions { Type = "tag", Values = [.. Rules] } });
            var grave = found.Violations
                .Where(violation => violation.Impact is "serious" or "critical")
                .Select(violation => $"{page.Url}: {violation.Id} ({violation.Help}) at {string.Join(", ", violation.Nodes.Take(3).Select(node => node.Html))}");
            Assert.Empty(grave);
            var overflow = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
            Assert.True(overflow <= 0, $"{page.Url} at {width} px is {overflow} px too wide.");
        }
    }
}
