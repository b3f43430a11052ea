using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Fettle.Web.Identity;

/// <summary>The framework's sign-in, closed to people who are disabled.</summary>
public sealed class SignInGate(
    UserDirectory users,
    IHttpContextAccessor context,
    IUserClaimsPrincipalFactory<User> principals,
    IOptions<IdentityOptions> options,
    ILogger<SignInManager<User>> logger,
    IAuthenticationSchemeProvider schemes,
    IUserConfirmation<User> confirmation)
    : SignInManager<User>(users, context, principals, options, logger, schemes, confirmation)
{
    public override Task<bool> CanSignInAsync(User user) => Task.FromResult(!user.Disabled);

    public override async Task<SignInResult> PasswordSignInAsync(string userName, string password, bool isPersistent, bool lockoutOnFailure)
    {
        if (await users.FindByNameAsync(userName) is not { Disabled: false } user)
        {
            // Takes as long as for those who may, so that the time does not tell who exists.
            users.PretendToCheck(password);
            return SignInResult.Failed;
        }

        return await PasswordSignInAsync(user, password, isPersistent, lockoutOnFailure);
    }
}

/// <summary>A person's principal: what <see cref="CallerClaims"/> writes, and the stamp that ends the session when it changes.</summary>
public sealed class UserPrincipals(IOptions<IdentityOptions> options) : IUserClaimsPrincipalFactory<User>
{
    public Task<ClaimsPrincipal> CreateAsync(User user)
    {
        var identity = new ClaimsIdentity(CallerClaims.Write(user.Id, user.Name, user.Rights), IdentityConstants.ApplicationScheme);
        identity.AddClaim(new(options.Value.ClaimsIdentity.SecurityStampClaimType, user.SecurityStamp));
        if (user.Language is { } language)
            identity.AddClaim(new(CallerClaims.Language, language));
        return Task.FromResult(new ClaimsPrincipal(identity));
    }
}
