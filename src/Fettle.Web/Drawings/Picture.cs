using SkiaSharp;
using Svg.Skia;
using Svg.Skia.TypefaceProviders;

namespace Fettle.Web.Drawings;

/// <summary>Turns a drawing into a PNG for mail, whose readers mostly do not show SVG.</summary>
public static class Picture
{
    /// <summary>The font that drawings made for mail name; it is part of this assembly, since a server need not have any.</summary>
    public const string FontFamily = "DejaVu Sans Condensed";

    /// <summary>No picture is wider or taller than this, in pixels.</summary>
    public const int MostPixels = 4096;

    /// <summary>The drawing at the given width, its height in proportion, on white where it has no ground of its own. The same SVG gives the same bytes.</summary>
    /// <param name="svg">SVG made by <see cref="UnitDrawing"/> with <see cref="DrawingOptions.ForMail"/>.</param>
    /// <param name="widthInPixels">1 to <see cref="MostPixels"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The picture would be empty or too large.</exception>
    /// <exception cref="ArgumentException">The text does not begin as a drawing does.</exception>
    public static byte[] Png(string svg, int widthInPixels)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(widthInPixels);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(widthInPixels, MostPixels);
        if (!svg.StartsWith("<svg ", StringComparison.Ordinal))
            throw new ArgumentException("The text is not a drawing.", nameof(svg));
        using var drawing = new SKSvg();
        drawing.Settings.TypefaceProviders = [new OwnFont()];
        var picture = drawing.FromSvg(svg) ?? throw new ArgumentException("The drawing is empty.", nameof(svg));
        var scale = widthInPixels / picture.CullRect.Width;
        var height = (int)Math.Round(picture.CullRect.Height * scale);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, MostPixels, nameof(widthInPixels));
        using var surface = SKSurface.Create(new SKImageInfo(widthInPixels, Math.Max(1, height), SKColorType.Rgba8888, SKAlphaType.Premul));
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale(scale);
        surface.Canvas.DrawPicture(picture);
        using var image = surface.Snapshot();
        using var png = image.Encode(SKEncodedImageFormat.Png, 100);
        return png.ToArray();
    }

    /// <summary>Whatever font is named, ours is used: what the server has installed must not change a picture.</summary>
    private sealed class OwnFont : ITypefaceProvider
    {
        private static readonly Lazy<SKTypeface> regular = new(() => Load("Fettle.Font.Regular"));
        private static readonly Lazy<SKTypeface> bold = new(() => Load("Fettle.Font.Bold"));

        public SKTypeface? FromFamilyName(string fontFamily, SKFontStyleWeight fontWeight, SKFontStyleWidth fontWidth, SKFontStyleSlant fontStyle) =>
            fontWeight >= SKFontStyleWeight.SemiBold ? bold.Value : regular.Value;

        private static SKTypeface Load(string resource)
        {
            using var stream = typeof(Picture).Assembly.GetManifestResourceStream(resource)
                ?? throw new InvalidOperationException($"The build left out {resource}.");
            using var data = SKData.Create(stream);
            return SKTypeface.FromData(data);
        }
    }
}
