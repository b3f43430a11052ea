using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Web.Outcomes;

namespace Fettle.Web.Notices.Letters;

/// <summary>To the shipper: how freight was delivered, and until when something has to be done about it.</summary>
public static class OutcomeLetter
{
    /// <param name="link">The pickup in the portal.</param>
    public static Letter Recorded(Pickup pickup, OutcomeRecorded outcome, PickupNames names, Uri link)
    {
        var subject = Plain.Line(outcome.IsClean
            ? T("{0}: delivered whole after all", pickup.Header.Number)
            : T("{0}: not all of it was delivered whole", pickup.Header.Number));
        return Write(subject, outcome.IsClean ? Tone.Good : Tone.Stop, Summary(outcome), pickup, outcome, names, link);
    }

    /// <summary>Damage that was not seen at delivery has to be reported soon.</summary>
    public static Letter ReportSoon(Pickup pickup, OutcomeRecorded outcome, PickupNames names, Uri link) => Write(
        Plain.Line(T("{0}: report concealed damage by {1}", pickup.Header.Number, Day(outcome.Deadlines.ConcealedDamageBy))),
        Tone.Caution,
        T("Damage that was not seen at delivery is reported to {0} by {1}; later it is for the consignee to prove where it happened. Keep the goods and their packaging as they are and ask for an inspection.", names.Carrier, Day(outcome.Deadlines.ConcealedDamageBy)),
        pickup,
        outcome,
        names,
        link);

    /// <summary>The last day for a claim comes near.</summary>
    public static Letter ClaimSoon(Pickup pickup, OutcomeRecorded outcome, PickupNames names, Uri link) => Write(
        Plain.Line(T("{0}: file a claim by {1}", pickup.Header.Number, Day(outcome.Deadlines.ClaimBy))),
        Tone.Caution,
        T("A claim for this freight has to be with {0} by {1}.", names.Carrier, Day(outcome.Deadlines.ClaimBy)),
        pickup,
        outcome,
        names,
        link);

    /// <summary>"3 whole, 1 damaged".</summary>
    public static string Summary(OutcomeRecorded outcome) => string.Join(", ", outcome.Units
        .GroupBy(unit => unit.Kind)
        .OrderBy(same => same.Key)
        .Select(same => $"{same.Sum(unit => unit.Count)} {OutcomeWords.Of(same.Key)}"));

    private static Letter Write(string subject, Tone tone, string banner, Pickup pickup, OutcomeRecorded outcome, PickupNames names, Uri link)
    {
        var sheet = new Sheet();
        sheet.Title(subject);
        sheet.Banner(tone, banner);
        sheet.Facts(
            (T("Pickup"), $"{pickup.Header.Number}, {Moments.Long(pickup.Header.Window)}"),
            (T("Shipper"), $"{names.Shipper}, {names.Site}"),
            (T("Carrier"), $"{names.Carrier}, {names.Terminal}"),
            (T("To"), pickup.Header.Destination),
            (T("Delivered"), Day(outcome.DeliveredOn)),
            (T("Recorded by"), outcome.By.Name));
        sheet.Heading(T("What came of each line"));
        foreach (var unit in outcome.Units)
            sheet.Paragraph(OutcomeWords.Of(unit));
        if (outcome.Reason is { } reason)
        {
            sheet.Heading(T("Why the earlier record was replaced"));
            sheet.Quote(reason);
        }

        if (!outcome.IsClean)
        {
            sheet.Heading(T("Until when"));
            sheet.Facts(
                (T("Report concealed damage by"), Day(outcome.Deadlines.ConcealedDamageBy)),
                (T("File a claim by"), Day(outcome.Deadlines.ClaimBy)));
            sheet.Small(OutcomeWords.DeadlineCare);
        }

        sheet.Link(T("Open the pickup"), FreightPages.Web(link));
        return new(subject, sheet.Text, sheet.Html(subject, banner), [], null);
    }

    private static string Day(DateOnly day) => day.ToString("ddd d MMM yyyy", Language.Current.Calendar);
}
