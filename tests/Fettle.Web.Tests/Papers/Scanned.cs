using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using ZXing;
using ZXing.Common;

namespace Fettle.Web.Tests.Papers;

/// <summary>A page of a PDF as a scanner sees it: its filled rectangles set as black dots, read by a library that knows nothing of how they were drawn.</summary>
internal static class Scanned
{
    private const int DotsPerInch = 300;

    /// <summary>What the one bar code in the lower part of the page says; "]C1" before it when it is a GS1 symbol.</summary>
    public static string? BarCode(Page page)
    {
        var scale = DotsPerInch / 72.0;
        var (wide, high) = ((int)Math.Ceiling(page.Width * scale), (int)Math.Ceiling(page.Height * scale));
        var dots = new byte[wide * high];
        Array.Fill(dots, byte.MaxValue);
        foreach (var box in page.Paths.Where(path => path.IsFilled).Select(path => path.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>())
        {
            for (var y = (int)Math.Round((page.Height - box.Top) * scale); y < (int)Math.Round((page.Height - box.Bottom) * scale); y++)
            {
                for (var x = (int)Math.Round(box.Left * scale); x < (int)Math.Round(box.Right * scale); x++)
                    dots[(y * wide) + x] = 0;
            }
        }

        var reader = new BarcodeReaderGeneric { AutoRotate = false, Options = new DecodingOptions { PossibleFormats = [BarcodeFormat.CODE_128], TryHarder = true, AssumeGS1 = true } };
        return reader.Decode(new RGBLuminanceSource(dots, wide, high, RGBLuminanceSource.BitmapFormat.Gray8))?.Text;
    }

    /// <summary>Bars, in points from the left, in order.</summary>
    public static IReadOnlyList<(double Left, double Right, double Height)> Bars(Page page) =>
    [
        .. page.Paths.Where(path => path.IsFilled).Select(path => path.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>()
            .Where(box => box.Height > 80).OrderBy(box => box.Left).Select(box => (box.Left, box.Right, box.Height)),
    ];

    /// <summary>Without spaces: where a line breaks is no matter.</summary>
    public static string Squeezed(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter)));

    public static string Text(byte[] pdf)
    {
        using var opened = PdfDocument.Open(pdf);
        return Squeezed(string.Concat(opened.GetPages().SelectMany(page => page.Letters).Select(letter => letter.Value)));
    }

    /// <summary>With FETTLE_PICTURES set to a folder, keeps the PDF to be looked at.</summary>
    public static void Keep(string name, byte[] pdf)
    {
        if (Environment.GetEnvironmentVariable("FETTLE_PICTURES") is { Length: > 0 } folder)
            File.WriteAllBytes(Path.Combine(folder, $"paper-{name}.pdf"), pdf);
    }
}
