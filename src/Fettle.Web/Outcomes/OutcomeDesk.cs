using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Outcomes;

/// <summary>Records how freight was delivered. What the shipper is told, now and before a deadline, is saved with it.</summary>
public sealed class OutcomeDesk(IDocumentStore store, CarrierRuleBook rules, Settings settings, DueWork due)
{
    /// <summary>The shipper is reminded so long before the last day for a claim …</summary>
    private const int DaysBeforeClaim = 30;

    /// <summary>… and so long before the last day to report concealed damage.</summary>
    private const int DaysBeforeReport = 2;

    /// <param name="command">Its terms, holidays and what is undecided are filled in here: by the carrier's rules on that day, the settings, and the holds.</param>
    public async Task<Decision<PickupEvent>> RecordAsync(Pickup pickup, RecordOutcome command, NoticeState notices, Action<IDocumentSession, OutcomeRecorded>? alongside, CancellationToken cancel)
    {
        Shipper? shipper;
        string? language;
        IReadOnlyList<Hold> undecided;
        await using (var session = store.QuerySession())
        {
            undecided = await session.Query<Hold>().Where(hold => hold.Placed.PickupId == pickup.Id && hold.IsOpen).ToListAsync(cancel);
            shipper = await session.LoadAsync<Shipper>(pickup.Header.ShipperId, cancel);
            language = (await session.LoadAsync<User>(pickup.SubmittedBy.Id, cancel))?.Language;
        }

        command = command with
        {
            Terms = (await rules.InForceAsync(pickup.Header.CarrierId, command.At, cancel)).Claims,
            Holidays = [.. settings.Claims.Holidays],
            Undecided = [.. undecided.Select(hold => hold.Placed.HandlingUnit.Reference)],
        };
        Notice[] owed = [];
        var decision = await store.DecideAsync<Pickup, PickupEvent>(
            pickup.Id,
            state => Outcome.Decide(state, command),
            (session, events) =>
            {
                var recorded = events.OfType<OutcomeRecorded>().Single();
                owed = [.. Owed(pickup.Header, recorded, shipper!, language, notices)];
                session.Insert(owed);
                alongside?.Invoke(session, recorded);
            },
            cancel);
        if (decision.Refusal is null && notices == NoticeState.Due)
        {
            foreach (var notice in owed.Where(notice => notice.DueAt <= command.At))
                due.Notice(notice.Id);
        }

        return decision;
    }

    /// <summary>Nothing for freight that came whole, unless a shipper was told otherwise before.</summary>
    private static IEnumerable<Notice> Owed(PickupHeader pickup, OutcomeRecorded recorded, Shipper shipper, string? language, NoticeState state)
    {
        if (recorded.IsClean && recorded.Supersedes is null)
            yield break;
        yield return Of(NoticeKind.OutcomeForShipper, recorded.At);
        if (recorded.IsClean)
            yield break;
        if (recorded.Units.Any(unit => unit.Concealed) && Notice.Morning(recorded.Deadlines.ConcealedDamageBy.AddDays(-DaysBeforeReport), pickup) is var report && report > recorded.At)
            yield return Of(NoticeKind.ConcealedDamageDeadline, report);
        if (Notice.Morning(recorded.Deadlines.ClaimBy.AddDays(-DaysBeforeClaim), pickup) is var claim && claim > recorded.At)
            yield return Of(NoticeKind.ClaimDeadline, claim);

        Notice Of(NoticeKind kind, DateTimeOffset dueAt)
        {
            // The record's own id comes from a page, which may use it for another pickup, or again for a later record.
            var notice = Notice.Of(StableId.From("notice", kind, recorded.PickupId, recorded.OutcomeId, recorded.At.UtcTicks), kind, recorded.PickupId, pickup, pickup.Number, NoticeReader.Of(shipper, language), recorded.At, dueAt, state);
            notice.OutcomeId = recorded.OutcomeId;
            return notice;
        }
    }
}
