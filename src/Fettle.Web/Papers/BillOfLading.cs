using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Web.Notices.Letters;

namespace Fettle.Web.Papers;

/// <summary>
/// A straight bill of lading with what 49 CFR 373.101 asks of one: consignor and consignee, origin and destination, number
/// of packages, description of the freight, and weight, volume or measurement as far as rates need it. Wording with a legal
/// sense stays English; the carrier's tariff rules.
/// </summary>
internal static class BillOfLading
{
    private const string Receipt =
        "RECEIVED, subject to the carrier's tariff, classifications and rules in effect on the date of issue of this bill of lading, the property described below, in apparent good order except as noted (contents and condition of contents of packages unknown), marked, consigned and destined as shown.";

    private const string LoadAndCount =
        "SHIPPER'S WEIGHT, LOAD, AND COUNT. The driver was not admitted to the dock and has neither loaded nor counted this freight (49 U.S.C. 80113).";

    private const string HazardousMaterial =
        "HAZARDOUS MATERIAL IS DECLARED ON THIS BILL. This bill is not the shipping paper that 49 CFR part 172, subpart C, asks for: that paper is made and certified by a trained hazmat employee and goes with the freight.";

    public static byte[] Write(PickupFreight freight, Paper paper)
    {
        var (pickup, header) = (freight.Pickup, freight.Pickup.Header);
        using var pages = new PaperPages(paper, $"Bill of lading {freight.Number}", $"Straight bill of lading {freight.Number}, not negotiable");
        pages.Title("Straight bill of lading", freight.Number, "Original, not negotiable");
        pages.Facts(
            2,
            (T("Shipper (consignor)"), freight.From),
            (T("Consignee"), freight.To),
            (T("Carrier and origin terminal"), freight.Terminal),
            (T("Pickup window"), Moments.Long(header.Window)));
        pages.Facts(
            4,
            (T("Origin"), freight.Parties.Site.Address),
            (T("Destination"), header.ConsigneeAddress ?? header.Destination),
            (T("Truck"), FreightWords.Equipment(header.Equipment)),
            (T("Freight charges"), "☐ prepaid  ☐ collect  ☐ third party"));
        pages.Rule();
        pages.Text(Receipt, 8);
        if (!pickup.Declaration.DriverOnDock)
            pages.Notice(LoadAndCount);
        if (freight.Lines.Any(line => line.Hazardous))
            pages.Notice(HazardousMaterial);
        Freight(pages, freight);
        Notes(pages, freight);
        pages.Space(6);
        pages.Signatures(
            ("The shipper says that the freight is described, packed and marked as it is.", ["Shipper: signature", "Name", "Date and time"]),
            (pickup.Declaration.DriverOnDock
                ? "The carrier has received the handling units counted here, except as noted."
                : "The carrier has received a load said to be as described. Shipper's load and count.", ["Carrier: signature", "Name, trailer and seal", "Handling units received, date and time"]));
        pages.Text($"{T("Made by Fettle from what the shipper declared.")} {freight.Declared} {T("It replaces no tariff: the carrier's tariff and rules, and the law, have the last word.")}", 7.5);
        Numbers(pages, freight);
        return pages.Save();
    }

    private static void Freight(PaperPages pages, PickupFreight freight) => pages.Table(
        [
            new(T("Line"), 9),
            new(T("Handling units"), 15),
            new(T("Pieces"), 9, Right: true),
            new(T("Description of freight"), 35),
            new(T("Class"), 12),
            new(T("Outside, each"), 19),
            new(T("Gross weight"), 16, Right: true),
        ],
        [
            .. freight.Lines.Select(line => (IReadOnlyList<string>)
            [
                line.Reference,
                FreightWords.Count(line),
                ((long)line.Contents.Pieces * line.Quantity).ToString("#,0", CultureInfo.InvariantCulture),
                freight.Description(line),
                line.DeclaredClass is { } declared ? declared.ToString("0.#", CultureInfo.InvariantCulture) : T("not declared"),
                $"{freight.Size(line)}\n{freight.Density(line)}",
                line.Quantity == 1 ? freight.WeightOf(line) : $"{freight.WeightOf(line)}\n{T("{0} each", freight.Show((Quantity)line.GrossWeight))}",
            ]),
        ],
        [
            T("Total"), freight.Count, freight.Lines.Sum(line => (long)line.Contents.Pieces * line.Quantity).ToString("#,0", CultureInfo.InvariantCulture), "", "", freight.Cube, freight.Weight,
        ]);

    /// <summary>Freight that is held, and freight that travels on terms.</summary>
    private static void Notes(PaperPages pages, PickupFreight freight)
    {
        if (freight.Holds.Count == 0)
            return;
        pages.Heading(T("Exceptions and holds"));
        foreach (var hold in freight.Holds)
        {
            var what = $"{hold.Placed.HandlingUnit.Reference}, {FreightWords.Count(hold.Placed.HandlingUnit)}";
            pages.Text(hold.Decided switch
            {
                null => T("HELD {0} ({1}): not to be moved until the terminal decides. {2}", hold.Placed.Number, what, hold.Placed.Reason.Say(freight.Units)),
                { Decision: HoldDecision.ReleaseAsException } decided => T("Exception {0} ({1}): travels though it does not conform, by decision of {2}, {3}. {4}", ExceptionPaper.NumberOf(hold), what, decided.By.Name, freight.When(decided.At), decided.Reason),
                { } decided => T("Hold {0} ({1}): {2} by {3}, {4}. {5}", hold.Placed.Number, what, FreightWords.Decided(decided.Decision), decided.By.Name, freight.When(decided.At), decided.Reason),
            });
        }
    }

    /// <summary>What is on the labels, as long as it fits; a bill is not a list of a thousand cartons.</summary>
    private static void Numbers(PaperPages pages, PickupFreight freight)
    {
        const int Most = 120;
        if (freight.Pickup.Numbers.Count > Most)
        {
            pages.Text(T("Each of the {0:#,0} handling units carries a label with its number.", freight.Pickup.Numbers.Count), 8);
            return;
        }

        pages.Heading(T("Numbers on the labels"));
        foreach (var line in freight.Lines)
        {
            var numbers = freight.Pickup.Numbers.Where(number => number.Reference == line.Reference);
            pages.Text($"{line.Reference}: {string.Join("  ", numbers.Select(number => number.Sscc?.Value ?? number.Own(freight.Number)))}", 7.5);
        }
    }
}
