using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Fettle.Readiness;
using Fettle.Testing;
using Fettle.Web.Areas;
using Fettle.Web.Identity;
using Fettle.Web.Security;
using Fettle.Web.Store;
using Fettle.Web.Store.Migrations;
using Marten;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using Npgsql;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Identity;

/// <summary>
/// Sign-in, pages and security alone, with a clock that the test moves, and a few endpoints that stand for those of other
/// concepts. All share one database, like nodes of one portal, so tests name people of their own.
/// </summary>
public sealed class FrontDoor : IAsyncLifetime
{
    public const string Password = "six pallets of figs";

    /// <summary>The address that a request claims to come from, in place of a network.</summary>
    public const string AddressHeader = "Test-Address";

    private static readonly Lazy<Task<string>> SharedDatabase = new(async () =>
    {
        var database = await TestPostgres.CreateDatabaseAsync();
        // Before any of them starts: several front doors that made the tables at once would get in each other's way.
        await Migrator.ApplyAsync(database, Migration.All, CancellationToken.None);
        return database;
    });

    private WebApplication app = null!;
    private int machines;

    public Settings Settings { get; init; } = new();

    public string Database { get; private set; } = "";

    /// <summary>Starts at the real time: parts of the framework look at no other clock.</summary>
    public FakeTimeProvider Clock { get; } = new(DateTimeOffset.UtcNow);

    public IServiceProvider Services => app.Services;

    public IDocumentStore Store => Services.GetRequiredService<IDocumentStore>();

    public ApiKeys Keys => Services.GetRequiredService<ApiKeys>();

    public async ValueTask InitializeAsync()
    {
        Database = await SharedDatabase.Value;
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = "Fettle.Web",
            EnvironmentName = Environments.Production,
            ContentRootPath = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "../../../../../src/Fettle.Web")),
        });
        builder.WebHost.UseTestServer();
        builder.Logging.ClearProviders();
        builder.Services.AddSingleton<TimeProvider>(Clock);
        builder.Services.AddStore(Database, migrate: false);
        builder.Services.AddPeople();
        builder.Services.AddPages(Settings);
        app = builder.Build();
        app.Use((context, next) =>
        {
            context.Connection.RemoteIpAddress = IPAddress.Parse(context.Request.Headers[AddressHeader].FirstOrDefault() ?? "127.0.0.1");
            return next(context);
        });
        app.UsePages();
        app.MapPages();
        MapOthers(app);
        await app.StartAsync();
    }

    public async ValueTask DisposeAsync() => await app.DisposeAsync();

    private static void MapOthers(WebApplication app)
    {
        app.MapGet("/whoami", (HttpContext context) => Caller.Of(context.User).Name);
        app.MapGet("/shippers", (HttpContext context) => string.Join(',', Caller.Of(context.User).Rights.AccountShipperIds));
        app.MapGet("/address", (HttpContext context) => $"{context.Request.Scheme} {context.Request.Host} {context.Connection.RemoteIpAddress}").AllowAnonymous();
        app.MapGet("/broken", string () => throw new InvalidOperationException("secret detail")).AllowAnonymous();
        app.MapGet("/database-away", string () => throw new NpgsqlException("secret detail", new TimeoutException())).AllowAnonymous();
        foreach (var policy in new[] { HeaderPolicies.ApiReference, HeaderPolicies.ShowsMail, HeaderPolicies.Mail })
            app.MapGet($"/policy/{policy}", () => "text").AllowAnonymous().WithSecurityHeadersPolicy(policy);
        app.MapPost("/notes", async (HttpContext context) =>
        {
            var form = await context.Request.ReadFormAsync();
            return string.Join('&', form.Where(field => field.Key[0] != '_').Select(field => $"{field.Key}={field.Value}"));
        });
        app.MapGet("/api/whoami", (HttpContext context) => $"{Caller.Of(context.User).Name} as {Caller.Of(context.User).Role}");
        app.MapGet("/api/terminal", () => "yes").RequireAuthorization(Policies.TerminalReviewer);
        app.MapPost("/api/echo", (Actor sent) => sent);
        app.MapGet("/api/broken", string () => throw new InvalidOperationException("secret detail"));
    }

    /// <summary>A browser on a machine of its own: it keeps cookies, and follows no redirects.</summary>
    public Browser Browser()
    {
        var client = app.GetTestClient();
        var number = Interlocked.Increment(ref machines);
        client.DefaultRequestHeaders.Add(AddressHeader, $"10.1.{number / 256}.{number % 256}");
        return new(client);
    }

    /// <summary>The same over HTTPS, under a name that is not this machine's.</summary>
    public Browser FarBrowser()
    {
        var client = app.GetTestClient();
        client.BaseAddress = new("https://fettle.example");
        return new(client);
    }

    public Task<User> AddAsync(Role role, string name = "Maya Ortiz") => AddAsync(RightsOf(role), name);

    public async Task<User> AddAsync(Rights rights, string name = "Maya Ortiz", bool demo = false)
    {
        var user = new User { UserName = $"{Guid.CreateVersion7():N}@fettle.example", Name = name, Rights = rights, Demo = demo };
        var result = await WithUsersAsync(users => users.CreateAsync(user, Password));
        Assert.True(result.Succeeded, result.ToString());
        return user;
    }

    public static Rights RightsOf(Role role) => role switch
    {
        Role.ShipperClerk => Rights.ShipperClerk(Guid.CreateVersion7(), Guid.CreateVersion7()),
        Role.TerminalReviewer => Rights.TerminalReviewer(Guid.CreateVersion7(), Guid.CreateVersion7()),
        Role.AccountManager => Rights.AccountManager(Guid.CreateVersion7(), Guid.CreateVersion7()),
        Role.Administrator => Rights.Administrator(null),
    };

    public async Task<T> WithUsersAsync<T>(Func<UserDirectory, Task<T>> use)
    {
        await using var scope = Services.CreateAsyncScope();
        return await use(scope.ServiceProvider.GetRequiredService<UserDirectory>());
    }

    public async Task<User> ReadAsync(User user) => (await WithUsersAsync(users => users.FindAsync(user.Id)))!;

    /// <summary>A browser in which this person has signed in.</summary>
    public async Task<Browser> SignedInAsync(User user)
    {
        var browser = Browser();
        var answer = await browser.SignInAsync(user.UserName, Password);
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        return browser;
    }
}

