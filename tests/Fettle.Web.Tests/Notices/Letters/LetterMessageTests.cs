using System.Text;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Holds;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Tests.Drawings;
using MimeKit;

namespace Fettle.Web.Tests.Notices.Letters;

public sealed class LetterMessageTests
{
    private const string Hostile = "Evil\r\nBcc: everyone@example.com\r\n\r\n<script>alert('x')</script>\u202Etxt\u0000 \"&amp;";

    private static readonly MailboxAddress from = new("Fettle", "fettle@fettle.example");
    private static readonly MailboxAddress to = new("Millbrook dock", "dock@larkspur.example");
    private static readonly DateTimeOffset date = new(2026, 11, 23, 15, 6, 0, TimeSpan.Zero);

    private static byte[] Bytes(Letter letter)
    {
        using var stream = new MemoryStream();
        LetterMessage.Build(letter, from, to, "0198c0de.terminal@fettle.example", date).WriteTo(stream);
        return stream.ToArray();
    }

    private static MimeMessage ReadBack(Letter letter) => MimeMessage.Load(new MemoryStream(Bytes(letter)), TestContext.Current.CancellationToken);

    private static Letter Terminal() => PickupLetter.ForTerminal(Written.Pickup([Written.Ready, Written.Held], "Please."), Written.Names, Written.Link);

    [Fact]
    public void A_letter_reads_back_as_it_was_written()
    {
        var letter = Terminal();
        var message = ReadBack(letter);

        Assert.Equal(letter.Subject, message.Subject);
        Assert.Equal("0198c0de.terminal@fettle.example", message.MessageId);
        Assert.Equal(date, message.Date);
        Assert.Equal("auto-generated", message.Headers[HeaderId.AutoSubmitted]);
        Assert.Equal(letter.Text, message.TextBody!.ReplaceLineEndings("\n"));
        Assert.Equal(letter.Html, message.HtmlBody!.ReplaceLineEndings("\n"));
    }

    [Fact]
    public void Pictures_are_related_to_the_html_and_found_by_their_content_ids()
    {
        var letter = Terminal();
        var alternative = (MultipartAlternative)((Multipart)ReadBack(letter).Body!)[0];
        var related = Assert.IsType<MultipartRelated>(alternative[1]);
        var images = related.OfType<MimePart>().Where(part => part.ContentType.IsMimeType("image", "png")).ToArray();

        Assert.True(related.Root!.ContentType.IsMimeType("text", "html"));
        Assert.Equal(letter.Pictures.Select(picture => picture.ContentId), images.Select(image => image.ContentId));
        foreach (var (picture, image) in letter.Pictures.Zip(images))
        {
            using var content = new MemoryStream();
            image.Content!.DecodeTo(content, TestContext.Current.CancellationToken);
            Assert.Equal(picture.Png.ToArray(), content.ToArray());
            Assert.False(image.IsAttachment);
        }
    }

    [Fact]
    public void The_calendar_is_a_part_that_calendars_read_and_a_file()
    {
        var letter = Terminal();
        var message = ReadBack(letter);

        var mixed = Assert.IsType<Multipart>(message.Body);
        var alternative = Assert.IsAssignableFrom<MultipartAlternative>(mixed[0]);
        Assert.Equal(["text/plain", "multipart/related", "text/calendar"], alternative.Select(part => part.ContentType.MimeType));
        var inline = Assert.IsType<TextPart>(alternative[2]);
        Assert.Equal("PUBLISH", inline.ContentType.Parameters["method"]);
        Assert.Equal(letter.Calendar!.Content.ReplaceLineEndings("\n"), inline.Text.ReplaceLineEndings("\n"));
        var file = Assert.IsAssignableFrom<MimePart>(Assert.Single(message.Attachments));
        Assert.Equal("P-4K7Q2M.ics", file.FileName);
        Assert.Single(Ical.Net.Calendar.Load(((TextPart)file).Text)!.Events);
    }

    [Fact]
    public void A_letter_without_a_time_has_no_calendar_and_no_attachment()
    {
        var message = ReadBack(HoldLetter.Decided(Written.Decided(HoldDecision.Release), Written.Names, Written.Link));

        Assert.Empty(message.Attachments);
        Assert.DoesNotContain(message.BodyParts, part => part.ContentType.IsMimeType("text", "calendar"));
    }

    [Fact]
    public void The_same_letter_is_the_same_mail_byte_for_byte() => Assert.Equal(Bytes(Terminal()), Bytes(Terminal()));

    [Fact]
    public void Lines_are_short_enough_for_any_mail_server_and_the_whole_is_seven_bit()
    {
        // RFC 5322: no line over 998 characters.
        var bytes = Bytes(Terminal());

        Assert.DoesNotContain(bytes, b => b > 127);
        Assert.True(Encoding.ASCII.GetString(bytes).Split('\n').Max(line => line.TrimEnd('\r').Length) <= 998);
    }

    [Fact]
    public void Names_cannot_add_headers_markup_or_turned_text()
    {
        var names = new PickupNames(Hostile, Hostile, Hostile, Hostile, Hostile);
        var crate = Freight.Crate with { Reference = Hostile, Contents = new PieceContents(Hostile) };
        var held = Written.Held with { Reference = "H" + Hostile };
        var pickup = Written.Pickup([crate, held], Hostile, number: "P-1" + Hostile, destination: Hostile, by: Hostile);
        var placed = Written.Placed(pickup);
        Letter[] letters =
        [
            PickupLetter.ForTerminal(pickup, names, Written.Link),
            PickupLetter.ForShipper(pickup, names, Written.Link),
            HoldLetter.Placed(placed, names, Written.Link, HoldReader.Shipper),
            HoldLetter.Decided(new(placed.HoldId, placed, new(Guid.Empty, Guid.Empty, HoldDecision.Return, Hostile, new(Guid.Empty, Hostile), Written.Submitted)), names, Written.Link),
        ];
        foreach (var letter in letters)
        {
            var message = MimeMessage.Load(new MemoryStream(Encoded(letter, new(Hostile, "fettle@fettle.example"), new(Hostile, "dock@larkspur.example"))), TestContext.Current.CancellationToken);

            Assert.Equal(["From", "Date", "Subject", "Message-Id", "To", "Auto-Submitted", "MIME-Version"], message.Headers.Select(header => header.Field));
            Assert.Empty(message.Bcc);
            Assert.DoesNotContain('\n', letter.Subject);
            Assert.DoesNotContain('\r', letter.Subject);
            foreach (var words in new[] { letter.Subject, letter.Text, letter.Html })
            {
                Assert.DoesNotContain('\u202e', words);
                Assert.DoesNotContain('\0', words);
                Assert.DoesNotContain('\r', words);
            }

            var html = Written.Html(letter);
            Assert.Empty(html.QuerySelectorAll("script"));
            Assert.Contains(Written.Said(html), said => said.Contains("<script>alert('x')</script>", StringComparison.Ordinal));
            Assert.All(html.QuerySelectorAll("a"), link => Assert.Equal(Written.Link.AbsoluteUri, link.GetAttribute("href")));
            if (letter.Calendar is { } calendar)
            {
                Assert.Single(Ical.Net.Calendar.Load(calendar.Content)!.Events);
                Assert.Matches("^[A-Za-z0-9-]+\\.ics$", calendar.FileName);
            }
        }

        static byte[] Encoded(Letter letter, MailboxAddress from, MailboxAddress to)
        {
            using var stream = new MemoryStream();
            LetterMessage.Build(letter, from, to, "x@fettle.example", date).WriteTo(stream);
            return stream.ToArray();
        }
    }
}
