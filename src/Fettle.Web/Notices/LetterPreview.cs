using Fettle.Web.Notices.Letters;

namespace Fettle.Web.Notices;

/// <summary>A letter's HTML for a browser: the pictures that a mail carries beside it are put inside it.</summary>
public static class LetterPreview
{
    public static string Html(Letter letter) => letter.Pictures.Aggregate(letter.Html, (html, picture) => html.Replace(
        $"cid:{picture.ContentId}",
        $"data:image/png;base64,{Convert.ToBase64String(picture.Png.Span)}",
        StringComparison.Ordinal));
}
