using System.Net;
using System.Text;

namespace Fettle.Web.Notices.Letters;

/// <summary>How grave a thing is, in colour; the words beside it say the same.</summary>
internal enum Tone
{
    Calm,
    Good,
    Caution,
    Stop,
}

/// <summary>
/// Writes a letter's text and HTML side by side from the same words, so that neither lacks what the other says. Mail
/// readers know little of CSS: tables, style attributes, one column of 600 pixels. Everything given is plain text.
/// </summary>
internal sealed class Sheet
{
    private const int TextWidth = 76;
    private const string Font = "font-family:-apple-system,'Segoe UI',Roboto,Helvetica,Arial,sans-serif;";
    private const string Ink = "#1f2328";
    private const string Soft = "#57606a";

    private const string End = "<tr><td style=\"padding:0 0 20px;\"></td></tr></table>\n</td></tr></table></body></html>\n";

    private readonly StringBuilder html = new();
    private readonly StringBuilder text = new();

    public void Title(string title)
    {
        Row($"<h1 class=\"ink\" style=\"margin:0;font-size:22px;line-height:28px;font-weight:700;color:{Ink};\">{Safe(title)}</h1>", "24px 24px 8px");
        var line = Plain.Line(title);
        text.Append(line).Append('\n').Append('=', Math.Min(TextWidth, line.Length)).Append("\n\n");
    }

    /// <summary>The one thing to know.</summary>
    public void Banner(Tone tone, string words)
    {
        var (ground, ink) = Colours(tone);
        Row(
            $"<table role=\"presentation\" width=\"100%\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\"><tr><td bgcolor=\"{ground}\" style=\"background-color:{ground};color:{ink};border-left:6px solid {ink};padding:12px 16px;font-size:17px;line-height:24px;font-weight:700;\">{Safe(words)}</td></tr></table>",
            "8px 24px");
        Wrap(Plain.Line(words), "    ", "*** ");
        text.Append('\n');
    }

    public void Heading(string words, Tone tone = Tone.Calm, string? badge = null)
    {
        var (ground, ink) = Colours(tone);
        var mark = badge is null
            ? ""
            : $" <span style=\"display:inline-block;background-color:{ground};color:{ink};border:1px solid {ink};border-radius:3px;padding:0 8px;font-size:13px;line-height:20px;white-space:nowrap;\">{Safe(badge)}</span>";
        Row($"<h2 class=\"ink\" style=\"margin:0;font-size:17px;line-height:24px;font-weight:700;color:{Ink};\">{Safe(words)}{mark}</h2>", "20px 24px 4px");
        var line = Plain.Line(words) + (badge is null ? "" : $" [{Plain.Line(badge)}]");
        text.Append(line).Append('\n').Append('-', Math.Min(TextWidth, line.Length)).Append('\n');
    }

    public void Paragraph(string words)
    {
        var lines = Plain.Lines(words);
        Row($"<p class=\"ink\" style=\"margin:0;font-size:15px;line-height:22px;color:{Ink};\">{string.Join("<br>", lines.Select(Encode))}</p>", "4px 24px");
        foreach (var line in lines)
            Wrap(line, "");
        text.Append('\n');
    }

    /// <summary>Words that somebody typed, marked as theirs.</summary>
    public void Quote(string words)
    {
        var lines = Plain.Lines(words);
        Row($"<p class=\"ink\" style=\"margin:0;padding:2px 0 2px 12px;border-left:3px solid #8c959f;font-size:15px;line-height:22px;color:{Ink};\">{string.Join("<br>", lines.Select(Encode))}</p>", "4px 24px");
        foreach (var line in lines)
            Wrap(line, "> ", "> ");
        text.Append('\n');
    }

    /// <summary>Names and what they stand for, one a line.</summary>
    public void Facts(params IReadOnlyList<(string Name, string Value)> facts)
    {
        var rows = new StringBuilder();
        foreach (var (name, value) in facts)
        {
            var lines = Plain.Lines(value);
            if (lines.Count == 0)
                continue;
            rows.Append("<tr><td valign=\"top\" class=\"soft\" style=\"padding:2px 12px 2px 0;font-size:14px;line-height:20px;color:").Append(Soft).Append(";white-space:nowrap;\">").Append(Safe(name))
                .Append("</td><td valign=\"top\" class=\"ink\" style=\"padding:2px 0;font-size:15px;line-height:20px;color:").Append(Ink).Append(";\">").AppendJoin("<br>", lines.Select(Encode)).Append("</td></tr>");
            var column = new string(' ', 13);
            Wrap(lines[0], column, (Plain.Line(name) + ":").PadRight(13));
            foreach (var line in lines.Skip(1))
                Wrap(line, column, column);
        }

        Row($"<table role=\"presentation\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\">{rows}</table>", "8px 24px");
        text.Append('\n');
    }

