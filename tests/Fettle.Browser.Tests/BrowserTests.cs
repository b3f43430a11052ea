namespace Fettle.Browser.Tests;

public sealed class BrowserTests(Browser browser)
{
    [Fact]
    public async Task A_browser_is_found_and_runs_script_on_a_page_in_the_locale_and_zone_of_the_tests()
    {
        await using var visitor = await browser.NewVisitorAsync();
        var page = await visitor.NewPageAsync();

        await page.SetContentAsync("<h1>Dock</h1><script>document.querySelector('h1').textContent += ' ' + (40 + 2)</script>");

        Assert.Equal("Dock 42", await page.TextContentAsync("h1"));
        Assert.Equal("en-US", await page.EvaluateAsync<string>("navigator.language"));
        Assert.Equal("America/New_York", await page.EvaluateAsync<string>("Intl.DateTimeFormat().resolvedOptions().timeZone"));
    }

    [Fact]
    public async Task Visitors_share_nothing()
    {
        await using var first = await browser.NewVisitorAsync();
        await using var second = await browser.NewVisitorAsync();

        await first.AddCookiesAsync([new() { Name = "who", Value = "first", Url = "http://127.0.0.1" }]);

        Assert.Single(await first.CookiesAsync());
        Assert.Empty(await second.CookiesAsync());
    }
}
