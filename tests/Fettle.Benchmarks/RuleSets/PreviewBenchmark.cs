using System.Diagnostics;
using System.Globalization;
using Fettle.Benchmarks.Check;
using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using Fettle.Web.Store.Postgres;
using Marten;
using Microsoft.Extensions.Logging.Abstractions;

namespace Fettle.Benchmarks.RuleSets;

/// <summary>
/// How long an administrator waits for a preview: 100,000 lines stored, each read back and judged by two rule sets. A line
/// stands for at least one handling unit, so that this is the hardest that 100,000 handling units can be.
/// </summary>
internal static class PreviewBenchmark
{
    private const int Lines = 100_000;
    private const int LinesAPickup = 4;

    private static readonly Guid Carrier = new("00000000-0000-7000-8000-000000000003");
    private static readonly Actor Tester = new(Guid.Empty, "Benchmark");
    private static readonly DateTimeOffset Now = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    private static readonly RuleSet Stricter = RuleSet.BuiltIn with
    {
        Identity = new("Stricter", 1),
        Wrap = new() { Turns = 3 },
        Height = new() { Limit = Length.FromInches(96) },
        Overhang = new() { Clearance = Length.FromInches(1) },
    };

    public static async Task RunAsync()
    {
        Console.WriteLine("| lines | alike | what | seconds | processor seconds | lines a second |");
        Console.WriteLine("| ---: | --- | --- | ---: | ---: | ---: |");
        foreach (var (alike, weights) in ((string, int)[])[("all different", Lines), ("about forty of each", 100)])
        {
            var pickups = Pickups(weights);
            var declared = pickups.Select(pickup => (pickup.Header.ShipperId, pickup.Declaration)).ToArray();
            await ReportAsync(alike, "judged by two rule sets, one thread", () => Task.FromResult(new RuleComparison(RuleSet.BuiltIn, Stricter).Of(declared)));
            await StoredAsync(alike, pickups);
        }
    }

    private static async Task StoredAsync(string alike, Pickup[] pickups)
    {
        var options = new PrivatePostgresOptions { DataFolder = Path.Combine(Path.GetTempPath(), "fettle-benchmark", Path.GetRandomFileName()) };
        try
        {
            await using var server = await PrivatePostgres.StartAsync(options, NullLogger.Instance, CancellationToken.None);
            await Migrator.ApplyAsync(server.ConnectionString, Migration.All, CancellationToken.None);
            await using var store = DocumentStore.For(marten =>
            {
                marten.Connection(server.ConnectionString);
                StoreSetup.Configure(marten);
            });
            await store.BulkInsertAsync(pickups, batchSize: 1000);
            var job = new RulePreviewJob(store, TimeProvider.System);
            var preview = new RulePreview { Id = Guid.CreateVersion7(), CarrierId = Carrier, Rules = Stricter, Against = RuleSet.BuiltIn, Revision = 1, AskedBy = Tester, AskedAt = Now };
            await using (var session = store.LightweightSession())
            {
                session.Insert(preview);
                await session.SaveChangesAsync();
            }

            await ReportAsync(alike, "the whole job, from the database", async () =>
            {
                await job.RunAsync(preview.Id, CancellationToken.None);
                await using var session = store.QuerySession();
                var done = await session.LoadAsync<RulePreview>(preview.Id);
                return done?.Effect ?? throw new InvalidOperationException("It was not counted.");
            });
        }
        finally
        {
            await PrivatePostgres.DestroyAsync(options, NullLogger.Instance, CancellationToken.None);
        }
    }

    private static async Task ReportAsync(string alike, string what, Func<Task<RuleEffect>> work)
    {
        var (start, used) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
        var effect = await work();
        var (seconds, processor) = (Stopwatch.GetElapsedTime(start).TotalSeconds, (Environment.CpuUsage.TotalTime - used).TotalSeconds);
        if (effect.Pickups.All != Lines / LinesAPickup)
            throw new InvalidOperationException($"{effect.Pickups.All} pickups were counted.");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {Lines:#,0} | {alike} | {what} | {seconds:0.0} | {processor:0.0} | {Lines / seconds:#,0} |"));
    }

    /// <summary>As they are stored: with the findings of the day, which make most of a document.</summary>
    /// <param name="weights">How many different weights a line can have; the fewer, the more lines are alike.</param>
    private static Pickup[] Pickups(int weights)
    {
        var lines = TroubledPickup.Declared.HandlingUnits;
        return [.. Enumerable.Range(0, Lines / LinesAPickup).Select(number =>
        {
            var declaration = TroubledPickup.Declared with
            {
                HandlingUnits = [.. Enumerable.Range(number * LinesAPickup, LinesAPickup).Select(line => lines[line % lines.Count] with
                {
                    Reference = $"A{line}",
                    GrossWeight = lines[line % lines.Count].GrossWeight + Mass.FromPounds(line % weights / 10_000.0),
                })],
            };
            var header = new PickupHeader($"P-{number}", Guid.CreateVersion7(Now), Carrier, Carrier, Carrier, "Saltgrass", new(Now, Now.AddHours(2), "America/Chicago"), Equipment.Van53);
            return new Pickup(
                Guid.CreateVersion7(Now),
                header with { ShipperId = new(number % 40, 0, 0, new byte[8]) },
                declaration,
                UnitNumber.For(declaration, _ => null),
                RuleSet.BuiltIn.Identity,
                [.. ReadinessCheck.Run(declaration, RuleSet.BuiltIn).HandlingUnits.Select(UnitJudgement.Of)],
                [],
                null,
                Tester,
                Now.AddMinutes(-number % (60 * 24 * 89)));
        })];
    }
}
