using Fettle.Readiness;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Languages;
using Fettle.Web.Notices.Letters;

namespace Fettle.Web.Tests.Notices.Letters;

public class HoldNewsLetterTests
{
    private static readonly HoldPlaced Placed = Written.Placed(Written.Pickup([Written.Ready, Written.Held]));
    private static readonly Actor Tom = new(Guid.Empty, "Tom Reyes");
    private static readonly DateTimeOffset At = Written.Submitted.AddHours(2);

    public static TheoryData<HoldEvent, string, string> News => new()
    {
        { new HoldMessageSent(Guid.Empty, Guid.Empty, HoldSide.Terminal, "Bring film.\nToday.", Tom, At), "message from Tom Reyes", "Bring film. Today." },
        { new ReworkOffered(Guid.Empty, Guid.Empty, "Three turns.", Money.Dollars(85.5m), At.AddHours(4), null, Tom, At), "rework offered at 85.50 USD", "would put it right at 85.50 USD, if you authorise it by Monday 15:05." },
        { new ReworkOfferWithdrawn(Guid.Empty, Guid.Empty, "No film left.", Tom, At), "offer of rework withdrawn", "No film left." },
        { new ReworkAuthorised(Guid.Empty, Guid.Empty, Guid.Empty, Money.Dollars(85.5m), Tom, At), "rework authorised at 85.50 USD", "Bramblewick Glassware pays 85.50 USD" },
        { new HoldDeclarationCorrected(Guid.Empty, Guid.Empty, Written.Ready, [], Verdict.Ready, new("Common practice", 1), Tom, At), "declaration corrected", "nothing stops it any more: measure it before you release it" },
        { new HoldDeclarationCorrected(Guid.Empty, Guid.Empty, Written.Held, [], Verdict.Hold, new("Common practice", 1), Tom, At), "declaration corrected", "it would still be held" },
        { new HoldExceptionRequested(Guid.Empty, Guid.Empty, "It rides alone.", Tom, At), "exception asked for", "It rides alone." },
        { new HoldDisputed(Guid.Empty, Guid.Empty, "Slip 4711.", [], Tom, At), "hold disputed", "Slip 4711." },
        { new HoldReminded(Guid.Empty, HoldSide.Shipper, At, At.AddHours(5), At.AddHours(3)), "answer by Monday 16:05", "Your time ends Monday 23 November 2026, 16:05" },
        { new HoldEscalated(Guid.Empty, HoldSide.Shipper, At, At.AddHours(5), At.AddHours(6)), "overdue, Bramblewick Glassware has not answered", "is over" },
        { new HoldEscalated(Guid.Empty, HoldSide.Terminal, At, At.AddHours(5), At.AddHours(6)), "overdue, Millbrook has not decided", "is over" },
    };

    [Theory]
    [MemberData(nameof(News), DisableDiscoveryEnumeration = true)]
    public void It_says_what_happened_in_its_subject_and_why_it_is_held(HoldEvent happened, string subject, string said)
    {
        var letter = HoldNewsLetter.Of(Placed, happened, Written.Names, Written.Link, HoldReader.Shipper);
        var text = Written.Flat(letter.Text);

        Assert.Equal($"{Placed.Number}: {subject}", letter.Subject);
        Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.Contains(Written.Flat(Placed.Reason.ToString()), text, StringComparison.Ordinal);
        Assert.Contains(Written.Link.AbsoluteUri, letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_message_cannot_write_headers_or_markup()
    {
        var happened = new HoldMessageSent(Guid.Empty, Guid.Empty, HoldSide.Shipper, "<b>bold</b> & more", new(Guid.Empty, "Eve\r\nBcc: all@example.com"), At);
        var letter = HoldNewsLetter.Of(Placed, happened, Written.Names, Written.Link, HoldReader.Terminal);
        Assert.DoesNotContain('\n', letter.Subject);
        Assert.Null(Written.Html(letter).QuerySelector("b"));
        Assert.Contains("<b>bold</b> & more", letter.Text);
    }

    [Fact]
    public void It_is_written_in_Spanish_too()
    {
        Language.Spanish.Speak();
        var letter = HoldNewsLetter.Of(Placed, new HoldReminded(Guid.Empty, HoldSide.Shipper, At, At.AddHours(5), At.AddHours(3)), Written.Names, Written.Link, HoldReader.Shipper);
        Assert.StartsWith($"{Placed.Number}: conteste a más tardar", letter.Subject, StringComparison.Ordinal);
        Assert.Contains("Ver la retención y contestar", letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_placing_has_a_letter_of_its_own() =>
        Assert.Throws<ArgumentException>(() => HoldNewsLetter.Of(Placed, Placed, Written.Names, Written.Link, HoldReader.Shipper));
}
