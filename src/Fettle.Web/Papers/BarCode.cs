using Fettle.Engineering.Identification;
using PdfSharp.Drawing;

namespace Fettle.Web.Papers;

/// <summary>A linear symbol as bars on a page.</summary>
/// <param name="Widths">Bar and space in turn, in modules, beginning with a bar.</param>
/// <param name="Module">Width of one module in points: the X-dimension.</param>
internal sealed record BarCode(IReadOnlyList<int> Widths, double Module)
{
    /// <summary>
    /// 0.5 mm, four dots of a printer of 8 dots a millimetre (203 dpi). GS1 asks for 0.495 to 0.94 mm on logistic labels
    /// (limits from memory).
    /// </summary>
    public const double LogisticModule = 0.5 * PointsPerMillimetre;

    /// <summary>32 mm: the least height of the bars on a logistic label, 31.75 mm, rounded up (from memory).</summary>
    public const double LogisticHeight = 32 * PointsPerMillimetre;

    /// <summary>Modules that stay white on either side (GS1 General Specifications).</summary>
    public const int Quiet = 10;

    public const double PointsPerMillimetre = 72 / 25.4;

    /// <summary>Modules of plain symbols, widest first: four, three and two dots of such a printer.</summary>
    private static readonly double[] PlainModules = [LogisticModule, 0.375 * PointsPerMillimetre, 0.25 * PointsPerMillimetre];

    /// <summary>With its quiet zones.</summary>
    public double Width => (Widths.Sum() + (2 * Quiet)) * Module;

    public static BarCode Of(Sscc code) => new(Gs1128.Widths(Gs1128.Encode([ElementString.Of(code)])), LogisticModule);

    /// <summary>In the widest module that fits; null when the text cannot be encoded or no module fits.</summary>
    public static BarCode? Plain(string text, double room)
    {
        if (!Gs1128.CanEncodePlain(text))
            return null;
        var widths = Gs1128.Widths(Gs1128.EncodePlain(text));
        return PlainModules.Select(module => new BarCode(widths, module)).FirstOrDefault(code => code.Width <= room);
    }

    /// <summary>In the middle of the room, quiet zones kept.</summary>
    public void Draw(XGraphics page, double left, double top, double room, double height)
    {
        var x = left + ((room - Width) / 2) + (Quiet * Module);
        for (var i = 0; i < Widths.Count; i++)
        {
            var wide = Widths[i] * Module;
            if (i % 2 == 0)
                page.DrawRectangle(XBrushes.Black, x, top, wide, height);
            x += wide;
        }
    }
}
