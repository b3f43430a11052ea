using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Web.Areas.Shared;
using Fettle.Web.Drawings;
using Fettle.Web.Notices.Letters;
using Severity = Fettle.Readiness.Findings.Severity;

namespace Fettle.Web.Papers;

/// <summary>
/// For freight that travels though it does not conform: what was found, in figures and with where each limit comes from,
/// who decided what and why, and on which terms. Made once such a decision stands.
/// </summary>
internal static class ExceptionPaper
{
    /// <summary>"X-P-4K7Q2M/A1": "X-" and the hold's number, as bill and mails name it.</summary>
    public static string NumberOf(Hold hold) => hold.Decided?.Exception?.Number ?? hold.ExceptionNumber();

    /// <param name="decided">The release as an exception.</param>
    public static byte[] Write(PickupFreight freight, Hold hold, HoldDecided decided, Paper paper)
    {
        var (placed, line) = (hold.Placed, hold.Placed.HandlingUnit);
        var number = NumberOf(hold);
        using var pages = new PaperPages(paper, T("Exception {0}", number), T("Exception {0}", number));
        pages.Title(T("Exception"), number, T("Freight that does not conform and travels all the same, on the carrier's decision."));
        pages.Facts(
            2,
            (T("Shipper"), freight.From),
            (T("Consignee"), freight.To),
            (T("Carrier and origin terminal"), freight.Terminal),
            (T("Pickup"), $"{freight.Number}\n{Moments.Long(placed.Pickup.Window)}"));
        pages.Facts(
            4,
            (T("Freight"), $"{line.Reference}: {FreightWords.Count(line)}"),
            (T("Contents"), freight.Description(line)),
            (T("Outside, each"), freight.Size(line)),
            (T("Gross weight"), freight.WeightOf(line)));
        pages.Picture(UnitDrawing.Svg(line, freight.Units, DrawingOptions.ForMail), 200);

        pages.Heading(T("Decision"));
        pages.Notice(T("Released as an exception by {0}, {1}.", decided.By.Name, freight.When(decided.At)));
        pages.Text(decided.Reason, 10);
        if (decided.Exception is { } terms)
        {
            pages.Facts(
                2,
                (T("Risk"), terms.Risk),
                (T("Accepted by"), terms.AcceptedBy),
                (T("Conditions"), terms.Conditions),
                (T("Ends"), freight.When(terms.Until)));
        }

        pages.Facts(
            2,
            (T("Held since"), freight.When(placed.At)),
            (T("Declared by"), placed.DeclaredBy.Name));
        string[] asked = [.. new[] { placed.ExceptionRequest }.Concat(hold.ExceptionRequests.Select(request => $"{request.Reason} ({request.By.Name}, {freight.When(request.At)})")).OfType<string>()];
        if (asked.Length > 0)
        {
            pages.Heading(T("What the shipper asked"));
            foreach (var request in asked)
                pages.Text(request, 10);
        }

        pages.Heading(T("What was found"));
        Findings(pages, freight, hold.FoundNow());
        Inspected(pages, freight, line.Reference);
        pages.Heading(T("Numbers on the labels"));
        pages.Text(string.Join("  ", freight.Pickup.Numbers.Where(unit => unit.Reference == line.Reference).Take(60).Select(unit => unit.Sscc?.Value ?? unit.Own(freight.Number))), 7.5);
        pages.Text(T("Figures are computed or measured as said. An exception changes no figure: who handles this freight looks at it first, and does not stand under or beside a load that can fall. The carrier's tariff, local law and qualified people have the last word."), 7.5);
        return pages.Save();
    }

    /// <summary>Who looked, when, what differed from the declaration, and the hashes by which the photos are known.</summary>
    private static void Inspected(PaperPages pages, PickupFreight freight, string reference)
    {
        foreach (var inspection in freight.Inspections.Where(inspection => inspection.Recorded.Reference == reference))
        {
            var recorded = inspection.Recorded;
            pages.Heading(T("Inspected by {0}, {1}", recorded.By.Name, freight.When(recorded.At)));
            if (recorded.Note is { } note)
                pages.Text(note);
            if (recorded.Findings.Count > 0)
                Findings(pages, freight, recorded.Findings);
            foreach (var photo in inspection.Photos)
                pages.Text(T("Photo {0}, SHA-256 {1}", photo.PhotoId, photo.Sha256.ToLowerInvariant()), 7);
        }
    }

    /// <summary>Gravest first, with the figures and where the limit comes from.</summary>
    public static void Findings(PaperPages pages, PickupFreight freight, IReadOnlyList<Finding> findings) => pages.Table(
        [new("", 12), new(T("Finding"), 50), new(T("Measured"), 16), new(T("Limit"), 16), new(T("Where the limit comes from"), 40)],
        [
            .. findings.Where(finding => finding.Severity > Severity.Tip).OrderByDescending(finding => finding.Severity).Select(finding => (IReadOnlyList<string>)
            [
                finding.Severity.Label(),
                finding.Message.Say(freight.Units),
                RuleBook.Figure(finding, finding.Measured).Say(freight.Units),
                RuleBook.Figure(finding, finding.Limit).Say(freight.Units),
                $"{finding.Basis.Say()} ({finding.RuleSet.Say()})",
            ]),
        ],
        size: 8);
}
