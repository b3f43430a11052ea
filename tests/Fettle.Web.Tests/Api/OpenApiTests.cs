using System.Text.Json.Nodes;
using Fettle.Testing;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Fettle.Web.Tests.Api;

/// <summary>The description of the API: complete, nothing else in it, and true.</summary>
public sealed class OpenApiTests(SharedPortal shared)
{
    [Fact]
    public async Task It_lists_every_endpoint_under_api_v1_and_nothing_else()
    {
        var document = await DocumentAsync();
        var routes = (await shared.PortalAsync()).Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(endpoint => endpoint.RoutePattern.RawText!.StartsWith("api/v1/", StringComparison.Ordinal))
            .SelectMany(endpoint => endpoint.Metadata.GetMetadata<IHttpMethodMetadata>()!.HttpMethods, (endpoint, method) => $"{method} /{endpoint.RoutePattern.RawText!.Replace(":guid", "", StringComparison.Ordinal)}");

        Assert.Equal(routes.Order(StringComparer.Ordinal), Operations(document).Select(operation => operation.Name).Order(StringComparer.Ordinal));
        Assert.StartsWith("3.", document.At("openapi"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_answer_and_every_body_has_a_schema()
    {
        var document = await DocumentAsync();

        foreach (var (name, operation) in Operations(document))
        {
            Assert.NotEqual("", operation.At("summary") ?? "");
            var responses = operation["responses"]!.AsObject();
            Assert.Contains(responses, response => response.Key[0] == '2');
            Assert.True(responses.ContainsKey("401") && responses.ContainsKey("400"), name);
            foreach (var (status, response) in responses.Where(response => response.Key != "422"))
            {
                var file = Path.GetExtension(name) switch
                {
                    ".pdf" => "application/pdf",
                    ".zip" => "application/zip",
                    ".jpg" => "image/jpeg",
                    ".xlsx" => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                    _ => null,
                };
                var isFile = file is not null;
                var kind = status[0] != '2' ? "application/problem+json" : file ?? "application/json";
                var content = Assert.Single(response!["content"]!.AsObject());
                Assert.Equal(kind, content.Key);
                if (status[0] == '2' && isFile)
                {
                    Assert.Equal("binary", Resolve(document, content.Value!["schema"]!).At("format"));
                    continue;
                }

                Assert.NotEmpty(Resolve(document, content.Value!["schema"]!)["properties"]!.AsObject());
            }

            if (name.EndsWith("/photos", StringComparison.Ordinal))
                Assert.NotEmpty(operation["requestBody"]!["content"]!["multipart/form-data"]!["schema"]!["properties"]!.AsObject());
            else if (name.StartsWith("POST", StringComparison.Ordinal))
                Assert.NotEmpty(Resolve(document, operation["requestBody"]!["content"]!["application/json"]!["schema"]!)["properties"]!.AsObject());
        }
    }

    [Fact]
    public async Task Every_reference_leads_somewhere()
    {
        var document = await DocumentAsync();

        foreach (var reference in All(document).OfType<JsonObject>().Select(node => node["$ref"]).OfType<JsonValue>().Select(value => value.ToString()).Where(text => text.StartsWith("#/", StringComparison.Ordinal)))
            Assert.True(Follow(document, reference) is not null, reference);
    }

    [Fact]
    public async Task It_declares_the_key_and_asks_for_it_everywhere()
    {
        var document = await DocumentAsync();

        Assert.Equal("http", document.At("components.securitySchemes.bearer.type"));
        Assert.Equal("bearer", document.At("components.securitySchemes.bearer.scheme"));
        Assert.True(document["security"]![0]!.AsObject().ContainsKey("bearer"));
        Assert.All(Operations(document), operation => Assert.Null(operation.Operation["security"]));
    }

    [Fact]
    public async Task It_tells_of_the_Idempotency_Key_where_one_is_read()
    {
        var document = await DocumentAsync();

        var with = Operations(document)
            .Where(operation => operation.Operation["parameters"]?.AsArray().Any(parameter => parameter!.At("name") == "Idempotency-Key" && parameter!.At("in") == "header") == true)
            .Select(operation => operation.Name).Order(StringComparer.Ordinal);

        Assert.Equal(
            [
                "POST /api/v1/catalogue/builds",
                "POST /api/v1/catalogue/cartons",
                "POST /api/v1/catalogue/platforms",
                "POST /api/v1/holds/{id}/answers",
                "POST /api/v1/holds/{id}/decisions",
                "POST /api/v1/holds/{id}/messages",
                "POST /api/v1/holds/{id}/offers",
                "POST /api/v1/holds/{id}/offers/{offer}/withdrawal",
                "POST /api/v1/inspections",
                "POST /api/v1/inspections/{id}/hold",
                "POST /api/v1/inspections/{id}/photos",
                "POST /api/v1/pickups",
                "POST /api/v1/pickups/{id}/claims",
                "POST /api/v1/pickups/{id}/claims/{claim}/acceptance",
                "POST /api/v1/pickups/{id}/claims/{claim}/answers",
                "POST /api/v1/pickups/{id}/claims/{claim}/withdrawal",
                "POST /api/v1/pickups/{id}/outcome",
                "POST /api/v1/pickups/{id}/submission",
            ],
            with);
    }

    [Fact]
    public async Task Figures_are_numbers_with_their_unit()
    {
        var document = await DocumentAsync();
        var check = Resolve(document, document["paths"]!["/api/v1/checks"]!["post"]!["requestBody"]!["content"]!["application/json"]!["schema"]!);
        var unit = Resolve(document, check["properties"]!["handlingUnits"]!["items"]!);
        var weight = unit["properties"]!["grossWeight"]!;

        Assert.Contains("number", weight["type"]!.ToString());
        Assert.DoesNotContain("string", weight["type"]!.ToString());
        var finding = Follow(document, "#/components/schemas/FindingAnswer")!;
        var measured = Resolve(document, finding["properties"]!["measured"]!);
        Assert.Equal("number", measured.At("properties.value.type"));
        Assert.Equal("string", measured.At("properties.unit.type"));
    }

    [Fact]
    public async Task What_is_answered_is_what_is_described()
    {
        var document = await DocumentAsync();
        var clerk = await shared.ClerkAsync();
        var hold = (await shared.HeldAsync())[0];
        var id = hold.Placed.PickupId;

        AssertDescribed(document, "/api/v1/checks", "post", "200", (await clerk.PostAsync("/api/v1/checks", Freight.Troubled())).Json);
        AssertDescribed(document, "/api/v1/floor-plans", "post", "200", (await clerk.PostAsync("/api/v1/floor-plans", Freight.ForFloor())).Json);
        AssertDescribed(document, "/api/v1/pickups", "post", "201", (await clerk.PostAsync("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow))).Json);
        AssertDescribed(document, "/api/v1/pickups/{id}", "get", "200", (await clerk.ReadAsync($"/api/v1/pickups/{id}")).Json);
        AssertDescribed(document, "/api/v1/holds", "get", "200", (await clerk.ReadAsync($"/api/v1/holds?pickup={id}")).Json);
        AssertDescribed(document, "/api/v1/holds/{id}", "get", "200", (await clerk.ReadAsync($"/api/v1/holds/{hold.Id}")).Json);
        AssertDescribed(document, "/api/v1/notices", "get", "200", (await clerk.ReadAsync($"/api/v1/notices?pickup={id}")).Json);
        var reviewer = await shared.ReviewerAsync();
        var inspection = new JsonObject { ["id"] = Guid.NewGuid().ToString(), ["pickupId"] = id.ToString(), ["reference"] = "B1", ["measured"] = new JsonObject { ["wrapTurns"] = 0 } };
        AssertDescribed(document, "/api/v1/inspections", "post", "201", (await reviewer.PostAsync("/api/v1/inspections", inspection)).Json);
        AssertDescribed(document, "/api/v1/handling-units", "get", "200", (await reviewer.ReadAsync($"/api/v1/handling-units?sscc={hold.Placed.Pickup.Number}")).Json);
        AssertDescribed(document, "/api/v1/checks", "post", "400", (await clerk.PostAsync("/api/v1/checks", new JsonObject())).Json);
    }

    [Fact]
    public async Task The_reference_page_loads_nothing_from_elsewhere()
    {
        var page = await (await shared.AnonymousAsync()).ReadAsync("/api/reference/");

        Assert.Equal("text/html", page.ContentType);
        Assert.DoesNotContain("src=\"http", page.Text);
        Assert.DoesNotContain("href=\"http", page.Text);
    }

    private static void AssertDescribed(JsonObject document, string path, string method, string status, JsonObject answer)
    {
        var content = document["paths"]![path]![method]!["responses"]![status]!["content"]!.AsObject().Single().Value!;
        Compare(document, content["schema"]!, answer, $"{method} {path}");
    }

    /// <summary>Each property of the answer is in the schema, and each of the schema in the answer.</summary>
    private static void Compare(JsonObject document, JsonNode schema, JsonNode? answer, string where)
    {
        schema = Resolve(document, schema);
        switch (answer)
        {
            case JsonArray list:
                Assert.True(schema["items"] is not null, $"{where} is described as no list.");
                foreach (var item in list)
                    Compare(document, schema["items"]!, item, where + "[]");
                break;
            case JsonObject thing when schema["properties"] is JsonObject properties:
                foreach (var (name, value) in thing.Where(property => property.Key is not "traceId"))
                {
                    Assert.True(properties.ContainsKey(name), $"{where}.{name} is not described.");
                    Compare(document, properties[name]!, value, $"{where}.{name}");
                }

                break;
            case JsonObject:
                Assert.True(schema["additionalProperties"] is not null, $"{where} is described without properties.");
                break;
        }
    }

    /// <summary>Follows a reference, and takes what is not null where either may be.</summary>
    private static JsonNode Resolve(JsonObject document, JsonNode schema)
    {
        if (schema["$ref"] is { } reference)
            return Resolve(document, Follow(document, reference.ToString())!);
        if ((schema["oneOf"] ?? schema["anyOf"]) is JsonArray choices)
            return Resolve(document, choices.First(choice => choice!.At("type") != "null")!);
        return schema;
    }

    private static JsonNode? Follow(JsonObject document, string reference)
    {
        JsonNode? here = document;
        foreach (var step in reference.Split('/')[1..])
            here = here is JsonArray list ? list[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)] : here?[step.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)];
        return here;
    }

    private static IEnumerable<JsonNode?> All(JsonNode? node) => node switch
    {
        JsonObject thing => thing.SelectMany(property => All(property.Value)).Prepend(node),
        JsonArray list => list.SelectMany(All).Prepend(node),
        _ => [node],
    };

    private static IEnumerable<(string Name, JsonNode Operation)> Operations(JsonObject document) =>
        from path in document["paths"]!.AsObject()
        from operation in path.Value!.AsObject()
        select ($"{operation.Key.ToUpperInvariant()} {path.Key}", operation.Value!);

    private async Task<JsonObject> DocumentAsync() => (await (await shared.AnonymousAsync()).ReadAsync("/api/v1/openapi.json")).Json;
}
