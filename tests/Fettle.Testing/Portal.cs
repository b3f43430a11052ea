using System.Net;
using System.Net.Http.Headers;
using Fettle.Readiness;
using Fettle.Web;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Marten;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Fettle.Testing;

/// <summary>
/// The whole portal as Program.cs composes it, on a database of its own and with a mail server that catches, and two of
/// each party, so that there is always somebody else's freight to ask for.
/// </summary>
public sealed class Portal : IAsyncDisposable
{
    public const string Password = "six pallets of figs";

    private readonly Factory factory;

    private Portal(Factory factory, MailCatcher mail)
    {
        this.factory = factory;
        Mail = mail;
    }

    public MailCatcher Mail { get; }

    public Parties Parties { get; } = new();

    public IServiceProvider Services => factory.Services;

    public IDocumentStore Store => Services.GetRequiredService<IDocumentStore>();

    /// <summary>Where a real browser finds the portal.</summary>
    public Uri Address => factory.ClientOptions.BaseAddress;

    /// <param name="runsJobs">Runs background jobs in this process.</param>
    /// <param name="clock">What the portal takes for the time; the real one when null.</param>
    /// <param name="settings">Settings besides, or in place of, those that every portal under test has.</param>
    public static async Task<Portal> StartAsync(bool runsJobs = true, string? connectionString = null, TimeProvider? clock = null, IReadOnlyDictionary<string, string?>? settings = null)
    {
        var mail = await MailCatcher.StartAsync();
        var all = new Dictionary<string, string?>
        {
            ["ConnectionStrings:Fettle"] = connectionString ?? await TestPostgres.CreateDatabaseAsync(),
            ["Fettle:Database:Migrate"] = "true",
            ["Fettle:Role"] = runsJobs ? "both" : "web",
            ["Fettle:Demo:Load"] = "false",
            ["Fettle:Smtp:Host"] = mail.Host,
            ["Fettle:Smtp:Port"] = mail.Port.ToString(System.Globalization.CultureInfo.InvariantCulture),
            ["Fettle:Smtp:Security"] = "none",
        };
        foreach (var (key, value) in settings ?? new Dictionary<string, string?>())
            all[key] = value;
        var factory = new Factory(all, clock);
        // A real server on a loopback port: real limits on bodies, and a real browser can come.
        factory.UseKestrel(0);
        factory.StartServer();
        var portal = new Portal(factory, mail);
        await portal.SettleAsync();
        return portal;
    }

    /// <summary>Calls with a key of that role and party; with <c>null</c> rights, without any.</summary>
    public async Task<HttpClient> ApiAsync(Rights? rights)
    {
        var client = Anonymous();
        if (rights is null)
            return client;
        var issued = await Services.GetRequiredService<ApiKeys>().IssueAsync("test", rights, new Actor(Guid.CreateVersion7(), "Test"), CancellationToken.None);
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", issued.Plain);
        return client;
    }

    public HttpClient Anonymous() => new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = Address };

    public async Task<User> AddUserAsync(string name, Rights rights)
    {
        var user = new User { UserName = $"{name.Split(' ')[0].ToLowerInvariant()}@fettle.example", Name = name, Rights = rights };
        await using var scope = Services.CreateAsyncScope();
        var result = await scope.ServiceProvider.GetRequiredService<UserDirectory>().CreateAsync(user, Password);
        return result.Succeeded ? user : throw new InvalidOperationException(result.ToString());
    }

    public async ValueTask DisposeAsync()
    {
        await factory.DisposeAsync();
        await Mail.DisposeAsync();
    }

    /// <summary>Two shippers, two carriers and somebody for each role. A portal on a database that has them already leaves it so.</summary>
    private async Task SettleAsync()
    {
        await using var session = Store.LightweightSession();
        if (await session.LoadAsync<Shipper>(Parties.Shipper.Id) is not null)
            return;
        session.Store(Parties.Shipper, Parties.OtherShipper);
        session.Store(Parties.Carrier, Parties.OtherCarrier);
        await session.SaveChangesAsync();
        await AddUserAsync("Clara Clerk", Parties.Clerk);
        await AddUserAsync("Olaf Clerk", Parties.OtherClerk);
        await AddUserAsync("Rita Reviewer", Parties.Reviewer);
        await AddUserAsync("Rolf Reviewer", Parties.Reviewer);
        await AddUserAsync("Otto Reviewer", Parties.OtherReviewer);
        await AddUserAsync("Mona Manager", Parties.Manager);
        await AddUserAsync("Owen Manager", Parties.OtherManager);
        await AddUserAsync("Ada Admin", Parties.Administrator);
    }

    private sealed class Factory(IReadOnlyDictionary<string, string?> settings, TimeProvider? clock) : WebApplicationFactory<Program>
    {
        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseEnvironment(Environments.Production);
            foreach (var (key, value) in settings)
                builder.UseSetting(key, value);
            builder.ConfigureLogging(logging => logging.SetMinimumLevel(LogLevel.Warning));
            if (clock is not null)
                builder.ConfigureTestServices(services => services.AddSingleton(clock));
        }
    }
}

/// <summary>Invented parties; "other" is always somebody else's.</summary>
public sealed class Parties
{
    public Shipper Shipper { get; } = new()
    {
        Id = Id(1),
        Name = "Bramblewick Glassware",
        Email = "dock@bramblewick.example",
        CompanyPrefix = "9521101",
        Sites = [new(Id(11), "Kiln Road dock", "4 Kiln Road, Bramblewick", "America/Chicago")],
    };

    public Shipper OtherShipper { get; } = new()
    {
        Id = Id(2),
        Name = "Cedar Gate Fasteners",
        Email = "dock@cedargate.example",
        Sites = [new(Id(21), "Gate House dock", "9 Cedar Gate", "America/Denver")],
    };

    public Carrier Carrier { get; } = new()
    {
        Id = Id(3),
        Name = "Larkspur Motor Freight",
        Terminals = [new(Id(31), "Millbrook", "1 Mill Lane, Millbrook", "millbrook@larkspur.example", "America/Chicago")],
    };

    public Carrier OtherCarrier { get; } = new()
    {
        Id = Id(4),
        Name = "Heronway Freight",
        Terminals = [new(Id(41), "Reedham", "2 Reed Bank, Reedham", "reedham@heronway.example", "America/Denver")],
    };

    public Rights Clerk => Rights.ShipperClerk(Shipper.Id, Shipper.Sites[0].Id);

    public Rights OtherClerk => Rights.ShipperClerk(OtherShipper.Id, OtherShipper.Sites[0].Id);

    public Rights Reviewer => Rights.TerminalReviewer(Carrier.Id, Carrier.Terminals[0].Id);

    public Rights OtherReviewer => Rights.TerminalReviewer(OtherCarrier.Id, OtherCarrier.Terminals[0].Id);

    public Rights Manager => Rights.AccountManager(Carrier.Id, Shipper.Id);

    public Rights OtherManager => Rights.AccountManager(OtherCarrier.Id, OtherShipper.Id);

    public Rights Administrator { get; } = Rights.Administrator(null);

    private static Guid Id(int number) => new($"00000000-0000-7000-8000-{number:000000000000}");
}
