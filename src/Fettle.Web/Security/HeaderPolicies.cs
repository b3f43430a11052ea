namespace Fettle.Web.Security;

/// <summary>
/// What browsers are told about every answer. Pages load nothing from elsewhere and run no inline script or style; the few
/// that need more say so with [SecurityHeadersPolicy(HeaderPolicies.…)] or WithSecurityHeadersPolicy. Why each is there:
/// docs/decisions/0006-security-headers.md.
/// </summary>
public static class HeaderPolicies
{
    /// <summary>The API reference's page, whose library writes inline scripts and styles.</summary>
    public const string ApiReference = "api-reference";

    /// <summary>A page that shows a mail in a frame.</summary>
    public const string ShowsMail = "shows-mail";

    /// <summary>The mail in that frame: may carry its own styles, and nothing else.</summary>
    public const string Mail = "mail";

    /// <summary>A picture that somebody uploaded: nothing runs, nothing is loaded, whatever a browser takes it for.</summary>
    public const string Photo = "photo";

    /// <summary>The page that reads bar codes with the device's camera.</summary>
    public const string Scan = "scan";

    private const int HstsSeconds = 365 * 24 * 60 * 60;

    public static IServiceCollection AddHeaderPolicies(this IServiceCollection services)
    {
        services.AddSecurityHeaderPolicies()
            .SetDefaultPolicy(policy => Common(policy).AddContentSecurityPolicy(Own))
            .AddPolicy(ApiReference, policy => Common(policy).AddContentSecurityPolicy(csp =>
            {
                csp.AddDefaultSrc().None();
                csp.AddScriptSrc().Self().UnsafeInline();
                csp.AddStyleSrc().Self().UnsafeInline();
                csp.AddImgSrc().Self().Data().Blob();
                csp.AddFontSrc().Self().Data();
                csp.AddConnectSrc().Self();
                csp.AddFormAction().Self();
                csp.AddBaseUri().None();
                csp.AddFrameAncestors().None();
                csp.AddObjectSrc().None();
            }))
            .AddPolicy(ShowsMail, policy => Common(policy).AddContentSecurityPolicy(csp =>
            {
                Own(csp);
                csp.AddFrameSrc().Self();
            }))
            .AddPolicy(Mail, policy =>
            {
                Common(policy).AddContentSecurityPolicy(csp =>
                {
                    csp.AddDefaultSrc().None();
                    csp.AddStyleSrc().UnsafeInline();
                    csp.AddImgSrc().Self().Data();
                    csp.AddFormAction().None();
                    csp.AddBaseUri().None();
                    csp.AddFrameAncestors().Self();
                    csp.AddSandbox();
                });
                policy.AddFrameOptionsSameOrigin();
            })
            .AddPolicy(Photo, policy => Common(policy).AddContentSecurityPolicy(csp =>
            {
                csp.AddDefaultSrc().None();
                csp.AddFrameAncestors().None();
                csp.AddSandbox();
            }))
            .AddPolicy(Scan, policy => Common(policy, camera: true).AddContentSecurityPolicy(Own));
        return services;
    }

    private static HeaderPolicyCollection Common(HeaderPolicyCollection policy, bool camera = false) => policy
        .AddContentTypeOptionsNoSniff()
        .AddFrameOptionsDeny()
        .AddReferrerPolicySameOrigin()
        .AddCrossOriginOpenerPolicy(opener => opener.SameOrigin())
        .AddCrossOriginResourcePolicy(resource => resource.SameOrigin())
        .AddPermissionsPolicy(permissions =>
        {
            if (camera)
                permissions.AddCamera().Self();
            else
                permissions.AddCamera().None();
            permissions.AddMicrophone().None();
            permissions.AddGeolocation().None();
            permissions.AddDisplayCapture().None();
            permissions.AddPayment().None();
            permissions.AddUsb().None();
        })
        .AddStrictTransportSecurityMaxAgeIncludeSubDomains(HstsSeconds);

    private static void Own(CspBuilder csp)
    {
        csp.AddDefaultSrc().None();
        csp.AddScriptSrc().Self();
        csp.AddStyleSrc().Self();
        csp.AddImgSrc().Self().Data();
        csp.AddFontSrc().Self();
        csp.AddConnectSrc().Self();
        csp.AddFormAction().Self();
        csp.AddBaseUri().None();
        csp.AddFrameAncestors().None();
        csp.AddObjectSrc().None();
    }
}
