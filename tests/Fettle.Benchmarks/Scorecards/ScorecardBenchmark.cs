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
/// fast the figures are counted anew: the whole portal over loopback, one call at a time. The sizes take turns call by call, each
/// in a portal of its own, so that what the machine and the compiler do meanwhile comes to both alike.
/// </summary>
internal static class ScorecardBenchmark
{
    private const int Start = 20261129;
    private const int Accounts = 40;
    private const int WarmUp = 1000;
    private const int Runs = 400;

    private static readonly int[] Usual = [10_000, 1_000_000];

    /// <param name="sizes">Handling units, smallest first; the usual ones when there are none.</param>
    public static async Task RunAsync(IReadOnlyList<int> sizes)
    {
        Environment.SetEnvironmentVariable("ASPNETCORE_TEST_CONTENTROOT_FETTLE_WEB", Repository.PathTo("src/Fettle.Web"));
        var options = new PrivatePostgresOptions { DataFolder = Path.Combine(Path.GetTempPath(), "fettle-benchmark", Path.GetRandomFileName()) };
        try
        {
            await using var server = await PrivatePostgres.StartAsync(options, NullLogger.Instance, CancellationToken.None);
            var loads = new List<Load>();
            try
            {
                foreach (var size in sizes.Count == 0 ? Usual : sizes)
                {
                    var database = await server.CreateDatabaseAsync(string.Create(CultureInfo.InvariantCulture, $"units_{size}"), CancellationToken.None);
                    loads.Add(await LoadAsync(await Portal.StartAsync(runsJobs: false, database), database, size));
                }

                var pages = new List<Times[]>();
                foreach (var (name, path) in Pages)
                    pages.Add(await TimeAsync(loads, name, path));
                var rebuilding = new List<TimeSpan>();
                foreach (var load in loads)
                {
                    var began = Stopwatch.GetTimestamp();
                    await ScorecardRebuild.RunAsync(load.Portal.Store, CancellationToken.None);
                    rebuilding.Add(Stopwatch.GetElapsedTime(began));
                }

                Write(loads, rebuilding, pages);
            }
            finally
            {
                foreach (var load in loads)
                {
                    load.Client.Dispose();
                    await load.Portal.DisposeAsync();
                }
            }
        }
        finally
        {
            await PrivatePostgres.DestroyAsync(options, NullLogger.Instance, CancellationToken.None);
        }
    }

    private static readonly Guid[] Shippers = [.. Enumerable.Range(1, Accounts).Select(number => new Guid(number, 7, 0, new byte[8]))];

    private static readonly (string Name, string Path)[] Pages =
    [
        ("list", "/accounts"), ("list, one lane", "/accounts?lane=saltgrass"), ("one account", $"/accounts/{Shippers[4]}"), ("four side by side", $"/accounts/compare?ids={string.Join("&ids=", Shippers.Take(4))}"),
        ("rules", "/accounts/rules"), ("lines behind a figure", $"/accounts/{Shippers[4]}/lines?what=held"),
    ];

    /// <summary>A portal with so much history in it, and somebody signed in.</summary>
    private sealed record Load(Portal Portal, HttpClient Client, int Units, int Lines, int Pickups, int Events, long Cells, TimeSpan Appending);

    private sealed record Times(string Page, double Fastest, double Median, double P95, double Worst, long Size);

    private static async Task<Load> LoadAsync(Portal portal, string database, int size)
    {
        var carrier = new Guid(1, 8, 0, new byte[8]);
        await SettleAsync(portal, carrier, Shippers);
        var (units, lines, pickups, events, began) = (0, 0, 0, 0, Stopwatch.GetTimestamp());
        foreach (var some in new AccountHistory(Start, [carrier], Shippers, DateTimeOffset.UtcNow).Pickups(size).Chunk(100))
        {
            await AccountHistory.AppendAsync(portal.Store, some, CancellationToken.None);
            (units, lines, pickups, events) = (units + some.Sum(told => told.Units), lines + some.Sum(told => told.Lines), pickups + some.Length, events + some.Sum(told => told.Events));
        }

        var appending = Stopwatch.GetElapsedTime(began);
        await Console.Error.WriteLineAsync($"{units} units, {lines} lines, {events} events after {appending}");
        await ScalarAsync(database, "vacuum analyze");
        var cells = (long)(await ScalarAsync(database, "select count(*) from fettle.score_cells"))!;
        return new(portal, await SignedInAsync(portal), units, lines, pickups, events, cells, appending);
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

    private static async Task<Times[]> TimeAsync(IReadOnlyList<Load> loads, string name, string path)
    {
        var times = loads.Select(_ => new double[Runs]).ToArray();
        var sizes = new long[loads.Count];
        for (var i = -WarmUp; i < Runs; i++)
        {
            foreach (var (number, load) in loads.Index())
            {
                var start = Stopwatch.GetTimestamp();
                using var response = await load.Client.GetAsync(path);
                var body = await response.Content.ReadAsByteArrayAsync();
                var elapsed = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
                if (response.StatusCode != HttpStatusCode.OK)
                    throw new InvalidOperationException($"{path} answered {response.StatusCode}.");
                sizes[number] = body.Length;
                if (i >= 0)
                    times[number][i] = elapsed;
            }
        }

        foreach (var own in times)
            Array.Sort(own);
        return [.. times.Select((own, number) => new Times(name, own[0], own[Runs / 2], own[(int)Math.Ceiling(Runs * .95) - 1], own[^1], sizes[number]))];
    }

    private static void Write(List<Load> loads, List<TimeSpan> rebuilding, List<Times[]> pages)
    {
        Line($"| units | lines | pickups | events | cells | appended, events/s | rebuilt, events/s |");
        Line($"| ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (var (load, time) in loads.Zip(rebuilding))
            Line($"| {load.Units:#,0} | {load.Lines:#,0} | {load.Pickups:#,0} | {load.Events:#,0} | {load.Cells:#,0} | {load.Events / load.Appending.TotalSeconds:#,0} | {load.Events / time.TotalSeconds:#,0} ({time.TotalSeconds:0.0} s) |");
        Line($"");
        Line($"| page | {string.Join(" | ", loads.Select(load => string.Create(CultureInfo.InvariantCulture, $"{load.Units:#,0} units: fastest ms | median | 95 % under | worst | kB")))} | ratio of medians | of 95 % |");
        Line($"| --- | {string.Join(" | ", loads.Select(_ => "---: | ---: | ---: | ---: | ---:"))} | ---: | ---: |");
        foreach (var own in pages)
            Line($"| {own[0].Page} | {string.Join(" | ", own.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Fastest:0.0} | {p.Median:0.0} | {p.P95:0.0} | {p.Worst:0.0} | {p.Size / 1024.0:0}")))} | {own[^1].Median / own[0].Median:0.00} | {own[^1].P95 / own[0].P95:0.00} |");

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
