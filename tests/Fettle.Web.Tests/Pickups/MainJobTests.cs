using System.Net;
using System.Net.Http.Json;
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

        var declared = await clerk.PostAsJsonAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.StatusCode);
        var pickup = await declared.Content.ReadFromJsonAsync<JsonObject>();
        Assert.Equal("hold", pickup!["verdict"]!.GetValue<string>());

        var submitted = await clerk.PostAsJsonAsync($"/api/v1/pickups/{pickup["id"]}/submission", new { exceptionRequest = "The consignee closes its line tonight." });
        Assert.Equal(HttpStatusCode.Created, submitted.StatusCode);

        var number = pickup["number"]!.GetValue<string>();
        await portal.Mail.WaitForAsync(mail => mail.Subject.Contains(number) && mail.To.ToString().Contains("millbrook"), Patience);
        await portal.Mail.WaitForAsync(mail => mail.Subject.Contains(number) && mail.To.ToString().Contains("bramblewick"), Patience);
        var holds = (await reviewer.GetFromJsonAsync<JsonObject>("/api/v1/holds"))!["holds"]!.AsArray();
        var hold = Assert.Single(holds)!;
        Assert.Equal($"{number}/B1", hold["number"]!.GetValue<string>());
        Assert.Contains("sticks out", hold["reason"]!.GetValue<string>());

        var decided = await reviewer.PostAsJsonAsync($"/api/v1/holds/{hold["id"]}/decisions", new { decision = "release-as-exception", reason = "Rides alone at the nose, nothing on top." });
        Assert.Equal(HttpStatusCode.Created, decided.StatusCode);
        await portal.Mail.WaitForAsync(mail => mail.Subject.Contains(number) && mail.To.ToString().Contains("bramblewick") && mail.TextBody.Contains("Rides alone at the nose"), Patience);
        Assert.Equal(3, portal.Mail.Messages.Count);
        Assert.Equal(3, portal.Mail.Messages.Select(mail => mail.MessageId).Distinct().Count());
    }
}
