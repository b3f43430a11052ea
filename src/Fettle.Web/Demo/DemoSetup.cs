namespace Fettle.Web.Demo;

/// <summary>The demo scenario: invented firms and a year of their freight, loaded through the same commands that people use.</summary>
public static class DemoSetup
{
    /// <summary>Loads the scenario into an empty database when it is wanted: always on the private server, elsewhere when set.</summary>
    public static IServiceCollection AddDemo(this IServiceCollection services, Settings settings, bool isPrivate) =>
        settings.Demo.Load ?? isPrivate ? services.AddHostedService<DemoLoader>() : services;
}
