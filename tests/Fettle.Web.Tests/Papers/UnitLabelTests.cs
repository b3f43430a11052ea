using Fettle.Engineering.Identification;
using Fettle.Readiness.Declarations;
using Fettle.Web.Languages;
using Fettle.Web.Papers;
using UglyToad.PdfPig;
using static Fettle.Web.Tests.Papers.Scanned;

namespace Fettle.Web.Tests.Papers;

/// <summary>Labels as a scanner and a person read them.</summary>
public sealed class UnitLabelTests
{
    private const double PointsPerMillimetre = 72 / 25.4;

    [Fact]
    public void Each_unit_has_a_page_of_four_by_six_inches_whose_bars_say_its_SSCC()
    {
        var freight = Shipment.Of([Shipment.Ready, Shipment.Held]);
        var pdf = PaperDesk.LabelsOf(freight, null)!.Content;
        Keep("labels", pdf);
        using var opened = PdfDocument.Open(pdf);

        Assert.Equal(freight.Pickup.Numbers.Count, opened.NumberOfPages);
        foreach (var (page, number) in opened.GetPages().Zip(freight.Pickup.Numbers))
        {
            Assert.Equal((4 * 72, 6 * 72), (page.Width, page.Height));
            var code = number.Sscc!.Value;
            Assert.Equal($"]C100{code}", BarCode(page));
            var text = Squeezed(page.Text);
            Assert.Contains($"(00){code}", text, StringComparison.Ordinal);
            Assert.Contains($"SSCC{code}", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Any_number_of_any_prefix_is_read_back()
    {
        foreach (var prefix in (string[])["9520", "95211", "9521101", "952110112345"])
        {
            using var opened = PdfDocument.Open(PaperDesk.LabelsOf(Shipment.Of([Shipment.Ready], prefix), 2)!.Content);
            Assert.Equal($"]C100{Sscc.OfNumber(prefix, 1001)!.Value}", BarCode(opened.GetPage(1)));
        }
    }

    [Fact]
    public void Bars_keep_GS1_s_measures_and_ten_modules_of_white_on_either_side()
    {
        using var opened = PdfDocument.Open(PaperDesk.LabelsOf(Shipment.Of([Shipment.Ready]), 1)!.Content);
        var page = opened.GetPage(1);
        var bars = Bars(page);

        var module = bars.Min(bar => bar.Right - bar.Left);
        Assert.InRange(module / PointsPerMillimetre, 0.495, 0.94);
        Assert.All(bars, bar => Assert.True(bar.Height / PointsPerMillimetre >= 31.75, $"{bar.Height}"));
        Assert.True(bars[0].Left >= 10 * module - 0.01, $"{bars[0].Left}");
        Assert.True(page.Width - bars[^1].Right >= 10 * module - 0.01, $"{page.Width - bars[^1].Right}");
        // Whole modules only, and 156 of them: start, FNC1, ten pairs, check, stop.
        Assert.Equal(156, (bars[^1].Right - bars[0].Left) / module, 0.01);
        Assert.All(bars, bar => Assert.Equal(Math.Round((bar.Right - bar.Left) / module), (bar.Right - bar.Left) / module, 0.01));
    }

    [Fact]
    public void A_label_names_from_to_pickup_unit_line_weight_and_what_must_not_be_done()
    {
        var text = Text(PaperDesk.LabelsOf(Shipment.Of([Shipment.Ready, Shipment.Held]), 4)!.Content);
        foreach (var said in (string[])
            ["Bramblewick Glassware", "4 Kiln Road, Bramblewick, OH 43000", "Harbour Stores, Saltgrass", "77 Harbour Street, Saltgrass, TX 77001", "Larkspur Motor Freight", "Millbrook", "P-4K7Q2M", "4 of 4", "B1, 1 of 1", "NOTHING ON TOP", "FRAGILE"])
            Assert.Contains(Squeezed(said), text, StringComparison.Ordinal);
        var stackable = Text(PaperDesk.LabelsOf(Shipment.Of([Shipment.Ready, Shipment.Held]), 1)!.Content);
        Assert.DoesNotContain("NOTHINGONTOP", stackable, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_on_top_is_on_the_label_of_whatever_may_not_carry()
    {
        foreach (var (unit, said) in (List<(HandlingUnit, bool)>)
        [
            (Shipment.Ready, false),
            (Shipment.Ready with { Requests = new(Airbags: true, Strap: true, Bulkhead: true) }, false),
            (Shipment.Ready with { Stackable = false }, true),
            (Shipment.Ready with { Requests = new(NoTopLoad: true) }, true),
            (Shipment.Ready with { Requests = new(Decking: true) }, true),
            (Shipment.Ready with { Fragile = Fragility.Ceramics }, true),
            (Shipment.Ready with { TopSurface = TopSurface.Pyramid }, true),
        ])
            Assert.Equal(said, Text(PaperDesk.LabelsOf(Shipment.Of([unit]), 1)!.Content).Contains("NOTHINGONTOP", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_a_company_prefix_the_bars_say_the_own_number_and_the_label_that_it_is_no_SSCC()
    {
        var pdf = PaperDesk.LabelsOf(Shipment.Of([Shipment.Ready], prefix: null), 2)!.Content;
        Keep("label-own", pdf);
        using var opened = PdfDocument.Open(pdf);
        Assert.Equal("P-4K7Q2M/A1-2", BarCode(opened.GetPage(1)));
        var text = Text(pdf);
        Assert.Contains("NotanSSCC:theshipperhasnoGS1companyprefix.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("(00)", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("棚 7", "P-4K7Q2M#1")]
    [InlineData("QWERTYUIOPASDFGHJKLZXCVBNMQWER", "P-4K7Q2M#1")]
    [InlineData("dock 4 left", "P-4K7Q2M/dock 4 left-1")]
    [InlineData("1234567890", "P-4K7Q2M/1234567890-1")]
    public void A_name_that_bars_cannot_carry_is_scanned_by_the_unit_s_place(string reference, string scanned)
    {
        using var opened = PdfDocument.Open(PaperDesk.LabelsOf(Shipment.Of([Shipment.Ready with { Reference = reference }], prefix: null), 1)!.Content);
        Assert.Equal(scanned, BarCode(opened.GetPage(1)));
        // The font has no signs of every script; what is in the bars is there in any case.
        Assert.Contains(Squeezed(char.IsAscii(reference[0]) ? $"P-4K7Q2M/{reference}-1" : scanned), Squeezed(opened.GetPage(1).Text), StringComparison.Ordinal);
    }

    [Fact]
    public void Long_names_and_addresses_stay_on_the_label_and_off_the_bars()
    {
        var freight = Shipment.Of([Shipment.Ready with { Reference = new string('W', 30), Quantity = 999 }], destination: string.Join(' ', Enumerable.Repeat("Wainwright", 18)), address: new string('W', 200));
        var pdf = PaperDesk.LabelsOf(freight, 999)!.Content;
        Keep("label-long", pdf);
        using var opened = PdfDocument.Open(pdf);
        var page = opened.GetPage(1);
        Assert.Equal($"]C100{freight.Pickup.Numbers[998].Sscc!.Value}", BarCode(page));
        Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Right, 0, page.Width));
        Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Bottom, 0, page.Height));
    }

    [Fact]
    public void A_unit_that_there_is_not_has_no_label()
    {
        var freight = Shipment.Of([Shipment.Ready]);
        Assert.Null(PaperDesk.LabelsOf(freight, 0));
        Assert.Null(PaperDesk.LabelsOf(freight, 4));
        Assert.Null(PaperDesk.LabelsOf(freight, -1));
    }

    [Fact]
    public void In_Spanish_what_is_ours_is_Spanish()
    {
        Language.Spanish.Speak();
        var text = Text(PaperDesk.LabelsOf(Shipment.Of([Shipment.Held], prefix: null), 1)!.Content);
        Assert.Contains("NADAENCIMA", text, StringComparison.Ordinal);
        Assert.Contains("NoesunSSCC", text, StringComparison.Ordinal);
    }
}
