using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.Notices.Letters;

/// <summary>About a visit to a shipper's dock: to the terminal when one is asked for, to the shipper when it is planned or something was agreed.</summary>
public static class DockVisitLetter
{
    /// <param name="visit">As it stood when the letter was due.</param>
    /// <param name="zone">Of the dock.</param>
    /// <param name="link">The visit in the portal.</param>
    /// <exception cref="ArgumentOutOfRangeException">The kind is of no such letter.</exception>
    public static Letter Write(NoticeKind kind, DockVisit visit, PickupNames names, string zone, Uri link)
    {
        var asked = visit.Asked;
        var (subject, tone, banner) = kind switch
        {
            NoticeKind.DockVisitAsked => (T("{0}: {1} asks for a dock visit", asked.Number, names.Shipper), Tone.Caution, T("{0} asks somebody to come to {1} and look at freight as it is prepared.", asked.By.Name, names.Site)),
            NoticeKind.DockVisitPlanned => (T("{0}: dock visit {1}", asked.Number, When(visit, zone)), Tone.Good, T("{0} comes to {1}, {2}.", visit.Planned!.Visitor, names.Site, When(visit, zone))),
            NoticeKind.DockVisitCalledOff => (T("{0}: dock visit called off", asked.Number), Tone.Stop, T("{0} called it off: {1}", visit.CalledOff!.By.Name, visit.CalledOff.Reason)),
            NoticeKind.DockVisitConcluded => (T("{0}: what was agreed on the dock", asked.Number), Tone.Good, T("{0} wrote down what was agreed.", visit.Concluded!.By.Name)),
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "This is no letter about a dock visit."),
        };
        subject = Plain.Line(subject);
        var sheet = new Sheet();
        sheet.Title(subject);
        sheet.Banner(tone, banner);
        sheet.Facts(
            (T("Dock"), $"{names.Shipper}, {names.Site}\n{names.SiteAddress}"),
            (T("Terminal"), $"{names.Terminal}, {names.Carrier}"),
            (T("Asked by"), asked.By.Name),
            (T("Builds"), asked.Builds.Count == 0 ? T("freight in general") : string.Join(", ", asked.Builds.Select(build => build.Name))));
        sheet.Heading(T("The question"));
        sheet.Quote(asked.Question);
        if (asked.Preferred is { } preferred && kind == NoticeKind.DockVisitAsked)
            sheet.Paragraph(T("When it suits: {0}", preferred));
        if (kind == NoticeKind.DockVisitPlanned && visit.Planned!.Note is { } note)
            sheet.Quote(note);
        if (kind == NoticeKind.DockVisitConcluded && visit.Concluded is { } concluded)
        {
            sheet.Heading(T("What was agreed"));
            sheet.Quote(concluded.Agreed);
            foreach (var verdict in concluded.Verdicts)
                sheet.Paragraph($"{verdict.Name}: {(verdict.Approved ? T("approved") : T("not approved"))}. {verdict.Why}");
            sheet.Small(NoPromise);
        }

        sheet.Link(T("Open the visit"), FreightPages.Web(link));
        return new(subject, sheet.Text, sheet.Html(subject, banner), [], null);
    }

    public static string NoPromise => T("What was agreed is about the builds as they were seen. It is no promise that any load is safe: the carrier's tariff, local law and qualified people have the last word.");

    private static string When(DockVisit visit, string zone) => Moments.Long(new PickupWindow(visit.Planned!.From, visit.Planned.To, zone));
}
