using System.Buffers.Text;
using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Fettle.Readiness;
using JasperFx;
using Marten;

namespace Fettle.Web.Identity;

/// <summary>Keys for machines: issued, found by what is presented, revoked; never deleted.</summary>
public sealed class ApiKeys(IDocumentStore store, TimeProvider time)
{
    /// <summary>So that a key found in a log or a repository is recognised for what it is.</summary>
    public const string Mark = "fettle_";

    /// <summary>Shortest key that may be given: 20 characters.</summary>
    public const int ShortestGiven = 20;

    private const int SecretBytes = 32;
    private const int PrefixLength = 12;

    private static readonly TimeSpan UseInterval = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<Guid, DateTimeOffset> noted = new();

    /// <summary>A new key; <see cref="IssuedKey.Plain"/> is not to be had again.</summary>
    public async Task<IssuedKey> IssueAsync(string name, Rights rights, Actor by, CancellationToken cancellation)
    {
        var plain = Mark + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(SecretBytes));
        return new(await StoreAsync(plain, name, rights, by, cancellation), plain);
    }

    /// <summary>A key chosen by whoever sets the portal up, for a demo whose keys are known beforehand. The same key again is the same key.</summary>
    /// <exception cref="ArgumentException">The key is shorter than <see cref="ShortestGiven"/>.</exception>
    public async Task<ApiKey> IssueGivenAsync(string plainKey, string name, Rights rights, Actor by, CancellationToken cancellation)
    {
        if (plainKey.Length < ShortestGiven)
            throw new ArgumentException($"A given API key needs at least {ShortestGiven} characters.", nameof(plainKey));
        return await FindAsync(plainKey, cancellation) ?? await StoreAsync(plainKey, name, rights, by, cancellation);
    }

    /// <summary>The key that was presented; null when there is none or it was revoked.</summary>
    public async Task<ApiKey?> FindAsync(string plainKey, CancellationToken cancellation)
    {
        var hash = Hash(plainKey);
        await using var session = store.QuerySession();
        return await session.Query<ApiKey>().SingleOrDefaultAsync(key => key.Hash == hash && key.RevokedAt == null, cancellation);
    }

    /// <summary>Notes that a key was used, at most once a minute on each node: an overwrite that conflicts with nothing.</summary>
    public async Task NoteUseAsync(ApiKey key, CancellationToken cancellation)
    {
        var now = time.GetUtcNow();
        var last = noted.GetOrAdd(key.Id, DateTimeOffset.MinValue);
        // Of several requests in one moment the first to say so writes.
        if (now - last < UseInterval || !noted.TryUpdate(key.Id, now, last))
            return;
        await using var session = store.LightweightSession();
        session.Store(new ApiKeyUse(key.Id, now));
        await session.SaveChangesAsync(cancellation);
    }

    /// <summary>From now on the key is answered like one that never was.</summary>
    /// <returns>False when there is no such key, or it was revoked before.</returns>
    public async Task<bool> RevokeAsync(Guid id, Actor by, CancellationToken cancellation)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<ApiKey>(id, cancellation) is not { RevokedAt: null } key)
            return false;
        key.RevokedAt = time.GetUtcNow();
        key.RevokedBy = by;
        session.UpdateExpectedVersion(key, key.Version);
        try
        {
            await session.SaveChangesAsync(cancellation);
            return true;
        }
        catch (ConcurrencyException)
        {
            // Nothing but a revocation changes a key: someone else was first.
            return false;
        }
    }

    /// <summary>All keys, newest first, each with its last use; null when never used.</summary>
    public async Task<IReadOnlyList<(ApiKey Key, DateTimeOffset? LastUsedAt)>> ListAsync(CancellationToken cancellation)
    {
        await using var session = store.QuerySession();
        var keys = await session.Query<ApiKey>().OrderByDescending(key => key.CreatedAt).ToListAsync(cancellation);
        var uses = (await session.Query<ApiKeyUse>().ToListAsync(cancellation)).ToDictionary(use => use.Id, use => use.At);
        return [.. keys.Select(key => (key, uses.TryGetValue(key.Id, out var at) ? at : (DateTimeOffset?)null))];
    }

    internal static string Hash(string plainKey) => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(plainKey)));

    private async Task<ApiKey> StoreAsync(string plain, string name, Rights rights, Actor by, CancellationToken cancellation)
    {
        var now = time.GetUtcNow();
        var key = new ApiKey
        {
            Id = Guid.CreateVersion7(now),
            Name = name,
            Prefix = plain[..Math.Min(PrefixLength, plain.Length / 3)],
            Hash = Hash(plain),
            Rights = rights,
            CreatedBy = by,
            CreatedAt = now,
        };
        await using var session = store.LightweightSession();
        session.Insert(key);
        await session.SaveChangesAsync(cancellation);
        return key;
    }
}

/// <param name="Plain">The key itself, to be shown once.</param>
public sealed record IssuedKey(ApiKey Key, string Plain);
