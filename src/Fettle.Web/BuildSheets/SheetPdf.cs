using Fettle.Web.Papers;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Fettle.Web.BuildSheets;

/// <summary>Build sheets on paper: a page each, in the largest type that fits, black on white.</summary>
public static class SheetPdf
{
    public const string ContentType = "application/pdf";

    public static byte[] Write(IReadOnlyList<BuildSheet> sheets, Paper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = sheets.Count == 1 ? $"{sheets[0].Title}: {sheets[0].Load}" : sheets[0].Of;
        document.Info.Creator = "Fettle";
        document.Language = sheets[0].Culture.TwoLetterISOLanguageName == "iv" ? "en" : sheets[0].Culture.TwoLetterISOLanguageName;
        foreach (var sheet in sheets)
            new SheetPages(document, sheet, paper).Write();
        using var bytes = new MemoryStream();
        document.Save(bytes);
        return bytes.ToArray();
    }
}

/// <summary>One sheet, from the top of its page down; goes on to a second page only when the steps do not fit in the smallest type.</summary>
internal sealed class SheetPages(PdfDocument document, BuildSheet sheet, Paper paper)
{
    private const double Margin = 26;

    // Letters of 14 points are 3.6 mm high, as the lowest line of an eye chart is from two metres; 22 points are half as
    // high again. Steps take the largest of these that fits.
    private const double LargestStep = 22;
    private const double SmallestStep = 12;

    private const double CautionSize = 9.5;
    private const double FootSize = 8;

    private static readonly XColor Red = XColor.FromArgb(0xB3, 0x26, 0x1E);

    private readonly double width = paper.Size().Width - (2 * Margin);
    private readonly double bottom = paper.Size().Height - Margin;
    private XGraphics page = null!;
    private double y;

    public void Write()
    {
        NewPage();
        Head();
        Facts();
        if (sheet.Stop is { } stop)
            Warning(stop);
        Pictures();
        Steps();
        page.Dispose();
    }

    private void NewPage()
    {
        page?.Dispose();
        var (wide, high) = paper.Size();
        var added = document.AddPage();
        added.Width = XUnit.FromPoint(wide);
        added.Height = XUnit.FromPoint(high);
        page = XGraphics.FromPdfPage(added);
        y = Margin;
    }

    /// <summary>White on black: which unit, how many.</summary>
    private void Head()
    {
        const double High = 56;
        page.DrawRectangle(XBrushes.Black, Margin, y, width, High);
        var alike = page.Fitting(sheet.Alike, 30, width * 0.45);
        var room = width - page.MeasureString(sheet.Alike, alike).Width - 36;
        page.DrawString(page.Shortened(sheet.Title, PdfFont.Bold(24), room), page.Fitting(sheet.Title, 40, room, 24), XBrushes.White, new XPoint(Margin + 12, y + 41), XStringFormats.BaseLineLeft);
        page.DrawString(sheet.Alike, alike, XBrushes.White, new XPoint(Margin + width - 12, y + 40), XStringFormats.BaseLineRight);
        y += High + 14;
        page.DrawString(page.Shortened(sheet.Of, PdfFont.Regular(12), width), PdfFont.Regular(12), XBrushes.Black, new XPoint(Margin, y), XStringFormats.BaseLineLeft);
        y += 8;
    }

    /// <summary>The load, its weight and size, and whether anything goes on top.</summary>
    private void Facts()
    {
        foreach (var line in page.Lines([(sheet.Load, true)], 27, width, 2))
        {
            y += 28;
            page.Line(line, 27, Margin, y);
        }

        y += 12;
        const double High = 46;
        var sign = PdfFont.Bold(19);
        var stacking = Math.Min(page.MeasureString(sheet.Stacking, sign).Width + 24, width * 0.5);
        var box = new XRect(Margin + width - stacking, y, stacking, High);
        page.DrawRectangle(new XPen(XColors.Black, 3), sheet.MayCarry ? XBrushes.White : XBrushes.Black, box);
        page.DrawString(sheet.Stacking, page.Fitting(sheet.Stacking, 19, stacking - 20), sheet.MayCarry ? XBrushes.Black : XBrushes.White, box, XStringFormats.Center);
        var left = width - stacking - 12;
        Fact(sheet.Weight, Margin, left * 0.4, 30);
        Fact(sheet.Size, Margin + (left * 0.4), left * 0.6, 21);
        y += High + 10;
    }

