using Fettle.Readiness;
using Fettle.Readiness.Holds;
using Fettle.Web.Identity;
using Fettle.Web.Jobs;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Store;
using Marten;

namespace Fettle.Web.Holds;

/// <summary>Decides about held freight; the shipper's notice is saved with the decision.</summary>
public sealed class HoldDesk(IDocumentStore store, DueWork due)
{
    public async Task<Decision<HoldEvent>> DecideAsync(Hold hold, DecideHold command, Action<IDocumentSession>? alongside, NoticeState notices, CancellationToken cancel)
    {
        Shipper? shipper;
        User? declarer;
        await using (var session = store.QuerySession())
        {
            shipper = await session.LoadAsync<Shipper>(hold.Placed.Pickup.ShipperId, cancel);
            declarer = await session.LoadAsync<User>(hold.Placed.DeclaredBy.Id, cancel);
        }

        if (shipper is null)
            throw new InvalidOperationException($"There is no shipper {hold.Placed.Pickup.ShipperId}.");
        var notice = Owed(hold, command, shipper, declarer?.Language, notices);
        var decision = await store.DecideAsync<Hold, HoldEvent>(
            hold.Id,
            state => Hold.Decide(state, command),
            (session, _) =>
            {
                session.Insert(notice);
                alongside?.Invoke(session);
            },
            cancel);
        if (decision.Refusal is null && notices == NoticeState.Due)
            due.Notice(notice.Id);
        return decision;
    }

    private static Notice Owed(Hold hold, DecideHold command, Shipper shipper, string? language, NoticeState state) => new()
    {
        Id = StableId.From("notice", NoticeKind.HoldDecidedForShipper, command.DecisionId),
        Kind = NoticeKind.HoldDecidedForShipper,
        PickupId = hold.Placed.PickupId,
        HoldId = hold.Id,
        About = hold.Placed.Number,
        To = shipper.Email,
        ToName = shipper.Name,
        Language = language,
        ShipperId = hold.Placed.Pickup.ShipperId,
        SiteId = hold.Placed.Pickup.SiteId,
        CarrierId = hold.Placed.Pickup.CarrierId,
        TerminalId = hold.Placed.Pickup.TerminalId,
        CreatedAt = command.At,
        DueAt = command.At,
        State = state,
    };
}
