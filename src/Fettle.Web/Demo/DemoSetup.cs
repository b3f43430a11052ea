namespace Fettle.Web.Demo;

/// <summary>The demo scenario: invented firms and a year of their freight, loaded through the same commands that people use.</summary>
public static class DemoSetup
{
    /// <summary>Loads the scenario into an empty database when it is wanted: always on the private server, elsewhere when set.</summary>
    public static IServiceCollection AddDemo(this IServiceCollection services, Settings settings, bool isPrivate)
    {
        if (!(settings.Demo.Load ?? isPrivate))
            return services;
        return services
            .AddSingleton(_ => Scenario.Read(Scenario.Folder))
            .AddSingleton(settings.Demo)
            .AddSingleton<PartyLoader>()
            .AddSingleton<HistoryLoader>()
            .AddHostedService<DemoLoader>();
    }
}
