using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Web.Languages;
using Fettle.Web.Papers;
using UglyToad.PdfPig;
using static Fettle.Web.Tests.Papers.Scanned;

namespace Fettle.Web.Tests.Papers;

/// <summary>Bill of lading, manifest and exception, read back by another library than the one that wrote them.</summary>
public sealed class PickupPaperTests
{
    [Fact]
    public void A_bill_of_lading_has_what_the_regulation_names()
    {
        var pdf = Bill(Shipment.Of([Shipment.Ready, Shipment.Held, Shipment.Regulated], driverOnDock: false));
        Keep("bill", pdf);
        Says(
            pdf,
            // 49 CFR 373.101: consignor, consignee, origin, destination, packages, description, weight and measurement.
            "Straight bill of lading", "not negotiable", "P-4K7Q2M",
            "Bramblewick Glassware", "Harbour Stores, Saltgrass", "4 Kiln Road, Bramblewick, OH 43000", "77 Harbour Street, Saltgrass, TX 77001",
            "Larkspur Motor Freight", "3 pallets", "64 cartons", "fragile: glass", "cu ft", "lb",
            "Shipper: signature", "Carrier: signature", "Page 1 of", "carrier's tariff", "Declared by Maya Ortiz");
    }

    [Fact]
    public void Class_size_weight_and_pieces_stand_in_each_line_and_are_summed()
    {
        var freight = Shipment.Of([Shipment.Ready, Shipment.Held]);
        var pieces = Shipment.Ready.Contents.Pieces * 3 + Shipment.Held.Contents.Pieces;
        Says(Bill(freight), "70", "not declared", "48 × 40", $"{Shipment.Ready.Contents.Pieces * 3}", $"{pieces}", freight.Weight, freight.Cube, "4 pallets");
    }

    [Fact]
    public void Shipper_s_load_and_count_is_printed_when_the_driver_stays_off_the_dock_and_only_then()
    {
        const string Words = "SHIPPER'S WEIGHT, LOAD, AND COUNT";
        Says(Bill(Shipment.Of([Shipment.Ready], driverOnDock: false)), Words, "49 U.S.C. 80113");
        Assert.DoesNotContain(Squeezed(Words), Text(Bill(Shipment.Of([Shipment.Ready]))), StringComparison.Ordinal);
    }

    [Fact]
    public void Hazardous_freight_is_said_to_need_its_own_shipping_paper() =>
        Says(Bill(Shipment.Of([Shipment.Regulated])), "HAZARDOUS MATERIAL IS DECLARED", "49 CFR part 172, subpart C", "hazardous, confirmed by Dana Hale");

    [Fact]
    public void An_open_hold_is_noted_with_its_number_and_so_is_an_exception()
    {
        Says(Bill(Shipment.Of([Shipment.Held])), "HELD P-4K7Q2M/B1", "not to be moved until the terminal decides");
        Says(Bill(Shipment.Of([Shipment.Held], decision: HoldDecision.ReleaseAsException)), "Exception X-P-4K7Q2M/B1", "Tom Reyes", "Two straps and a panel");
        Says(Bill(Shipment.Of([Shipment.Held], decision: HoldDecision.Refuse)), "Hold P-4K7Q2M/B1", "refused by Tom Reyes");
    }

