using Fettle.Web.Areas.Shared;
using Fettle.Web.Drawings;
using Fettle.Web.FloorUse;
using Fettle.Web.Papers;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Fettle.Web.Negotiations;

/// <summary>The sheet on two pages: what it comes to and by which evidence; then how it looks and what it rests on.</summary>
public static class NegotiationPdf
{
    public static byte[] Write(NegotiationSheet sheet, Paper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = sheet.Title;
        document.Info.Creator = "Fettle";
        document.Language = sheet.Culture.TwoLetterISOLanguageName == "iv" ? "en" : sheet.Culture.TwoLetterISOLanguageName;
        using (var first = new NegotiationPage(document, sheet, paper))
            first.WriteFigures();
        using (var second = new NegotiationPage(document, sheet, paper))
            second.WriteGround();
        using var bytes = new MemoryStream();
        document.Save(bytes);
        return bytes.ToArray();
    }
}

/// <summary>One page, from the top down. What is long is set smaller or cut, so that there are always two pages.</summary>
internal sealed class NegotiationPage : IDisposable
{
    private const double Margin = 34;
    private const double Body = 9.5;
    private const double Small = 8;
    private const double Smallest = 6;
    private const double LabelWide = 84;
    private const double FirstColumn = .45;

    private static readonly XPen Rule = new(XColor.FromArgb(0xB8, 0xBE, 0xC4), 0.6);
    private static readonly XBrush Soft = new XSolidBrush(XColor.FromArgb(0x57, 0x60, 0x6A));
    private static readonly XBrush Ground = new XSolidBrush(XColor.FromArgb(0xE9, 0xF1, 0xEF));

    private readonly NegotiationSheet sheet;
    private readonly XGraphics page;
    private readonly double width;
    private readonly double bottom;
    private double y = Margin;

    public NegotiationPage(PdfDocument document, NegotiationSheet sheet, Paper paper)
    {
        this.sheet = sheet;
        var (wide, high) = paper.Size();
        (width, bottom) = (wide - (2 * Margin), high - Margin);
        var added = document.AddPage();
        added.Width = XUnit.FromPoint(wide);
        added.Height = XUnit.FromPoint(high);
        page = XGraphics.FromPdfPage(added);
    }

    public void Dispose() => page.Dispose();

    public void WriteFigures()
    {
        Head(sheet.Title, 20);
        About();
        Headline();
        Heading(T("How far it is borne out"));
        Table(
            [T("Evidence"), T("Share (95 %)"), T("Counted")],
            [.5, .27, .23],
            [.. sheet.Shares.Select(share => (string[])[share.Name, share.Share.Say(), share.Share.SayCount()])]);
        Paragraph(sheet.ClaimWords, Body, XBrushes.Black);
        Paragraph(sheet.EvidenceWords, Small, Soft);
        Heading(T("What it saves, week by week"));
        if (sheet.Worth is { SavedAWeek: { } feet, MoneyAWeek: { } money })
        {
            Table(
                [WorthWords.Weeks(feet), T("Feet saved"), T("Worth")],
                [.5, .27, .23],
                [.. WorthWords.Rows(feet).Zip(WorthWords.Rows(money), (f, m) => (string[])[f.Name, WorthWords.Feet(f.Value), WorthWords.Dollars(m.Value)])]);
            Chart();
        }
        else
        {
            Paragraph(T("There is no whole week with planned freight yet."), Body, XBrushes.Black);
        }

        Table(
            [T("All {0} pickups in these weeks", sheet.Worth.Pickups), T("Linear feet"), T("Trailer filled")],
            [.5, .27, .23],
            [.. sheet.Ways.Select(way => (string[])[way.Name, WorthWords.Feet(way.Feet), T("{0:0 %}", way.Filled)])]);
        Paragraph(sheet.DeckWords, Small, Soft);
        if (WorthWords.Missing(sheet.Floor) is { } missing)
            Paragraph(missing, Small, XBrushes.Black);
        Paragraph(WorthWords.Assumed(sheet.Worth.Terms), Body, XBrushes.Black, bold: true);
        Foot(1);
    }

