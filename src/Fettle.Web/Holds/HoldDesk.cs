using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Holds;

/// <summary>Everything that people do about held freight; whoever must be told is owed a notice in the same transaction.</summary>
public sealed class HoldDesk(IDocumentStore store, CarrierRuleBook rules, DueWork due)
{
    /// <param name="decide">One of the deciders of <see cref="Hold"/>.</param>
    /// <param name="alongside">Saved with the events; given the hold as it is after them.</param>
    public async Task<Decision<HoldEvent>> DecideAsync(
        Hold hold, Func<Hold?, Decision<HoldEvent>> decide, Action<IDocumentSession, Hold>? alongside, NoticeState notices, CancellationToken cancel)
    {
        HoldReaders readers;
        await using (var session = store.QuerySession())
            readers = await HoldReaders.LoadAsync(session, hold.Placed, cancel);
        Hold? before = null;
        IReadOnlyList<Notice> owed = [];
        var decision = await store.DecideAsync<Hold, HoldEvent>(
            hold.Id,
            state => decide(before = state),
            (session, events) =>
            {
                owed = [.. events.SelectMany(happened => HoldNotices.Owed(hold.Placed, happened, readers, notices))];
                session.Insert(owed.ToArray());
                alongside?.Invoke(session, events.Aggregate(before, Hold.Evolve)!);
            },
            cancel);
        if (decision.Refusal is null && decision.Events.Count > 0 && notices == NoticeState.Due)
        {
            foreach (var notice in owed)
                due.Notice(notice.Id);
        }

        return decision;
    }

    /// <summary>The shipper declares the line anew; it is judged by the carrier's rules of this moment.</summary>
    public async Task<Decision<HoldEvent>> CorrectAsync(
        Hold hold, Pickup pickup, Guid correctionId, Readiness.Declarations.HandlingUnit unit, Actor by, DateTimeOffset at, Action<IDocumentSession, Hold>? alongside, CancellationToken cancel)
    {
        var inForce = await rules.InForceAsync(hold.Placed.Pickup.CarrierId, at, cancel);
        var command = new CorrectDeclaration(correctionId, unit, pickup.Declaration.Lane, inForce, by, at);
        return await DecideAsync(hold, state => Hold.Decide(state, command), alongside, NoticeState.Due, cancel);
    }

    /// <summary>Decides about several holds for one reason, each by a command of its own: one that cannot be decided keeps no other from it.</summary>
    /// <param name="command">What is decided about one hold.</param>
    public async Task<IReadOnlyList<(Hold Hold, Refusal? Refusal)>> DecideAllAsync(IReadOnlyList<Hold> holds, Func<Hold, DecideHold> command, CancellationToken cancel)
    {
        var results = new List<(Hold, Refusal?)>();
        foreach (var hold in holds)
        {
            var decide = command(hold);
            results.Add((hold, (await DecideAsync(hold, state => Hold.Decide(state, decide), null, NoticeState.Due, cancel)).Refusal));
        }

        return results;
    }
}
