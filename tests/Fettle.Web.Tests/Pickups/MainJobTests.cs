using System.Net;
using System.Text.Json.Nodes;
using Fettle.Testing;

namespace Fettle.Web.Tests.Pickups;

/// <summary>The main job through the API, on real parts: declare, check, submit, be told, hold, decide.</summary>
public sealed class MainJobTests : IAsyncLifetime
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private Portal portal = null!;

    public async ValueTask InitializeAsync() => portal = await Portal.StartAsync();

    public async ValueTask DisposeAsync() => await portal.DisposeAsync();

    [Fact]
    public async Task Held_freight_goes_from_declaration_to_a_decision_and_everyone_is_told_once()
    {
        var clerk = await portal.ApiAsync(portal.Parties.Clerk);
        var reviewer = await portal.ApiAsync(portal.Parties.Reviewer);

        var declared = await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        Assert.Equal("hold", declared.Json.At("verdict"));
        var number = declared.Json.At("number")!;

        var submitted = await clerk.PostAsync($"/api/v1/pickups/{declared.Json.At("id")}/submission", new JsonObject { ["exceptionRequest"] = "The consignee's line stops tonight." });
        Assert.Equal(HttpStatusCode.Created, submitted.Status);
        Assert.Equal("held", submitted.Json.At("state"));

        await portal.Mail.WaitForAsync(mail => mail.Subject!.Contains(number) && mail.To.ToString().Contains("millbrook"), Patience);
        await portal.Mail.WaitForAsync(mail => mail.Subject!.Contains(number) && mail.To.ToString().Contains("bramblewick"), Patience);
        var holds = (await reviewer.ReadAsync("/api/v1/holds")).Json;
        Assert.Single(holds["holds"]!.AsArray());
        Assert.Equal($"{number}/B1", holds.At("holds.0.number"));
        Assert.Contains("sticks out", holds.At("holds.0.reason"));

        var decided = await reviewer.PostAsync(
            $"/api/v1/holds/{holds.At("holds.0.id")}/decisions",
            new JsonObject
            {
                ["decision"] = "release-as-exception",
                ["reason"] = "Rides alone at the nose, nothing on top.",
                ["exception"] = new JsonObject { ["acceptedBy"] = "Bramblewick Glassware", ["risk"] = "Cartons past the deck may be rubbed.", ["until"] = DateTimeOffset.UtcNow.AddDays(5).ToString("O"), ["conditions"] = "At the nose, nothing on top." },
            });
        Assert.Equal(HttpStatusCode.Created, decided.Status);
        await portal.Mail.WaitForAsync(mail => mail.To.ToString().Contains("bramblewick") && mail.TextBody!.Contains("Rides alone at the nose"), Patience);
        Assert.Equal(3, portal.Mail.Messages.Count);
        Assert.Equal(3, portal.Mail.Messages.Select(mail => mail.MessageId).Distinct().Count());
        Assert.Equal("decided", (await clerk.ReadAsync($"/api/v1/pickups/{declared.Json.At("id")}")).Json.At("state"));
    }
}