    /// <summary>A table whose last column is a verdict with a tone.</summary>
    public void Table(IReadOnlyList<string> head, IReadOnlyList<(IReadOnlyList<string> Cells, Tone Tone, string Verdict)> rows)
    {
        const string Cell = "padding:6px 8px;border-bottom:1px solid #d0d7de;font-size:14px;line-height:19px;";
        var table = new StringBuilder($"<table width=\"100%\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\" style=\"border-collapse:collapse;\"><tr>");
        foreach (var name in head)
            table.Append("<th align=\"left\" class=\"soft\" style=\"").Append(Cell).Append("font-weight:400;color:").Append(Soft).Append(";\">").Append(Safe(name)).Append("</th>");
        table.Append("</tr>");
        foreach (var (cells, tone, verdict) in rows)
        {
            var (ground, ink) = Colours(tone);
            table.Append("<tr>");
            foreach (var cell in cells)
                table.Append("<td valign=\"top\" class=\"ink\" style=\"").Append(Cell).Append("color:").Append(Ink).Append(";\">").Append(Safe(cell)).Append("</td>");
            table.Append("<td valign=\"top\" bgcolor=\"").Append(ground).Append("\" style=\"").Append(Cell).Append("background-color:").Append(ground).Append(";color:").Append(ink).Append(";font-weight:700;\">").Append(Safe(verdict)).Append("</td></tr>");
            Wrap($"{string.Join("; ", cells.Select(Plain.Line))}: {Plain.Line(verdict).ToUpperInvariant()}", "  ", "- ");
        }

        Row(table.Append("</table>").ToString(), "8px 24px");
        text.Append('\n');
    }

    public void Picture(LetterPicture picture)
    {
        Row($"<img src=\"cid:{Encode(picture.ContentId)}\" width=\"{picture.Width}\" alt=\"{Safe(picture.Words)}\" style=\"display:block;width:100%;max-width:{picture.Width}px;height:auto;border:1px solid #d0d7de;background-color:#ffffff;\">", "6px 24px");
        InText(picture.Words);
    }

    /// <summary>Words that the HTML shows as a picture.</summary>
    public void InText(string words)
    {
        Wrap(Plain.Line(words), "");
        text.Append('\n');
    }

    /// <summary>One finding: how grave, what, the figures it rests on, what cures it, and the caution that is due.</summary>
    public void Finding(Tone tone, string gravity, string message, string figures, string cure, string? caution)
    {
        var (_, ink) = Colours(tone);
        Row(
            $"<table role=\"presentation\" width=\"100%\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\"><tr><td style=\"border-left:4px solid {ink};padding:2px 0 2px 12px;\">"
            + $"<p class=\"ink\" style=\"margin:0;font-size:15px;line-height:21px;color:{Ink};\"><b style=\"color:{ink};\" class=\"t{(int)tone}\">{Safe(gravity)}</b> {Safe(message)}</p>"
            + (cure.Length == 0 ? "" : $"<p class=\"ink\" style=\"margin:3px 0 0;font-size:15px;line-height:21px;color:{Ink};\"><b>{T("Cure:")}</b> {Safe(cure)}</p>")
            + $"<p class=\"soft\" style=\"margin:3px 0 0;font-size:13px;line-height:18px;color:{Soft};\">{Safe(figures)}</p>"
            + (caution is null ? "" : $"<p class=\"ink\" style=\"margin:3px 0 0;font-size:13px;line-height:18px;color:{Ink};\"><b>{T("Take care:")}</b> {Safe(caution)}</p>")
            + "</td></tr></table>",
            "6px 24px");
        const string In = "  ";
        Wrap($"{Plain.Line(gravity)} {Plain.Line(message)}", In, "* ");
        if (cure.Length > 0)
            Wrap($"{T("Cure:")} {Plain.Line(cure)}", In, In);
        Wrap(Plain.Line(figures), In, In);
        if (caution is not null)
            Wrap($"{T("Take care:")} {Plain.Line(caution)}", In, In);
        text.Append('\n');
    }

