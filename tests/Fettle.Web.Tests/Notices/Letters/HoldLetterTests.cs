using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Web.Languages;
using Fettle.Web.Notices.Letters;

namespace Fettle.Web.Tests.Notices.Letters;

public sealed class HoldLetterTests
{
    private static readonly HoldPlaced placed = Written.Placed(Written.Pickup([Written.Ready, Written.Held], "Please take it."));

    [Fact]
    public void The_terminal_reads_what_is_held_why_and_by_when_to_decide()
    {
        var letter = HoldLetter.Placed(placed, Written.Names, Written.Link, HoldReader.Terminal);
        var text = Written.Flat(letter.Text);

        Assert.Equal("P-4K7Q2M/B2: 1 pallet held, decide by Tuesday 05:06", letter.Subject);
        Assert.Contains("It must not move until you decide, at the latest Tuesday 05:06.", text, StringComparison.Ordinal);
        Assert.Contains("Decide by: Tuesday 24 November 2026, 05:06 (America/Chicago, UTC−06:00)", text, StringComparison.Ordinal);
        foreach (var stop in placed.Findings.Where(finding => finding.Severity == Severity.Stop))
            Assert.Contains("* Stop: " + stop.Message.Say(placed.Units).Trim(), text, StringComparison.Ordinal);
        Assert.Contains("Exception asked for", text, StringComparison.Ordinal);
        Assert.Contains("Please take it.", text, StringComparison.Ordinal);
        Assert.Contains("Measured 2\u00a0in, limit 0\u00a0in. Common practice, no source: nothing past the deck's edge.", text, StringComparison.Ordinal);
        Assert.Contains("Checked by: rule set Common practice, version 1", text, StringComparison.Ordinal);
        Assert.Single(letter.Pictures);
        Assert.Null(letter.Calendar);
    }

    [Fact]
    public void The_shipper_reads_that_it_waits_and_how_to_put_it_right()
    {
        var letter = HoldLetter.Placed(placed, Written.Names, Written.Link, HoldReader.Shipper);
        var text = Written.Flat(letter.Text);

        Assert.Equal("P-4K7Q2M/B2: 1 pallet held until Millbrook decides", letter.Subject);
        Assert.Contains("It does not move until Millbrook decides. The truck leaves Tuesday 16:00.", text, StringComparison.Ordinal);
        foreach (var stop in placed.Findings.Where(finding => finding.Severity == Severity.Stop))
            Assert.Contains("Cure: " + stop.Cure.Say(placed.Units), text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_reason_that_is_more_than_its_findings_is_told_too()
    {
        var other = placed with { Reason = Phrase.Of($"Wet cartons seen at the dock.") };

        Assert.Contains("Wet cartons seen at the dock.", HoldLetter.Placed(other, Written.Names, Written.Link, HoldReader.Terminal).Text, StringComparison.Ordinal);
        Assert.Contains("Wet cartons seen at the dock.", HoldLetter.Placed(other with { Findings = [] }, Written.Names, Written.Link, HoldReader.Shipper).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(HoldDecision.Release, "P-4K7Q2M/B2: released (1 pallet)", "The freight conforms and goes on.", "Nothing. The decision stays with the pickup's record.")]
    [InlineData(HoldDecision.ReleaseAsException, "P-4K7Q2M/B2: released as an exception (1 pallet)", "does not conform and goes on all the same", "The exception is recorded and will be read if there is a claim")]
    [InlineData(HoldDecision.Rework, "P-4K7Q2M/B2: to be rebuilt at the terminal (1 pallet)", "Millbrook rebuilds the freight before it goes on.", "charges by the tariff of Larkspur Motor Freight")]
    [InlineData(HoldDecision.Return, "P-4K7Q2M/B2: goes back to the shipper (1 pallet)", "The freight comes back to you.", "declare it on a new pickup")]
    [InlineData(HoldDecision.Refuse, "P-4K7Q2M/B2: refused (1 pallet)", "Larkspur Motor Freight does not take this freight.", "arrange other transport")]
    public void Each_decision_says_what_it_means_and_what_to_do_next(HoldDecision decision, string subject, string meaning, string step)
    {
        var letter = HoldLetter.Decided(Written.Decided(decision, "Two inches over.\nFilm stops short."), Written.Names, Written.Link);
        var text = Written.Flat(letter.Text);

        Assert.Equal(subject, letter.Subject);
        Assert.Contains(meaning, text, StringComparison.Ordinal);
        Assert.Contains(step, text, StringComparison.Ordinal);
        Assert.Contains("Two inches over. Film stops short.", text, StringComparison.Ordinal);
        Assert.Contains("1 pallet of Bramblewick Glassware, line B2", text, StringComparison.Ordinal);
        Assert.Contains("Tom Reyes, Millbrook Tuesday 24 November 2026, 15:10 (America/Chicago, UTC−06:00)", text, StringComparison.Ordinal);
        Assert.Contains(Written.Link.AbsoluteUri, letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_decision_has_a_letter() =>
        Assert.All(Enum.GetValues<HoldDecision>(), decision => Assert.NotEqual("", HoldLetter.Decided(Written.Decided(decision), Written.Names, Written.Link).Subject));

    [Fact]
    public void An_open_hold_has_no_decision_to_tell() =>
        Assert.Throws<ArgumentException>(() => HoldLetter.Decided(new Hold(placed.HoldId, placed, null), Written.Names, Written.Link));
}
