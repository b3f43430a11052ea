using System.Security.Cryptography;
using Fettle.Readiness;
using Fettle.Readiness.Findings;
using SkiaSharp;

namespace Fettle.Web.Photos;

/// <summary>What came of an upload: a picture that we wrote ourselves, or why not.</summary>
/// <param name="SentSha256">Of what was sent, so that the same photo sent twice is known again.</param>
/// <param name="Sha256">Of <paramref name="Picture"/>.</param>
public sealed record ReadPhoto(byte[] Picture, byte[] Thumbnail, int Width, int Height, string SentSha256, string Sha256);

/// <summary>
/// Reads what somebody uploaded and writes it anew: the pixels are all that is kept. What it is is decided by its content,
/// never by a name or a declared type. Metadata (place, camera, comments), colour tables and whatever is hidden behind the
/// picture's end are gone, since nothing of the sent bytes is stored.
/// </summary>
public static class PhotoReader
{
    /// <summary>Larger uploads are not read: 15 MB.</summary>
    public const int LargestUpload = 15_000_000;

    /// <summary>
    /// More pixels are not decoded, as the header counts them: 50 million take 200 MB for a moment. A header costs nothing to
    /// write, and a few kilobytes can unpack to gigabytes.
    /// </summary>
    public const long MostPixels = 50_000_000;

    /// <summary>The longest side of what is stored.</summary>
    public const int LongestSide = 2400;

    public const int LongestThumbnailSide = 320;

    private const int Quality = 85;

    /// <summary>Pictures decoded at once: a crowd of large ones waits for its turn instead of filling the memory.</summary>
    private static readonly SemaphoreSlim Room = new(2);

    /// <summary>Reads at most <see cref="LargestUpload"/> of a stream, and no more of it than that.</summary>
    /// <param name="length">As announced; null when it was not.</param>
    /// <returns>The photo, or why it is refused. A stream that breaks off throws what it throws: nothing was kept.</returns>
    public static async Task<(ReadPhoto? Photo, Refusal? Refusal)> ReadAsync(Stream upload, long? length, CancellationToken cancel)
    {
        if (length > LargestUpload)
            return (null, new PhotoTooLarge());
        using var sent = new MemoryStream();
        var buffer = new byte[81_920];
        for (int got; (got = await upload.ReadAsync(buffer, cancel)) > 0;)
        {
            if (sent.Length + got > LargestUpload)
                return (null, new PhotoTooLarge());
            sent.Write(buffer, 0, got);
        }

        if (sent.Length == 0)
            return (null, new PhotoEmpty());
        await Room.WaitAsync(cancel);
        try
        {
            return Read(sent.GetBuffer().AsSpan(0, (int)sent.Length));
        }
        finally
        {
            Room.Release();
        }
    }

    private static (ReadPhoto? Photo, Refusal? Refusal) Read(ReadOnlySpan<byte> sent)
    {
        if (!IsKnown(sent))
            return (null, new NotAPhoto());
        using var data = SKData.CreateCopy(sent);
        using var codec = SKCodec.Create(data);
        if (codec is null || codec.EncodedFormat is not (SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp))
            return (null, new PhotoBroken());
        if ((long)codec.Info.Width * codec.Info.Height > MostPixels)
            return (null, new TooManyPixels());

        // Where the format can, it is decoded small at once.
        var longest = Math.Max(codec.Info.Width, codec.Info.Height);
        var size = longest > LongestSide ? codec.GetScaledDimensions((float)LongestSide / longest) : codec.Info.Size;
        if (Math.Max(size.Width, size.Height) < Math.Min(longest, LongestSide))
            size = codec.Info.Size;
        using var decoded = new SKBitmap();
        // The colour space is the common one, so that the picture looks alike without its table.
        if (!decoded.TryAllocPixels(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb())))
            return (null, new TooManyPixels());
        // A picture that ends in the middle is incomplete: half a photo proves nothing.
        if (codec.GetPixels(decoded.Info, decoded.GetPixels()) != SKCodecResult.Success)
            return (null, new PhotoBroken());

        using var upright = Draw(decoded, codec.EncodedOrigin, LongestSide);
        using var small = Draw(upright, SKEncodedOrigin.TopLeft, LongestThumbnailSide);
        var picture = Write(upright);
        return (new(picture, Write(small), upright.Width, upright.Height, Convert.ToHexStringLower(SHA256.HashData(sent)), Convert.ToHexStringLower(SHA256.HashData(picture))), null);
    }

    /// <summary>The first bytes of a JPEG, PNG or WebP.</summary>
    private static bool IsKnown(ReadOnlySpan<byte> sent) =>
        sent.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])
        || sent.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A])
        || (sent.Length > 12 && sent.StartsWith("RIFF"u8) && sent[8..].StartsWith("WEBP"u8));

    /// <summary>Turned upright and made smaller, on white where it is transparent.</summary>
    private static SKBitmap Draw(SKBitmap from, SKEncodedOrigin origin, int longestSide)
    {
        var turned = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var (width, height) = turned ? (from.Height, from.Width) : (from.Width, from.Height);
        var scale = Math.Min(1f, (float)longestSide / Math.Max(width, height));
        var to = new SKBitmap(new SKImageInfo(Math.Max(1, (int)MathF.Round(width * scale)), Math.Max(1, (int)MathF.Round(height * scale)), SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
        using var canvas = new SKCanvas(to);
        canvas.Clear(SKColors.White);
        canvas.Scale((float)to.Width / width, (float)to.Height / height);
        var matrix = Upright(origin, from.Width, from.Height);
        canvas.Concat(in matrix);
        using var image = SKImage.FromBitmap(from);
        canvas.DrawImage(image, 0, 0, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        canvas.Flush();
        return to;
    }

    /// <summary>EXIF orientation: where the sent picture's first row and column belong.</summary>
    private static SKMatrix Upright(SKEncodedOrigin origin, int width, int height) => origin switch
    {
        SKEncodedOrigin.TopRight => new(-1, 0, width, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new(-1, 0, width, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new(0, -1, height, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new(0, -1, height, -1, 0, width, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, width, 0, 0, 1),
        _ => SKMatrix.Identity,
    };

    private static byte[] Write(SKBitmap picture)
    {
        using var written = picture.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return written.ToArray();
    }
}

/// <summary>An upload without a byte in it.</summary>
public sealed record PhotoEmpty : Refusal
{
    public override string Code => "photo-empty";

    public override Phrase Message => Phrase.Of($"The photo is empty: nothing arrived. Take it again.");
}

public sealed record PhotoTooLarge : Refusal
{
    public override string Code => "photo-too-large";

    public override Phrase Message => Phrase.Of($"The photo is larger than {15} MB. Take it with a smaller picture size.");
}

/// <summary>Whatever it is called: its content is none of the three kinds.</summary>
public sealed record NotAPhoto : Refusal
{
    public override string Code => "not-a-photo";

    public override Phrase Message => Phrase.Of($"This is no JPEG, PNG or WebP picture, whatever it is called.");
}

public sealed record TooManyPixels : Refusal
{
    public override string Code => "too-many-pixels";

    public override Phrase Message => Phrase.Of($"The picture has more than {50} million pixels. Take it with a smaller picture size.");
}

/// <summary>It begins like a picture, and ends in the middle or cannot be decoded.</summary>
public sealed record PhotoBroken : Refusal
{
    public override string Code => "photo-broken";

    public override Phrase Message => Phrase.Of($"The picture is damaged or incomplete, and cannot be opened. Take it again.");
}
