using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Web.Notices;
using Fettle.Web.Parties;
using Fettle.Web.Store;

namespace Fettle.Web.Claims;

/// <summary>Who is told of what happens to a claim, and of the days that run out. The ids follow from the pickup, the claim and its revision: a claim's own id comes from a page, which may use it twice.</summary>
public static class ClaimNotices
{
    /// <summary>The carrier is reminded so long before it must acknowledge …</summary>
    private const int DaysBeforeAcknowledging = 7;

    /// <summary>… and so long before it must answer; …</summary>
    private const int DaysBeforeAnswering = 21;

    /// <summary>… the shipper so long before the time for a suit runs out: a lawyer needs some.</summary>
    private const int DaysBeforeSuit = 90;

    /// <param name="claim">As it is after what happened.</param>
    /// <param name="language">In which the shipper is written to.</param>
    public static IReadOnlyList<Notice> Owed(PickupHeader pickup, Claim claim, PickupEvent happened, PickupParties parties, string? language, DateTimeOffset at, NoticeState state)
    {
        return happened switch
        {
            ClaimFiled filed =>
            [
                ToTerminal(NoticeKind.ClaimForTerminal, at),
                .. Later(NoticeKind.ClaimAcknowledgeDeadline, filed.AcknowledgeBy, DaysBeforeAcknowledging, ToTerminal),
                .. Later(NoticeKind.ClaimAnswerDeadline, filed.AnswerBy, DaysBeforeAnswering, ToTerminal),
            ],
            // The first disallowance begins the time, and no later one begins it anew.
            ClaimAnswered { SuitBy: { } by } when by == claim.SuitBy => [ToShipper(NoticeKind.ClaimForShipper, at), .. Later(NoticeKind.SuitDeadline, by, DaysBeforeSuit, ToShipper)],
            ClaimAnswered => [ToShipper(NoticeKind.ClaimForShipper, at)],
            ClaimOfferAccepted or ClaimWithdrawn => [ToTerminal(NoticeKind.ClaimForTerminal, at)],
            _ => throw new InvalidOperationException($"Nobody knows whom to tell of {happened.GetType().Name}."),
        };

        // Not when that is over already.
        IEnumerable<Notice> Later(NoticeKind kind, DateOnly day, int daysBefore, Func<NoticeKind, DateTimeOffset, Notice> of)
        {
            var moment = Notice.Morning(day.AddDays(-daysBefore), pickup);
            return moment > at ? [of(kind, moment)] : [];
        }

        Notice ToShipper(NoticeKind kind, DateTimeOffset dueAt) => Of(kind, NoticeReader.Of(parties.Shipper, language), dueAt);

        Notice ToTerminal(NoticeKind kind, DateTimeOffset dueAt) => Of(kind, NoticeReader.OfTerminal(parties), dueAt);

        Notice Of(NoticeKind kind, NoticeReader reader, DateTimeOffset dueAt)
        {
            var notice = Notice.Of(StableId.From("notice", kind, claim.Filed.PickupId, claim.Id, claim.Revision), kind, claim.Filed.PickupId, pickup, claim.Filed.Number, reader, at, dueAt, state);
            (notice.ClaimId, notice.ClaimRevision) = (claim.Id, claim.Revision);
            return notice;
        }
    }

    /// <summary>Whether a reminder would only mislead: what it asks for is done, or the claim is over.</summary>
    public static bool IsOvertaken(NoticeKind kind, Claim claim) => kind switch
    {
        NoticeKind.ClaimAcknowledgeDeadline => claim.State != ClaimState.Filed,
        NoticeKind.ClaimAnswerDeadline => claim.DueOn is null,
        NoticeKind.SuitDeadline => claim.SuitBy is null || claim.State == ClaimState.Agreed,
        _ => false,
    };
}
