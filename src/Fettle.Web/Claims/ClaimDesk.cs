using Fettle.Readiness;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Web.Declarations;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Claims;

/// <summary>Claims are filed, answered, agreed and withdrawn here; who must be told, now and before a day runs out, is saved with it.</summary>
public sealed class ClaimDesk(IDocumentStore store, CarrierRuleBook rules, DueWork due)
{
    /// <param name="command">Its terms and its day are filled in here: the carrier's rules on that day, and the day at the dock.</param>
    /// <param name="alongside">Saved with the events; given the claim as it is after them.</param>
    public async Task<Decision<PickupEvent>> FileAsync(Pickup pickup, FileClaim command, Action<IDocumentSession, Claim>? alongside, CancellationToken cancel, NoticeState notices = NoticeState.Due)
    {
        command = command with
        {
            Terms = (await rules.InForceAsync(pickup.Header.CarrierId, command.At, cancel)).Claims,
            FiledOn = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(command.At, TimeZoneInfo.FindSystemTimeZoneById(pickup.Header.Window.TimeZone)).Date),
        };
        return await DecideAsync(pickup, command.ClaimId, state => ClaimDecisions.Decide(state, WithFreeNumber(command, state)), alongside, command.At, notices, cancel);
    }

    /// <param name="command">Its terms are filled in here: the carrier's rules on that day.</param>
    public async Task<Decision<PickupEvent>> AnswerAsync(Pickup pickup, AnswerClaim command, Action<IDocumentSession, Claim>? alongside, CancellationToken cancel, NoticeState notices = NoticeState.Due)
    {
        command = command with { Terms = (await rules.InForceAsync(pickup.Header.CarrierId, command.At, cancel)).Claims };
        return await DecideAsync(pickup, command.ClaimId, state => ClaimDecisions.Decide(state, command), alongside, command.At, notices, cancel);
    }

    public Task<Decision<PickupEvent>> AcceptAsync(Pickup pickup, AcceptClaimOffer command, Action<IDocumentSession, Claim>? alongside, CancellationToken cancel, NoticeState notices = NoticeState.Due) =>
        DecideAsync(pickup, command.ClaimId, state => ClaimDecisions.Decide(state, command), alongside, command.At, notices, cancel);

    public Task<Decision<PickupEvent>> WithdrawAsync(Pickup pickup, WithdrawClaim command, Action<IDocumentSession, Claim>? alongside, CancellationToken cancel, NoticeState notices = NoticeState.Due) =>
        DecideAsync(pickup, command.ClaimId, state => ClaimDecisions.Decide(state, command), alongside, command.At, notices, cancel);

    /// <summary>Two claims about one pickup never have one number; of different pickups they may, once in hundreds of millions, and the pickup tells them apart.</summary>
    private static FileClaim WithFreeNumber(FileClaim command, Pickup? pickup)
    {
        while (pickup?.Claims.Any(claim => claim.Filed.Number == command.Number) == true)
            command = command with { Number = Draft.NewNumber('C') };
        return command;
    }

    private async Task<Decision<PickupEvent>> DecideAsync(
        Pickup pickup, Guid claimId, Func<Pickup?, Decision<PickupEvent>> decide, Action<IDocumentSession, Claim>? alongside, DateTimeOffset at, NoticeState notices, CancellationToken cancel)
    {
        PickupParties parties;
        string? language;
        await using (var session = store.QuerySession())
        {
            parties = await PickupParties.LoadAsync(session, pickup.Header, cancel);
            language = (await session.LoadAsync<User>(pickup.SubmittedBy.Id, cancel))?.Language;
        }

        Pickup? before = null;
        IReadOnlyList<Notice> owed = [];
        var decision = await store.DecideAsync<Pickup, PickupEvent>(
            pickup.Id,
            state => decide(before = state),
            (session, events) =>
            {
                var claim = events.Aggregate(before, Pickup.Evolve)!.ClaimOf(claimId)!;
                owed = ClaimNotices.Owed(pickup.Header, claim, events[^1], parties, language, at, notices);
                session.Insert(owed.ToArray());
                alongside?.Invoke(session, claim);
            },
            cancel);
        if (decision.Refusal is null && decision.Events.Count > 0 && notices == NoticeState.Due)
        {
            foreach (var notice in owed.Where(notice => notice.DueAt <= at))
                due.Notice(notice.Id);
        }

        return decision;
    }
}
