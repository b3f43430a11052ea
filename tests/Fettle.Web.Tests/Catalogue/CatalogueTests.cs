using System.Net;
using System.Text.Json.Nodes;
using AngleSharp.Dom;
using Fettle.Engineering.Units;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.Catalogue;
using Fettle.Web.Notices;
using Fettle.Web.Tests.Identity;
using Fettle.Web.Tests.Pickups;
using Marten;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Catalogue;

/// <summary>A shipper's catalogue on its page, on the declaration page and through the API.</summary>
public sealed class CatalogueTests(SharedPortal shared)
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_carton_kept_on_its_page_is_filled_in_on_a_pickup()
    {
        var clara = await shared.PersonAsync("clara");
        var name = Name("Tumblers");
        var added = await SubmitAsync(clara, "/catalogue/cartons/add", ("Form.Name", name), ("Form.Carton.Length", "16 1/2"), ("Form.Carton.Width", "12"), ("Form.Carton.Height", "10"), ("Form.Carton.GrossWeight", "22"), ("Form.Carton.Board.Flute", "C"), ("Form.Carton.Board.EdgeCrush", "44"));
        Assert.Equal("/catalogue", added.Location);

        var tab = await EditorTab.StartAsync(clara);
        await tab.PressAsync("use-carton:0", ("catalogue-carton-0", await IdAsync(name)));

        Assert.Equal("16.5", tab.Value("handlingUnits[0].contents.carton.length"));
        Assert.Equal("44", tab.Value("handlingUnits[0].contents.carton.board.edgeCrush"));
        Assert.Equal(name + " was filled in.", tab.Page.QuerySelector(".notice")!.TextContent);
        // A metric pickup gets it in centimetres.
        await tab.PressAsync("use-carton:0", ("units", "metric"), ("catalogue-carton-0", await IdAsync(name)));
        Assert.Equal("41.91", tab.Value("handlingUnits[0].contents.carton.length"));
    }

    [Fact]
    public async Task A_pallet_kept_on_its_page_is_filled_in_on_a_pickup()
    {
        var clara = await shared.PersonAsync("clara");
        var name = Name("Blue paint");
        Assert.Equal("/catalogue", (await SubmitAsync(clara, "/catalogue/platforms/add", ("Form.Name", name), ("Form.Platform.Length", "42"), ("Form.Platform.Rating", "2800"))).Location);

        var tab = await EditorTab.StartAsync(clara);
        await tab.PressAsync("use-platform:0", ("catalogue-platform-0", await IdAsync(name)));

        Assert.Equal("42", tab.Value("handlingUnits[0].platform.length"));
        Assert.Equal("2800", tab.Value("handlingUnits[0].platform.rating"));
    }

    [Fact]
    public async Task A_line_that_passed_is_kept_and_declared_again_in_one_press()
    {
        var clara = await shared.PersonAsync("clara");
        var name = Name("Four high");
        var first = await EditorTab.StartAsync(clara);
        await first.PressAsync("save-build:0", [.. Typed.Head, .. Typed.Sound(0), ("catalogue-name-0", name)]);
        Assert.StartsWith(name + " is in your catalogue now.", first.Page.QuerySelector(".notice")!.TextContent, StringComparison.Ordinal);

        var second = await EditorTab.StartAsync(clara);
        await second.PressAsync("add-build", [.. Typed.Head, ("catalogue-build", await IdAsync(name)), ("catalogue-quantity", "7")]);

        // The empty line that a new pickup begins with made room.
        Assert.Equal(["A1"], second.References());
        Assert.Equal("7", second.Value("handlingUnits[0].quantity"));
        Assert.Equal("53.5", second.Value("handlingUnits[0].outer.height"));
        Assert.Contains("Ready", second.Standing, StringComparison.Ordinal);
        await second.PressAsync("add-build", ("catalogue-build", await IdAsync(name)), ("catalogue-quantity", "three"));
        Assert.Equal(["A1", "A2"], second.References());
        Assert.Equal("three", second.Value("handlingUnits[1].quantity"));
        Assert.NotNull(second.Error("handlingUnits[1].quantity"));
    }

    [Fact]
    public async Task What_would_be_held_is_not_kept_and_the_name_stays_typed()
    {
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));

        await tab.PressAsync("save-build:0", [.. Typed.Head, .. Typed.Troubled(0), ("catalogue-name-0", "Over the edge")]);
        Assert.Contains("would not be held", tab.Page.QuerySelector("#catalogue-name-0-error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("Over the edge", tab.Value("catalogue-name-0"));

        await tab.PressAsync("save-build:0", ("catalogue-name-0", " "));
        Assert.Contains("Give it a name", tab.Page.QuerySelector("#catalogue-name-0-error")!.TextContent, StringComparison.Ordinal);
        await tab.PressAsync("save-build:0", ("handlingUnits[0].outer.height", ""), ("catalogue-name-0", "Unfinished"));
        Assert.Contains("Fill in what is missing", tab.Page.QuerySelector("#catalogue-name-0-error")!.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("add-build", "catalogue-build")]
    [InlineData("use-carton:0", "catalogue-carton-0")]
    [InlineData("use-platform:0", "catalogue-platform-0")]
    public async Task Somebody_elses_entries_and_nonsense_are_not_taken(string button, string field)
    {
        var theirs = (await (await shared.OtherClerkAsync()).PostAsync("/api/v1/catalogue/builds", Build(Name("Theirs")))).Json.At("id")!;
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));

        foreach (var chosen in (string[])[theirs, "", "nonsense", Guid.Empty.ToString()])
        {
            await tab.PressAsync(button, (field, chosen));
            Assert.Contains("from your catalogue first", tab.Page.QuerySelector(".notice")!.TextContent, StringComparison.Ordinal);
        }

        Assert.Equal(["A1"], tab.References());
        Assert.DoesNotContain(theirs, tab.Page.Body!.InnerHtml, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Typing_a_name_for_a_build_checks_nothing_again()
    {
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0)]);

        var answer = await tab.TypeAsync(("catalogue-name-0", "Fo"));

        Assert.DoesNotContain("result-0", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_name_is_taken_once_per_shipper_whatever_its_case_and_retired_or_not()
    {
        var clerk = await shared.ClerkAsync();
        var name = Name("Once");
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync("/api/v1/catalogue/cartons", Carton(name))).Status);

        var again = await clerk.PostAsync("/api/v1/catalogue/cartons", Carton(name.ToUpperInvariant()));

        Assert.Equal(HttpStatusCode.Conflict, again.Status);
        Assert.Contains(name, again.Json.At("detail"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Created, (await (await shared.OtherClerkAsync()).PostAsync("/api/v1/catalogue/cartons", Carton(name))).Status);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync("/api/v1/catalogue/builds", Build(name))).Status);
        await ChangeAsync(name, CatalogueKind.Carton, "retire");
        Assert.Contains("Bring it back", (await clerk.PostAsync("/api/v1/catalogue/cartons", Carton(name))).Json.At("detail"), StringComparison.Ordinal);
        var page = await SubmitAsync(await shared.PersonAsync("clara"), "/catalogue/cartons/add", ("Form.Name", name), ("Form.Carton.Length", "16"), ("Form.Carton.Width", "12"), ("Form.Carton.Height", "10"), ("Form.Carton.GrossWeight", "22"));
        Assert.Equal((HttpStatusCode)422, page.Status);
        var shown = await page.PageAsync();
        Assert.Contains("Bring it back", shown.QuerySelector("#Form_Name-error")!.TextContent, StringComparison.Ordinal);
        Assert.Equal("16", shown.QuerySelector("[name='Form.Carton.Length']")!.GetAttribute("value"));
    }

    [Fact]
    public async Task An_entry_is_renamed_retired_and_brought_back()
    {
        var clara = await shared.PersonAsync("clara");
        var (name, other) = (Name("Old"), Name("New"));
        await (await shared.ClerkAsync()).PostAsync("/api/v1/catalogue/cartons", Carton(name));
        await (await shared.ClerkAsync()).PostAsync("/api/v1/catalogue/cartons", Carton(Name("Taken")));

        Assert.Equal("/catalogue", (await ChangeAsync(name, CatalogueKind.Carton, "name", ("name", other))).Location);
        Assert.Contains(other, (await clara.GetAsync("/catalogue")).Text, StringComparison.Ordinal);
        await ChangeAsync(other, CatalogueKind.Carton, "retire");
        Assert.NotNull((await EntryAsync(other, CatalogueKind.Carton)).RetiredAt);
        var tab = await EditorTab.StartAsync(clara);
        Assert.DoesNotContain(other, tab.Page.Body!.TextContent, StringComparison.Ordinal);
        await ChangeAsync(other, CatalogueKind.Carton, "return");
        Assert.Null((await EntryAsync(other, CatalogueKind.Carton)).RetiredAt);

        foreach (var bad in (string[])["", new string('x', 61), "a\u0007b"])
        {
            var refused = await ChangeAsync(other, CatalogueKind.Carton, "name", ("name", bad));
            Assert.Equal((HttpStatusCode)422, refused.Status);
            Assert.Equal(bad, (await refused.PageAsync()).QuerySelector("[name=name][aria-invalid]")!.GetAttribute("value") ?? "");
        }
    }

    [Fact]
    public async Task Somebody_elses_change_is_explained_and_not_lost()
    {
        var name = Name("Shared");
        await (await shared.ClerkAsync()).PostAsync("/api/v1/catalogue/cartons", Carton(name));
        var seen = (await EntryAsync(name, CatalogueKind.Carton)).Version;
        await ChangeAsync(name, CatalogueKind.Carton, "name", ("name", name + " tall"));
        var entry = await EntryAsync(name + " tall", CatalogueKind.Carton);

        var late = await ChangeAsync(entry, "name", ("version", seen.ToString()), ("name", name + " short"));

        Assert.Equal((HttpStatusCode)422, late.Status);
        var said = (await late.PageAsync()).QuerySelector(".field__error")!.TextContent;
        Assert.Contains("Clara Clerk changed this since you opened the page", said, StringComparison.Ordinal);
        Assert.Contains(name + " tall", said, StringComparison.Ordinal);
        Assert.Equal(name + " tall", (await EntryAsync(name + " tall", CatalogueKind.Carton)).Name);
    }

    [Theory]
    [InlineData("cartons", """{"name":"X"}""", "carton.length")]
    [InlineData("cartons", """{"carton":{"length":16,"width":12,"height":10,"grossWeight":22}}""", "name")]
    [InlineData("cartons", """{"name":"X","units":"cubits","carton":{"length":16,"width":12,"height":10,"grossWeight":22}}""", "units")]
    [InlineData("platforms", """{"name":"X","platform":{"length":-1,"width":40,"height":5,"tare":40}}""", "platform.length")]
    [InlineData("platforms", """{"name":"X"}""", "platform.tare")]
    [InlineData("builds", """{"name":"X"}""", "handlingUnit")]
    [InlineData("builds", """{"name":"X","handlingUnit":{},"lane":{"miles":1}}""", "handlingUnit.outer.length")]
    [InlineData("builds", """{"name":"X","handlingUnit":null,"terminal":"Nowhere"}""", "terminal")]
    public async Task A_body_that_cannot_be_read_names_its_fields(string kind, string body, string field)
    {
        var answer = await (await shared.ClerkAsync()).PostRawAsync($"/api/v1/catalogue/{kind}", body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotNull(answer.Json["errors"]![field]);
    }

    [Fact]
    public async Task The_api_keeps_a_build_that_passes_and_gives_it_back()
    {
        var clerk = await shared.ClerkAsync();
        var name = Name("By machine");
        var body = Build(name);
        body["terminal"] = "Millbrook";

        var kept = await clerk.PostAsync("/api/v1/catalogue/builds", body, idempotencyKey: name);

        Assert.Equal(HttpStatusCode.Created, kept.Status);
        Assert.Equal(kept.Text, (await clerk.PostAsync("/api/v1/catalogue/builds", body, idempotencyKey: name)).Text);
        var listed = (await clerk.ReadAsync("/api/v1/catalogue/builds?units=metric")).Json["builds"]!.AsArray().Single(build => build.At("name") == name);
        Assert.Equal("true", listed.At("passes"));
        Assert.Equal("121.92", listed.At("handlingUnit.outer.length"));
        Assert.Equal((await shared.PortalAsync()).Parties.Carrier.Id.ToString(), listed.At("judgements.0.carrierId"));
        Assert.DoesNotContain(name, (await (await shared.OtherClerkAsync()).ReadAsync("/api/v1/catalogue/builds")).Text, StringComparison.Ordinal);
        var held = Build(Name("Held"));
        held["handlingUnit"] = Freight.Troubled()["handlingUnits"]![0]!.DeepClone();
        var refused = await clerk.PostAsync("/api/v1/catalogue/builds", held);
        Assert.Equal((HttpStatusCode)422, refused.Status);
        Assert.Contains("sticks out", refused.Json.At("detail"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Changed_rules_mark_builds_tell_the_shipper_once_and_say_so_where_they_are_declared()
    {
        await using var portal = await Portal.StartAsync(runsJobs: false);
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var body = Build("Four high");
        body["terminal"] = "Millbrook";
        var id = (await clerk.PostAsync("/api/v1/catalogue/builds", body)).Json.At("id")!;
        var carrier = portal.Parties.Carrier.Id;
        var stricter = RuleSet.BuiltIn with { Identity = new("Larkspur", 2), Weight = new() { Carrier = Mass.FromPounds(900) } };

        Assert.Empty(await RecheckBuildsJob.DoAsync(portal.Store, portal.Parties.OtherCarrier.Id, stricter, DateTimeOffset.UtcNow, Cancel));
        var notice = Assert.Single(await RecheckBuildsJob.DoAsync(portal.Store, carrier, stricter, DateTimeOffset.UtcNow, Cancel));
        Assert.Empty(await RecheckBuildsJob.DoAsync(portal.Store, carrier, stricter, DateTimeOffset.UtcNow, Cancel));

        await portal.Services.GetRequiredService<SendNoticeJob>().RunAsync(notice.Id, Cancel);
        var mail = await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick", StringComparison.Ordinal), TimeSpan.FromSeconds(30));
        Assert.Equal("1 standard build would be held by Larkspur Motor Freight under changed rules", mail.Subject);
        Assert.Contains("Four high", mail.TextBody, StringComparison.Ordinal);
        Assert.Contains("Larkspur, version 2", mail.TextBody, StringComparison.Ordinal);
        var clara = new Browser(portal.Anonymous());
        await clara.SignInAsync("clara@fettle.example", Portal.Password);
        var page = await (await clara.GetAsync("/catalogue")).PageAsync();
        Assert.Contains("1 build would be held now: Four high", page.QuerySelector(".notice--stop")!.TextContent, StringComparison.Ordinal);
        var message = await (await clara.GetAsync($"/messages/{notice.Id}")).PageAsync();
        Assert.NotNull(message.QuerySelector("a[href='/catalogue']"));
        var tab = await EditorTab.StartAsync(clara);
        Assert.Contains("Four high (would be held now)", tab.Page.QuerySelector("#catalogue-build")!.TextContent, StringComparison.Ordinal);
        await tab.PressAsync("add-build", ("catalogue-build", id));
        Assert.Contains("Larkspur, version 2 would hold now", tab.Page.QuerySelector(".notice")!.TextContent, StringComparison.Ordinal);
        var sheet = await (await clara.GetAsync($"/catalogue/{id}/build-sheet")).PageAsync();
        Assert.Contains("would be held", sheet.QuerySelector(".sheet__stop")!.TextContent, StringComparison.Ordinal);
        // The rules in force are the old ones: by them it passes again, and nobody is written to.
        await portal.Services.GetRequiredService<RecheckBuildsJob>().RunAsync(Cancel);
        Assert.Null((await (await clara.GetAsync("/catalogue")).PageAsync()).QuerySelector(".notice--stop"));
        Assert.Equal("1", (await clerk.ReadAsync("/api/v1/notices")).Json["notices"]!.AsArray().Count.ToString(System.Globalization.CultureInfo.InvariantCulture));
    }

    private static string Name(string start) => $"{start} {Guid.CreateVersion7().ToString("N")[^12..]}";

    private static JsonObject Carton(string name) => new() { ["name"] = name, ["carton"] = new JsonObject { ["length"] = 16, ["width"] = 12, ["height"] = 10, ["grossWeight"] = 22 } };

    private static JsonObject Build(string name) => Api.World.Build(name);

    private static async Task<Answer> SubmitAsync(Browser browser, string path, params (string, string)[] typed) =>
        await browser.SubmitAsync(await (await browser.GetAsync(path)).PageAsync(), $"form[action='{path}']", typed);

    private async Task<Answer> ChangeAsync(string name, CatalogueKind kind, string what, params (string Name, string Value)[] typed) =>
        await ChangeAsync(await EntryAsync(name, kind), what, typed);

    private async Task<Answer> ChangeAsync(CatalogueEntry entry, string what, params (string Name, string Value)[] typed) =>
        await SubmitChangeAsync(await shared.PersonAsync("clara"), $"/catalogue/{entry.Id}/{what}", typed);

    private static async Task<Answer> SubmitChangeAsync(Browser browser, string action, (string, string)[] typed) =>
        await browser.SubmitAsync(await (await browser.GetAsync("/catalogue")).PageAsync(), $"form[action='{action}']", typed);

    private async Task<string> IdAsync(string name)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return (await session.Query<CatalogueEntry>().SingleAsync(entry => entry.Name == name)).Id.ToString();
    }

    private async Task<CatalogueEntry> EntryAsync(string name, CatalogueKind kind)
    {
        var shipper = (await shared.PortalAsync()).Parties.Shipper.Id;
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.Query<CatalogueEntry>().SingleAsync(entry => entry.Name == name && entry.Kind == kind && entry.ShipperId == shipper);
    }
}
