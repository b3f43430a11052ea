using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Evidence;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Papers;

namespace Fettle.Web.Evidence;

/// <summary>The file of a pickup for people, in English whoever asks: one pickup has one file.</summary>
internal static class EvidenceSummary
{
    public static byte[] Write(PickupFreight freight, EvidenceChain chain)
    {
        var asked = CultureInfo.CurrentUICulture;
        Language.English.Speak();
        try
        {
            return StillPdf.Of(Pages(freight, chain), chain.Links.Count == 0 ? freight.Pickup.SubmittedAt : chain.Links.Max(link => link.At));
        }
        finally
        {
            CultureInfo.CurrentUICulture = asked;
        }
    }

    private static byte[] Pages(PickupFreight freight, EvidenceChain chain)
    {
        using var pages = new PaperPages(PaperSizes.For(freight.Units), $"File of pickup {freight.Number}", $"File of pickup {freight.Number}");
        pages.Title(T("File of a pickup"), freight.Number, freight.Declared);
        pages.Facts(
            2,
            (T("Shipper"), freight.From),
            (T("Consignee"), freight.To),
            (T("Carrier and origin terminal"), freight.Terminal),
            (T("Pickup window"), Moments.Long(freight.Pickup.Header.Window)));
        pages.Table(
            [new(T("Line"), 10), new(T("Handling units"), 18), new(T("Contents"), 34), new(T("Outside, each"), 22), new(T("Gross weight"), 16, Right: true), new(T("Verdict"), 20)],
            [
                .. freight.Lines.Zip(freight.Pickup.Units, (line, judged) => (IReadOnlyList<string>)
                    [line.Reference, FreightWords.Count(line), freight.Description(line), freight.Size(line), freight.WeightOf(line), FreightWords.Verdict(judged.Verdict).Words]),
            ]);
        foreach (var (line, judged) in freight.Lines.Zip(freight.Pickup.Units).Where(pair => pair.Second.Findings.Count > 0))
        {
            pages.Heading(T("{0}: what was found", line.Reference));
            ExceptionPaper.Findings(pages, freight, judged.Findings);
        }

        foreach (var hold in freight.Holds)
        {
            pages.Heading(T("Hold {0}", hold.Placed.Number));
            pages.Text(T("Held since {0}: {1}", freight.When(hold.Placed.At), hold.Placed.Reason.Say(freight.Units)));
            foreach (var decided in hold.Decisions)
                pages.Text(T("{0}: {1} by {2}. {3}", freight.When(decided.At), FreightWords.Decided(decided.Decision), decided.By.Name, decided.Reason));
        }

        foreach (var inspection in freight.Inspections)
        {
            pages.Heading(T("Inspected by {0}, {1}", inspection.Recorded.By.Name, freight.When(inspection.Recorded.At)));
            pages.Text(T("{0}: {1} findings, {2} photos. {3}", inspection.Recorded.Reference, inspection.Recorded.Findings.Count, inspection.Photos.Count, inspection.Recorded.Note ?? ""));
        }

        pages.Heading(T("Records, in the order in which they were chained"));
        pages.Table(
            [new("", 6, Right: true), new(T("What"), 32), new(T("When, UTC"), 26), new(T("Hash"), 76)],
            [.. chain.Links.Select(link => (IReadOnlyList<string>)[$"{link.Number}", link.Kind.Replace('_', ' '), EvidenceRecord.Written(link.At)[..19].Replace('T', ' '), link.Hash])],
            size: 7);
        pages.Text(T("The last hash is the head that mails of that time carry. README.txt in the ZIP says how to check it."), 7.5);
        return pages.Save();
    }
}
