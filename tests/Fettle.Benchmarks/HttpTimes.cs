using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Fettle.Benchmarks.Check;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Testing;
using Fettle.Web.Declarations;
using Fettle.Web.Store.Postgres;
using Microsoft.Extensions.Logging.Abstractions;

namespace Fettle.Benchmarks;

/// <summary>
/// What a clerk waits for after each change, and a warehouse system at each call: the whole portal over loopback, on a
/// PostgreSQL server that writes through to the disk, one call at a time. Processor time is that of this process: of the portal and of the client, not of PostgreSQL.
/// </summary>
internal static class HttpTimes
{
    /// <summary>So many that the runtime has compiled its best code.</summary>
    private const int WarmUp = 300;
    private const int Runs = 400;

    public static async Task RunAsync()
    {
        // Where the portal's views and settings are; a test project is told by its build.
        Environment.SetEnvironmentVariable("ASPNETCORE_TEST_CONTENTROOT_FETTLE_WEB", Repository.PathTo("src/Fettle.Web"));
        var options = new PrivatePostgresOptions { DataFolder = Path.Combine(Path.GetTempPath(), "fettle-benchmark", Path.GetRandomFileName()) };
        try
        {
            await using var server = await PrivatePostgres.StartAsync(options, NullLogger.Instance, CancellationToken.None);
            await using var portal = await Portal.StartAsync(runsJobs: true, server.ConnectionString);
            await MeasureAsync(portal);
        }
        finally
        {
            await PrivatePostgres.DestroyAsync(options, NullLogger.Instance, CancellationToken.None);
        }
    }

    private static async Task MeasureAsync(Portal portal)
    {
        using var api = await portal.ApiAsync(portal.Parties.Clerk);
        using var page = await SignedInAsync(portal);
        var all = TroubledPickup.Declared;
        var one = all with { HandlingUnits = [all.HandlingUnits[0]] };

        Console.WriteLine("| call | median ms | 99 % under ms | worst ms | processor, mean ms | answer kB |");
        Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: |");
        await ReportAsync("`POST /api/v1/checks`, 1 line", _ => api.PostAsJsonAsync("/api/v1/checks", Json(one)));
        await ReportAsync("`POST /api/v1/checks`, 26 lines", _ => api.PostAsJsonAsync("/api/v1/checks", Json(all)));
        await PageAsync("1 line", await DraftAsync(api, one), 0);
        await PageAsync("26 lines", await DraftAsync(api, all), 3);

        async Task PageAsync(string size, string draft, int line)
        {
            var form = await FormAsync(page, draft);
            await ReportAsync($"page, {size}: a weight changed", n => CheckAsync($"handlingUnits[{line}].grossWeight", Number(900 + n)));
            await ReportAsync($"page, {size}: a carton's length changed", n => CheckAsync($"handlingUnits[{line}].contents.carton.length", Number(14 + (n / 100.0))));
            await ReportAsync($"page, {size}: the miles changed, which matter to every line", n => CheckAsync("lane.miles", Number(600 + n)));

            async Task<HttpResponseMessage> CheckAsync(string field, string value)
            {
                form[field] = value;
                using var request = new HttpRequestMessage(HttpMethod.Post, $"/pickups/{draft}/check") { Content = new FormUrlEncodedContent(form) };
                request.Headers.Add("HX-Request", "true");
                request.Headers.Add("X-Changed", field);
                return await page.SendAsync(request);
            }
        }
    }

    private static async Task ReportAsync(string what, Func<int, Task<HttpResponseMessage>> call)
    {
        var times = new double[Runs];
        var size = 0L;
        var processor = TimeSpan.Zero;
        for (var i = -WarmUp; i < Runs; i++)
        {
            if (i == 0)
                processor = Environment.CpuUsage.TotalTime;
            var start = Stopwatch.GetTimestamp();
            using var response = await call(i + WarmUp);
            var body = await response.Content.ReadAsByteArrayAsync();
            var elapsed = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            response.EnsureSuccessStatusCode();
            size = body.Length;
            if (i >= 0)
                times[i] = elapsed;
        }

        processor = (Environment.CpuUsage.TotalTime - processor) / Runs;
        Array.Sort(times);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what} | {times[Runs / 2]:0.0} | {times[(int)Math.Ceiling(Runs * 0.99) - 1]:0.0} | {times[^1]:0.0} | {processor.TotalMilliseconds:0.0} | {size / 1024.0:0} |"));
    }

    internal static async Task<HttpClient> SignedInAsync(Portal portal, string person = "clara")
    {
        var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = portal.Address };
        var form = await FormAsync(client, "/sign-in", "form[action='/sign-in']");
        form["Form.UserName"] = $"{person}@fettle.example";
        form["Form.Password"] = Portal.Password;
        using var answer = await client.PostAsync("/sign-in", new FormUrlEncodedContent(form));
        return answer.StatusCode == HttpStatusCode.Redirect ? client : throw new InvalidOperationException($"Signing in answered {answer.StatusCode}.");
    }

    private static async Task<string> DraftAsync(HttpClient api, Declaration declaration)
    {
        var pickup = ((JsonObject)JsonSerializer.SerializeToNode(Json(declaration), JsonSerializerOptions.Web)!).AsPickup(DateTimeOffset.UtcNow);
        var answer = await api.PostAsync("/api/v1/pickups", pickup);
        return answer.Json.At("id") ?? throw new InvalidOperationException($"Declaring answered {answer}.");
    }

    private static Task<Dictionary<string, string>> FormAsync(HttpClient client, string draft) => FormAsync(client, $"/pickups/{draft}", "form#declaration");

    /// <summary>What a browser would send of a form.</summary>
    private static async Task<Dictionary<string, string>> FormAsync(HttpClient client, string path, string selector)
    {
        var document = await new HtmlParser().ParseDocumentAsync(await client.GetStringAsync(path));
        var form = (IHtmlFormElement)(document.QuerySelector(selector) ?? throw new InvalidOperationException($"{path} has no {selector}."));
        var fields = new Dictionary<string, string>();
        foreach (var field in form.Elements)
        {
            var (name, value) = field switch
            {
                IHtmlInputElement { Type: "checkbox", IsChecked: false } => (null, ""),
                IHtmlInputElement input => (input.Name, input.Value),
                IHtmlSelectElement select => (select.Name, select.Value ?? ""),
                IHtmlTextAreaElement text => (text.Name, text.Value),
                _ => (null, ""),
            };
            if (!string.IsNullOrEmpty(name))
                fields.TryAdd(name, value);
        }

        return fields;
    }

    private static CheckJson Json(Declaration declaration) => new(
        "imperial",
        new LaneJson(declaration.Lane.Miles, declaration.Lane.Transfers, declaration.Lane.CrossBorder),
        declaration.DriverOnDock,
        [.. declaration.HandlingUnits.Select(unit => UnitJson.Of(unit, UnitSystem.Imperial))]);

    private static string Number(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
