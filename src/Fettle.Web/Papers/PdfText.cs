using PdfSharp.Drawing;

namespace Fettle.Web.Papers;

/// <summary>Words of one weight on a line.</summary>
internal readonly record struct TextRun(string Text, bool Bold);

/// <summary>Text set on a PDF page: PDFsharp draws strings and knows no lines.</summary>
internal static class PdfText
{
    public static XFont Font(bool bold, double size) => bold ? PdfFont.Bold(size) : PdfFont.Regular(size);

    /// <summary>A line with its base at <paramref name="y"/>.</summary>
    public static void Line(this XGraphics page, IReadOnlyList<TextRun> line, double size, double x, double y, XBrush? brush = null)
    {
        foreach (var run in line)
        {
            var font = Font(run.Bold, size);
            page.DrawString(run.Text, font, brush ?? XBrushes.Black, new XPoint(x, y), XStringFormats.BaseLineLeft);
            x += page.MeasureString(run.Text, font).Width;
        }
    }

    /// <summary>Words set into lines of a width, at most so many; a word that is wider than a line is cut.</summary>
    public static List<IReadOnlyList<TextRun>> Lines(this XGraphics page, IReadOnlyList<(string Text, bool Bold)> parts, double size, double room, int most) =>
        page.Lines(parts, size, room, most, (word, font) => [page.Shortened(word, font, room)]);

    /// <summary>All of a text in lines of a width: line breaks are kept, and a word that is wider than a line goes on in the next.</summary>
    public static List<IReadOnlyList<TextRun>> WholeLines(this XGraphics page, string text, double size, double room, bool bold = false) =>
    [
        .. text.ReplaceLineEndings("\n").Split('\n').SelectMany(line => line.Trim().Length == 0
            ? [[]]
            : page.Lines([(line, bold)], size, room, int.MaxValue, (word, font) => page.Pieces(word, font, room))),
    ];

    public static string Shortened(this XGraphics page, string text, XFont font, double room)
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

    /// <summary>Bold, as large as asked for or as fits.</summary>
    public static XFont Fitting(this XGraphics page, string text, double size, double room, double least = 8)
    {
        while (size > least && page.MeasureString(text, PdfFont.Bold(size)).Width > room)
            size -= 1;
        return PdfFont.Bold(size);
    }

    private static List<IReadOnlyList<TextRun>> Lines(
        this XGraphics page, IReadOnlyList<(string Text, bool Bold)> parts, double size, double room, int most, Func<string, XFont, IEnumerable<string>> fitted)
    {
        var lines = new List<IReadOnlyList<TextRun>>();
        var line = new List<TextRun>();
        var used = 0.0;
        foreach (var (text, bold) in parts)
        {
            var font = Font(bold, size);
            var space = page.MeasureString("n n", font).Width - page.MeasureString("nn", font).Width;
            foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(word => fitted(word, font)))
            {
                var wide = page.MeasureString(word, font).Width;
                if (line.Count > 0 && used + space + wide > room)
                {
                    lines.Add(line);
                    line = [];
                    used = 0;
                }

                line.Add(new(line.Count == 0 ? word : " " + word, bold));
                used += wide + (line.Count == 1 ? 0 : space);
            }

            // A name stands a little apart from what follows it.
            if (bold && parts.Count > 1 && line.Count > 0)
            {
                line[^1] = line[^1] with { Text = line[^1].Text + " " };
                used += space;
            }
        }

        if (line.Count > 0)
            lines.Add(line);
        if (lines.Count <= most)
            return lines;
        lines.RemoveRange(most, lines.Count - most);
        lines[^1] = [.. lines[^1].SkipLast(1), new(" …", false)];
        return lines;
    }

    private static List<string> Pieces(this XGraphics page, string word, XFont font, double room)
    {
        if (page.MeasureString(word, font).Width <= room)
            return [word];
        var pieces = new List<string>();
        var piece = "";
        foreach (var rune in word.EnumerateRunes())
        {
            if (piece.Length > 0 && page.MeasureString(piece + rune, font).Width > room)
            {
                pieces.Add(piece);
                piece = "";
            }

            piece += rune;
        }

        pieces.Add(piece);
        return pieces;
    }
}
