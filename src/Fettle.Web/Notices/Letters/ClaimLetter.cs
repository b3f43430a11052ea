using Fettle.Readiness.Claims;
using Fettle.Readiness.Pickups;
using Fettle.Web.Claims;

namespace Fettle.Web.Notices.Letters;

/// <summary>About a claim: to the terminal when the shipper files, agrees or withdraws, to the shipper when the carrier answers, and to either before a day runs out.</summary>
public static class ClaimLetter
{
    /// <param name="claim">As it stood when the letter was due.</param>
    /// <param name="link">The claim in the portal.</param>
    /// <exception cref="ArgumentOutOfRangeException">The kind is of no such letter.</exception>
    public static Letter Write(NoticeKind kind, Pickup pickup, Claim claim, PickupNames names, Uri link)
    {
        var filed = claim.Filed;
        var (subject, tone, banner) = kind switch
        {
            NoticeKind.ClaimForTerminal => claim.State switch
            {
                ClaimState.Withdrawn => (T("{0}: claim withdrawn", filed.Number), Tone.Good, T("{0} has withdrawn the claim: {1}", claim.Withdrawn!.By.Name, claim.Withdrawn.Reason)),
                ClaimState.Agreed => (T("{0}: offer of {1} taken", filed.Number, claim.Agreed!.Amount), Tone.Good, T("{0} takes the offer of {1}. It is now to be paid.", claim.Agreed.By.Name, claim.Agreed.Amount)),
                _ => (T("{0}: {1} claims {2}", filed.Number, names.Shipper, filed.Total), Tone.Caution, T("{0} claims {1} for pickup {2}. Acknowledge it by {3}, and answer by {4}.", names.Shipper, filed.Total, pickup.Header.Number, ClaimWords.Day(filed.AcknowledgeBy), ClaimWords.Day(filed.AnswerBy))),
            },
            NoticeKind.ClaimForShipper => (T("{0}: {1}", filed.Number, ClaimWords.Did(claim.Answered!)), claim.State switch { ClaimState.Disallowed => Tone.Stop, ClaimState.Offered => Tone.Caution, _ => Tone.Good }, ForShipper(claim)),
            NoticeKind.ClaimAcknowledgeDeadline => (T("{0}: acknowledge the claim by {1}", filed.Number, ClaimWords.Day(filed.AcknowledgeBy)), Tone.Caution, T("{0} has had no word yet that you have the claim.", names.Shipper)),
            NoticeKind.ClaimAnswerDeadline => (T("{0}: answer the claim by {1}", filed.Number, ClaimWords.Day(filed.AnswerBy)), Tone.Caution, T("The claim is to be paid, answered with an offer, or disallowed with a reason.")),
            NoticeKind.SuitDeadline => (T("{0}: time for a suit ends {1}", filed.Number, ClaimWords.Day(claim.SuitBy ?? filed.FiledOn)), Tone.Stop, T("The carrier disallowed the claim. By its terms a suit can be brought until {0}; a lawyer says what holds in your case.", ClaimWords.Day(claim.SuitBy ?? filed.FiledOn))),
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "This is no letter about a claim."),
        };
        subject = Plain.Line(subject);
        var sheet = new Sheet();
        sheet.Title(subject);
        sheet.Banner(tone, banner);
        sheet.Facts(
            (T("Claim"), T("{0}, filed {1} by {2}", filed.Number, ClaimWords.Day(filed.FiledOn), filed.By.Name)),
            (T("Pickup"), $"{pickup.Header.Number}, {Moments.Long(pickup.Header.Window)}"),
            (T("Shipper"), $"{names.Shipper}, {names.Site}"),
            (T("Carrier"), $"{names.Carrier}, {names.Terminal}"),
            (T("To"), pickup.Header.Destination),
            (T("Claimed"), filed.Total.ToString()));
        sheet.Heading(T("What is claimed"));
        foreach (var line in filed.Lines)
            sheet.Paragraph(ClaimWords.Of(line));
        sheet.Quote(filed.Grounds);
        if (filed.IsLate)
            sheet.Small(T("Filed after {0}, the last day by the carrier's terms.", ClaimWords.Day(filed.FileBy)));
        foreach (var answer in claim.Answers)
        {
            sheet.Heading(T("{0}, {1}", ClaimWords.Day(answer.AnsweredOn), answer.By.Name));
            sheet.Paragraph(ClaimWords.Did(answer));
            if (answer.Reason is { } reason)
                sheet.Quote(reason);
        }

        sheet.Small(ClaimWords.Care);
        sheet.Link(T("Open the claim"), FreightPages.Web(link));
        return new(subject, sheet.Text, sheet.Html(subject, banner), [], null);
    }

    private static string ForShipper(Claim claim) => claim.State switch
    {
        ClaimState.Offered => T("The carrier offers {0} of the {1} claimed. Take it, wait, or write back: an offer does not begin the time for a suit.", claim.Answered!.Total, claim.Filed.Total),
        ClaimState.Disallowed => T("The carrier disallows the claim: {0} By its terms a suit can be brought until {1}.", claim.Answered!.Reason, ClaimWords.Day(claim.SuitBy!.Value)),
        ClaimState.Paid => T("The carrier pays {0} of the {1} claimed.", claim.Answered!.Total, claim.Filed.Total),
        ClaimState.Acknowledged => T("The carrier has the claim. It answers by {0}.", ClaimWords.Day(claim.Filed.AnswerBy)),
        ClaimState.Filed or ClaimState.Agreed or ClaimState.Withdrawn => T("The claim is with the carrier."),
    };
}
