using System.Globalization;
using System.Xml.Linq;
using PdfSharp.Drawing;

namespace Fettle.Web.Papers;

/// <summary>
/// Puts a drawing on a PDF page as lines and text, not as a picture. Knows the SVG that Fettle's own canvas writes: groups,
/// rectangles, paths of straight lines, text; nothing else.
/// </summary>
internal static class PdfDrawing
{
    /// <summary>Height over width.</summary>
    public static double Proportion(string svg)
    {
        var root = XElement.Parse(svg);
        return Number(root, "height") / Number(root, "width");
    }

    /// <summary>As large as fits, in the middle of the area.</summary>
    public static void Draw(XGraphics page, string svg, XRect area)
    {
        var root = XElement.Parse(svg);
        var (width, height) = (Number(root, "width"), Number(root, "height"));
        var scale = Math.Min(area.Width / width, area.Height / height);
        var state = page.Save();
        page.TranslateTransform(area.X + ((area.Width - (width * scale)) / 2), area.Y + ((area.Height - (height * scale)) / 2));
        page.ScaleTransform(scale);
        foreach (var element in root.Descendants())
            Paint(page, element);
        page.Restore(state);
    }

    private static void Paint(XGraphics page, XElement element)
    {
        switch (element.Name.LocalName)
        {
            case "rect":
                Box(page, element);
                break;
            case "path":
                foreach (var outline in Outlines((string)element.Attribute("d")!))
                    page.DrawPath(Pen(element), Brush(element), outline);
                break;
            case "text":
                Text(page, element);
                break;
            case "g" or "title" or "desc":
                break;
            default:
                throw new InvalidOperationException($"A drawing holds <{element.Name.LocalName}>, which cannot be put on paper.");
        }
    }

    private static void Box(XGraphics page, XElement element)
    {
        var box = new XRect(Number(element, "x"), Number(element, "y"), Number(element, "width"), Number(element, "height"));
        var round = Number(element, "rx") * 2;
        if (round > 0)
            page.DrawRoundedRectangle(Pen(element), Brush(element), box, new XSize(round, round));
        else
            page.DrawRectangle(Pen(element), Brush(element), box);
    }

    /// <summary>One path each: PDFsharp would join the figures of one path with a line.</summary>
    private static IEnumerable<XGraphicsPath> Outlines(string path)
    {
        foreach (var part in path.Split('M', StringSplitOptions.RemoveEmptyEntries))
        {
            var outline = new XGraphicsPath();
            outline.AddLines([.. part.TrimEnd('Z').Split('L').Select(spot => spot.Split(' ')).Select(spot => new XPoint(Value(spot[0]), Value(spot[1])))]);
            if (part.EndsWith('Z'))
                outline.CloseFigure();
            yield return outline;
        }
    }

    private static void Text(XGraphics page, XElement element)
    {
        var size = Number(element, "font-size");
        var font = (string?)element.Attribute("font-weight") == "bold" ? PdfFont.Bold(size) : PdfFont.Regular(size);
        var at = new XPoint(Number(element, "x"), Number(element, "y"));
        var format = (string?)element.Attribute("text-anchor") switch
        {
            "middle" => XStringFormats.BaseLineCenter,
            "end" => XStringFormats.BaseLineRight,
            _ => XStringFormats.BaseLineLeft,
        };
        var state = page.Save();
        // "rotate(degrees x y)" about the text's own place.
        if ((string?)element.Attribute("transform") is { } turn)
            page.RotateAtTransform(Value(turn["rotate(".Length..].Split(' ')[0]), at);
        page.DrawString(element.Value, font, Brush(element)!, at, format);
        page.Restore(state);
    }

    private static XPen? Pen(XElement element)
    {
        if (Colour(element, "stroke") is not { } colour)
            return null;
        var pen = new XPen(colour, element.Attribute("stroke-width") is null ? 1 : Number(element, "stroke-width"));
        if ((string?)element.Attribute("stroke-linejoin") == "round")
            pen.LineJoin = XLineJoin.Round;
        if ((string?)element.Attribute("stroke-linecap") == "round")
            pen.LineCap = XLineCap.Round;
        if ((string?)element.Attribute("stroke-dasharray") is { } dashes)
        {
            // In units of the pen's width.
            pen.DashPattern = [.. dashes.Split(' ').Select(dash => Value(dash) / pen.Width)];
        }

        return pen;
    }

    private static XSolidBrush? Brush(XElement element) => Colour(element, "fill") is { } colour ? new(colour) : null;

    private static XColor? Colour(XElement element, string what)
    {
        var text = (string?)element.Attribute(what);
        if (text is null or "none")
            return null;
        var rgb = int.Parse(text.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        var opacity = element.Attribute(what + "-opacity") is null ? 1 : Number(element, what + "-opacity");
        return XColor.FromArgb((int)Math.Round(opacity * 255), (rgb >> 16) & 0xFF, (rgb >> 8) & 0xFF, rgb & 0xFF);
    }

    private static double Number(XElement element, string name) => element.Attribute(name) is { } value ? Value(value.Value) : 0;

    private static double Value(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