/// <summary>Asks as a browser would: with its cookies, from a page of the same origin, forms with their hidden fields.</summary>
public sealed class Browser(HttpClient client)
{
    private readonly CookieContainer cookies = new();

    public CookieCollection Cookies => cookies.GetCookies(client.BaseAddress!);

    public async Task<Answer> SendAsync(HttpRequestMessage request)
    {
        var address = new Uri(client.BaseAddress!, request.RequestUri!);
        if (cookies.GetCookieHeader(address) is { Length: > 0 } header)
            request.Headers.Add("Cookie", header);
        using var response = await client.SendAsync(request, TestContext.Current.CancellationToken);
        if (response.Headers.TryGetValues("Set-Cookie", out var set))
        {
            foreach (var cookie in set)
                cookies.SetCookies(address, cookie);
        }

        var headers = response.Headers.Concat(response.Content.Headers).ToDictionary(h => h.Key, h => string.Join(", ", h.Value), StringComparer.OrdinalIgnoreCase);
        return new(response.StatusCode, headers, await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    public Task<Answer> GetAsync(string path, params (string Name, string Value)[] headers)
    {
        var request = new HttpRequestMessage(HttpMethod.Get, path);
        foreach (var (name, value) in headers)
            request.Headers.Add(name, value);
        return SendAsync(request);
    }

    /// <summary>Sends fields as they are, without what a page's form would add.</summary>
    public Task<Answer> PostAsync(string path, IEnumerable<(string Name, string Value)> fields, params (string Name, string Value)[] headers)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, path)
        {
            Content = new FormUrlEncodedContent(fields.Select(field => KeyValuePair.Create(field.Name, field.Value))),
        };
        foreach (var (name, value) in headers.DefaultIfEmpty(("Sec-Fetch-Site", "same-origin")))
            request.Headers.Add(name, value);
        return SendAsync(request);
    }

    /// <summary>Fills a page's form in and sends it, with what the form held already.</summary>
    public Task<Answer> SubmitAsync(IParentNode page, string form, params (string Name, string Value)[] typed)
    {
        var element = page.QuerySelector(form) as IHtmlFormElement;
        Assert.True(element is not null, $"The page has no {form}.");
        return PostAsync(element.GetAttribute("action")!, Fields(element).Where(field => typed.All(t => t.Name != field.Name)).Concat(typed));
    }

    /// <summary>The same with files chosen in one of its fields, as a browser sends them.</summary>
    public Task<Answer> SubmitFilesAsync(IParentNode page, string form, string field, IEnumerable<(string Name, byte[] Content)> files, params (string Name, string Value)[] typed)
    {
        var element = page.QuerySelector(form) as IHtmlFormElement;
        Assert.True(element is not null, $"The page has no {form}.");
        var content = new MultipartFormDataContent();
        foreach (var (name, value) in Fields(element).Where(input => input.Name != field && typed.All(t => t.Name != input.Name)).Concat(typed))
            content.Add(new StringContent(value), name);
        foreach (var (name, bytes) in files)
            content.Add(new ByteArrayContent(bytes), field, name);
        var request = new HttpRequestMessage(HttpMethod.Post, element.GetAttribute("action")!) { Content = content };
        request.Headers.Add("Sec-Fetch-Site", "same-origin");
        return SendAsync(request);
    }

    public async Task<Answer> SignInAsync(string userName, string password, string path = "/sign-in")
    {
        var page = await (await GetAsync(path)).PageAsync();
        return await SubmitAsync(page, "form[action='/sign-in']", ("Form.UserName", userName), ("Form.Password", password));
    }

    private static IEnumerable<(string Name, string Value)> Fields(IHtmlFormElement form)
    {
        foreach (var input in form.QuerySelectorAll<IHtmlInputElement>("input[name]"))
        {
            if (input.Type is not ("checkbox" or "radio") || input.IsChecked)
                yield return (input.Name!, input.Value);
        }

        foreach (var area in form.QuerySelectorAll<IHtmlTextAreaElement>("textarea[name]"))
            yield return (area.Name!, area.Value);
        foreach (var select in form.QuerySelectorAll<IHtmlSelectElement>("select[name]"))
        {
            foreach (var option in select.Options.Where(option => option.IsSelected))
                yield return (select.Name!, option.Value);
        }
    }
}

/// <param name="Headers">Those of the content too; several values of one name joined by commas.</param>
public sealed record Answer(HttpStatusCode Status, IReadOnlyDictionary<string, string> Headers, string Text)
{
    public string? Location => Headers.GetValueOrDefault("Location");

    public async Task<IHtmlDocument> PageAsync() => await new HtmlParser().ParseDocumentAsync(Text, TestContext.Current.CancellationToken);
}

internal static class PageReading
{
    /// <summary>What is typed in an input; null when the page has none such.</summary>
    public static string? InputValue(this IParentNode page, string selector) => (page.QuerySelector(selector) as IHtmlInputElement)?.Value;
}
