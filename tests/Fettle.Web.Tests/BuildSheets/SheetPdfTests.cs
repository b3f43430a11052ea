using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Web.BuildSheets;
using Fettle.Web.Papers;
using PdfSharp.Pdf.IO;
using UglyToad.PdfPig;
using static Fettle.Web.Tests.Drawings.Freight;

namespace Fettle.Web.Tests.BuildSheets;

/// <summary>The sheets as PDF, read back by another library than the one that wrote them.</summary>
public sealed class SheetPdfTests
{
    [Fact]
    public void Each_kind_of_contents_fits_one_page_of_either_paper()
    {
        BuildSheet[] sheets = [.. Kinds.All.Select(unit => BuildSheetTests.Of(unit))];

        foreach (var paper in Enum.GetValues<Paper>())
        {
            var pdf = SheetPdf.Write(sheets, paper);
            Keep($"kinds-{paper}", pdf);
            using var opened = PdfReader.Open(new MemoryStream(pdf), PdfDocumentOpenMode.Import);
            Assert.Equal(sheets.Length, opened.PageCount);
            var (width, height) = paper.Size();
            Assert.Equal(width, opened.Pages[0].Width.Point, 0.01);
            Assert.Equal(height, opened.Pages[0].Height.Point, 0.01);
        }
    }

    [Fact]
    public void The_page_says_what_the_sheet_says()
    {
        foreach (var unit in Kinds.All)
        {
            var sheet = BuildSheetTests.Of(unit);
            var text = Text(SheetPdf.Write([sheet], Paper.Letter));

            foreach (var said in (string[])[sheet.Title, sheet.Alike, sheet.Of, sheet.Load, sheet.Weight.How, sheet.Stacking, .. sheet.Steps.Select(step => step.How), .. sheet.Cautions, sheet.Foot])
                Assert.Contains(Squeezed(said), text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_drawings_are_lines_and_not_pictures()
    {
        using var pdf = PdfDocument.Open(SheetPdf.Write([BuildSheetTests.Of(Kinds.Interlocked)], Paper.Letter));
        var page = pdf.GetPage(1);

        Assert.Empty(page.GetImages());
        // Five cartons of each of two layers, a deck and twelve faces at the least.
        Assert.True(page.Paths.Count > 20, $"{page.Paths.Count} paths");
        Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Left, 0, page.Width));
        Assert.All(page.Letters, letter => Assert.InRange(letter.BoundingBox.Bottom, 0, page.Height));
    }

    [Fact]
    public void A_sheet_that_is_too_long_goes_on_and_loses_nothing()
    {
        var many = Kinds.All[1] with
        {
            Reference = new string('W', 30),
            Contents = new MixedCartonContents([.. Enumerable.Range(1, 30).Select(i => new CartonLine(new(In(10 + i), In(10), In(10), Lb(60 + i), null), 1))]),
            Hazardous = true,
            ConfirmedBy = new string('m', 100),
            Requests = new(true, true, true, true, true),
        };
        var long_ = BuildSheetTests.Of(many);
        var sheet = long_ with { Steps = [.. Enumerable.Repeat(long_.Steps, 5).SelectMany(steps => steps)] };

        var pdf = SheetPdf.Write([sheet], Paper.A4);

        Keep("long", pdf);
        using var opened = PdfDocument.Open(pdf);
        Assert.InRange(opened.NumberOfPages, 2, 5);
        var text = Text(pdf);
        Assert.Contains(Squeezed(sheet.Steps[^1].How), text, StringComparison.Ordinal);
        Assert.Contains(Squeezed(sheet.Foot), text, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_in_any_script_and_odd_figures_make_a_page()
    {
        foreach (var reference in (string[])["棚 7", "\"<&>", "e\u0301\u0301", "📦📦", "ﷺ", " "])
            Assert.NotEmpty(SheetPdf.Write([BuildSheetTests.Of(Tidy with { Reference = reference, Outer = new(In(636), In(1), In(0.1)) }, UnitSystem.Metric)], Paper.A4));
    }

    /// <summary>Without spaces: where a line breaks is no matter.</summary>
    private static string Squeezed(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter)));

    private static string Text(byte[] pdf)
    {
        using var opened = PdfDocument.Open(pdf);
        return Squeezed(string.Concat(opened.GetPages().SelectMany(page => page.Letters).Select(letter => letter.Value)));
    }

    /// <summary>With FETTLE_PICTURES set to a folder, keeps the PDF to be looked at.</summary>
    private static void Keep(string name, byte[] pdf)
    {
        if (Environment.GetEnvironmentVariable("FETTLE_PICTURES") is { Length: > 0 } folder)
            File.WriteAllBytes(Path.Combine(folder, $"sheet-{name}.pdf"), pdf);
    }
}
