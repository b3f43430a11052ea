using System.Text;

namespace Fettle.Web.Drawings;

/// <summary>How much room text takes, reckoned on the generous side, since the page's font is not known here.</summary>
internal static class Letters
{
    /// <summary>Share of the font size that one character takes.</summary>
    public static double Width(string text, double size)
    {
        var ems = 0.0;
        foreach (var rune in text.EnumerateRunes())
        {
            ems += rune.Value switch
            {
                > 0x2E7F => 1.0,
                'm' or 'w' or 'M' or 'W' or '%' => 0.9,
                'i' or 'l' or 'j' or 't' or 'f' or 'r' or '.' or ',' or ':' or '·' or '\'' or '|' or ' ' or '\u00a0' => 0.34,
                >= 'A' and <= 'Z' => 0.68,
                _ => 0.57,
            };
        }

        return ems * size;
    }

    /// <summary>The text, or its beginning and an ellipsis.</summary>
    public static string Shortened(string text, int most)
    {
        var runes = text.EnumerateRunes().ToArray();
        if (runes.Length <= most)
            return text;
        var kept = new StringBuilder();
        foreach (var rune in runes.AsSpan(0, most - 1))
            kept.Append(rune.ToString());
        return kept.ToString().TrimEnd() + "…";
    }

    /// <summary>Pieces joined by a middle dot, as many on a line as it holds.</summary>
    public static IEnumerable<string> Lines(IEnumerable<string> pieces, double size, double width)
    {
        var line = "";
        foreach (var piece in pieces)
        {
            var longer = line.Length == 0 ? piece : line + " · " + piece;
            if (line.Length > 0 && Width(longer, size) > width)
            {
                yield return line;
                longer = piece;
            }

            line = longer;
        }

        if (line.Length > 0)
            yield return line;
    }
}
