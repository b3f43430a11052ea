using Fettle.Web.Declarations;
using JasperFx;
using Marten;
using Marten.Exceptions;
using Microsoft.AspNetCore.Identity;
using Npgsql;

namespace Fettle.Web.Identity;

/// <summary>
/// People, kept as Marten documents. Each call has a session of its own: a session whose save failed is of no more use, and
/// sign-in reads and writes at moments of its own choosing. A change made to an outdated copy is refused, not merged.
/// </summary>
public sealed class MartenUserStore(IDocumentStore store, TimeProvider time, IdentityErrorDescriber errors)
    : IUserPasswordStore<User>, IUserSecurityStampStore<User>, IUserLockoutStore<User>
{
    public async Task<IdentityResult> CreateAsync(User user, CancellationToken cancellationToken)
    {
        if (user.Id == Guid.Empty)
            user.Id = Guid.CreateVersion7(time.GetUtcNow());
        return await SaveAsync(user, session => session.Insert(user), cancellationToken);
    }

    public Task<IdentityResult> UpdateAsync(User user, CancellationToken cancellationToken) =>
        SaveAsync(user, session => session.UpdateExpectedVersion(user, user.Version), cancellationToken);

    /// <exception cref="NotSupportedException">Always: what a person did is on record, so the person stays; see <see cref="User.Disabled"/>.</exception>
    public Task<IdentityResult> DeleteAsync(User user, CancellationToken cancellationToken) =>
        throw new NotSupportedException("People are disabled, never deleted.");

    public async Task<User?> FindByIdAsync(string userId, CancellationToken cancellationToken)
    {
        if (!Guid.TryParse(userId, out var id))
            return null;
        await using var session = store.QuerySession();
        return await session.LoadAsync<User>(id, cancellationToken);
    }

    public async Task<User?> FindByNameAsync(string normalizedUserName, CancellationToken cancellationToken)
    {
        // Nobody is called so, and the database cannot even be asked.
        if (!UnitFormValidator.ReadableText(normalizedUserName))
            return null;
        await using var session = store.QuerySession();
        return await session.Query<User>().SingleOrDefaultAsync(user => user.NormalizedUserName == normalizedUserName, cancellationToken);
    }

    public Task<string> GetUserIdAsync(User user, CancellationToken cancellationToken) => Task.FromResult(user.Id.ToString());

    public Task<string?> GetUserNameAsync(User user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.UserName);

    public Task SetUserNameAsync(User user, string? userName, CancellationToken cancellationToken)
    {
        user.UserName = userName ?? "";
        return Task.CompletedTask;
    }

    public Task<string?> GetNormalizedUserNameAsync(User user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.NormalizedUserName);

    public Task SetNormalizedUserNameAsync(User user, string? normalizedName, CancellationToken cancellationToken)
    {
        user.NormalizedUserName = normalizedName ?? "";
        return Task.CompletedTask;
    }

    public Task<string?> GetPasswordHashAsync(User user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash);

    public Task<bool> HasPasswordAsync(User user, CancellationToken cancellationToken) => Task.FromResult(user.PasswordHash is not null);

    public Task SetPasswordHashAsync(User user, string? passwordHash, CancellationToken cancellationToken)
    {
        user.PasswordHash = passwordHash;
        return Task.CompletedTask;
    }

    public Task<string?> GetSecurityStampAsync(User user, CancellationToken cancellationToken) => Task.FromResult<string?>(user.SecurityStamp);

    public Task SetSecurityStampAsync(User user, string stamp, CancellationToken cancellationToken)
    {
        user.SecurityStamp = stamp;
        return Task.CompletedTask;
    }

    public Task<DateTimeOffset?> GetLockoutEndDateAsync(User user, CancellationToken cancellationToken) => Task.FromResult(user.LockoutEnd);

    public Task SetLockoutEndDateAsync(User user, DateTimeOffset? lockoutEnd, CancellationToken cancellationToken)
    {
        user.LockoutEnd = lockoutEnd;
        return Task.CompletedTask;
    }

    public Task<int> GetAccessFailedCountAsync(User user, CancellationToken cancellationToken) => Task.FromResult(user.AccessFailedCount);

    public Task<int> IncrementAccessFailedCountAsync(User user, CancellationToken cancellationToken) => Task.FromResult(++user.AccessFailedCount);

    public Task ResetAccessFailedCountAsync(User user, CancellationToken cancellationToken)
    {
        user.AccessFailedCount = 0;
        return Task.CompletedTask;
    }

    /// <summary>Everyone can be locked out.</summary>
    public Task<bool> GetLockoutEnabledAsync(User user, CancellationToken cancellationToken) => Task.FromResult(true);

    public Task SetLockoutEnabledAsync(User user, bool enabled, CancellationToken cancellationToken) => Task.CompletedTask;

    public void Dispose()
    {
        // Nothing outlives a call.
    }

    private async Task<IdentityResult> SaveAsync(User user, Action<IDocumentSession> change, CancellationToken cancellationToken)
    {
        try
        {
            await using var session = store.LightweightSession();
            change(session);
            await session.SaveChangesAsync(cancellationToken);
            return IdentityResult.Success;
        }
        catch (ConcurrencyException)
        {
            return IdentityResult.Failed(errors.ConcurrencyFailure());
        }
        // For a name that is taken Marten throws one or the other.
        catch (Exception conflict) when (conflict is (MartenCommandException or DocumentAlreadyExistsException) && conflict.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
        {
            return IdentityResult.Failed(errors.DuplicateUserName(user.UserName));
        }
    }
}
