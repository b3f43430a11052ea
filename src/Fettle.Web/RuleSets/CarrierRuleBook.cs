using System.Collections.Concurrent;
using Fettle.Readiness;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.RuleSets;

/// <summary>
/// Which rules judge, and the one way to change them. The rules of a carrier are kept in memory under their revision, and
/// the revision is asked for each time: one short row. So every node judges by what has been saved, whoever saved it.
/// </summary>
public sealed class CarrierRuleBook(IDocumentStore store)
{
    private readonly ConcurrentDictionary<Guid, CarrierRules> known = new();

    /// <summary>The rules in force at a moment; the built-in ones for no carrier, or one without rules of its own.</summary>
    public async Task<RuleSet> InForceAsync(Guid? carrierId, DateTimeOffset at, CancellationToken cancel) =>
        carrierId is { } id && await OfAsync(id, cancel) is { } rules ? rules.RulesAt(at) : RuleSet.BuiltIn;

    /// <summary>The rules that judged a submitted pickup: published versions are kept for ever.</summary>
    public async Task<RuleSet> ThatJudgedAsync(Pickup pickup, CancellationToken cancel) =>
        (await OfAsync(pickup.Header.CarrierId, cancel))?.Versions.FirstOrDefault(version => version.Rules.Identity == pickup.RuleSet)?.Rules ?? RuleSet.BuiltIn;

    /// <summary>A carrier's versions and draft; null when it never had any.</summary>
    public async Task<CarrierRules?> OfAsync(Guid carrierId, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var revision = await session.Query<CarrierRules>().Where(rules => rules.Id == carrierId).Select(rules => rules.Revision).FirstOrDefaultAsync(cancel);
        if (revision == 0)
            return null;
        if (known.TryGetValue(carrierId, out var kept) && kept.Revision == revision)
            return kept;
        // A read that took long may bring an older revision than one that overtook it.
        return await session.LoadAsync<CarrierRules>(carrierId, cancel) is { } read
            ? known.AddOrUpdate(carrierId, read, (_, other) => other.Revision > read.Revision ? other : read)
            : null;
    }

    /// <param name="decide">One of the deciders of <see cref="CarrierRules"/>.</param>
    public Task<Decision<RuleSetEvent>> DecideAsync(Guid carrierId, Func<CarrierRules?, Decision<RuleSetEvent>> decide, CancellationToken cancel) =>
        store.DecideAsync(carrierId, decide, (_, _) => { }, cancel);
}
