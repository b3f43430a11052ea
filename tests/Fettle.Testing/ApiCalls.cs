using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;

namespace Fettle.Testing;

/// <summary>An answer of the API, read whole.</summary>
public sealed record ApiAnswer(HttpStatusCode Status, string Text, string? ContentType, HttpResponseHeaders Headers)
{
    /// <summary>The body as an object; an empty one when there is none.</summary>
    public JsonObject Json => Text.Length == 0 ? [] : (JsonObject)JsonNode.Parse(Text)!;

    public override string ToString() => $"{(int)Status} {Text}";
}

/// <summary>Calls to the API that give back what a test looks at.</summary>
public static class ApiCalls
{
    public static async Task<ApiAnswer> PostAsync(this HttpClient client, string path, JsonNode body, string? idempotencyKey = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = JsonContent.Create(body) };
        if (idempotencyKey is not null)
            request.Headers.Add("Idempotency-Key", idempotencyKey);
        return await client.AnswerAsync(request);
    }

    /// <summary>Posts a body that need not be JSON.</summary>
    public static async Task<ApiAnswer> PostRawAsync(this HttpClient client, string path, string body, string contentType = "application/json")
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new StringContent(body, Encoding.UTF8, contentType) };
        return await client.AnswerAsync(request);
    }

    public static async Task<ApiAnswer> ReadAsync(this HttpClient client, string path)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        return await client.AnswerAsync(request);
    }

    public static async Task<ApiAnswer> AnswerAsync(this HttpClient client, HttpRequestMessage request)
    {
        using var response = await client.SendAsync(request);
        return new(response.StatusCode, await response.Content.ReadAsStringAsync(), response.Content.Headers.ContentType?.MediaType, response.Headers);
    }

    /// <summary>The text at a path such as "handlingUnits.0.verdict".</summary>
    public static string? At(this JsonNode? node, string path)
    {
        JsonNode? here = node;
        foreach (var step in path.Split('.'))
            here = int.TryParse(step, out var index) ? here?.AsArray()[index] : here?[step];
        return here?.ToString();
    }
}
