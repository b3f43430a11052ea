using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using SkiaSharp;

namespace Fettle.Web.Tests.Photos;

/// <summary>Pictures, and what pretends to be one.</summary>
internal static class Pictures
{
    /// <summary>Red above, blue below; as dense as a photo, so that it can be cut in the middle.</summary>
    public static byte[] Jpeg(int width = 640, int height = 480) => Draw(width, height, SKEncodedImageFormat.Jpeg);

    public static byte[] Png(int width = 320, int height = 200) => Draw(width, height, SKEncodedImageFormat.Png);

    public static byte[] WebP(int width = 320, int height = 200) => Draw(width, height, SKEncodedImageFormat.Webp);

    /// <summary>As a phone writes it: lying on its side with a note which side is up, the place where it was taken, and a comment.</summary>
    /// <param name="orientation">EXIF orientation, 1 to 8.</param>
    public static byte[] FromPhone(byte[] jpeg, int orientation)
    {
        var tiff = new MemoryStream();
        using var writer = new BinaryWriter(tiff);
        writer.Write("II"u8);
        writer.Write((ushort)42);
        writer.Write(8u);
        writer.Write((ushort)3);
        Entry(0x010F, 2, 10, 62); // Make
        Entry(0x0112, 3, 1, (uint)orientation);
        Entry(0x8825, 4, 1, 80); // GPS
        writer.Write(0u);
        writer.Seek(62, SeekOrigin.Begin);
        writer.Write("CAMERAXYZ\0"u8);
        writer.Seek(80, SeekOrigin.Begin);
        writer.Write((ushort)2);
        Entry(1, 2, 2, 'N');
        Entry(2, 5, 3, 120);
        writer.Write(0u);
        writer.Seek(120, SeekOrigin.Begin);
        foreach (var part in (uint[])[44, 1, 58, 1, 39, 1])
            writer.Write(part);
        byte[] exif = [.. "Exif\0\0"u8, .. tiff.ToArray()];
        return [.. jpeg[..2], .. Segment(0xE1, exif), .. Segment(0xFE, Encoding.ASCII.GetBytes("<script>alert('comment')</script>")), .. jpeg[2..]];

        void Entry(ushort tag, ushort type, uint count, uint value)
        {
            writer.Write(tag);
            writer.Write(type);
            writer.Write(count);
            writer.Write(value);
        }
    }

    /// <summary>A picture with a page and an archive behind its end.</summary>
    public static byte[] WithTail(byte[] picture)
    {
        using var archive = new MemoryStream();
        using (var zip = new ZipArchive(archive, ZipArchiveMode.Create, leaveOpen: true))
        {
            using var entry = zip.CreateEntry("../../evil.sh").Open();
            entry.Write("rm -rf /"u8);
        }

        return [.. picture, .. "<html><script>alert('tail')</script></html>"u8, .. archive.ToArray()];
    }

    /// <summary>A few kilobytes that say that they are 2,500 million pixels.</summary>
    public static byte[] Bomb(int width = 50_000, int height = 50_000)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            var row = new byte[50_001];
            for (var i = 0; i < 200; i++)
                zlib.Write(row);
        }

        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9]) = (8, 0);
        return [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, .. Chunk("IHDR", header), .. Chunk("IDAT", packed.ToArray()), .. Chunk("IEND", [])];
    }

    public const string Svg = """<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>""";

    private static byte[] Draw(int width, int height, SKEncodedImageFormat format)
    {
        using var bitmap = new SKBitmap(width, height);
        // Always the same speckle.
        var speckle = 12345u;
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                speckle = unchecked((speckle * 1664525) + 1013904223);
                var shade = (byte)(speckle >> 26);
                bitmap.SetPixel(x, y, y < height / 2 ? new SKColor((byte)(190 + shade), shade, shade) : new SKColor(shade, shade, (byte)(190 + shade)));
            }
        }

        using var data = bitmap.Encode(format, 95);
        return data.ToArray();
    }

    private static byte[] Segment(byte marker, byte[] content)
    {
        var length = content.Length + 2;
        return [0xFF, marker, (byte)(length >> 8), (byte)length, .. content];
    }

    private static byte[] Chunk(string type, byte[] content)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(type), .. content];
        var length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, content.Length);
        var sum = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(sum, Crc(named));
        return [.. length, .. named, .. sum];
    }

    private static uint Crc(byte[] bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var one in bytes)
        {
            crc ^= one;
            for (var bit = 0; bit < 8; bit++)
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
        }

        return ~crc;
    }
}
