using PdfSharp.Drawing;
using PdfSharp.Fonts;

namespace Fettle.Web.Papers;

/// <summary>The font of drawings, for PDFsharp, which on a server finds none of its own.</summary>
internal sealed class PdfFont : IFontResolver
{
    private const string Family = "Fettle";
    private const string RegularFace = "Fettle.Font.Regular";
    private const string BoldFace = "Fettle.Font.Bold";

    // PDFsharp keeps its resolver in a static field, and takes one only before the first font is made.
    static PdfFont() => GlobalFontSettings.FontResolver ??= new PdfFont();

    public static XFont Regular(double points) => new(Family, points, XFontStyleEx.Regular);

    public static XFont Bold(double points) => new(Family, points, XFontStyleEx.Bold);

    public FontResolverInfo ResolveTypeface(string familyName, bool bold, bool italic) => new(bold ? BoldFace : RegularFace);

    public byte[] GetFont(string faceName)
    {
        using var stream = typeof(PdfFont).Assembly.GetManifestResourceStream(faceName)
            ?? throw new InvalidOperationException($"The build left out {faceName}.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
