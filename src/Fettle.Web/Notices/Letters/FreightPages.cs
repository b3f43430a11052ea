using System.Security.Cryptography;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Web.Drawings;

namespace Fettle.Web.Notices.Letters;

/// <summary>The parts that several letters share.</summary>
internal static class FreightPages
{
    /// <summary>A mail holds no more drawings than this, so that it stays small enough to be delivered; the portal has them all.</summary>
    public const int MostPictures = 12;

    /// <summary>No more lines than this are told in full.</summary>
    public const int MostLines = 40;

    private const int PictureWidth = 480;

    public static string NoPromise =>
        T("Ready means that these checks found nothing that stops the freight as it was declared. It is no promise. The carrier's tariff, the platform maker's rating, local law and qualified people have the last word.");

    /// <summary>The drawing of a unit, twice as fine as it is shown.</summary>
    public static LetterPicture Picture(HandlingUnit unit, UnitSystem units)
    {
        var png = Drawings.Picture.Png(UnitDrawing.Svg(unit, units, DrawingOptions.ForMail), PictureWidth * 2);
        var id = Convert.ToHexStringLower(SHA256.HashData(png).AsSpan(0, 8));
        return new($"drawing-{id}@fettle", $"drawing-{id}.png", png, UnitDrawing.Describe(unit, units), PictureWidth);
    }

    /// <summary>Findings in their order, gravest first, those under <paramref name="least"/> left out.</summary>
    public static void Findings(Sheet sheet, IEnumerable<Finding> findings, UnitSystem units, Severity least = Severity.Tip)
    {
        // The same caution is said once beneath each other's neighbours.
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var finding in findings.Where(finding => finding.Severity >= least))
        {
            var (tone, gravity) = FreightWords.Gravity(finding.Severity);
            var caution = FindingCodes.CautionFor(finding.Code) is { } care ? T(care) : null;
            sheet.Finding(
                tone,
                gravity,
                finding.Message.Say(units),
                FreightWords.Figures(finding, units),
                finding.Cure.Say(units),
                caution is not null && said.Add(caution) ? caution : null);
        }
    }

    /// <summary>A link that a mail may hold.</summary>
    /// <exception cref="ArgumentException">It is not a whole web address.</exception>
    public static Uri Web(Uri link) =>
        link.IsAbsoluteUri && (link.Scheme == Uri.UriSchemeHttps || link.Scheme == Uri.UriSchemeHttp)
            ? link
            : throw new ArgumentException("A link in a mail begins with https:// or http://.", nameof(link));
}
