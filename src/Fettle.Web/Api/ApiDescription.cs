using Fettle.Engineering.Units;
using Fettle.Web.Photos;
using Microsoft.AspNetCore.Mvc.Controllers;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Fettle.Web.Api;

/// <summary>What the OpenAPI document says that cannot be read off the endpoints: the key, quantities, the Idempotency-Key.</summary>
public static class ApiDescription
{
    private const string Bearer = "bearer";

    public static void Configure(OpenApiOptions options)
    {
        options.ShouldInclude = endpoint => endpoint.RelativePath?.StartsWith("api/v1/", StringComparison.OrdinalIgnoreCase) == true;
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new()
            {
                Title = "Fettle API",
                Version = "v1",
                Description = "Declare freight, check it, submit it, decide about what is held. Send an API key as a bearer token. Errors are RFC 9457 problem details.",
            };
            document.Components ??= new();
            document.Components.SecuritySchemes ??= new Dictionary<string, IOpenApiSecurityScheme>();
            document.Components.SecuritySchemes[Bearer] = new OpenApiSecurityScheme
            {
                Type = SecuritySchemeType.Http,
                Scheme = Bearer,
                Description = "An API key, which an administrator issues: \"Authorization: Bearer fettle_…\". It is tied to a role and a party.",
            };
            document.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(Bearer, document)] = [] }];
            return Task.CompletedTask;
        });
        options.AddSchemaTransformer((schema, context, _) =>
        {
            if (context.JsonTypeInfo.Type == typeof(Quantity) || context.JsonTypeInfo.Type == typeof(Quantity?))
                Describe(schema);
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            if (context.Description.ActionDescriptor is ControllerActionDescriptor action && action.MethodInfo.IsDefined(typeof(IdempotentAttribute), inherit: false))
                DescribeIdempotency(operation);
            if (context.Description.ActionDescriptor is ControllerActionDescriptor { MethodInfo: var method } && method.IsDefined(typeof(TakesPhotoAttribute), inherit: false))
                DescribePhoto(operation);
            return Task.CompletedTask;
        });
    }

    private static void Describe(OpenApiSchema quantity)
    {
        quantity.Type = JsonSchemaType.Object;
        quantity.Description = "A number with its unit, a UN/CEFACT Recommendation 20 code: INH, CMT, LBR, KGM, 87 (lb/ft³), KMQ (kg/m³), SMI, KMT, P1 (%), H87 (pieces), C62 (plain number).";
        quantity.Properties = new Dictionary<string, IOpenApiSchema>
        {
            ["value"] = new OpenApiSchema { Type = JsonSchemaType.Number },
            ["unit"] = new OpenApiSchema { Type = JsonSchemaType.String },
        };
        quantity.Required = new HashSet<string> { "value", "unit" };
    }

    /// <summary>The picture itself, or a form with it: read by the action, so that the framework knows of neither.</summary>
    private static void DescribePhoto(OpenApiOperation operation)
    {
        OpenApiSchema Picture() => new() { Type = JsonSchemaType.String, Format = "binary" };
        operation.RequestBody = new OpenApiRequestBody
        {
            Required = true,
            Content = new Dictionary<string, OpenApiMediaType>
            {
                ["image/jpeg"] = new() { Schema = Picture() },
                ["image/png"] = new() { Schema = Picture() },
                ["image/webp"] = new() { Schema = Picture() },
                ["multipart/form-data"] = new()
                {
                    Schema = new OpenApiSchema { Type = JsonSchemaType.Object, Properties = new Dictionary<string, IOpenApiSchema> { ["photo"] = Picture() }, Required = new HashSet<string> { "photo" } },
                },
            },
        };
    }

    private static void DescribeIdempotency(OpenApiOperation operation)
    {
        operation.Parameters ??= [];
        operation.Parameters.Add(new OpenApiParameter
        {
            Name = IdempotentAttribute.Header,
            In = ParameterLocation.Header,
            Schema = new OpenApiSchema { Type = JsonSchemaType.String, MinLength = 1, MaxLength = IdempotentAttribute.LongestKey },
            Description = "Makes the call safe to repeat: with the same key and body the first answer is given again; with another body the call is refused (422).",
        });
        operation.Responses ??= [];
        operation.Responses.TryAdd("422", new OpenApiResponse { Description = "The Idempotency-Key came before with another body, or there is nothing to submit." });
    }
}
