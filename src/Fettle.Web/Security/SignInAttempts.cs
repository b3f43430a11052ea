using System.Globalization;
using System.Threading.RateLimiting;

namespace Fettle.Web.Security;

/// <summary>
/// Slows guessing of passwords down: so many tries a minute for one name from one address, and for all names from one
/// address, on each node. A person's own lockout (<see cref="Identity.People"/>) stops what comes from many addresses.
/// </summary>
public sealed class SignInAttempts(SignInSettings settings) : IDisposable
{
    public const int TriesForOneName = 10;

    private static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private readonly PartitionedRateLimiter<(string Address, string Name)> limiter = PartitionedRateLimiter.CreateChained(
        Limit(TriesForOneName, attempt => string.Create(CultureInfo.InvariantCulture, $"{attempt.Address}\n{attempt.Name.Trim().ToUpperInvariant()}")),
        Limit(settings.TriesForOneAddress, attempt => attempt.Address));

    /// <summary>Counts one try.</summary>
    /// <returns>How long to wait, when there were too many; null when this one may go on.</returns>
    public TimeSpan? Count(HttpContext context, string userName)
    {
        using var lease = limiter.AttemptAcquire((context.Connection.RemoteIpAddress?.ToString() ?? "", userName));
        if (lease.IsAcquired)
            return null;
        return lease.TryGetMetadata(MetadataName.RetryAfter, out var wait) ? wait : Window;
    }

    public void Dispose() => limiter.Dispose();

    private static PartitionedRateLimiter<(string Address, string Name)> Limit(int tries, Func<(string Address, string Name), string> by) =>
        PartitionedRateLimiter.Create<(string Address, string Name), string>(attempt => RateLimitPartition.GetFixedWindowLimiter(
            by(attempt),
            _ => new() { PermitLimit = tries, Window = Window, QueueLimit = 0, AutoReplenishment = true }));
}
