using Fettle.Engineering.Units;
using Fettle.Readiness;
using Fettle.Readiness.Catalogue;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;
using JasperFx;
using Marten.Exceptions;
using Npgsql;

namespace Fettle.Web.Catalogue;

/// <summary>The one way into and through a shipper's catalogue. All clerks of a shipper share it.</summary>
public sealed class CatalogueDesk(IDocumentStore store, TimeProvider clock, CarrierRuleBook rules)
{
    /// <summary>More of one kind nobody finds in a list.</summary>
    public const int Most = 300;

    public async Task<IReadOnlyList<CatalogueEntry>> ListAsync(Guid shipperId, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var entries = await session.Query<CatalogueEntry>().Where(entry => entry.ShipperId == shipperId).ToListAsync(cancel);
        return [.. entries.OrderBy(entry => entry.Name, StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>Null when the caller's shipper has no such entry.</summary>
    public async Task<CatalogueEntry?> FindAsync(Guid id, Caller caller, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        return await session.LoadAsync<CatalogueEntry>(id, cancel) is { } entry && MaySee(entry, caller) ? entry : null;
    }

    public CatalogueEntry Carton(string name, Carton carton, Caller caller) => New(CatalogueKind.Carton, name, caller, entry => entry.Carton = carton);

    public CatalogueEntry Platform(string name, Platform platform, Caller caller) => New(CatalogueKind.Platform, name, caller, entry => entry.Platform = platform);

    /// <summary>A build out of a line, unless the carrier's rules would hold it.</summary>
    public async Task<(CatalogueEntry? Entry, Refusal? Refusal)> BuildAsync(string name, HandlingUnit unit, Lane lane, UnitSystem typedIn, Guid? carrierId, Guid siteId, Caller caller, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        var inForce = await rules.InForceAsync(carrierId, now, cancel);
        if (StandardBuild.Of(unit, lane, carrierId, inForce, now) is { } build)
        {
            return (New(CatalogueKind.Build, name, caller, entry =>
            {
                entry.Build = build;
                entry.SiteId = siteId;
            }), null);
        }

        return (null, new BuildWouldBeHeld(ReadinessCheck.Run(unit, lane, inForce, typedIn).Findings.First(finding => finding.Severity == Severity.Stop).Message));
    }

    /// <param name="alongside">Saved with it or not at all.</param>
    /// <returns>Why not; null when it is saved.</returns>
    public async Task<Refusal?> AddAsync(CatalogueEntry entry, Action<IDocumentSession>? alongside, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        var (shipper, kind, key) = (entry.ShipperId, entry.Kind, entry.NameKey);
        var same = await session.Query<CatalogueEntry>().Where(other => other.ShipperId == shipper && other.Kind == kind && other.NameKey == key).FirstOrDefaultAsync(cancel);
        if (same is not null)
            return new NameTaken(same.Name, same.IsRetired);
        if (await session.Query<CatalogueEntry>().CountAsync(other => other.ShipperId == shipper && other.Kind == kind, cancel) >= Most)
            return new CatalogueFull(Most);
        session.Insert(entry);
        alongside?.Invoke(session);
        return await SaveAsync(session, entry, cancel);
    }

    /// <param name="version">That the caller saw: somebody else's change in between is not lost.</param>
    /// <returns>The entry as it is now, null when the caller has none such, and why it was not changed.</returns>
    public async Task<(CatalogueEntry? Entry, Refusal? Refusal)> ChangeAsync(Guid id, Guid version, Caller caller, Action<CatalogueEntry, DateTimeOffset> change, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        if (await session.LoadAsync<CatalogueEntry>(id, cancel) is not { } entry || !MaySee(entry, caller))
            return (null, null);
        if (entry.Version != version)
            return (entry, Changed(entry));
        var before = entry.Name;
        change(entry, clock.GetUtcNow());
        entry.ChangedBy = caller.Actor;
        entry.ChangedAt = clock.GetUtcNow();
        session.Store(entry);
        var refusal = await SaveAsync(session, entry, cancel);
        if (refusal is null)
            return (entry, null);
        await using var fresh = store.QuerySession();
        var now = await fresh.LoadAsync<CatalogueEntry>(id, cancel) ?? throw new InvalidOperationException($"Catalogue entry {id}, once {before}, is gone.");
        return (now, refusal is CatalogueChanged ? Changed(now) : refusal);
    }

    /// <summary>A build is declared for a carrier: from then on that carrier's rules judge it too.</summary>
    /// <returns>The build as it is judged now.</returns>
    public async Task<StandardBuild> UsedWithAsync(CatalogueEntry entry, Guid? carrierId, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        var judged = entry.Build!.Recheck(carrierId, await rules.InForceAsync(carrierId, now, cancel), now);
        if (ReferenceEquals(judged, entry.Build))
            return judged;
        await using var session = store.LightweightSession();
        entry.Build = judged;
        session.Store(entry);
        try
        {
            await session.SaveChangesAsync(cancel);
        }
        catch (Exception raced) when (Streams.IsRace(raced))
        {
            // Somebody renamed it in this moment. The next use, or the next recheck, notes it.
        }

        return judged;
    }

    private static bool MaySee(CatalogueEntry entry, Caller caller) => caller.Role == Role.ShipperClerk && caller.Rights.ShipperId == entry.ShipperId;

    private static CatalogueChanged Changed(CatalogueEntry entry) => new(entry.Name, entry.IsRetired, entry.ChangedBy, entry.ChangedAt);

    private CatalogueEntry New(CatalogueKind kind, string name, Caller caller, Action<CatalogueEntry> fill)
    {
        var now = clock.GetUtcNow();
        var entry = new CatalogueEntry
        {
            Id = Guid.CreateVersion7(now),
            ShipperId = caller.Rights.ShipperId!.Value,
            SiteId = caller.Rights.SiteIds[0],
            Kind = kind,
            Name = name.Trim(),
            ChangedBy = caller.Actor,
            ChangedAt = now,
        };
        fill(entry);
        return entry;
    }

    private static async Task<Refusal?> SaveAsync(IDocumentSession session, CatalogueEntry entry, CancellationToken cancel)
    {
        try
        {
            await session.SaveChangesAsync(cancel);
            return null;
        }
        catch (Exception taken) when (taken is (MartenCommandException or DocumentAlreadyExistsException) && taken.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
        {
            return new NameTaken(entry.Name, false);
        }
        catch (Exception raced) when (Streams.IsRace(raced))
        {
            return Changed(entry);
        }
    }
}

public sealed record NameTaken(string Name, bool Retired) : Refusal
{
    public override string Code => "name-taken";

    public override Phrase Message => Retired
        ? Phrase.Of($"A retired one is called {Name}. Bring it back, or choose another name.")
        : Phrase.Of($"There is one called {Name} already. Choose another name.");
}

public sealed record CatalogueFull(int Most) : Refusal
{
    public override string Code => "catalogue-full";

    public override Phrase Message => Phrase.Of($"The catalogue holds at most {Most} of a kind.");
}

public sealed record BuildWouldBeHeld(Phrase Why) : Refusal
{
    public override string Code => "build-would-be-held";

    public override Phrase Message => Phrase.Of($"Only a unit that would not be held is kept as a standard build. {Why}");
}

/// <param name="By">Who changed it since the caller read it.</param>
public sealed record CatalogueChanged(string Name, bool Retired, Actor By, DateTimeOffset At) : Refusal
{
    public override string Code => "changed-meanwhile";

    public override Phrase Message => Phrase.Of($"{By.Name} changed this since you opened the page: it is called {Name} now{(Retired ? Phrase.Of($" and is retired") : Phrase.Empty)}. Look at it again, then repeat your change.");
}

/// <summary>What a name must be.</summary>
public static class CatalogueName
{
    /// <summary>What is wrong with it; null when nothing is.</summary>
    public static string? Complaint(string? name) =>
        string.IsNullOrWhiteSpace(name) ? T("Give it a name that your dock knows it by.")
        : name.Trim().Length > CatalogueEntry.LongestName ? T("At most {0} characters.", CatalogueEntry.LongestName)
        : !UnitFormValidator.ReadableText(name) ? T("Letters, digits and ordinary signs only.")
        : null;
}
