using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Fettle.Web.Papers;

/// <summary>A column of a table.</summary>
/// <param name="Share">Of the page's width, against the other columns' shares.</param>
/// <param name="Right">Figures stand right.</param>
internal sealed record PaperColumn(string Title, double Share, bool Right = false);

/// <summary>
/// Pages of a paper, written from the top down; what does not fit goes on on the next page, where the head of a table comes
/// again. Every page names the paper and its number of all.
/// </summary>
internal sealed class PaperPages : IDisposable
{
    public const string ContentType = "application/pdf";

    private const double Margin = 36;
    private const double Foot = 20;
    private const double Size = 9;

    private readonly PdfDocument document = new();
    private readonly List<PdfPage> pages = [];
    private readonly Paper paper;
    private readonly string running;
    private XGraphics page = null!;
    private double y;

    /// <param name="running">Stands at the foot of every page: which paper of what.</param>
    public PaperPages(Paper paper, string title, string running)
    {
        (this.paper, this.running) = (paper, running);
        document.Info.Title = title;
        document.Info.Creator = "Fettle";
        document.Language = Language.Current.Code;
        NewPage();
    }

    private double Width => paper.Size().Width - (2 * Margin);

    private double Bottom => paper.Size().Height - Margin - Foot;

    /// <summary>The paper's name on the left, what it is about on the right.</summary>
    public void Title(string name, string about, string? below = null)
    {
        var right = page.Fitting(about, 20, Width * 0.45);
        page.DrawString(name, page.Fitting(name, 20, Width * 0.52), XBrushes.Black, new XPoint(Margin, y + 18), XStringFormats.BaseLineLeft);
        page.DrawString(about, right, XBrushes.Black, new XPoint(Margin + Width, y + 18), XStringFormats.BaseLineRight);
        y += 24;
        if (below is not null)
            Text(below);
        Rule(1.5);
    }

    public void Rule(double thick = 0.75)
    {
        y += 3;
        page.DrawLine(new XPen(XColors.Black, thick), Margin, y, Margin + Width, y);
        y += 3;
    }

    public void Space(double points) => y += points;

    public void Heading(string words)
    {
        Need(46);
        y += 6;
        Text(words, 11, bold: true);
    }

    /// <summary>A paragraph; its own line breaks are kept.</summary>
    public void Text(string words, double size = Size, bool bold = false)
    {
        foreach (var line in page.WholeLines(words, size, Width, bold))
        {
            Need(size * 1.3);
            y += size * 1.3;
            page.Line(line, size, Margin, y);
        }

        y += 2;
    }

    /// <summary>What must not be missed: in a frame of black, bold.</summary>
    public void Notice(string words)
    {
        const double Large = 10;
        var lines = page.WholeLines(words, Large, Width - 16, bold: true);
        Need((Math.Min(lines.Count, 20) * Large * 1.3) + 16);
        var top = y + 4;
        y += 8;
        foreach (var line in lines)
        {
            if (y + (Large * 1.3) > Bottom)
            {
                Frame(top);
                NewPage();
                top = y;
                y += 4;
            }

            y += Large * 1.3;
            page.Line(line, Large, Margin + 8, y);
        }

        y += 6;
        Frame(top);
        y += 6;

        void Frame(double from) => page.DrawRectangle(new XPen(XColors.Black, 1.5), Margin, from, Width, y - from);
    }

    /// <summary>Names and what they stand for, side by side in columns.</summary>
    public void Facts(int columns, params IReadOnlyList<(string Name, string? Value)> facts)
    {
        var wide = Width / columns;
        foreach (var row in facts.Where(fact => !string.IsNullOrWhiteSpace(fact.Value)).Chunk(columns))
        {
            var cells = row.Select(fact => (fact.Name, Lines: page.WholeLines(fact.Value!, 10, wide - 10))).ToArray();
            Need(13 + (Math.Min(cells.Max(cell => cell.Lines.Count), 40) * 13));
            var top = y;
            for (var i = 0; i < cells.Length; i++)
            {
                y = top + 10;
                page.DrawString(cells[i].Name, PdfFont.Regular(7.5), XBrushes.Black, new XPoint(Margin + (i * wide), y), XStringFormats.BaseLineLeft);
                foreach (var line in cells[i].Lines.Take(40))
                {
                    y += 12.5;
                    page.Line(line, 10, Margin + (i * wide), y);
                }
            }

            y = top + 10 + (Math.Min(cells.Max(cell => cell.Lines.Count), 40) * 12.5) + 4;
        }
    }

