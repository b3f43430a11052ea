using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Fettle.Web.Tests.Drawings;

/// <summary>A drawing read back.</summary>
internal sealed partial class DrawnSvg
{
    private static readonly XNamespace svg = "http://www.w3.org/2000/svg";

    public DrawnSvg(string text)
    {
        Text = text;
        Root = XDocument.Parse(text).Root!;
        var box = Root.Attribute("viewBox")!.Value.Split(' ').Select(Number).ToArray();
        (Width, Height) = (box[2], box[3]);
    }

    public string Text { get; }

    public XElement Root { get; }

    public double Width { get; }

    public double Height { get; }

    public string Title => Root.Element(svg + "title")!.Value;

    public string Description => Root.Element(svg + "desc")!.Value;

    public IEnumerable<string> Words => Root.Descendants(svg + "text").Select(text => text.Value);

    /// <summary>The group drawn to scale: "fd-plan" or "fd-corner".</summary>
    public XElement View(string name) => Root.Elements(svg + "g").Single(group => group.Attribute("class")!.Value == name);

    public static double Scale(XElement view) => Number(view.Attribute("data-scale")!.Value);

    public static IEnumerable<XElement> Of(XElement within, string className) => within.Descendants()
        .Where(element => (element.Attribute("class")?.Value ?? "").Split(' ').Contains(className));

    public IEnumerable<XElement> Of(string className) => Of(Root, className);

    public static (double X, double Y, double Right, double Bottom) Extent(IEnumerable<XElement> elements)
    {
        var spots = elements.SelectMany(Spots).ToArray();
        return (spots.Min(s => s.X), spots.Min(s => s.Y), spots.Max(s => s.X), spots.Max(s => s.Y));
    }

    /// <summary>Every corner of every shape, and where every text is set.</summary>
    public IEnumerable<(double X, double Y)> AllSpots => Root.Descendants().SelectMany(Spots);

    /// <summary>Closed outlines in a path.</summary>
    public static int Outlines(XElement path) => path.Attribute("d")!.Value.Count(c => c == 'Z');

    private static IEnumerable<(double X, double Y)> Spots(XElement element)
    {
        double Get(string name) => element.Attribute(name) is { } attribute ? Number(attribute.Value) : 0;
        switch (element.Name.LocalName)
        {
            case "rect":
                return [(Get("x"), Get("y")), (Get("x") + Get("width"), Get("y") + Get("height"))];
            case "text":
                return [(Get("x"), Get("y"))];
            case "path":
                return Spot().Matches(element.Attribute("d")!.Value).Select(m => (Number(m.Groups[1].Value), Number(m.Groups[2].Value)));
            default:
                return [];
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [GeneratedRegex("[ML](-?[0-9.]+) (-?[0-9.]+)")]
    private static partial Regex Spot();
}
