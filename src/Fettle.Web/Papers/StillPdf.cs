using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Fettle.Web.Papers;

/// <summary>
/// Makes the same pages the same bytes: PDFsharp writes the clock's time, random ids and random names of font subsets into
/// every file. They are written over with others of the same length, so that no offset in the file changes.
/// </summary>
internal static partial class StillPdf
{
    /// <param name="at">What the file gives as the time at which it was made.</param>
    public static byte[] Of(byte[] pdf, DateTimeOffset at)
    {
        var utc = at.UtcDateTime;
        // One byte a character, so that nothing of the binary parts is touched.
        var text = Encoding.Latin1.GetString(pdf);
        text = InfoDates().Replace(text, $"(D:{utc.ToString("yyyyMMddHHmmss", CultureInfo.InvariantCulture)}+00'00')");
        text = MetadataDates().Replace(text, match => $"{match.Groups[1].Value}{utc.ToString("yyyy-MM-dd'T'HH:mm:ss'+00:00'", CultureInfo.InvariantCulture)}<");
        text = Uuids().Replace(text, "uuid:00000000-0000-0000-0000-000000000000");
        text = FileIds().Replace(text, $"/ID[<{new string('0', 32)}><{new string('0', 32)}>]");
        var subsets = new List<string>();
        text = FontSubsets().Replace(text, match =>
        {
            if (!subsets.Contains(match.Groups[1].Value))
                subsets.Add(match.Groups[1].Value);
            return $"/{new string((char)('A' + subsets.IndexOf(match.Groups[1].Value)), 6)}+DejaVu";
        });
        return Encoding.Latin1.GetBytes(text);
    }

    [GeneratedRegex(@"\(D:\d{14}\+\d\d'\d\d'\)")]
    private static partial Regex InfoDates();

    [GeneratedRegex(@"(<xmp:(?:Create|Modify|Metadata)Date>)\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d<")]
    private static partial Regex MetadataDates();

    [GeneratedRegex("uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Uuids();

    [GeneratedRegex(@"/ID\[<[0-9A-F]{32}><[0-9A-F]{32}>\]")]
    private static partial Regex FileIds();

    [GeneratedRegex(@"/([A-Z]{6})\+DejaVu")]
    private static partial Regex FontSubsets();
}