    /// <summary>A table with lines between its rows.</summary>
    /// <param name="total">A last row in bold; null for none.</param>
    public void Table(IReadOnlyList<PaperColumn> columns, IReadOnlyList<IReadOnlyList<string>> rows, IReadOnlyList<string>? total = null, double size = 8.5)
    {
        var all = columns.Sum(column => column.Share);
        double[] wide = [.. columns.Select(column => Width * column.Share / all)];
        Need(size * 6);
        Head();
        foreach (var (cells, bold) in rows.Select(row => (row, false)).Concat(total is null ? [] : [(total, true)]))
        {
            var lines = Cells(cells, bold);
            var high = Height(lines);
            if (y + high > Bottom)
            {
                NewPage();
                Head();
            }

            Row(lines);
        }

        y += 4;

        void Head()
        {
            Row(Cells([.. columns.Select(column => column.Title)], true));
            page.DrawLine(new XPen(XColors.Black, 1), Margin, y, Margin + Width, y);
        }

        IReadOnlyList<IReadOnlyList<TextRun>>[] Cells(IReadOnlyList<string> cells, bool bold) => [.. cells.Select((cell, i) => page.WholeLines(cell, size, wide[i] - 5, bold))];

        double Height(IReadOnlyList<IReadOnlyList<TextRun>>[] lines) => (Math.Max(1, lines.Max(cell => cell.Count)) * size * 1.25) + 5;

        // Cell by cell, so that whoever copies or listens gets whole cells; a row that is taller than a page goes on on the next, line by line.
        void Row(IReadOnlyList<IReadOnlyList<TextRun>>[] lines)
        {
            var most = Math.Max(1, lines.Max(cell => cell.Count));
            if (y + Height(lines) <= Bottom)
            {
                for (var cell = 0; cell < lines.Length; cell++)
                {
                    for (var number = 0; number < lines[cell].Count; number++)
                        Cell(lines, cell, number, y + ((number + 1) * size * 1.25));
                }

                y += most * size * 1.25;
            }
            else
            {
                for (var number = 0; number < most; number++)
                {
                    if (y + (size * 1.25) > Bottom)
                        NewPage();
                    y += size * 1.25;
                    for (var cell = 0; cell < lines.Length; cell++)
                    {
                        if (number < lines[cell].Count)
                            Cell(lines, cell, number, y);
                    }
                }
            }

            y += 5;
            page.DrawLine(new XPen(XColors.Gray, 0.5), Margin, y - 1.5, Margin + Width, y - 1.5);
        }

        void Cell(IReadOnlyList<IReadOnlyList<TextRun>>[] lines, int cell, int number, double at)
        {
            var line = lines[cell][number];
            var left = Margin + wide.Take(cell).Sum();
            page.Line(line, size, columns[cell].Right ? left + wide[cell] - 8 - line.Sum(run => page.MeasureString(run.Text, PdfText.Font(run.Bold, size)).Width) : left, at);
        }
    }

    /// <summary>A drawing of Fettle's own, at most so high.</summary>
    public void Picture(string svg, double most)
    {
        var high = Math.Min(most, Width * PdfDrawing.Proportion(svg));
        Need(high + 8);
        PdfDrawing.Draw(page, svg, new XRect(Margin, y + 4, Width, high));
        y += high + 8;
    }

    /// <summary>Where people sign, side by side: a statement, then lines with a name under each.</summary>
    public void Signatures(params IReadOnlyList<(string Statement, IReadOnlyList<string> Lines)> blocks)
    {
        const double Gap = 18, Line = 27;
        var wide = (Width - (Gap * (blocks.Count - 1))) / blocks.Count;
        var statements = blocks.Select(block => page.WholeLines(block.Statement, 8, wide)).ToArray();
        var words = statements.Max(lines => lines.Count) * 10;
        Need(words + (blocks.Max(block => block.Lines.Count) * Line) + 14);
        var top = y + 6;
        for (var i = 0; i < blocks.Count; i++)
        {
            var x = Margin + (i * (wide + Gap));
            for (var line = 0; line < statements[i].Count; line++)
                page.Line(statements[i][line], 8, x, top + ((line + 1) * 10));
            for (var line = 0; line < blocks[i].Lines.Count; line++)
            {
                var at = top + words + ((line + 1) * Line) - 7;
                page.DrawLine(new XPen(XColors.Black, 0.75), x, at, x + wide, at);
                page.DrawString(blocks[i].Lines[line], PdfFont.Regular(7), XBrushes.Black, new XPoint(x, at + 8), XStringFormats.BaseLineLeft);
            }
        }

        y = top + words + (blocks.Max(block => block.Lines.Count) * Line) + 6;
    }

    /// <summary>Puts the foot on every page and ends.</summary>
    public byte[] Save()
    {
        page.Dispose();
        for (var i = 0; i < pages.Count; i++)
        {
            using var foot = XGraphics.FromPdfPage(pages[i], XGraphicsPdfPageOptions.Append);
            var at = paper.Size().Height - Margin + 4;
            foot.DrawLine(new XPen(XColors.Black, 0.5), Margin, at - 12, Margin + Width, at - 12);
            foot.DrawString(foot.Shortened(running, PdfFont.Regular(8), Width * 0.8), PdfFont.Regular(8), XBrushes.Black, new XPoint(Margin, at), XStringFormats.BaseLineLeft);
            foot.DrawString(T("Page {0} of {1}", i + 1, pages.Count), PdfFont.Regular(8), XBrushes.Black, new XPoint(Margin + Width, at), XStringFormats.BaseLineRight);
        }

        using var bytes = new MemoryStream();
        document.Save(bytes);
        return bytes.ToArray();
    }

    public void Dispose()
    {
        page.Dispose();
        document.Dispose();
    }

    /// <summary>Begins a new page unless so much is free on this one.</summary>
    private void Need(double height)
    {
        if (y + height > Bottom)
            NewPage();
    }

    private void NewPage()
    {
        page?.Dispose();
        var (wide, high) = paper.Size();
        var added = document.AddPage();
        added.Width = XUnit.FromPoint(wide);
        added.Height = XUnit.FromPoint(high);
        pages.Add(added);
        page = XGraphics.FromPdfPage(added);
        y = Margin;
    }
}
