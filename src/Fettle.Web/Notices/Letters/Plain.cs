using System.Globalization;
using System.Text;

namespace Fettle.Web.Notices.Letters;

/// <summary>Makes what people typed harmless where it would be read as more than text: header lines, and text that turns its own direction.</summary>
internal static class Plain
{
    /// <summary>On one line: line breaks become spaces, control and direction characters go, runs of space shrink.</summary>
    public static string Line(string text)
    {
        var kept = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (Rune.IsWhiteSpace(rune) && rune.Value != '\u00a0')
            {
                if (kept.Length > 0 && kept[^1] != ' ')
                    kept.Append(' ');
            }
            else if (!IsHidden(rune))
            {
                kept.Append(rune.ToString());
            }
        }

        return kept.ToString().TrimEnd();
    }

    /// <summary>The same, line by line; empty lines at the ends and doubled ones go.</summary>
    public static IReadOnlyList<string> Lines(string text) =>
        [.. text.Split(['\r', '\n', '\u0085', '\u2028', '\u2029']).Select(Line).Where(line => line.Length > 0)];

    private static bool IsHidden(Rune rune) =>
        Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate;
}
