using System.Diagnostics;
using System.Globalization;
using Fettle.Benchmarks.Check;
using Fettle.Readiness;
using Fettle.Readiness.Findings;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.Boards;
using Fettle.Web.Holds;
using Fettle.Web.Identity;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Benchmarks.Board;

/// <summary>
/// How long a terminal's board takes with 5,000 held units: as it is read, from a flat row a hold; and the plain way, from the
/// holds themselves, whose reasons and sizes are inside their documents.
/// </summary>
internal static class BoardBenchmark
{
    private const int Holds = 5_000;
    private const int Rounds = 60;
    private const int WarmUp = 10;

    /// <summary>The plain way takes seconds.</summary>
    private const int PlainRounds = 10;

    private static readonly DateTimeOffset Now = DateTimeOffset.UtcNow;
    private static readonly Actor Tester = new(Guid.Empty, "Benchmark");

    public static async Task RunAsync()
    {
        // Where the portal's views and settings are; a test project is told by its build.
        Environment.SetEnvironmentVariable("ASPNETCORE_TEST_CONTENTROOT_FETTLE_WEB", Repository.PathTo("src/Fettle.Web"));
        await using var portal = await Portal.StartAsync(runsJobs: false);
        var caller = new Caller(Guid.Empty, "Benchmark", portal.Parties.Reviewer);
        await FillAsync(portal);
        var desk = portal.Services.GetRequiredService<BoardDesk>();
        using var person = await HttpTimes.SignedInAsync(portal, "rita");
        Console.WriteLine("| filter | way | held rows | p50, ms | p95, ms | worst, ms | ratio of p50 |");
        Console.WriteLine("| --- | --- | ---: | ---: | ---: | ---: | ---: |");
        foreach (var (name, filter) in Filters())
        {
            var rows = 0;
            var plain = await MeasureAsync(async () => rows = await PlainAsync(portal.Store, caller, filter), PlainRounds, 1);
            Report(name, "plain `Query<Hold>`", rows, plain, plain);
            var read = await MeasureAsync(async () => rows = (await desk.ReadAsync(caller, filter, CancellationToken.None)).Counts[filter.Column]);
            Report(name, "board, read", rows, read, plain);
            var page = await MeasureAsync(async () => await GetAsync(person, filter.Path()));
            Report(name, "board, whole page over HTTP", rows, page, plain);
        }
    }

    private static IEnumerable<(string, BoardFilter)> Filters()
    {
        yield return ("all", new(BoardColumn.Held, null, null, null, null, 1));
        yield return ("page 40", new(BoardColumn.Held, null, null, null, null, 40));
        yield return ("overhang", new(BoardColumn.Held, null, FindingCodes.Overhang, null, null, 1));
        yield return ("overdue, overhang, 24 h", new(BoardColumn.Overdue, null, FindingCodes.Overhang, 24, null, 1));
    }

    /// <summary>The same list and its two counts from the holds.</summary>
    private static async Task<int> PlainAsync(IDocumentStore store, Caller caller, BoardFilter filter)
    {
        await using var session = store.QuerySession();
        var open = await HoldList.VisibleTo(session.Query<Hold>(), caller).Where(hold => hold.IsOpen).ToListAsync();
        bool Fits(Hold hold) =>
            (filter.Reason is null || hold.FoundNow().Any(finding => finding.Severity == Severity.Stop && finding.Code == filter.Reason))
            && (filter.AgeHours is not { } age || hold.Placed.At <= Now.AddHours(-age))
            && (filter.Urgency != BoardUrgency.Fragile || hold.DeclaredNow().Fragile != Readiness.Declarations.Fragility.None);
        Hold[] fitting = [.. open.Where(Fits)];
        var overdue = fitting.Count(hold => hold.Turn!.By < Now);
        var page = fitting.Where(hold => filter.Column == BoardColumn.Held || hold.Turn!.By < Now).OrderBy(hold => hold.Turn!.By).Skip((filter.Page - 1) * BoardFilter.PageSize).Take(BoardFilter.PageSize).ToArray();
        return page.Length == 0 ? 0 : filter.Column == BoardColumn.Held ? fitting.Length : overdue;
    }