    [Fact]
    public void A_long_bill_goes_on_over_pages_that_are_numbered_and_loses_nothing()
    {
        var lines = Enumerable.Range(1, 100).Select(i => Shipment.Ready with { Reference = $"{i} {new string('W', 26)}", Quantity = 20 }).ToArray();
        var freight = Shipment.Of(lines, destination: new string('W', 200), address: new string('M', 200));
        var pdf = Bill(freight);
        Keep("bill-long", pdf);
        using var opened = PdfDocument.Open(pdf);
        Assert.InRange(opened.NumberOfPages, 4, 30);
        for (var i = 1; i <= opened.NumberOfPages; i++)
        {
            var page = opened.GetPage(i);
            Assert.Contains(Squeezed($"Page {i} of {opened.NumberOfPages}"), Squeezed(page.Text), StringComparison.Ordinal);
            Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Right, 0, page.Width));
            Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Bottom, 0, page.Height));
        }

        var text = Text(pdf);
        Assert.All(lines, line => Assert.Contains(Squeezed(line.Reference), text, StringComparison.Ordinal));
        Assert.Contains(new string('W', 40), text, StringComparison.Ordinal);
        Says(pdf, "Each of the 2,000 handling units carries a label", "Shipper: signature");
    }

    [Fact]
    public void The_heaviest_pickup_that_can_be_declared_has_a_bill() =>
        Assert.NotEmpty(Bill(Shipment.Of([Shipment.Ready with { Quantity = 999, GrossWeight = Mass.FromPounds(80_000) }, Shipment.Held with { Quantity = 999, GrossWeight = Mass.FromPounds(80_000) }])));

    [Fact]
    public void A_manifest_tells_the_driver_units_weights_cautions_holds_and_how_it_fits()
    {
        var freight = Shipment.Of([Shipment.Ready, Shipment.Held, Shipment.Regulated], driverOnDock: false);
        var pdf = PaperDesk.ManifestOf(freight, null).Content;
        Keep("manifest", pdf);
        Says(
            pdf,
            "Driver's manifest", "P-4K7Q2M", "Linear feet", "3 pallets", freight.Weight, "may carry a top load", "nothing on top", "fragile: glass", "a strap to the wall",
            "hazardous, confirmed by Dana Hale", "HELD, do not load before the terminal has decided: 1 × B1", "HELD P-4K7Q2M/B1", "Driver: signature", "not admitted to the dock");
    }

    [Fact]
    public void A_manifest_says_that_nothing_goes_on_stackable_freight_that_is_fragile_or_asks_for_it()
    {
        Assert.Contains("may carry a top load", Said(Shipment.Ready), StringComparison.Ordinal);
        foreach (var unit in (HandlingUnit[])
        [
            Shipment.Ready with { Requests = new(NoTopLoad: true) }, Shipment.Ready with { Requests = new(Decking: true) }, Shipment.Ready with { Fragile = Fragility.Glass },
        ])
        {
            Assert.Contains("nothing on top", Said(unit), StringComparison.Ordinal);
            Assert.DoesNotContain("may carry a top load", Said(unit), StringComparison.Ordinal);
        }

        static string Said(HandlingUnit unit)
        {
            using var opened = PdfDocument.Open(PaperDesk.ManifestOf(Shipment.Of([unit]), null).Content);
            return string.Join(' ', opened.GetPages().SelectMany(page => page.GetWords()).Select(word => word.Text));
        }
    }

    [Fact]
    public void A_pickup_too_large_to_be_planned_still_has_a_manifest()
    {
        var pdf = PaperDesk.ManifestOf(Shipment.Of([Shipment.Ready with { Quantity = 999 }, Shipment.Held with { Quantity = 999 }]), null).Content;
        Says(pdf, "too many units to be planned", "1,998 pallets");
    }

    [Fact]
    public void An_exception_is_numbered_and_says_what_was_found_asked_and_decided()
    {
        var freight = Shipment.Of([Shipment.Held], decision: HoldDecision.ReleaseAsException, exception: "The consignee has no room for two pallets.");
        var hold = Assert.Single(freight.Holds);
        var pdf = ExceptionPaper.Write(freight, hold, hold.Decided!, Paper.Letter);
        Keep("exception", pdf);
        Says(
            pdf,
            "Exception", "X-P-4K7Q2M/B1", "Bramblewick Glassware", "Harbour Stores", "Released as an exception by Tom Reyes", "Two straps and a panel, seen on the floor.",
            "Harbour Stores, Ann Low", "Edges rub through on the way.", "Nothing beside it on the left.", "30 November 2026",
            "The consignee has no room for two pallets.", "Maya Ortiz", hold.Placed.Findings[0].Message.Say(UnitSystem.Imperial), "Common practice, version 1", freight.Pickup.Numbers[0].Sscc!.Value);
    }

    [Theory]
    [InlineData(UnitSystem.Imperial, 612, 792)]
    [InlineData(UnitSystem.Metric, 595.28, 841.89)]
    public void Paper_goes_with_the_units_unless_one_says_otherwise(UnitSystem units, double width, double height)
    {
        using var opened = PdfDocument.Open(Bill(Shipment.Of([Shipment.Ready], units: units)));
        Assert.Equal(width, opened.GetPage(1).Width, 0.01);
        Assert.Equal(height, opened.GetPage(1).Height, 0.01);
        using var other = PdfDocument.Open(PaperDesk.BillOf(Shipment.Of([Shipment.Ready], units: units), Paper.A4).Content);
        Assert.Equal(595.28, other.GetPage(1).Width, 0.01);
    }

    [Fact]
    public void In_Spanish_what_is_ours_is_Spanish_and_the_legal_wording_stays()
    {
        Language.Spanish.Speak();
        Says(Bill(Shipment.Of([Shipment.Held], driverOnDock: false)), "SHIPPER'S WEIGHT, LOAD, AND COUNT", "Horario de recolección", "Peso bruto");
    }

    [Fact]
    public void Names_in_any_script_and_odd_figures_make_papers()
    {
        foreach (var name in (string[])["棚 7", "\"<&>", "e\u0301\u0301", "📦📦", "ﷺ"])
        {
            var freight = Shipment.Of([Shipment.Held with { Reference = name }], destination: name, address: name, units: UnitSystem.Metric);
            Assert.NotEmpty(Bill(freight));
            Assert.NotEmpty(PaperDesk.ManifestOf(freight, null).Content);
            Assert.NotEmpty(PaperDesk.LabelsOf(freight, null)!.Content);
        }
    }

    private static byte[] Bill(PickupFreight freight) => PaperDesk.BillOf(freight, null).Content;

    private static void Says(byte[] pdf, params IReadOnlyList<string> words)
    {
        var text = Text(pdf);
        Assert.All(words, said => Assert.Contains(Squeezed(said), text, StringComparison.Ordinal));
    }
}
