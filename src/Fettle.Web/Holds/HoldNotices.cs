using Fettle.Readiness.Holds;
using Fettle.Web.Notices;
using Fettle.Web.Store;

namespace Fettle.Web.Holds;

/// <summary>Who is told of what happens to held freight. The ids follow from the event and the recipient.</summary>
public static class HoldNotices
{
    /// <summary>
    /// The event among those of its hold, so that a letter is written from it whenever it is read. Ids come from pages and
    /// devices, which may use one for two things: so what happened counts as well.
    /// </summary>
    public static Guid StepOf(HoldEvent happened) => happened switch
    {
        HoldPlaced placed => placed.HoldId,
        HoldMessageSent message => StableId.From("message", message.MessageId),
        ReworkOffered offered => StableId.From("offered", offered.OfferId),
        ReworkOfferWithdrawn withdrawn => StableId.From("withdrawn", withdrawn.OfferId),
        ReworkAuthorised authorised => StableId.From("authorised", authorised.AuthorisationId),
        HoldDeclarationCorrected corrected => StableId.From("corrected", corrected.CorrectionId),
        HoldExceptionRequested requested => StableId.From("requested", requested.RequestId),
        HoldDisputed disputed => StableId.From("disputed", disputed.DisputeId),
        HoldDecided decided => StableId.From("decided", decided.DecisionId),
        HoldInspected inspected => StableId.From("inspected", inspected.InspectionId),
        HoldReminded reminded => StableId.From("reminded", reminded.HoldId, reminded.Side, reminded.Since.UtcTicks),
        HoldEscalated escalated => StableId.From("escalated", escalated.HoldId, escalated.Side, escalated.Since.UtcTicks),
        _ => throw new InvalidOperationException($"Nobody knows whom to tell of {happened.GetType().Name}."),
    };

    public static IReadOnlyList<Notice> Owed(HoldPlaced placed, HoldEvent happened, HoldReaders readers, NoticeState state)
    {
        return happened switch
        {
            // A hold from the declaration is told with the pickup.
            HoldPlaced { InspectionId: null } or HoldInspected => [],
            HoldPlaced e => [ToShipper(NoticeKind.HoldPlacedForShipper, e.At)],
            HoldMessageSent { From: HoldSide.Terminal } e => [ToShipper(NoticeKind.HoldNewsForShipper, e.At)],
            HoldMessageSent e => [ToTerminal(NoticeKind.HoldNewsForTerminal, e.At)],
            ReworkOffered e => [ToShipper(NoticeKind.HoldNewsForShipper, e.At)],
            ReworkOfferWithdrawn e => [ToShipper(NoticeKind.HoldNewsForShipper, e.At)],
            ReworkAuthorised e => [ToTerminal(NoticeKind.HoldNewsForTerminal, e.At)],
            HoldDeclarationCorrected e => [ToTerminal(NoticeKind.HoldNewsForTerminal, e.At)],
            HoldExceptionRequested e => [ToTerminal(NoticeKind.HoldNewsForTerminal, e.At)],
            HoldDisputed e => [ToTerminal(NoticeKind.HoldNewsForTerminal, e.At)],
            HoldDecided e => [ToShipper(NoticeKind.HoldDecidedForShipper, e.At)],
            HoldReminded { Side: HoldSide.Shipper } e => [ToShipper(NoticeKind.HoldReminderForShipper, e.At)],
            HoldReminded e => [ToTerminal(NoticeKind.HoldReminderForTerminal, e.At)],
            HoldEscalated e =>
            [
                ToTerminal(NoticeKind.HoldOverdueForTerminal, e.At),
                .. readers.Managers.Select(manager => Of(NoticeKind.HoldOverdueForAccounts, new(manager.UserName, manager.Name, manager.Language), e.At)),
            ],
            _ => throw new InvalidOperationException($"Nobody knows whom to tell of {happened.GetType().Name}."),
        };

        Notice ToShipper(NoticeKind kind, DateTimeOffset at) => Of(kind, NoticeReader.Of(readers.Parties.Shipper, readers.Language), at);

        Notice ToTerminal(NoticeKind kind, DateTimeOffset at) => Of(kind, NoticeReader.OfTerminal(readers.Parties), at);

        Notice Of(NoticeKind kind, NoticeReader reader, DateTimeOffset at)
        {
            var step = StepOf(happened);
            var notice = Notice.Of(StableId.From("notice", kind, placed.HoldId, step, reader.To), kind, placed.PickupId, placed.Pickup, placed.Number, reader, at, at, state);
            (notice.HoldId, notice.StepId) = (placed.HoldId, step);
            return notice;
        }
    }
}
