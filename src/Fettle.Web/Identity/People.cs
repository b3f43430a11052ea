using Fettle.Web.Security;
using Marten;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.Identity;

namespace Fettle.Web.Identity;

/// <summary>Names of the authorisation policies: one a role. Without any, whoever is signed in may come in.</summary>
public static class Policies
{
    public const string ShipperClerk = nameof(Role.ShipperClerk);
    public const string TerminalReviewer = nameof(Role.TerminalReviewer);
    public const string AccountManager = nameof(Role.AccountManager);
    public const string Administrator = nameof(Role.Administrator);

    /// <summary>The two roles that talk about held freight, as a list of roles.</summary>
    public const string BothSides = $"{nameof(Role.ShipperClerk)},{nameof(Role.TerminalReviewer)}";
}

/// <summary>Sign-in for people (cookie, on pages) and for machines (API key, under /api). Why so: docs/decisions/0005-people-and-rights.md.</summary>
public static class People
{
    public const string SessionCookie = "fettle.session";

    /// <summary>Chooses between the two ways to sign in, by path.</summary>
    private const string ByPath = "ByPath";

    private static readonly TimeSpan SessionLength = TimeSpan.FromHours(8);
    private static readonly TimeSpan StampInterval = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan LockoutLength = TimeSpan.FromMinutes(10);
    private const int TriesBeforeLockout = 5;
    public const int ShortestPassword = 10;
    public const int LongestPassword = 200;

    /// <summary>Call after the store has been added: keys are read from it at start.</summary>
    public static IServiceCollection AddPeople(this IServiceCollection services)
    {
        services.AddHttpContextAccessor();
        services.AddDataProtection().SetApplicationName("Fettle");
        services.AddOptions<KeyManagementOptions>().Configure<IDocumentStore>((options, store) => options.XmlRepository = new KeyRing(store));

        services.AddIdentityCore<User>(options =>
        {
            options.Password = new()
            {
                RequiredLength = ShortestPassword,
                RequireDigit = false,
                RequireLowercase = false,
                RequireUppercase = false,
                RequireNonAlphanumeric = false,
            };
            options.Lockout.MaxFailedAccessAttempts = TriesBeforeLockout;
            options.Lockout.DefaultLockoutTimeSpan = LockoutLength;
        })
            .AddUserStore<MartenUserStore>()
            .AddUserManager<UserDirectory>()
            .AddSignInManager<SignInGate>()
            .AddClaimsPrincipalFactory<UserPrincipals>();
        services.Configure<SecurityStampValidatorOptions>(options => options.ValidationInterval = StampInterval);
        services.AddScoped<ISecurityStampValidator, SecurityStampValidator<User>>();

        services.AddSingleton<ApiKeys>();
        services.AddSingleton<CarriedForms>();
        services.AddAuthentication(ByPath)
            .AddPolicyScheme(ByPath, null, options => options.ForwardDefaultSelector = context =>
                context.Request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase) ? ApiKeyHandler.SchemeName : IdentityConstants.ApplicationScheme)
            .AddScheme<Microsoft.AspNetCore.Authentication.AuthenticationSchemeOptions, ApiKeyHandler>(ApiKeyHandler.SchemeName, null)
            .AddCookie(IdentityConstants.ApplicationScheme, ConfigureCookie)
            // Not used; but when a stamp has changed, the framework signs this one out too, and fails if it is not there.
            .AddCookie(IdentityConstants.TwoFactorRememberMeScheme);

        var authorization = services.AddAuthorizationBuilder()
            .SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build());
        foreach (var role in Enum.GetNames<Role>())
            authorization.AddPolicy(role, policy => policy.RequireAuthenticatedUser().RequireRole(role));
        return services;
    }

    private static void ConfigureCookie(CookieAuthenticationOptions options)
    {
        options.Cookie.Name = SessionCookie;
        options.Cookie.HttpOnly = true;
        options.Cookie.SameSite = SameSiteMode.Lax;
        options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        options.ExpireTimeSpan = SessionLength;
        options.SlidingExpiration = true;
        options.LoginPath = "/sign-in";
        options.ReturnUrlParameter = "returnUrl";
        options.Events.OnValidatePrincipal = SecurityStampValidator.ValidatePrincipalAsync;
        options.Events.OnRedirectToLogin = async context =>
        {
            var request = context.Request;
            if (request.IsHtmx())
                await Fragments.WriteAsync(context.HttpContext, StatusCodes.Status401Unauthorized, "You have been signed out.");
            else if (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method))
                context.Response.Redirect(context.RedirectUri);
            else
            {
                // What was typed comes along to the sign-in page, which answers this status.
                await context.HttpContext.RequestServices.GetRequiredService<CarriedForms>().KeepAsync(context.HttpContext);
                context.Response.StatusCode = StatusCodes.Status401Unauthorized;
            }
        };
        options.Events.OnRedirectToAccessDenied = async context =>
        {
            if (context.Request.IsHtmx())
                await Fragments.WriteAsync(context.HttpContext, StatusCodes.Status403Forbidden, "Your sign-in does not allow this.");
            else
                context.Response.StatusCode = StatusCodes.Status403Forbidden;
        };
    }
}