    /// <summary>Holds as the check makes them, of forty builds, placed over four days; stored as the projections store them.</summary>
    private static async Task FillAsync(Portal portal)
    {
        var parties = portal.Parties;
        var lines = TroubledPickup.Declared.HandlingUnits;
        var judged = lines.Select(line => Readiness.Rules.ReadinessCheck.Run(line, TroubledPickup.Declared.Lane, RuleSet.BuiltIn)).Where(result => result.Verdict == Verdict.Hold).ToArray();
        var holds = new List<Hold>(Holds);
        var units = new List<HeldUnit>(Holds);
        var pickups = new List<DockPickup>(Holds);
        for (var i = 0; i < Holds; i++)
        {
            var result = judged[i % judged.Length];
            var line = lines.First(line => line.Reference == result.Reference) with { Quantity = 1 + (i % 5) };
            var at = Now.AddMinutes(-(i * 7 % (4 * 24 * 60)));
            var header = new PickupHeader(
                $"P-{i:000000}", parties.Shipper.Id, parties.Shipper.Sites[0].Id, parties.Carrier.Id, parties.Carrier.Terminals[0].Id, "Saltgrass", new(at.AddHours(30), at.AddHours(32), "America/Chicago"), Equipment.Van53);
            var stops = result.Findings.Where(finding => finding.Severity == Severity.Stop).ToArray();
            var placed = new HoldPlaced(
                Guid.CreateVersion7(at), Guid.CreateVersion7(at), $"{header.Number}/{line.Reference}", header, line, TroubledPickup.Declared.Units, result.Findings, Phrase.Join(" ", [.. stops.Select(stop => stop.Message)]),
                null, Tester, at.AddHours(32), at, null, HoldHours.Of(RuleSet.BuiltIn.Hold, result.Findings));
            holds.Add(Hold.Evolve(null, placed)!);
            units.Add(HeldUnit.After(null, placed)!);
            var declared = TroubledPickup.Declared with { HandlingUnits = [line] };
            var submitted = new PickupSubmitted(placed.PickupId, header, declared, UnitNumber.For(declared, _ => null), RuleSet.BuiltIn.Identity, [UnitJudgement.Of(result)], [], null, Tester, at);
            pickups.Add(DockPickup.After(null, submitted)!);
        }

        await portal.Store.BulkInsertAsync(holds, batchSize: 500);
        await portal.Store.BulkInsertAsync(units, batchSize: 500);
        await portal.Store.BulkInsertAsync(pickups, batchSize: 500);
        await using var session = portal.Store.QuerySession();
        await session.QueryAsync<int>("select 1");
    }

    private static async Task<Times> MeasureAsync(Func<Task> work, int rounds = Rounds, int warmUp = WarmUp)
    {
        var times = new Times();
        for (var round = 0; round < warmUp + rounds; round++)
        {
            var start = Stopwatch.GetTimestamp();
            await work();
            if (round >= warmUp)
                times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return times;
    }

    private static void Report(string filter, string way, int rows, Times times, Times plain) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture, $"| {filter} | {way} | {rows:#,0} | {times.Share(0.5):0.0} | {times.Share(0.95):0.0} | {times.Worst:0.0} | {times.Share(0.5) / plain.Share(0.5):0.00} |"));

    private static async Task GetAsync(HttpClient person, string path)
    {
        using var answer = await person.GetAsync(new Uri(path, UriKind.Relative));
        answer.EnsureSuccessStatusCode();
        var text = await answer.Content.ReadAsStringAsync();
        if (!text.Contains("board__table", StringComparison.Ordinal))
            throw new InvalidOperationException($"{path} shows no rows.");
    }
}
