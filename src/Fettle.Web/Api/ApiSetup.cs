using System.Text.Encodings.Web;
using System.Text.Json.Serialization;
using Fettle.Web.Security;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Scalar.AspNetCore;

namespace Fettle.Web.Api;

/// <summary>What all endpoints under /api/v1 share.</summary>
public static class ApiSetup
{
    /// <summary>Bodies over this are refused (413): a hundred lines of a declaration take a tenth of it.</summary>
    public const int LargestBody = 1_000_000;

    public static IServiceCollection AddApi(this IServiceCollection services)
    {
        services.AddScoped<Idempotency>();
        services.AddOpenApi("v1", ApiDescription.Configure);
        // What the framework would write with anyway; set, so that a remembered answer is the first one byte for byte.
        services.Configure<JsonOptions>(options => options.JsonSerializerOptions.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping);
        // Only what the document says: numbers in quotes are read too, but nobody is to send them.
        services.ConfigureHttpJsonOptions(options => options.SerializerOptions.NumberHandling = JsonNumberHandling.Strict);
        services.Configure<ApiBehaviorOptions>(options =>
        {
            // A bare status is put in words in one place, with what to do about it: see Trouble.
            options.SuppressMapClientErrors = true;
            options.InvalidModelStateResponseFactory = context =>
                Answers.Unreadable(context.ModelState
                    .Where(entry => entry.Value?.ValidationState == ModelValidationState.Invalid)
                    .Select(entry => KeyValuePair.Create(Field(entry.Key), Sentence(entry.Key, entry.Value!))));
        });
        return services;
    }

    public static void MapApi(this WebApplication app)
    {
        app.MapOpenApi("/api/{documentName}/openapi.json").AllowAnonymous();
        app.MapScalarApiReference("/api/reference", options => options.WithTitle("Fettle API").WithOpenApiRoutePattern("/api/{documentName}/openapi.json")).AllowAnonymous().WithSecurityHeadersPolicy(HeaderPolicies.ApiReference);
    }

    /// <summary>"$.handlingUnits[0].outer" as "handlingUnits[0].outer".</summary>
    private static string Field(string key) => key.StartsWith("$.", StringComparison.Ordinal) ? key[2..] : key is "$" or "" ? "body" : key;

    private static string Sentence(string key, ModelStateEntry entry)
    {
        var message = entry.Errors.FirstOrDefault()?.ErrorMessage ?? "";
        if (!key.StartsWith('$'))
            return string.IsNullOrEmpty(message) ? "This cannot be read." : message;
        return message.Contains("could not be converted", StringComparison.Ordinal)
            ? "This is not of the type that belongs here: a number is written without quotes, a word in quotes. See /api/reference."
            : "This is not well-formed JSON from here on.";
    }
}

/// <summary>Under /api bodies are JSON: a form is refused as what it is (415), and not parsed first.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class ReadsNoFormsAttribute : Attribute, IResourceFilter
{
    public void OnResourceExecuting(ResourceExecutingContext context)
    {
        context.ValueProviderFactories.RemoveType<FormValueProviderFactory>();
        context.ValueProviderFactories.RemoveType<JQueryFormValueProviderFactory>();
        context.ValueProviderFactories.RemoveType<FormFileValueProviderFactory>();
    }

    public void OnResourceExecuted(ResourceExecutedContext context)
    {
    }
}

/// <summary>A controller under /api/v1.</summary>
[ApiController]
// API keys are sent on purpose and not by the browser: there is nothing to forge.
[IgnoreAntiforgeryToken]
[ReadsNoForms]
[RequestSizeLimit(ApiSetup.LargestBody)]
// Not [Produces], which would send problems as plain JSON.
[ProducesResponseType<ValidationProblemDetails>(StatusCodes.Status400BadRequest, Problems.ContentType)]
[ProducesResponseType<ProblemDetails>(StatusCodes.Status401Unauthorized, Problems.ContentType)]
public abstract class ApiController : ControllerBase
{
    protected const string AsJson = "application/json";
    protected const string AsProblem = Problems.ContentType;

    protected Identity.Caller Caller => Identity.Caller.Of(User);
}
