namespace Fettle.Web.Demo;

public sealed class DemoLoader : BackgroundService
{
    protected override Task ExecuteAsync(CancellationToken stoppingToken) => Task.CompletedTask;
}
