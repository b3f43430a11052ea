using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.HandlingUnits;
using Fettle.Web.HandlingUnits;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Fettle.Web.Papers;

/// <summary>
/// Logistic labels after GS1's guideline, 4 by 6 inches, a page each: addresses on top, then what people read, and the SSCC
/// as bars lowest, upright bars. A unit without an SSCC has its own number in plain Code 128, and says so.
/// </summary>
internal static class UnitLabel
{
    /// <summary>4 in, in points.</summary>
    public const double Width = 288;

    /// <summary>6 in, in points.</summary>
    public const double Height = 432;

    private const double Margin = 11;
    private const double Room = Width - (2 * Margin);

    /// <param name="places">Which units of the pickup, counted from 0 in the order of their numbers.</param>
    public static byte[] Write(PickupFreight freight, IEnumerable<int> places)
    {
        using var document = new PdfDocument();
        document.Info.Title = T("Labels of pickup {0}", freight.Number);
        document.Info.Creator = "Fettle";
        document.Language = Language.Current.Code;
        foreach (var place in places)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(Width);
            page.Height = XUnit.FromPoint(Height);
            using var drawn = XGraphics.FromPdfPage(page);
            Draw(drawn, freight, place);
        }

        using var bytes = new MemoryStream();
        document.Save(bytes);
        return bytes.ToArray();
    }

    private static void Draw(XGraphics page, PickupFreight freight, int place)
    {
        var unit = freight.Pickup.Numbers[place];
        var line = freight.Lines.First(line => line.Reference == unit.Reference);
        Block(page, T("FROM"), freight.From, Margin, 10, Room * 0.56, 8, 54);
        Block(page, T("CARRIER"), $"{freight.Parties.Carrier.Name}\n{freight.Parties.Terminal.Name}", Margin + (Room * 0.6), 10, Room * 0.4, 8, 54);
        Across(page, 68);
        Block(page, T("TO"), freight.To, Margin, 71, Room, 15, 78);
        Across(page, 154);
        Fact(page, T("PICKUP"), freight.Number, Margin, 157, Room * 0.5, 20);
        Fact(page, T("UNIT"), T("{0} of {1}", place + 1, freight.Pickup.Numbers.Count), Margin + (Room * 0.54), 157, Room * 0.46, 20);
        Block(page, T("LINE"), T("{0}, {1} of {2}", unit.Reference, unit.Index, line.Quantity), Margin, 191, Room * 0.5, 12, 27);
        Fact(page, T("GROSS WEIGHT"), freight.Show((Quantity)line.GrossWeight), Margin + (Room * 0.54), 191, Room * 0.46, 14);
        Fact(page, T("OUTSIDE"), freight.Size(line), Margin, 220, Room * 0.5, 11);
        Handling(page, line, 222);
        Across(page, 250);
        if (unit.Sscc is { } sscc)
            Logistic(page, sscc);
        else
            Own(page, freight, unit, place);
    }

    /// <summary>(00) and eighteen digits, in words and in bars.</summary>
    private static void Logistic(XGraphics page, Engineering.Identification.Sscc sscc)
    {
        var digits = $"{sscc.Value[0]} {sscc.Value[1..8]} {sscc.Value[8..17]} {sscc.Value[17]}";
        Fact(page, "SSCC", digits, Margin, 253, Room, 22);
        const double Top = 306;
        BarCode.Of(sscc).Draw(page, 0, Top, Width, BarCode.LogisticHeight);
        page.DrawString($"(00){sscc.Value}", PdfFont.Regular(12), XBrushes.Black, new XPoint(Width / 2, Top + BarCode.LogisticHeight + 13), XStringFormats.BaseLineCenter);
    }

    /// <summary>Its own number; the short one in the bars where the long one cannot be encoded or does not fit.</summary>
    private static void Own(XGraphics page, PickupFreight freight, UnitNumber unit, int place)
    {
        var own = unit.Own(freight.Number);
        Block(page, T("OWN NUMBER"), own, Margin, 253, Room, 22, 37);
        page.DrawString(T("Not an SSCC: the shipper has no GS1 company prefix."), page.Fitting(T("Not an SSCC: the shipper has no GS1 company prefix."), 8, Room, 6), XBrushes.Black, new XPoint(Margin, 300), XStringFormats.BaseLineLeft);
        var shortened = NumberedUnit.ShortOf(freight.Number, place + 1);
        var (text, code) = BarCode.Plain(own, Width) is { } whole ? (own, whole) : (shortened, BarCode.Plain(shortened, Width)!);
        const double Top = 306;
        code.Draw(page, 0, Top, Width, BarCode.LogisticHeight);
        page.DrawString(text, PdfFont.Regular(12), XBrushes.Black, new XPoint(Width / 2, Top + BarCode.LogisticHeight + 13), XStringFormats.BaseLineCenter);
    }

    /// <summary>Black ground for what must not be done, as on the dock's build sheets.</summary>
    private static void Handling(XGraphics page, HandlingUnit line, double top)
    {
        string[] words = [.. TopLoad.MayCarry(line) ? Array.Empty<string>() : [T("NOTHING ON TOP")], .. line.Fragile == Fragility.None ? Array.Empty<string>() : [T("FRAGILE")], .. line.Hazardous ? [T("HAZARDOUS: SEE PAPERS")] : Array.Empty<string>()];
        if (words.Length == 0)
            return;
        var area = new XRect(Margin + (Room * 0.54), top, Room * 0.46, 25);
        page.DrawRectangle(XBrushes.Black, area);
        var each = area.Height / words.Length;
        for (var i = 0; i < words.Length; i++)
            page.DrawString(words[i], page.Fitting(words[i], Math.Min(12, each - 1), area.Width - 8, 5), XBrushes.White, new XRect(area.X, area.Y + (i * each), area.Width, each), XStringFormats.Center);
    }

    private static void Block(XGraphics page, string title, string words, double x, double top, double room, double size, double high)
    {
        page.DrawString(title, PdfFont.Regular(6.5), XBrushes.Black, new XPoint(x, top + 6), XStringFormats.BaseLineLeft);
        // The largest type in which all of it is there.
        List<IReadOnlyList<TextRun>> lines;
        for (; ; size -= 0.5)
        {
            lines = page.WholeLines(words, size, room, bold: true);
            if (8 + (lines.Count * size * 1.2) <= high || size <= 4.5)
                break;
        }

        var y = top + 8;
        foreach (var line in lines.TakeWhile(_ => y + (size * 1.2) <= top + high))
        {
            y += size * 1.2;
            page.Line(line, size, x, y);
        }
    }

    private static void Fact(XGraphics page, string title, string words, double x, double top, double room, double size)
    {
        page.DrawString(title, PdfFont.Regular(6.5), XBrushes.Black, new XPoint(x, top + 6), XStringFormats.BaseLineLeft);
        page.DrawString(page.Shortened(words, page.Fitting(words, size, room, 5), room), page.Fitting(words, size, room, 5), XBrushes.Black, new XPoint(x, top + 9 + (size * 0.85)), XStringFormats.BaseLineLeft);
    }

    private static void Across(XGraphics page, double y) => page.DrawLine(new XPen(XColors.Black, 1), Margin, y, Width - Margin, y);
}
