using System.Diagnostics;
using System.Globalization;
using System.Net;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.Scorecards;
using Fettle.Web.Store.Postgres;
using Marten;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;

namespace Fettle.Benchmarks.Scorecards;

/// <summary>
/// What an account manager waits for with 10,000 and with 1,000,000 handling units of history behind the figures, and how
/// fast the figures are counted anew: the whole portal over loopback, one call at a time.
/// </summary>
internal static class ScorecardBenchmark
{
    private const int Start = 20261129;
    private const int Accounts = 40;
    private const int WarmUp = 40;
    private const int Runs = 120;

    private static readonly int[] Usual = [10_000, 1_000_000];

    /// <param name="sizes">Handling units, smallest first; the usual ones when there are none.</param>
    public static async Task RunAsync(IReadOnlyList<int> sizes)
    {
        Environment.SetEnvironmentVariable("ASPNETCORE_TEST_CONTENTROOT_FETTLE_WEB", Repository.PathTo("src/Fettle.Web"));
        var options = new PrivatePostgresOptions { DataFolder = Path.Combine(Path.GetTempPath(), "fettle-benchmark", Path.GetRandomFileName()) };
        try
        {
            await using var server = await PrivatePostgres.StartAsync(options, NullLogger.Instance, CancellationToken.None);
            var results = new List<Result>();
            foreach (var size in sizes.Count == 0 ? Usual : sizes)
            {
                var database = await server.CreateDatabaseAsync(string.Create(CultureInfo.InvariantCulture, $"units_{size}"), CancellationToken.None);
                await using var portal = await Portal.StartAsync(runsJobs: false, database);
                results.Add(await MeasureAsync(portal, database, size));
            }

            Write(results);
        }
        finally
        {
            await PrivatePostgres.DestroyAsync(options, NullLogger.Instance, CancellationToken.None);
        }
    }

    private sealed record Result(int Units, int Lines, int Pickups, int Events, long Cells, TimeSpan Appending, TimeSpan Rebuilding, IReadOnlyList<(string Page, double Median, double P95, double Worst, long Size)> Pages);

    private static async Task<Result> MeasureAsync(Portal portal, string database, int size)
    {
        Guid[] shippers = [.. Enumerable.Range(1, Accounts).Select(number => new Guid(number, 7, 0, new byte[8]))];
        var carrier = new Guid(1, 8, 0, new byte[8]);
        await SettleAsync(portal, carrier, shippers);
        var (units, lines, pickups, events, began) = (0, 0, 0, 0, Stopwatch.GetTimestamp());
        foreach (var some in new AccountHistory(Start, [carrier], shippers, DateTimeOffset.UtcNow).Pickups(size).Chunk(100))
        {
            await AccountHistory.AppendAsync(portal.Store, some, CancellationToken.None);
            (units, lines, pickups, events) = (units + some.Sum(told => told.Units), lines + some.Sum(told => told.Lines), pickups + some.Length, events + some.Sum(told => told.Events));
        }

        var appending = Stopwatch.GetElapsedTime(began);
        await Console.Error.WriteLineAsync($"{units} units, {lines} lines, {events} events after {appending}");
        await ScalarAsync(database, "vacuum analyze");
        using var page = await SignedInAsync(portal);
        var pages = new List<(string, double, double, double, long)>();
        foreach (var (name, path) in new[]
        {
            ("list", "/accounts"), ("list, one lane", "/accounts?lane=saltgrass"), ("one account", $"/accounts/{shippers[4]}"), ("four side by side", $"/accounts/compare?ids={string.Join("&ids=", shippers.Take(4))}"),
            ("rules", "/accounts/rules"), ("lines behind a figure", $"/accounts/{shippers[4]}/lines?what=held"),
        })
            pages.Add(await TimeAsync(page, name, path));
        var cells = (long)(await ScalarAsync(database, "select count(*) from fettle.score_cells"))!;
        began = Stopwatch.GetTimestamp();
        await ScorecardRebuild.RunAsync(portal.Store, CancellationToken.None);
        return new(units, lines, pickups, events, cells, appending, Stopwatch.GetElapsedTime(began), pages);
    }

