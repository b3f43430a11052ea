using System.Globalization;
using System.Text;
using System.Xml;

namespace Fettle.Web.Drawings;

/// <summary>Writes SVG: invariant numbers, escaped text, and no style, script, id or reference, so that any page may hold it.</summary>
internal sealed class Canvas(DrawingOptions options)
{
    private readonly StringBuilder body = new();
    private readonly string ink = options.OnWhite ? "#1f2328" : "currentColor";

    public enum Anchor
    {
        Start,
        Middle,
        End,
    }

    public void Open(string name, double? scale = null)
    {
        body.Append("<g class=\"").Append(name).Append('"');
        if (scale is { } perInch)
            body.Append(" data-scale=\"").Append(perInch.ToString("0.######", CultureInfo.InvariantCulture)).Append('"');
        body.Append('>');
    }

    public void Close() => body.Append("</g>");

    public void Rect(Look look, Box box, double round = 0)
    {
        body.Append("<rect x=\"").Append(N(box.X)).Append("\" y=\"").Append(N(box.Y))
            .Append("\" width=\"").Append(N(box.Width)).Append("\" height=\"").Append(N(box.Height)).Append('"');
        if (round > 0)
            body.Append(" rx=\"").Append(N(round)).Append('"');
        Paint(look);
        body.Append("/>");
    }

    /// <summary>One path of several closed outlines or open lines.</summary>
    public void Path(Look look, IEnumerable<IReadOnlyList<Spot>> lines, bool closed)
    {
        var path = new StringBuilder();
        foreach (var line in lines)
        {
            for (var i = 0; i < line.Count; i++)
                path.Append(i == 0 ? 'M' : 'L').Append(N(line[i].X)).Append(' ').Append(N(line[i].Y));
            if (closed)
                path.Append('Z');
        }

        if (path.Length == 0)
            return;
        body.Append("<path d=\"").Append(path).Append('"');
        Paint(look);
        body.Append("/>");
    }

    public void Polygon(Look look, params IReadOnlyList<Spot> corners) => Path(look, [corners], closed: true);

    public void Line(Look look, params IReadOnlyList<Spot> spots) => Path(look, [spots], closed: false);

    public void Text(Look look, Spot at, string text, Anchor anchor = Anchor.Start, double degrees = 0)
    {
        body.Append("<text x=\"").Append(N(at.X)).Append("\" y=\"").Append(N(at.Y)).Append('"');
        if (anchor != Anchor.Start)
            body.Append(" text-anchor=\"").Append(anchor == Anchor.Middle ? "middle" : "end").Append('"');
        if (degrees != 0)
            body.Append(" transform=\"rotate(").Append(N(degrees)).Append(' ').Append(N(at.X)).Append(' ').Append(N(at.Y)).Append(")\"");
        Paint(look);
        body.Append('>').Append(Escape(text)).Append("</text>");
    }

    /// <summary>A figure on its own small ground, legible over anything, kept inside <paramref name="within"/>.</summary>
    public void Tag(Look ground, Look look, Spot middle, string text, double size, Box within)
    {
        var width = Letters.Width(text, size) + 6;
        var height = size + 3.5;
        var x = Math.Clamp(middle.X - (width / 2), within.X, Math.Max(within.X, within.Right - width));
        var y = Math.Clamp(middle.Y - (height / 2), within.Y, Math.Max(within.Y, within.Bottom - height));
        Rect(ground, new(x, y, width, height), 2);
        Text(look, new(x + (width / 2), y + height - 3.2), text, Anchor.Middle);
    }

    public string Finish(double width, double height, string title, string description)
    {
        var svg = new StringBuilder("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"fd\" role=\"img\" viewBox=\"0 0 ")
            .Append(N(width)).Append(' ').Append(N(height))
            .Append("\" width=\"").Append(N(width)).Append("\" height=\"").Append(N(height)).Append('"');
        if (options.OnWhite)
            svg.Append(" font-family=\"").Append(Picture.FontFamily).Append(", sans-serif\"");
        svg.Append("><title>").Append(Escape(title)).Append("</title><desc>").Append(Escape(description)).Append("</desc>");
        if (options.OnWhite)
            svg.Append("<rect width=\"").Append(N(width)).Append("\" height=\"").Append(N(height)).Append("\" class=\"")
                .Append(Look.Ground.Class).Append("\" ").Append(Look.Ground.Attributes).Append("/>");
        return svg.Append(body).Append("</svg>").ToString();
    }

    private void Paint(Look look) =>
        body.Append(" class=\"").Append(look.Class).Append("\" ").Append(look.Attributes.Replace("INK", ink, StringComparison.Ordinal));

    private static string N(double number)
    {
        var text = number.ToString("0.##", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    /// <summary>Fit for text and attributes; what XML cannot hold is left out.</summary>
    private static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '&':
                    escaped.Append("&amp;");
                    break;
                case '<':
                    escaped.Append("&lt;");
                    break;
                case '>':
                    escaped.Append("&gt;");
                    break;
                case '"':
                    escaped.Append("&quot;");
                    break;
                default:
                    if (rune.Value > char.MaxValue || XmlConvert.IsXmlChar((char)rune.Value))
                        escaped.Append(rune.ToString());
                    break;
            }
        }

        return escaped.ToString();
    }
}

/// <summary>A place on the canvas, in its units.</summary>
internal readonly record struct Spot(double X, double Y)
{
    public static Spot operator +(Spot a, Spot b) => new(a.X + b.X, a.Y + b.Y);

    public static Spot operator -(Spot a, Spot b) => new(a.X - b.X, a.Y - b.Y);

    public static Spot operator *(Spot a, double times) => new(a.X * times, a.Y * times);

    public double Length => Math.Sqrt((X * X) + (Y * Y));
}

/// <summary>An upright rectangle on the canvas.</summary>
internal readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    public Spot Middle => new(X + (Width / 2), Y + (Height / 2));
}
