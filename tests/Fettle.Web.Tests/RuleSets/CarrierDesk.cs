using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Html.Dom;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.Identity;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Marten;
using Microsoft.Extensions.DependencyInjection;
using Browser = Fettle.Web.Tests.Identity.Browser;

namespace Fettle.Web.Tests.RuleSets;

/// <summary>A carrier of a test's own, with an administrator of its own at a browser.</summary>
public sealed class CarrierDesk
{
    private static int desks;

    private CarrierDesk(SharedPortal shared, Portal portal, Carrier carrier, Browser browser) => (Shared, Portal, Carrier, Browser) = (shared, portal, carrier, browser);

    public SharedPortal Shared { get; }

    public Portal Portal { get; }

    public Carrier Carrier { get; }

    public Browser Browser { get; }

    public CarrierRuleBook Book => Portal.Services.GetRequiredService<CarrierRuleBook>();

    public string Path => $"/admin/rules/{Carrier.Id}";

    public static async Task<CarrierDesk> OpenAsync(SharedPortal shared)
    {
        var portal = await shared.PortalAsync();
        var number = Interlocked.Increment(ref desks);
        var carrier = new Carrier
        {
            Id = Guid.CreateVersion7(),
            Name = $"Marsh Line {number}",
            Terminals = [new(Guid.CreateVersion7(), $"Sedge Yard {number}", "1 Sedge Yard", "sedge@marsh.example", "America/Chicago")],
        };
        await using (var session = portal.Store.LightweightSession())
        {
            session.Store(carrier);
            await session.SaveChangesAsync();
        }

        return new(shared, portal, carrier, await AdministratorAsync(portal, carrier));
    }

    /// <summary>Another one of the same carrier.</summary>
    public Task<Browser> ColleagueAsync() => AdministratorAsync(Portal, Carrier);

    public async Task<IHtmlDocument> DraftPageAsync(Browser? browser = null)
    {
        browser ??= Browser;
        await browser.PostAsync($"{Path}/draft/start", [("__RequestVerificationToken", await TokenAsync(browser))]);
        return await (await browser.GetAsync($"{Path}/draft")).PageAsync();
    }

    public Task<Identity.Answer> SendAsync(IHtmlDocument page, string @do, params (string Name, string Value)[] typed) => SendAsync(Browser, page, @do, typed);

    public Task<Identity.Answer> SendAsync(Browser browser, IHtmlDocument page, string @do, params (string Name, string Value)[] typed) =>
        browser.SubmitAsync(page, $"form[action='{Path}/draft']", [("do", @do), .. typed]);

    public async Task PublishAsync(params (string Name, string Value)[] typed)
    {
        var answer = await SendAsync(await DraftPageAsync(), "publish", [.. typed.Any(field => field.Name == "From") ? [] : ((string, string)[])[("From", Today)], ("Note", "Lower doors."), .. typed]);
        Assert.Equal(Path, answer.Location);
    }

    /// <summary>At the carrier's terminal.</summary>
    public static string Today => TimeZoneInfo.ConvertTime(DateTimeOffset.UtcNow, TimeZoneInfo.FindSystemTimeZoneById("America/Chicago")).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    public async Task<CarrierRules> RulesAsync()
    {
        await using var session = Portal.Store.QuerySession();
        return (await session.LoadAsync<CarrierRules>(Carrier.Id))!;
    }

    public async Task<string> SubmitAsync(JsonObject freight)
    {
        var clerk = await Shared.ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", freight.AsPickup(DateTimeOffset.UtcNow, Carrier.Terminals[0].Name));
        Assert.True(declared.Status == HttpStatusCode.Created, declared.ToString());
        var id = declared.Json.At("id")!;
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        return id;
    }

    public async Task<RulePreview> AskAsync(params (string Name, string Value)[] typed)
    {
        var answer = await SendAsync(await DraftPageAsync(), "preview", typed);
        Assert.StartsWith($"{Path}/previews/", answer.Location, StringComparison.Ordinal);
        return await PreviewAsync(Guid.Parse(answer.Location![^36..]));
    }

    public async Task<RulePreview> PreviewAsync(Guid id)
    {
        await using var session = Portal.Store.QuerySession();
        return (await session.LoadAsync<RulePreview>(id))!;
    }

    public async Task<RulePreview> CountAsync(Guid id)
    {
        await Portal.Services.GetRequiredService<RulePreviewJob>().RunAsync(id, CancellationToken.None);
        return await PreviewAsync(id);
    }

    public static async Task<string> TokenAsync(Browser browser) =>
        (await (await browser.GetAsync("/account")).PageAsync()).QuerySelector("meta[name=request-token]")!.GetAttribute("content")!;

    private static async Task<Browser> AdministratorAsync(Portal portal, Carrier carrier)
    {
        var user = await portal.AddUserAsync($"A{Guid.CreateVersion7():N} Admin", Rights.Administrator(carrier.Id));
        var browser = new Browser(portal.Anonymous());
        Assert.Equal(HttpStatusCode.Redirect, (await browser.SignInAsync(user.UserName, Portal.Password)).Status);
        return browser;
    }
}