    public void WriteGround()
    {
        Head(T("{0}: one pickup before and after, and what the figures rest on", sheet.Shipper), 13);
        var ground = (string[])[WorthWords.Method, sheet.EvidenceWords, WorthWords.Assumed(sheet.Worth.Terms), WorthWords.Care];
        var below = 60 + ground.Sum(words => (Lines(words, PdfFont.Regular(Body), width).Count * Body * 1.3) + 4);
        if (sheet.Typical is { } typical)
        {
            // Both to one scale, so that the eye compares them.
            var wide = Math.Min(width, (bottom - y - below - 60) / (PdfDrawing.Proportion(typical.FlatSvg) + PdfDrawing.Proportion(typical.StackedSvg)));
            Drawing(typical.FlatWords, typical.FlatSvg, wide);
            Drawing(typical.StackedWords, typical.StackedSvg, wide);
        }
        else
        {
            Paragraph(T("No pickup of this time is planned and small enough to be drawn."), Body, XBrushes.Black);
        }

        Heading(T("Method, assumptions and caveats"));
        foreach (var words in ground)
            Paragraph(words, Body, XBrushes.Black);
        Foot(2);
    }

    private void Head(string title, double size)
    {
        const double High = 34;
        page.DrawRectangle(XBrushes.Black, Margin, y, width, High);
        var font = PdfFont.Bold(size);
        while (size > 9 && page.MeasureString(title, font).Width > width - 20)
            font = PdfFont.Bold(--size);
        page.DrawString(Shortened(title, font, width - 20), font, XBrushes.White, new XPoint(Margin + 10, y + 22), XStringFormats.BaseLineLeft);
        y += High + 8;
    }

    /// <summary>Names and values in two columns.</summary>
    private void About()
    {
        var half = (sheet.About.Count + 1) / 2;
        var top = y;
        for (var i = 0; i < sheet.About.Count; i++)
        {
            var (name, value) = sheet.About[i];
            var x = Margin + (i < half ? 0 : width * FirstColumn);
            var at = top + ((i % half) * 15) + 10;
            page.DrawString(name, PdfFont.Regular(Small), Soft, new XPoint(x, at), XStringFormats.BaseLineLeft);
            Fitted(value, bold: true, Body, (width * (i < half ? FirstColumn : 1 - FirstColumn)) - LabelWide - 8, XBrushes.Black, new XPoint(x + LabelWide, at), XStringFormats.BaseLineLeft);
        }

        y = top + (half * 15) + 6;
    }

    private void Headline()
    {
        const double High = 58, Gap = 8;
        var cell = (width - (Gap * (sheet.Headline.Count - 1))) / sheet.Headline.Count;
        for (var i = 0; i < sheet.Headline.Count; i++)
        {
            var (name, value) = sheet.Headline[i];
            var x = Margin + (i * (cell + Gap));
            page.DrawRectangle(Ground, x, y, cell, High);
            var size = 20.0;
            while (size > 9 && page.MeasureString(value, PdfFont.Bold(size)).Width > cell - 14)
                size -= .5;
            page.DrawString(value, PdfFont.Bold(size), XBrushes.Black, new XPoint(x + 7, y + 24), XStringFormats.BaseLineLeft);
            var at = y + 38;
            foreach (var line in Lines(name, PdfFont.Regular(Small), cell - 14).Take(2))
            {
                page.DrawString(line, PdfFont.Regular(Small), XBrushes.Black, new XPoint(x + 7, at), XStringFormats.BaseLineLeft);
                at += Small * 1.25;
            }
        }

        y += High + 6;
    }

