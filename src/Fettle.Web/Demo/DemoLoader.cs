using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace Fettle.Web.Demo;

/// <summary>
/// Loads the demo: firms and people before the first request is answered, says how to come in, then a year of history
/// behind the back of whoever looks already.
/// </summary>
public sealed class DemoLoader(
    Scenario scenario,
    PartyLoader parties,
    HistoryLoader history,
    Settings settings,
    IServer server,
    IHostApplicationLifetime lifetime,
    ILogger<DemoLoader> log) : BackgroundService
{
    private IReadOnlyList<ToldKey>? keys;

    public override async Task StartAsync(CancellationToken cancellationToken)
    {
        if (await parties.SettleAsync(cancellationToken) is not { } settled)
        {
            log.LogInformation("The demo was not loaded: there are shippers in this database already");
            return;
        }

        keys = settled.Keys;
        await base.StartAsync(cancellationToken);
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var started = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var onStarted = lifetime.ApplicationStarted.Register(started.SetResult);
        await started.Task.WaitAsync(stoppingToken);
        if (settings.RunsWeb)
            await Console.Out.WriteLineAsync(Welcome.Text(scenario, keys!, Addresses()));
        try
        {
            await history.RunAsync(stoppingToken);
        }
        catch (Exception e) when (!stoppingToken.IsCancellationRequested)
        {
            // The portal is of use without it.
            log.LogError(e, "The demo's history was cut off; the next start goes on with it");
        }
    }

    private IReadOnlyCollection<string> Addresses() =>
        server.Features.Get<IServerAddressesFeature>()?.Addresses is { Count: > 0 } addresses ? [.. addresses] : [settings.PublicUrl];
}
