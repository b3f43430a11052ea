using Fettle.Readiness.RuleSets;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Catalogue;

/// <summary>
/// Judges standard builds again when rules have changed, marks those that no longer pass and owes their shippers a mail.
/// Each build is judged once by each version, so that running it twice, or on two nodes, tells nobody twice.
/// </summary>
public sealed class RecheckBuildsJob(IDocumentStore store, TimeProvider clock, CarrierRuleBook rules, DueWork due)
{
    public const string Id = "recheck-builds";

    /// <summary>Rules that begin within this time are judged by already: a shipper is to hear of them before the next pickup, not with it.</summary>
    public static readonly TimeSpan Ahead = TimeSpan.FromDays(30);

    /// <summary>All builds, each by the rules of the carriers that it is used with.</summary>
    public async Task RunAsync(CancellationToken cancel)
    {
        foreach (var carrier in await CarriersAsync(cancel))
            await RunForAsync(carrier, cancel);
    }

    /// <summary>The builds used with one carrier; null for those declared before a terminal was chosen.</summary>
    public async Task RunForAsync(Guid? carrierId, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        foreach (var notice in await DoAsync(store, carrierId, await rules.InForceAsync(carrierId, now + Ahead, cancel), now, cancel))
            due.Notice(notice.Id);
    }

    /// <summary>By a given rule set. What a dock's builds come to and the mail about them are saved together.</summary>
    /// <returns>The notices written now.</returns>
    public static async Task<IReadOnlyList<Notice>> DoAsync(IDocumentStore store, Guid? carrierId, RuleSet rules, DateTimeOffset at, CancellationToken cancel)
    {
        await using var reading = store.QuerySession();
        var builds = await reading.Query<CatalogueEntry>().Where(entry => entry.Kind == CatalogueKind.Build && entry.RetiredAt == null).ToListAsync(cancel);
        var notices = new List<Notice>();
        foreach (var dock in builds
            .Where(entry => entry.Build!.Judgements.Any(judgement => judgement.CarrierId == carrierId && judgement.RuleSet != rules.Identity))
            .GroupBy(entry => (entry.ShipperId, entry.SiteId)))
        {
            await using var session = store.LightweightSession();
            var failing = false;
            foreach (var entry in dock)
            {
                var passed = entry.Build!.Passes;
                entry.Build = entry.Build.Recheck(carrierId, rules, at);
                failing |= passed && !entry.Build.Passes;
                session.Store(entry);
            }

            var notice = failing ? await OwedAsync(session, dock.Key.ShipperId, dock.Key.SiteId, carrierId, rules.Identity, at, cancel) : null;
            if (notice is not null)
                session.Insert(notice);
            try
            {
                await session.SaveChangesAsync(cancel);
                if (notice is not null)
                    notices.Add(notice);
            }
            catch (Exception raced) when (Streams.IsRace(raced))
            {
                // Somebody renamed one, or another node was at it: the next round judges what is left.
            }
        }

        return notices;
    }

    private static async Task<Notice?> OwedAsync(IDocumentSession session, Guid shipperId, Guid siteId, Guid? carrierId, RuleSetVersion rules, DateTimeOffset at, CancellationToken cancel)
    {
        var shipper = await session.LoadAsync<Shipper>(shipperId, cancel) ?? throw new InvalidOperationException($"There is no shipper {shipperId}.");
        var id = StableId.From("notice", NoticeKind.BuildsNoLongerPass, shipperId, siteId, carrierId ?? Guid.Empty, rules.Name, rules.Version);
        if (await session.LoadAsync<Notice>(id, cancel) is not null)
            return null;
        return new()
        {
            Id = id,
            Kind = NoticeKind.BuildsNoLongerPass,
            PickupId = Guid.Empty,
            About = "Catalogue",
            To = shipper.Email,
            ToName = shipper.Name,
            ShipperId = shipperId,
            SiteId = siteId,
            CarrierId = carrierId ?? Guid.Empty,
            TerminalId = Guid.Empty,
            RuleSet = rules,
            CreatedAt = at,
            DueAt = at,
        };
    }

    private async Task<IReadOnlyList<Guid?>> CarriersAsync(CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        var builds = await session.Query<CatalogueEntry>().Where(entry => entry.Kind == CatalogueKind.Build && entry.RetiredAt == null).ToListAsync(cancel);
        return [.. builds.SelectMany(entry => entry.Build!.Judgements).Select(judgement => judgement.CarrierId).Distinct()];
    }
}
