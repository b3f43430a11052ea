using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Jobs;
using Fettle.Web.Identity;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Pickups;

/// <summary>After a submission: opens the holds that the verdict calls for and writes the notices that are owed.</summary>
public sealed class FollowUpJob(IDocumentStore store, CarrierRuleBook rules, TimeProvider clock, DueWork due)
{
    public async Task RunAsync(Guid pickupId, CancellationToken cancel)
    {
        IReadOnlyList<Notice> notices;
        try
        {
            notices = await DoAsync(store, rules, pickupId, clock.GetUtcNow(), cancel);
        }
        catch (Exception raced) when (Streams.IsRace(raced))
        {
            // Another job did the same in this moment; what it saved is what this one would have saved.
            return;
        }

        foreach (var notice in notices)
            due.Notice(notice.Id);
    }

    /// <summary>All in one transaction; nothing when it is done already.</summary>
    /// <returns>The notices written now.</returns>
    public static async Task<IReadOnlyList<Notice>> DoAsync(IDocumentStore store, CarrierRuleBook rules, Guid pickupId, DateTimeOffset at, CancellationToken cancel)
    {
        await using var session = store.LightweightSession();
        var followUp = await session.LoadAsync<FollowUp>(pickupId, cancel);
        if (followUp is null || followUp.DoneAt is not null)
            return [];
        var pickup = await session.LoadAsync<Pickup>(pickupId, cancel)
            ?? throw new InvalidOperationException($"There is a follow-up for pickup {pickupId}, but no such pickup.");
        // The shipper is written to in the language of whoever declared it; an API key has none.
        var language = (await session.LoadAsync<User>(pickup.SubmittedBy.Id, cancel))?.Language;
        var limits = (await rules.ThatJudgedAsync(pickup, cancel)).Hold;
        var notices = Write(session, pickup, await PickupParties.LoadAsync(session, pickup.Header, cancel), limits, at, NoticeState.Due, language);
        followUp.DoneAt = at;
        session.Store(followUp);
        await session.SaveChangesAsync(cancel);
        return notices;
    }

    /// <summary>Adds the holds and notices to a session that somebody else saves.</summary>
    public static IReadOnlyList<Notice> Write(IDocumentSession session, Pickup pickup, PickupParties parties, HoldLimits limits, DateTimeOffset at, NoticeState state, string? language = null)
    {
        foreach (var placed in Hold.Place(pickup, reference => StableId.From("hold", pickup.Id, reference), limits, at))
            session.Events.StartStream<Hold>(placed.HoldId, placed);
        Notice[] notices =
        [
            Owed(NoticeKind.PickupForTerminal, NoticeReader.OfTerminal(parties)),
            Owed(NoticeKind.PickupForShipper, NoticeReader.Of(parties.Shipper, language)),
        ];
        session.Insert(notices);
        return notices;

        Notice Owed(NoticeKind kind, NoticeReader reader) => Notice.Of(StableId.From("notice", kind, pickup.Id), kind, pickup.Id, pickup.Header, pickup.Header.Number, reader, at, at, state);
    }
}