    /// <summary>In smaller letters where it would not fit; cut where it does not fit in the smallest.</summary>
    private void Fitted(string text, bool bold, double size, double room, XBrush brush, XPoint at, XStringFormat format)
    {
        var font = Font(size);
        while (size > Smallest && page.MeasureString(text, font).Width > room)
            font = Font(size -= .5);
        page.DrawString(Shortened(text, font, room), font, brush, at, format);

        XFont Font(double points) => bold ? PdfFont.Bold(points) : PdfFont.Regular(points);
    }

    private void Heading(string words)
    {
        y += 18;
        page.DrawString(words, PdfFont.Bold(12), XBrushes.Black, new XPoint(Margin, y), XStringFormats.BaseLineLeft);
        y += 6;
    }

    /// <summary>The first column to the left, figures to the right.</summary>
    private void Table(IReadOnlyList<string> head, IReadOnlyList<double> shares, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        Row(head, Small, Soft);
        foreach (var row in rows)
            Row(row, Body, XBrushes.Black);
        y += 4;

        void Row(IReadOnlyList<string> cells, double size, XBrush brush)
        {
            y += 14;
            var x = Margin;
            for (var i = 0; i < cells.Count; i++)
            {
                var wide = width * shares[i];
                Fitted(cells[i], bold: false, size, wide - 6, brush, new XPoint(i == 0 ? x : x + wide, y), i == 0 ? XStringFormats.BaseLineLeft : XStringFormats.BaseLineRight);
                x += wide;
            }

            page.DrawLine(Rule, Margin, y + 3.5, Margin + width, y + 3.5);
        }
    }

    private void Chart()
    {
        var svg = WorthChart.Weeks(sheet.Worth.Weeks, DrawingOptions.ForMail);
        var high = Math.Min(width * PdfDrawing.Proportion(svg), 108);
        PdfDrawing.Draw(page, svg, new XRect(Margin, y + 4, width, high));
        y += high + 6;
    }

    private void Drawing(string caption, string svg, double wide)
    {
        y += 14;
        Fitted(caption, bold: true, 11, width, XBrushes.Black, new XPoint(Margin, y), XStringFormats.BaseLineLeft);
        var high = wide * PdfDrawing.Proportion(svg);
        PdfDrawing.Draw(page, svg, new XRect(Margin, y + 6, wide, high));
        y += high + 12;
    }

    private void Paragraph(string words, double size, XBrush brush, bool bold = false)
    {
        var font = bold ? PdfFont.Bold(size) : PdfFont.Regular(size);
        foreach (var line in Lines(words, font, width))
        {
            y += size * 1.3;
            page.DrawString(line, font, brush, new XPoint(Margin, y), XStringFormats.BaseLineLeft);
        }

        y += 4;
    }

    private void Foot(int number)
    {
        var font = PdfFont.Regular(Small);
        page.DrawLine(Rule, Margin, bottom - 10, Margin + width, bottom - 10);
        page.DrawString(Shortened(string.Join(" · ", sheet.About.Where((_, i) => i is 0 or 1 or 4 or 5).Select(about => about.Value)), font, width - 60), font, Soft, new XPoint(Margin, bottom), XStringFormats.BaseLineLeft);
        page.DrawString(T("Page {0} of {1}", number, 2), font, Soft, new XPoint(Margin + width, bottom), XStringFormats.BaseLineRight);
    }

    private List<string> Lines(string text, XFont font, double room)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => Shortened(word, font, room)))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && page.MeasureString(longer, font).Width > room)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        if (line.Length > 0)
            lines.Add(line);
        return lines;
    }

    private string Shortened(string text, XFont font, double room)
    {
        if (page.MeasureString(text, font).Width <= room)
            return text;
        var runes = text.EnumerateRunes().ToList();
        while (runes.Count > 1)
        {
            runes.RemoveAt(runes.Count - 1);
            var shorter = string.Concat(runes) + "…";
            if (page.MeasureString(shorter, font).Width <= room)
                return shorter;
        }

        return text.Length == 0 ? text : "…";
    }
}
