using System.Globalization;
using System.Net;
using Fettle.Web.Areas.Entrance.Trouble;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Security;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Localization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ApplicationModels;
using Microsoft.AspNetCore.Mvc.Razor;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Net.Http.Headers;

namespace Fettle.Web.Areas;

/// <summary>
/// How pages are found and protected. A controller lives in Areas/{Area}/{Controller}/ with its views beside it, and belongs
/// to the area its namespace names.
/// </summary>
public static class Pages
{
    private static readonly CultureInfo Culture = CultureInfo.GetCultureInfo("en-US");

    public static IServiceCollection AddPages(this IServiceCollection services, Settings settings)
    {
        services.AddControllersWithViews(options =>
        {
            options.Filters.Add(new AutoValidateAntiforgeryTokenAttribute());
            options.Filters.Add(new UnreadableForm());
            options.Conventions.Add(new AreaByNamespace());
            // What is required is said by the form's own rules, in words.
            options.SuppressImplicitRequiredAttributeForNonNullableReferenceTypes = true;
            options.ModelBindingMessageProvider.SetValueMustBeANumberAccessor(_ => T("Enter a number."));
            options.ModelBindingMessageProvider.SetAttemptedValueIsInvalidAccessor((value, _) => T("\"{0}\" cannot be read here.", value));
            options.ModelBindingMessageProvider.SetNonPropertyAttemptedValueIsInvalidAccessor(value => T("\"{0}\" cannot be read here.", value));
            options.ModelBindingMessageProvider.SetValueMustNotBeNullAccessor(_ => T("Fill this in."));
        });
        services.Configure<RazorViewEngineOptions>(options =>
        {
            options.AreaViewLocationFormats.Clear();
            options.AreaViewLocationFormats.Add("/Areas/{2}/{1}/{0}.cshtml");
            options.AreaViewLocationFormats.Add("/Areas/{2}/Shared/{0}.cshtml");
            options.AreaViewLocationFormats.Add("/Areas/Shared/{0}.cshtml");
            // A line of a declaration is shown on other pages of the shipper too.
            options.AreaViewLocationFormats.Add("/Areas/{2}/Pickups/{0}.cshtml");
        });
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "fettle.antiforgery";
            options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            // The header policies say it, for every answer.
            options.SuppressXFrameOptionsHeader = true;
        });
        services.Configure<CookieTempDataProviderOptions>(options =>
        {
            options.Cookie.Name = NextPage.Cookie;
            options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        });
        services.Configure<KestrelServerOptions>(options => options.AddServerHeader = false);
        services.AddHeaderPolicies();
        services.AddSingleton(_ => new SignInAttempts(settings.SignIn));
        services.AddExceptionHandler(options => options.ExceptionHandler = Failures.AnswerAsync);
        services.Configure<ForwardedHeadersOptions>(options => Trust(options, settings.Proxies));
        services.Configure<RequestLocalizationOptions>(options =>
        {
            options.DefaultRequestCulture = new RequestCulture(Culture);
            options.ApplyCurrentCultureToResponseHeaders = true;
            // Numbers and dates are typed and read alike in every language.
            options.SupportedCultures = [Culture];
            options.SupportedUICultures = [.. Language.All.Select(language => CultureInfo.GetCultureInfo(language.Code))];
            options.RequestCultureProviders.Clear();
            options.RequestCultureProviders.Add(new CustomRequestCultureProvider(context =>
                Task.FromResult<ProviderCultureResult?>(new(Culture.Name, Language.Of(context).Code))));
        });
        return services;
    }

    /// <summary>The whole way of a request up to its endpoint, in the one order that works. Call before mapping endpoints.</summary>
    public static WebApplication UsePages(this WebApplication app)
    {
        app.UseForwardedHeaders();
        app.UseSecurityHeaders();
        // Outside the exception handler, which leaves some answers to it.
        app.UseStatusCodePagesWithReExecute(TroubleController.Path);
        app.UseExceptionHandler();
        app.UseStaticFiles(new StaticFileOptions { OnPrepareResponse = file => CacheByVersion(file.Context) });
        app.UseRouting();
        app.UseAuthentication();
        // After the person is known, whose language goes before the browser's.
        app.UseRequestLocalization();
        app.UseAuthorization();
        return app;
    }

    public static WebApplication MapPages(this WebApplication app)
    {
        app.MapControllers();
        return app;
    }

    /// <summary>asp-append-version puts a file's hash into its address, so such an address may be kept for a year; any other asks each time.</summary>
    private static void CacheByVersion(HttpContext context) =>
        context.Response.Headers[HeaderNames.CacheControl] = context.Request.Query.ContainsKey("v") ? "public, max-age=31536000, immutable" : "no-cache";

    private static void Trust(ForwardedHeadersOptions options, IReadOnlyList<string> proxies)
    {
        options.KnownProxies.Clear();
        options.KnownIPNetworks.Clear();
        foreach (var proxy in proxies)
        {
            if (proxy.Contains('/', StringComparison.Ordinal))
                options.KnownIPNetworks.Add(System.Net.IPNetwork.Parse(proxy));
            else
                options.KnownProxies.Add(IPAddress.Parse(proxy));
        }

        // With both lists empty the framework would believe everyone.
        options.ForwardedHeaders = proxies.Count == 0
            ? ForwardedHeaders.None
            : ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost;
    }

    private sealed class AreaByNamespace : IControllerModelConvention
    {
        private const string Root = "Fettle.Web.Areas.";

        public void Apply(ControllerModel controller)
        {
            if (controller.ControllerType.Namespace is { } name && name.StartsWith(Root, StringComparison.Ordinal))
                controller.RouteValues.TryAdd("area", name[Root.Length..].Split('.')[0]);
        }
    }
}
