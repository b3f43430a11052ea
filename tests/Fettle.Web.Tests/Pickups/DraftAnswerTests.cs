using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;

namespace Fettle.Web.Tests.Pickups;

/// <summary>A draft as the API shows it while people work on it on the page.</summary>
public sealed class DraftAnswerTests(SharedPortal shared)
{
    [Fact]
    public async Task What_is_not_finished_on_the_page_is_named_and_cannot_be_submitted()
    {
        var clerk = await shared.ClerkAsync();
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));
        await tab.PressAsync("check", [.. Typed.Head, .. Typed.Sound(0), ("handlingUnits[0].outer.height", "about 50"), ("destination", "")]);

        var read = await clerk.ReadAsync($"/api/v1/pickups/{tab.Id}");
        var submitted = await clerk.PostAsync($"/api/v1/pickups/{tab.Id}/submission", new JsonObject());

        Assert.Equal(HttpStatusCode.OK, read.Status);
        Assert.Equal("draft", read.Json.At("state"));
        string[] unfinished = ["destination", "handlingUnits[0].outer.height"];
        Assert.Equal(unfinished, read.Json["unfinished"]!.AsObject().Select(field => field.Key).Order(StringComparer.Ordinal));
        Assert.Equal(HttpStatusCode.BadRequest, submitted.Status);
        Assert.Equal(unfinished, submitted.Json["errors"]!.AsObject().Select(field => field.Key).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_pickup_declared_by_a_machine_is_finished_by_a_person_and_the_answer_follows()
    {
        var clerk = await shared.ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow));
        var id = Guid.Parse(declared.Json.At("id")!);
        var before = (await clerk.ReadAsync($"/api/v1/pickups/{id}")).Headers.ETag;
        var tab = await EditorTab.OpenAsync(await shared.PersonAsync("clara"), id);
        Assert.Equal("52", tab.Value("handlingUnits[0].outer.length"));
        var opens = TimeZoneInfo.ConvertTime(DateTimeOffset.Parse(declared.Json.At("window.from")!, CultureInfo.InvariantCulture), TimeZoneInfo.FindSystemTimeZoneById("America/Chicago"));
        Assert.Equal(opens.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture), $"{tab.Value("window.date")} {tab.Value("window.from")}");

        await tab.PressAsync(tab.Buttons("apply:0:").First());

        var after = await clerk.ReadAsync($"/api/v1/pickups/{id}");
        Assert.NotEqual(before, after.Headers.ETag);
        Assert.Equal("hold", declared.Json.At("verdict"));
        Assert.NotEqual("hold", after.Json.At("verdict"));
        Assert.Equal(declared.Json.At("window.from"), after.Json.At("window.from"));
    }

    [Fact]
    public async Task A_submitted_pickup_whose_window_has_passed_is_still_told_as_submitted()
    {
        var clerk = await shared.ClerkAsync();
        var id = Guid.Parse((await clerk.PostAsync("/api/v1/pickups", Freight.Sound().AsPickup(DateTimeOffset.UtcNow))).Json.At("id")!);
        await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject());
        var draft = await shared.DraftAsync(id);
        await using (var session = (await shared.PortalAsync()).Store.LightweightSession())
        {
            draft.Form = draft.Form with { Window = draft.Form.Window with { Date = "2020-01-06" } };
            session.Store(draft);
            await session.SaveChangesAsync();
        }

        Assert.Equal(HttpStatusCode.Conflict, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
    }

    [Fact]
    public async Task A_window_that_has_passed_is_told_on_the_page_and_by_the_API()
    {
        var clerk = await shared.ClerkAsync();
        var tab = await EditorTab.StartAsync(await shared.PersonAsync("clara"));

        await tab.PressAsync("submit", [.. Typed.Head, .. Typed.Sound(0), ("window.date", "2020-01-06")]);
        var submitted = await clerk.PostAsync($"/api/v1/pickups/{tab.Id}/submission", new JsonObject());

        Assert.Equal("That pickup window has passed.", tab.Error("window.date"));
        Assert.Equal(HttpStatusCode.BadRequest, submitted.Status);
        Assert.True(submitted.Json["errors"]!.AsObject().ContainsKey("window"));
    }
}
