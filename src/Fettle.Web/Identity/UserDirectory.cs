using Marten;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Fettle.Web.Identity;

/// <summary>
/// The framework's user manager, with what an administrator does besides. Whatever takes rights or a password away also
/// changes the security stamp, so that browsers already signed in are signed out within a minute.
/// </summary>
public sealed class UserDirectory(
    IDocumentStore documents,
    IUserStore<User> store,
    IOptions<IdentityOptions> options,
    IPasswordHasher<User> hasher,
    IEnumerable<IUserValidator<User>> userValidators,
    IEnumerable<IPasswordValidator<User>> passwordValidators,
    ILookupNormalizer normalizer,
    IdentityErrorDescriber errors,
    IServiceProvider services,
    ILogger<UserManager<User>> logger)
    : UserManager<User>(store, options, hasher, userValidators, passwordValidators, normalizer, errors, services, logger)
{
    private const int Attempts = 20;

    /// <summary>A hash nobody has the password of, for spending the same time on a name that does not exist.</summary>
    private static readonly string NobodysHash = new PasswordHasher<User>().HashPassword(null!, Guid.CreateVersion7(DateTimeOffset.UnixEpoch).ToString());

    /// <summary>Everyone, disabled people too, by name.</summary>
    public async Task<IReadOnlyList<User>> ListAsync(CancellationToken cancellation)
    {
        await using var session = documents.QuerySession();
        return await session.Query<User>().OrderBy(user => user.Name).ThenBy(user => user.UserName).ToListAsync(cancellation);
    }

    /// <summary>The demo's sign-ins by role; none outside a demo.</summary>
    public async Task<IReadOnlyList<User>> ListDemoAsync(CancellationToken cancellation)
    {
        await using var session = documents.QuerySession();
        var people = await session.Query<User>().Where(user => user.Demo && !user.Disabled).ToListAsync(cancellation);
        return [.. people.OrderBy(user => user.Rights.Role).ThenBy(user => user.UserName, StringComparer.Ordinal)];
    }

    public Task<User?> FindAsync(Guid id) => FindByIdAsync(id.ToString());

    /// <summary>Gives a new password without asking for the old one, and ends a lockout: what an administrator does for someone who forgot.</summary>
    public async Task<IdentityResult> SetPasswordAsync(User user, string password)
    {
        var result = await UpdatePasswordHash(user, password, validatePassword: true);
        if (!result.Succeeded)
            return result;
        Unlock(user);
        return await UpdateUserAsync(user);
    }

    public Task<IdentityResult> UnlockAsync(User user)
    {
        Unlock(user);
        return UpdateUserAsync(user);
    }

    /// <summary>May no longer sign in, and is signed out everywhere.</summary>
    public Task<IdentityResult> DisableAsync(User user)
    {
        user.Disabled = true;
        return UpdateSecurityStampAsync(user);
    }

    public Task<IdentityResult> EnableAsync(User user)
    {
        user.Disabled = false;
        return UpdateUserAsync(user);
    }

    /// <summary>
    /// Wrong passwords tried at the same moment meet in the version check; each of them counts towards the lockout all the same.
    /// </summary>
    public override async Task<IdentityResult> AccessFailedAsync(User user)
    {
        var current = user;
        for (var attempt = 1; ; attempt++)
        {
            var result = await base.AccessFailedAsync(current);
            if (result.Succeeded || attempt == Attempts || await FindAsync(user.Id) is not { } fresh)
            {
                user.LockoutEnd = current.LockoutEnd;
                return result;
            }

            current = fresh;
        }
    }

    /// <summary>Takes as long as checking a password does.</summary>
    public void PretendToCheck(string password) => PasswordHasher.VerifyHashedPassword(null!, NobodysHash, password);

    private static void Unlock(User user)
    {
        user.LockoutEnd = null;
        user.AccessFailedCount = 0;
    }
}
