using System.Security.Cryptography;
using System.Text;
using MimeKit;

namespace Fettle.Web.Notices.Letters;

/// <summary>Puts a letter into the form in which it is sent.</summary>
public static class LetterMessage
{
    /// <summary>
    /// Plain text, HTML with its pictures, and the calendar entry both as a part that calendars read and as a file. The same
    /// arguments give the same bytes, so that a retry sends the same mail again and not another.
    /// </summary>
    /// <param name="messageId">Without angle brackets: "id@host".</param>
    public static MimeMessage Build(Letter letter, MailboxAddress from, MailboxAddress to, string messageId, DateTimeOffset date)
    {
        var message = new MimeMessage
        {
            MessageId = messageId,
            Date = date,
            Subject = Plain.Line(letter.Subject),
        };
        message.From.Add(OneLine(from));
        message.To.Add(OneLine(to));
        // Nobody's "out of office" is to answer (RFC 3834).
        message.Headers.Add(HeaderId.AutoSubmitted, "auto-generated");
        var boundary = 0;
        message.Body = Body(letter, () => Boundary(messageId, boundary++));
        return message;
    }

    private static MailboxAddress OneLine(MailboxAddress address) => new(Plain.Line(address.Name ?? ""), address.Address);

    private static MimeEntity Body(Letter letter, Func<string> boundary)
    {
        var alternative = new MultipartAlternative { Boundary = boundary() };
        alternative.Add(Words("plain", letter.Text));
        var html = Words("html", letter.Html);
        if (letter.Pictures.Count == 0)
        {
            alternative.Add(html);
        }
        else
        {
            var related = new MultipartRelated { Boundary = boundary(), Root = html };
            foreach (var picture in letter.Pictures)
                related.Add(Picture(picture));
            alternative.Add(related);
        }

        if (letter.Calendar is not { } calendar)
            return alternative;
        var inline = Words("calendar", calendar.Content);
        inline.ContentType.Parameters.Add("method", "PUBLISH");
        alternative.Add(inline);
        var file = Words("calendar", calendar.Content);
        file.ContentDisposition = new ContentDisposition(ContentDisposition.Attachment) { FileName = calendar.FileName };
        file.ContentType.Name = calendar.FileName;
        var mixed = new Multipart("mixed") { alternative, file };
        mixed.Boundary = boundary();
        return mixed;
    }

    private static TextPart Words(string kind, string words)
    {
        var part = new TextPart(kind) { ContentTransferEncoding = ContentEncoding.QuotedPrintable };
        part.SetText(Encoding.UTF8, words);
        return part;
    }

    private static MimePart Picture(LetterPicture picture) => new("image", "png")
    {
        Content = new MimeContent(new MemoryStream(picture.Png.ToArray(), writable: false)),
        ContentTransferEncoding = ContentEncoding.Base64,
        ContentDisposition = new ContentDisposition(ContentDisposition.Inline) { FileName = picture.FileName },
        ContentId = picture.ContentId,
    };

    /// <summary>Boundaries are random unless said; these follow from the message, and cannot occur in quoted-printable or base64 text.</summary>
    private static string Boundary(string messageId, int number)
    {
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{messageId}\n{number}")).AsSpan(0, 16));
        return $"=_{hash}";
    }
}
