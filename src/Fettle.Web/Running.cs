using Microsoft.AspNetCore.Connections;

namespace Fettle.Web;

/// <summary>How the process starts, runs and says goodbye.</summary>
public static class Running
{
    /// <summary>How long jobs may take to notice that the process is told to stop. What is cut short is done again by whoever comes next.</summary>
    public static readonly TimeSpan GoodbyeToJobs = TimeSpan.FromSeconds(8);

    /// <summary>How long everything may take, requests included; with the private database's own goodbye it stays under 15 seconds.</summary>
    private static readonly TimeSpan Goodbye = TimeSpan.FromSeconds(10);

    private const string HostLog = "Microsoft.Extensions.Hosting.Internal.Host";

    private static volatile bool started;

    public static void AddRunning(this WebApplicationBuilder builder)
    {
        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = Goodbye);
        // What fails while starting is thrown as well as logged; once is enough.
        builder.Logging.AddFilter(HostLog, level => started && level >= LogLevel.Information);
    }

    /// <summary>Runs until told to stop.</summary>
    /// <returns>The exit code.</returns>
    public static async Task<int> RunToEndAsync(this WebApplication app)
    {
        app.Lifetime.ApplicationStarted.Register(() => started = true);
        try
        {
            await app.RunAsync();
            return 0;
        }
        catch (IOException e) when (e.InnerException is AddressInUseException)
        {
            await Console.Error.WriteLineAsync($"{e.Message.TrimEnd('.')}: stop the program that has it, or choose another address with --urls http://localhost:5181");
            return 1;
        }
    }
}
