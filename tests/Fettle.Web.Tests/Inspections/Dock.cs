using System.Net;
using System.Net.Http.Headers;
using System.Text.Json.Nodes;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Pickups;
using Fettle.Testing;
using Fettle.Web.Photos;
using Marten;

namespace Fettle.Web.Tests.Inspections;

/// <summary>Freight that has come to the terminal, and what a reviewer does with it.</summary>
internal static class Dock
{
    /// <summary>Four sound pallets, A1, 53.5 in high and 940 lb, submitted and followed up.</summary>
    public static async Task<Pickup> SoundAsync(this SharedPortal shared) => await shared.SubmittedAsync(Freight.Sound());

    public static async Task<Pickup> SubmittedAsync(this SharedPortal shared, JsonObject freight)
    {
        var clerk = await shared.ClerkAsync();
        var declared = await clerk.PostAsync("/api/v1/pickups", freight.AsPickup(DateTimeOffset.UtcNow));
        Assert.Equal(HttpStatusCode.Created, declared.Status);
        var id = Guid.Parse(declared.Json.At("id")!);
        Assert.Equal(HttpStatusCode.Created, (await clerk.PostAsync($"/api/v1/pickups/{id}/submission", new JsonObject())).Status);
        await shared.OpenHoldsAsync(id);
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.LoadAsync<Pickup>(id) ?? throw new InvalidOperationException("It was not submitted.");
    }

    /// <summary>An inspection of A1; <paramref name="change"/> sets what was measured.</summary>
    public static JsonObject Inspection(Pickup pickup, Action<JsonObject>? change = null, string reference = "A1")
    {
        var body = new JsonObject { ["id"] = Guid.NewGuid().ToString(), ["pickupId"] = pickup.Id.ToString(), ["reference"] = reference, ["measured"] = new JsonObject { ["height"] = 53.5 } };
        change?.Invoke(body);
        return body;
    }

    public static async Task<Guid> InspectedAsync(this SharedPortal shared, Pickup pickup, Action<JsonObject>? change = null, string reference = "A1")
    {
        var answer = await (await shared.ReviewerAsync()).PostAsync("/api/v1/inspections", Inspection(pickup, change, reference));
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        return Guid.Parse(answer.Json.At("id")!);
    }

    public static Task<ApiAnswer> SendPhotoAsync(this HttpClient client, Guid inspection, byte[] picture, string type = "image/jpeg", string? key = null)
    {
        var content = new ByteArrayContent(picture);
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        var request = new HttpRequestMessage(HttpMethod.Post, $"/api/v1/inspections/{inspection}/photos") { Content = content };
        if (key is not null)
            request.Headers.Add("Idempotency-Key", key);
        return client.AnswerAsync(request);
    }

    public static async Task<Inspection> InspectionAsync(this SharedPortal shared, Guid id)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.LoadAsync<Inspection>(id) ?? throw new InvalidOperationException($"There is no inspection {id}.");
    }

    public static async Task<IReadOnlyList<Photo>> PhotosAsync(this SharedPortal shared, Guid pickup)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.Query<Photo>().Where(photo => photo.PickupId == pickup).ToListAsync();
    }

    /// <summary>The bytes as they are stored.</summary>
    public static async Task<byte[]> StoredAsync(this SharedPortal shared, Guid photo, bool thumbnail = false)
    {
        await using var session = (await shared.PortalAsync()).Store.QuerySession();
        return await session.BytesAsync(photo, thumbnail, CancellationToken.None) ?? throw new InvalidOperationException($"There are no bytes of {photo}.");
    }
}
