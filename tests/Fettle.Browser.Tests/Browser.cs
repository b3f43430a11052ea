using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Fettle.Browser.Tests.Browser))]

namespace Fettle.Browser.Tests;

/// <summary>One headless browser for all the tests, started when first asked for. Test classes take it in their constructor.</summary>
public sealed class Browser : IAsyncDisposable
{
    private readonly Lazy<Task<(IPlaywright Playwright, IBrowser Program)>> _running = new(LaunchAsync);

    /// <summary>A context of its own, as a new visitor has: no cookies, nothing stored. English (US), New York time unless told otherwise.</summary>
    public async Task<IBrowserContext> NewVisitorAsync(BrowserNewContextOptions? options = null)
    {
        options ??= new();
        options.Locale ??= "en-US";
        options.TimezoneId ??= "America/New_York";
        return await (await _running.Value).Program.NewContextAsync(options);
    }

    public async ValueTask DisposeAsync()
    {
        if (!_running.IsValueCreated || !_running.Value.IsCompletedSuccessfully)
            return;
        var (playwright, program) = await _running.Value;
        await program.DisposeAsync();
        playwright.Dispose();
    }

    private static async Task<(IPlaywright, IBrowser)> LaunchAsync()
    {
        var playwright = await Playwright.CreateAsync();
        var program = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = BrowserProgram.Find(),
            Headless = true,
            // The sandbox wants an unprivileged user; the rest keeps the browser from talking to anyone but the portal.
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
        return (playwright, program);
    }
}