    private void Fact(SheetStep fact, double x, double room, double size)
    {
        page.DrawString(fact.Name, PdfFont.Regular(11), XBrushes.Black, new XPoint(x, y + 10), XStringFormats.BaseLineLeft);
        page.DrawString(fact.How, page.Fitting(fact.How, size, room - 8), XBrushes.Black, new XPoint(x, y + 40), XStringFormats.BaseLineLeft);
    }

    private void Warning(string stop)
    {
        const double Size = 14;
        var lines = page.Lines([(stop, true)], Size, width - 24, 5);
        page.DrawRectangle(new XSolidBrush(Red), Margin, y, width, (lines.Count * Size * 1.25) + 12);
        y += 4;
        foreach (var line in lines)
        {
            y += Size * 1.25;
            page.Line(line, Size, Margin + 12, y, XBrushes.White);
        }

        y += 18;
    }

    private void Pictures()
    {
        if (sheet.Pictures.Count == 0)
            return;
        const double Caption = 13, Gap = 10;
        var cell = (width - (Gap * (sheet.Pictures.Count - 1))) / sheet.Pictures.Count;
        var high = Math.Min(215, sheet.Pictures.Max(picture => cell * PdfDrawing.Proportion(picture.Svg)));
        var captions = sheet.Pictures.Select(picture => page.Lines([(picture.Caption, true)], Caption, cell, 2)).ToArray();
        for (var i = 0; i < sheet.Pictures.Count; i++)
        {
            var x = Margin + (i * (cell + Gap));
            PdfDrawing.Draw(page, sheet.Pictures[i].Svg, new XRect(x, y, cell, high));
            var at = y + high + 2;
            foreach (var line in captions[i])
            {
                at += Caption * 1.2;
                page.Line(line, Caption, x + ((cell - line.Sum(run => page.MeasureString(run.Text, PdfText.Font(run.Bold, Caption)).Width)) / 2), at);
            }
        }

        y += high + (captions.Max(lines => lines.Count) * Caption * 1.2) + 10;
    }

    private void Steps()
    {
        page.DrawLine(new XPen(XColors.Black, 2), Margin, y, Margin + width, y);
        y += 2;
        var care = CareHeight();
        var size = LargestStep;
        while (size > SmallestStep && y + Height(size) + care > bottom)
            size -= 0.5;
        var number = 1;
        foreach (var step in sheet.Steps)
        {
            var lines = StepLines(step, size);
            if (y + (lines.Count * Leading(size)) + (number == sheet.Steps.Count ? care : 0) > bottom)
            {
                NewPage();
                Head();
            }

            var top = y;
            foreach (var line in lines)
            {
                y += Leading(size);
                page.Line(line, size, Margin + Indent(size), y);
            }

            page.DrawString(number.ToString(sheet.Culture), PdfFont.Bold(size), XBrushes.Black, new XPoint(Margin, top + Leading(size)), XStringFormats.BaseLineLeft);
            number++;
        }

        Care();
    }

    private double Height(double size) => sheet.Steps.Sum(step => StepLines(step, size).Count) * Leading(size);

    private List<IReadOnlyList<TextRun>> StepLines(SheetStep step, double size) =>
        page.Lines([(step.Name, true), (step.How, false)], size, width - Indent(size), 20);

    private static double Leading(double size) => size * 1.24;

    private static double Indent(double size) => size * 1.7;

    /// <summary>Cautions and what this sheet does not promise, at the foot.</summary>
    private void Care()
    {
        y = Math.Max(y + 8, bottom - CareHeight() + 8);
        page.DrawLine(new XPen(XColors.Black, 1), Margin, y, Margin + width, y);
        foreach (var (lines, size) in CareLines())
        {
            foreach (var line in lines)
            {
                y += size * 1.25;
                page.Line(line, size, Margin, y);
            }
        }
    }

    private double CareHeight() => 10 + CareLines().Sum(part => part.Lines.Count * part.Size * 1.25);

    private (IReadOnlyList<IReadOnlyList<TextRun>> Lines, double Size)[] CareLines() =>
    [
        (page.Lines([(sheet.TakeCare + ":", true), (string.Join(' ', sheet.Cautions), false)], CautionSize, width, 20), CautionSize),
        (page.Lines([(sheet.Foot, false)], FootSize, width, 10), FootSize),
    ];
}