    /// <summary>Where to go on.</summary>
    public void Link(string words, Uri address)
    {
        var href = Encode(address.AbsoluteUri);
        Row(
            $"<table role=\"presentation\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\"><tr><td bgcolor=\"#0b57a4\" style=\"background-color:#0b57a4;border-radius:4px;\"><a href=\"{href}\" style=\"display:inline-block;padding:11px 20px;font-size:15px;line-height:20px;font-weight:700;color:#ffffff;text-decoration:none;\">{Safe(words)}</a></td></tr></table>",
            "12px 24px");
        text.Append(Plain.Line(words)).Append(":\n").Append(address.AbsoluteUri).Append("\n\n");
    }

    public void Small(string words)
    {
        Row($"<p class=\"soft\" style=\"margin:0;font-size:12px;line-height:17px;color:{Soft};\">{Safe(words)}</p>", "4px 24px");
        Wrap(Plain.Line(words), "");
        text.Append('\n');
    }

    public string Text => text.ToString().TrimEnd('\n') + "\n";

    /// <summary>The whole page. <paramref name="preview"/> is what an inbox shows after the subject.</summary>
    public string Html(string subject, string preview) =>
        $"<!doctype html>\n<html lang=\"{Language.Current.Code}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">"
        + "<meta name=\"color-scheme\" content=\"light dark\"><meta name=\"supported-color-schemes\" content=\"light dark\">"
        + $"<title>{Safe(subject)}</title>"
        // Readers that follow the dark scheme know this; the rest keep the light colours, which are all set outright.
        + "<style>@media (prefers-color-scheme:dark){.page{background-color:#0d1117!important}.sheet{background-color:#161b22!important}"
        + ".ink{color:#e6edf3!important}.soft{color:#a9b3bd!important}.t3{color:#ff8a80!important}.t2{color:#ffc266!important}.t1{color:#7ee2a8!important}.t0{color:#9ecbff!important}}</style></head>\n"
        + $"<body class=\"page\" bgcolor=\"#f3f4f6\" style=\"margin:0;padding:0;background-color:#f3f4f6;{Font}\">"
        + $"<div style=\"display:none;max-height:0;overflow:hidden;\">{Safe(preview)}</div>"
        + "<table role=\"presentation\" width=\"100%\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\"><tr><td align=\"center\" style=\"padding:16px 8px;\">\n"
        + "<table role=\"presentation\" class=\"sheet\" width=\"600\" cellpadding=\"0\" cellspacing=\"0\" border=\"0\" bgcolor=\"#ffffff\" style=\"width:100%;max-width:600px;background-color:#ffffff;\">\n"
        + html
        + End;

    /// <summary>A letter with more small print under it.</summary>
    /// <exception cref="ArgumentException">The letter was not written by this class.</exception>
    public static Letter Under(Letter letter, IReadOnlyList<string> small)
    {
        if (!letter.Html.EndsWith(End, StringComparison.Ordinal))
            throw new ArgumentException("The letter ends otherwise than letters do.", nameof(letter));
        var foot = new Sheet();
        foreach (var words in small)
            foot.Small(words);
        return letter with { Text = $"{letter.Text}\n{foot.Text}", Html = $"{letter.Html[..^End.Length]}{foot.html}{End}" };
    }

    private void Row(string content, string padding) =>
        html.Append("<tr><td align=\"left\" style=\"padding:").Append(padding).Append(';').Append(Font).Append("\">").Append(content).Append("</td></tr>\n");

    private static (string Ground, string Ink) Colours(Tone tone) => tone switch
    {
        Tone.Calm => ("#eef2f6", "#24435f"),
        Tone.Good => ("#e7f4ea", "#155724"),
        Tone.Caution => ("#fff3dc", "#7a4a00"),
        Tone.Stop => ("#fdeceb", "#b3261e"),
    };

    private static string Safe(string words) => Encode(Plain.Line(words));

    private static string Encode(string words) => WebUtility.HtmlEncode(words);

    /// <summary>A paragraph of the text: <paramref name="first"/> begins its first line, <paramref name="indent"/> the others.</summary>
    private void Wrap(string words, string indent, string first = "")
    {
        var line = new StringBuilder(first);
        var empty = true;
        foreach (var word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (!empty && line.Length + 1 + word.Length > TextWidth)
            {
                text.Append(line).Append('\n');
                line.Clear().Append(indent);
                empty = true;
            }

            if (!empty)
                line.Append(' ');
            line.Append(word);
            empty = false;
        }

        text.Append(line).Append('\n');
    }
}
