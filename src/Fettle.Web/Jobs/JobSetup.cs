using Fettle.Web.Api;
using Fettle.Web.Catalogue;
using Fettle.Web.Evidence;
using Fettle.Web.Holds;
using Fettle.Web.Digests;
using Fettle.Web.FloorUse;
using Fettle.Web.Notices;
using Fettle.Web.Pickups;
using Fettle.Web.RuleSets;
using Hangfire;
using Hangfire.AspNetCore;
using Hangfire.PostgreSql;
using Hangfire.PostgreSql.Factories;
using Hangfire.Storage;
using Npgsql;

namespace Fettle.Web.Jobs;

/// <summary>Background jobs on Hangfire, in a schema of its own and with connections of its own.</summary>
public static class JobSetup
{
    private const string Schema = "hangfire";
    private const int Connections = 20;

    /// <summary>Hangfire keeps its log in a static field: one that a host disposes of would fail every other host of the process.</summary>
    private static readonly ILoggerFactory Log = LoggerFactory.Create(log => log.SetMinimumLevel(LogLevel.Warning).AddSimpleConsole(console => console.SingleLine = true));

    public static IServiceCollection AddJobs(this IServiceCollection services, string connectionString, bool runsJobs)
    {
        var options = new PostgreSqlStorageOptions
        {
            SchemaName = Schema,
            // Done once for all nodes, with the migrations.
            PrepareSchemaIfNecessary = false,
            QueuePollInterval = TimeSpan.FromSeconds(1),
            // A job whose process died is taken again after this; while it runs the time is renewed.
            UseSlidingInvisibilityTimeout = true,
            InvisibilityTimeout = TimeSpan.FromMinutes(2),
            DistributedLockTimeout = TimeSpan.FromMinutes(1),
        };
        var connections = new NpgsqlConnectionStringBuilder(connectionString) { MaxPoolSize = Connections, ApplicationName = "fettle-jobs" };
        // Storage and activator of this host's own: Hangfire's are static, and a second host in the process would take them over.
        // The options are given twice on purpose: the factory and the storage each read their own.
        services.AddSingleton<JobStorage>(_ => new PostgreSqlStorage(new NpgsqlConnectionFactory(connections.ConnectionString, options), options));
        services.AddSingleton<JobActivator>(provider => new AspNetCoreJobActivator(provider.GetRequiredService<IServiceScopeFactory>()));
        services.AddHangfire((provider, hangfire) => hangfire
            .SetDataCompatibilityLevel(CompatibilityLevel.Version_180)
            .UseSimpleAssemblyNameTypeSerializer()
            .UseRecommendedSerializerSettings()
            .UseLogProvider(new AspNetCoreLogProvider(Log))
            .UseStorage(provider.GetRequiredService<JobStorage>())
            // The sweep tries again what failed, at its own pace.
            .UseFilter(new AutomaticRetryAttribute { Attempts = 0, OnAttemptsExceeded = AttemptsExceededAction.Delete }));
        services.AddSingleton<DueWork>();
        services.AddTransient<SweepJob>();
        services.AddTransient<FollowUpJob>();
        services.AddTransient<SendNoticeJob>();
        services.AddTransient<RulePreviewJob>();
        services.AddTransient<RecheckBuildsJob>();
        services.AddTransient<RetentionJob>();
        services.AddTransient<WatchHoldsJob>();
        services.AddTransient<ForgetAnswersJob>();
        services.AddTransient<FloorUseJob>();
        services.AddTransient<WeeklyDigestJob>();
        if (!runsJobs)
            return services;
        services.AddHangfireServer((provider, server) =>
        {
            var sweep = provider.GetRequiredService<Settings>().Jobs.SweepSeconds;
            server.WorkerCount = 4;
            server.SchedulePollingInterval = TimeSpan.FromSeconds(Math.Min(5, sweep));
            server.ServerTimeout = TimeSpan.FromMinutes(2);
            server.ShutdownTimeout = Running.GoodbyeToJobs;
        });
        services.AddHostedService<RecurringJobs>();
        return services;
    }

    /// <summary>Makes the job server's tables, or brings them up to this version's. Two must not do so at once.</summary>
    public static void PrepareSchema(string connectionString)
    {
        using var connection = new NpgsqlConnection(connectionString);
        connection.Open();
        PostgreSqlObjectsInstaller.Install(connection, Schema);
    }

    private sealed class RecurringJobs(IRecurringJobManager jobs, Settings settings, ILogger<RecurringJobs> log) : BackgroundService
    {
        private static readonly TimeSpan Pause = TimeSpan.FromSeconds(5);

        protected override async Task ExecuteAsync(CancellationToken stoppingToken)
        {
            while (true)
            {
                try
                {
                    jobs.AddOrUpdate<SweepJob>(SweepJob.Id, job => job.RunAsync(CancellationToken.None), $"*/{settings.Jobs.SweepSeconds} * * * * *");
                    // Whoever changes rules says so at once; this finds what came with a new version of the program, or whose word was lost.
                    jobs.AddOrUpdate<RecheckBuildsJob>(RecheckBuildsJob.Id, job => job.RunAsync(CancellationToken.None), Cron.Hourly);
                    jobs.AddOrUpdate<RetentionJob>(RetentionJob.Id, job => job.RunAsync(CancellationToken.None), Cron.Daily);
                    jobs.AddOrUpdate<ForgetAnswersJob>(ForgetAnswersJob.Id, job => job.RunAsync(CancellationToken.None), Cron.Daily);
                    jobs.AddOrUpdate<WatchHoldsJob>(WatchHoldsJob.Id, job => job.RunAsync(CancellationToken.None), Cron.Minutely);
                    jobs.AddOrUpdate<FloorUseJob>(FloorUseJob.Id, job => job.RunAsync(CancellationToken.None), Cron.Minutely);
                    if (settings.Digest.Weekly)
                        jobs.AddOrUpdate<WeeklyDigestJob>(WeeklyDigestJob.Id, job => job.RunAsync(CancellationToken.None), WeeklyDigestJob.When, new RecurringJobOptions { TimeZone = TimeZoneInfo.FindSystemTimeZoneById(settings.Digest.TimeZone) });
                    else
                        jobs.RemoveIfExists(WeeklyDigestJob.Id);
                    return;
                }
                catch (DistributedLockTimeoutException e)
                {
                    // A process that was killed at the wrong moment holds the job until its lock has aged.
                    log.LogInformation(e, "The recurring sweep is locked; trying again");
                    await Task.Delay(Pause, stoppingToken);
                }
            }
        }
    }
}