    private static async Task SettleAsync(Portal portal, Guid carrier, Guid[] shippers)
    {
        await using var session = portal.Store.LightweightSession();
        session.Store([.. shippers.Select((id, index) => new Shipper
        {
            Id = id,
            Name = $"Shipper {index + 1}",
            Email = "dock@shipper.example",
            Sites = [.. Enumerable.Range(0, 3).Select(number => new Site(AccountHistory.SiteOf(id, number), $"Dock {number + 1}", "1 Dock Road", "America/Chicago"))],
        })]);
        session.Store(new Carrier
        {
            Id = carrier,
            Name = "Carrier",
            Terminals = [.. Enumerable.Range(0, 3).Select(number => new Terminal(AccountHistory.TerminalOf(carrier, number), $"Terminal {number + 1}", "1 Mill Lane", "t@carrier.example", "America/Chicago"))],
        });
        await session.SaveChangesAsync();
        await portal.AddUserAsync("Bench Manager", Rights.AccountManager(carrier, shippers));
    }

    private static async Task<(string, double, double, double, long)> TimeAsync(HttpClient client, string name, string path)
    {
        var (times, size) = (new double[Runs], 0L);
        for (var i = -WarmUp; i < Runs; i++)
        {
            var start = Stopwatch.GetTimestamp();
            using var response = await client.GetAsync(path);
            var body = await response.Content.ReadAsByteArrayAsync();
            var elapsed = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            if (response.StatusCode != HttpStatusCode.OK)
                throw new InvalidOperationException($"{path} answered {response.StatusCode}.");
            size = body.Length;
            if (i >= 0)
                times[i] = elapsed;
        }

        Array.Sort(times);
        return (name, times[Runs / 2], times[(int)Math.Ceiling(Runs * .95) - 1], times[^1], size);
    }

    private static void Write(List<Result> results)
    {
        Line($"| units | lines | pickups | events | cells | appended, events/s | rebuilt, events/s |");
        Line($"| ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (var r in results)
            Line($"| {r.Units:#,0} | {r.Lines:#,0} | {r.Pickups:#,0} | {r.Events:#,0} | {r.Cells:#,0} | {r.Events / r.Appending.TotalSeconds:#,0} | {r.Events / r.Rebuilding.TotalSeconds:#,0} ({r.Rebuilding.TotalSeconds:0.0} s) |");
        Line($"");
        Line($"| page | {string.Join(" | ", results.Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Units:#,0} units: median ms | 95 % under ms | worst ms | kB")))} | 95 %: ratio |");
        Line($"| --- | {string.Join(" | ", results.Select(_ => "---: | ---: | ---: | ---:"))} | ---: |");
        for (var i = 0; i < results[0].Pages.Count; i++)
        {
            var own = results.Select(r => r.Pages[i]).ToArray();
            Line($"| {own[0].Page} | {string.Join(" | ", own.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Median:0.0} | {p.P95:0.0} | {p.Worst:0.0} | {p.Size / 1024.0:0}")))} | {own[^1].P95 / own[0].P95:0.00} |");
        }

        static void Line(FormattableString text) => Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
    }

    private static async Task<object?> ScalarAsync(string database, string sql)
    {
        await using var connection = new NpgsqlConnection(database);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection) { CommandTimeout = 0 };
        return await command.ExecuteScalarAsync();
    }

    private static async Task<HttpClient> SignedInAsync(Portal portal)
    {
        var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = portal.Address };
        var document = await new HtmlParser().ParseDocumentAsync(await client.GetStringAsync("/sign-in"));
        var form = (IHtmlFormElement)document.QuerySelector("form[action='/sign-in']")!;
        var fields = form.Elements.OfType<IHtmlInputElement>().Where(input => !string.IsNullOrEmpty(input.Name)).GroupBy(input => input.Name!).ToDictionary(input => input.Key, input => input.First().Value);
        fields["Form.UserName"] = "bench@fettle.example";
        fields["Form.Password"] = Portal.Password;
        using var answer = await client.PostAsync("/sign-in", new FormUrlEncodedContent(fields));
        return answer.StatusCode == HttpStatusCode.Redirect ? client : throw new InvalidOperationException($"Signing in answered {answer.StatusCode}.");
    }
}
