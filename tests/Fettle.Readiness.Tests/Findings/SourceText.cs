using System.Text;
using System.Text.RegularExpressions;

namespace Fettle.Readiness.Tests.Findings;

/// <summary>The texts in a source file, read as far as finding them takes: strings, holes in them, strings in these, comments.</summary>
internal sealed partial class SourceText
{
    private readonly string source;
    private readonly List<(int At, string Template)> phrases = [];

    private SourceText(string source) => this.source = source;

    /// <summary>Interpolated strings as templates, "{0} of {1}", with what stands before each.</summary>
    public static IEnumerable<(string Before, string Template)> Templates(string source)
    {
        var text = new SourceText(source);
        text.Read();
        return text.phrases.Select(phrase => (source[Math.Max(0, phrase.At - 10)..phrase.At], phrase.Template));
    }

    /// <summary>What is left of a template without its holes and units of measure has no letters: nothing to translate.</summary>
    public static bool IsFormula(string template) => !Letters().IsMatch(Units().Replace(Holes().Replace(template, " "), " "));

    public static SortedSet<string> HolesOf(string template) => new(Holes().Matches(template).Select(hole => hole.Value), StringComparer.Ordinal);

    private void Read()
    {
        for (var i = 0; i < source.Length;)
            i = Next(i);
    }

    /// <summary>Past what begins here.</summary>
    private int Next(int i)
    {
        if (Begins(i, "//"))
            return source.IndexOf('\n', i) is var end and >= 0 ? end : source.Length;
        if (Begins(i, "\"\"\""))
            return source.IndexOf("\"\"\"", i + 3, StringComparison.Ordinal) + 3;
        if (Begins(i, "$\""))
            return Interpolated(i);
        if (source[i] == '"')
            return Plain(i + 1);
        if (source[i] == '\'')
            return source.IndexOf('\'', source[i + 1] == '\\' ? i + 3 : i + 2) + 1;
        return i + 1;
    }

    private int Plain(int i)
    {
        while (source[i] != '"')
            i += source[i] == '\\' ? 2 : 1;
        return i + 1;
    }

    private int Interpolated(int start)
    {
        var template = new StringBuilder();
        var holes = 0;
        var i = start + 2;
        while (source[i] != '"')
        {
            if (Begins(i, "{{") || Begins(i, "}}"))
            {
                template.Append(source, i, 2);
                i += 2;
            }
            else if (source[i] == '{')
            {
                template.Append('{').Append(holes++).Append('}');
                i = Hole(i + 1);
            }
            else if (Begins(i, "\\u"))
            {
                template.Append((char)Convert.ToInt32(source.Substring(i + 2, 4), 16));
                i += 6;
            }
            else
            {
                i += source[i] == '\\' ? 1 : 0;
                template.Append(source[i++]);
            }
        }

        phrases.Add((start, template.ToString()));
        return i + 1;
    }

    private int Hole(int i)
    {
        for (var depth = 0; ;)
        {
            switch (source[i])
            {
                case '}' when depth == 0:
                    return i + 1;
                case '(' or '[' or '{':
                    depth++;
                    i++;
                    break;
                case ')' or ']' or '}':
                    depth--;
                    i++;
                    break;
                default:
                    i = Next(i);
                    break;
            }
        }
    }

    private bool Begins(int i, string with) => string.CompareOrdinal(source, i, with, 0, with.Length) == 0;

    [GeneratedRegex(@"\{\d+[^{}]*\}")]
    private static partial Regex Holes();

    [GeneratedRegex(@"\b(lb/in|lb|in|g)\b")]
    private static partial Regex Units();

    [GeneratedRegex(@"\p{L}")]
    private static partial Regex Letters();
}
