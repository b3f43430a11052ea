using Fettle.Engineering.Units;
using Fettle.Web.Drawings;
using SkiaSharp;

namespace Fettle.Web.Tests.Drawings;

public sealed class PictureTests
{
    private static readonly string svg = UnitDrawing.Svg(Freight.Overhanging, UnitSystem.Imperial, DrawingOptions.ForMail);

    [Fact]
    public void A_picture_has_the_width_asked_for_and_the_drawings_proportions()
    {
        var drawn = new DrawnSvg(svg);
        using var picture = SKBitmap.Decode(Picture.Png(svg, 720));

        Assert.Equal(720, picture.Width);
        Assert.Equal(drawn.Height * 2, picture.Height, 1.0);
    }

    [Fact]
    public void A_picture_has_a_white_ground_cartons_and_the_red_of_overhang()
    {
        using var picture = SKBitmap.Decode(Picture.Png(svg, 720));
        var pixels = picture.Pixels;

        Assert.Equal(SKColors.White, picture.GetPixel(picture.Width - 1, 0));
        Assert.InRange(pixels.Count(pixel => pixel != SKColors.White) / (double)pixels.Length, 0.15, 0.8);
        Assert.Contains(new SKColor(0xf0, 0xd9, 0xad), pixels);
        Assert.Contains(new SKColor(0xb3, 0x26, 0x1e), pixels);
    }

    [Fact]
    public void Text_is_drawn_with_the_portals_own_font()
    {
        const string Empty = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 20\" width=\"100\" height=\"20\"></svg>";
        var word = Empty.Replace("></svg>", "><text x=\"2\" y=\"15\" font-size=\"14\" fill=\"#000000\" font-family=\"No Such Font\">48 in</text></svg>", StringComparison.Ordinal);
        var bold = word.Replace("<text", "<text font-weight=\"bold\"", StringComparison.Ordinal);

        Assert.Equal(0, Ink(Empty));
        Assert.InRange(Ink(word), 100, 4000);
        // Bold strokes are thicker: our bold font was found too.
        Assert.True(Ink(bold) > Ink(word) * 1.15);

        static int Ink(string text)
        {
            using var picture = SKBitmap.Decode(Picture.Png(text, 200));
            return picture.Pixels.Count(pixel => pixel.Red < 128);
        }
    }

    [Fact]
    public void The_same_drawing_gives_the_same_bytes() => Assert.Equal(Picture.Png(svg, 360), Picture.Png(svg, 360));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(Picture.MostPixels + 1)]
    public void An_impossible_width_is_refused(int width) => Assert.Throws<ArgumentOutOfRangeException>(() => Picture.Png(svg, width));

    [Theory]
    [InlineData("")]
    [InlineData("not a drawing")]
    [InlineData("<p>neither</p>")]
    public void Text_that_is_no_drawing_is_refused(string text) => Assert.Throws<ArgumentException>(() => Picture.Png(text, 100));
}
