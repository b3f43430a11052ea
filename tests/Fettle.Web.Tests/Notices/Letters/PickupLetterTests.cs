using System.Text.RegularExpressions;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Web.Languages;
using Fettle.Web.Notices.Letters;
using Fettle.Web.Tests.Drawings;
using SkiaSharp;

namespace Fettle.Web.Tests.Notices.Letters;

public sealed partial class PickupLetterTests
{
    private static readonly Pickup ready = Written.Pickup([Written.Ready]);
    private static readonly Pickup oneHeld = Written.Pickup([Written.Ready, Written.Held], "The customer's line stands still.\nPlease take it.");

    [Fact]
    public void The_situations_are_what_they_are_named()
    {
        Assert.Equal(Verdict.Ready, ready.Verdict);
        Assert.Equal([Verdict.Ready, Verdict.Hold], oneHeld.Units.Select(unit => unit.Verdict));
    }

    [Fact]
    public void The_subject_has_the_number_the_freight_the_time_and_the_outcome()
    {
        Assert.Equal("P-4K7Q2M: 4 pallets Tuesday 14:00–16:00, 1 will be held", PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link).Subject);
        Assert.Equal("P-4K7Q2M: 3 pallets Tuesday 14:00–16:00, ready", PickupLetter.ForTerminal(ready, Written.Names, Written.Link).Subject);
        Assert.Equal("P-4K7Q2M: booked, 3 pallets Tuesday 14:00–16:00", PickupLetter.ForShipper(ready, Written.Names, Written.Link).Subject);
        Assert.Equal("P-4K7Q2M: 1 of 4 pallets held from the start, pickup Tuesday 14:00–16:00", PickupLetter.ForShipper(oneHeld, Written.Names, Written.Link).Subject);
    }

    [Fact]
    public void A_driver_kept_off_the_dock_is_told_once_about_the_whole_pickup()
    {
        var unseen = Written.Pickup([Written.Ready], driverOnDock: false);

        foreach (var letter in new[] { PickupLetter.ForTerminal(unseen, Written.Names, Written.Link), PickupLetter.ForShipper(unseen, Written.Names, Written.Link) })
        {
            var text = Written.Flat(letter.Text);
            Assert.Contains("the driver stays off the dock: shipper's load and count", text, StringComparison.Ordinal);
            Assert.Contains("About the whole pickup", text, StringComparison.Ordinal);
            Assert.Contains("Measured 0\u00a0photographed sides, limit 4\u00a0photographed sides. 49 USC 80113(c), shipper's weight, load and count.", text, StringComparison.Ordinal);
            Assert.Single(Figures().Matches(text));
        }

        Assert.EndsWith(", ready with cautions", PickupLetter.ForTerminal(unseen, Written.Names, Written.Link).Subject, StringComparison.Ordinal);
        Assert.DoesNotContain("About the whole pickup", PickupLetter.ForTerminal(ready, Written.Names, Written.Link).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Held_units_are_counted_not_lines()
    {
        var pickup = Written.Pickup([Written.Ready, Written.Held with { Quantity = 7 }, Freight.Loose]);

        Assert.Equal("P-4K7Q2M: 22 handling units Tuesday 14:00–16:00, 7 will be held", PickupLetter.ForTerminal(pickup, Written.Names, Written.Link).Subject);
        Assert.Equal("P-4K7Q2M: 2 pallets Tuesday 14:00–16:00, all will be held", PickupLetter.ForTerminal(Written.Pickup([Written.Held with { Quantity = 2 }]), Written.Names, Written.Link).Subject);
    }

    [Fact]
    public void Cautions_are_named_in_the_subject_when_nothing_is_held()
    {
        var flush = Written.Ready with { Protection = Freight.Wrapped with { CornerBoards = CornerBoards.None } };
        var pickup = Written.Pickup([flush]);

        Assert.Equal(Verdict.ReadyWithCautions, pickup.Verdict);
        Assert.EndsWith(", ready with cautions", PickupLetter.ForTerminal(pickup, Written.Names, Written.Link).Subject, StringComparison.Ordinal);
    }

    [Fact]
    public void The_terminal_reads_who_where_when_and_what_the_truck_finds()
    {
        var text = Written.Flat(PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link).Text);

        foreach (var words in new[]
        {
            "Freight coming: 4 pallets, Tuesday 14:00–16:00",
            "1 of 4 pallets will be held. An exception is asked for.",
            "Tuesday 24 November 2026, 14:00–16:00 (America/Chicago, UTC−06:00)",
            "Bramblewick Glassware",
            "North dock 14 Kiln Lane, Millbrook",
            "Larkspur Motor Freight, Millbrook terminal",
            "Copper Fork, 640\u00a0mi, changes of trailer: 2",
            "53-ft van; the driver may come on the dock",
            "Maya Ortiz, Monday 23 November 2026, 09:05 (America/Chicago, UTC−06:00)",
            "rule set Common practice, version 1",
            "A1; 3 pallets of 64 cartons; 48 × 40 × 45.5\u00a0in, 1,485\u00a0lb each: READY",
            "B2; 1 pallet of 40 cartons; 50 × 44 × 41.5\u00a0in, 945\u00a0lb: HELD",
            "The customer's line stands still. Please take it.",
            "https://fettle.example/pickups/P-4K7Q2M?tab=a&x=1",
        })
            Assert.Contains(words, text, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_finding_is_told_with_its_figure_its_limit_both_with_units_and_its_basis()
    {
        var letter = PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link);
        var text = Written.Flat(letter.Text);
        var findings = oneHeld.Units.SelectMany(unit => unit.Findings).ToArray();

        Assert.Contains(findings, finding => finding.Code == FindingCodes.Overhang);
        Assert.Contains(findings, finding => finding.Code == FindingCodes.TopLoad);
        foreach (var finding in findings)
        {
            Assert.Contains(finding.Message.Say(UnitSystem.Imperial).TrimEnd(), text, StringComparison.Ordinal);
            Assert.Contains("Cure: " + finding.Cure.Say(UnitSystem.Imperial), text, StringComparison.Ordinal);
            Assert.Contains($" {finding.Basis}.", text, StringComparison.Ordinal);
        }

        Assert.Contains("Measured 2\u00a0in, limit 0\u00a0in. Common practice, no source: nothing past the deck's edge.", text, StringComparison.Ordinal);
        Assert.Contains("Measured 1\u00a0turn, limit 2\u00a0turns.", text, StringComparison.Ordinal);
        Assert.Equal(findings.Length, Figures().Count(text));
    }

    [Fact]
    public void No_figure_of_any_finding_is_without_a_unit()
    {
        var codes = typeof(FindingCodes).GetFields().Where(field => field.IsLiteral).Select(field => (string)field.GetRawConstantValue()!);
        var figures = new[] { Quantity.Pieces(3), Quantity.Ratio(0.7), Quantity.Percent(4), (Quantity)Freight.In(2) };
        var template = oneHeld.Units[1].Findings[0];
        Finding[] findings = [.. from code in codes from figure in figures select template with { Code = code, Measured = figure, Limit = figure }];
        var judged = oneHeld.Units[1] with { Findings = findings };

        var text = Written.Flat(PickupLetter.ForTerminal(oneHeld with { Units = [oneHeld.Units[0], judged] }, Written.Names, Written.Link).Text);

        Assert.Equal(findings.Length, Figures().Count(text));
        Assert.True(!BareFigure().IsMatch(text), BareFigure().Match(text).Value);
    }

    [Fact]
    public void The_usual_caution_stands_beside_figures_that_can_hurt_someone()
    {
        var letter = PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link);
        var due = oneHeld.Units.SelectMany(unit => unit.Findings).Select(finding => FindingCodes.CautionFor(finding.Code)).OfType<string>().Distinct().ToArray();

        Assert.NotEmpty(due);
        foreach (var caution in due)
        {
            Assert.Contains("Take care: " + caution, Written.Flat(letter.Text), StringComparison.Ordinal);
            Assert.Contains(caution, Written.Said(Written.Html(letter)));
        }
    }

    [Fact]
    public void No_letter_calls_freight_safe()
    {
        foreach (var letter in Written.All([Written.Ready, Written.Held, Freight.Crate, Freight.Loose], "Please.", Written.Names))
        {
            Assert.DoesNotMatch(Safe(), letter.Text);
            Assert.DoesNotMatch(Safe(), letter.Subject);
            Assert.Contains("It is no promise.", letter.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_text_says_everything_that_the_html_says()
    {
        foreach (var letter in Written.All([Written.Ready, Written.Held, Freight.Crate, Freight.Loose], "Please.\nWe need it.", Written.Names))
        {
            var html = Written.Html(letter);
            // An inbox shows this beside the subject; it is no part of the letter. The names of columns have no place in the text.
            html.QuerySelector("body > div")!.Remove();
            foreach (var head in html.QuerySelectorAll("th").ToArray())
                head.Remove();
            var text = Written.Flat(letter.Text);
            foreach (var piece in Written.Said(html))
                Assert.Contains(piece, text, StringComparison.OrdinalIgnoreCase);
            foreach (var link in html.QuerySelectorAll("a"))
                Assert.Contains(link.GetAttribute("href")!, letter.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Each_unit_is_pictured_for_the_terminal_and_the_held_ones_for_the_shipper()
    {
        var terminal = PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link);
        var shipper = PickupLetter.ForShipper(oneHeld, Written.Names, Written.Link);

        Assert.Equal(2, terminal.Pictures.Count);
        Assert.StartsWith("Pallet of 40 cartons.", Assert.Single(shipper.Pictures).Words, StringComparison.Ordinal);
        Assert.Empty(PickupLetter.ForShipper(ready, Written.Names, Written.Link).Pictures);
        foreach (var letter in new[] { terminal, shipper })
        {
            var images = Written.Html(letter).QuerySelectorAll("img");
            Assert.Equal(letter.Pictures.Select(picture => "cid:" + picture.ContentId), images.Select(image => image.GetAttribute("src")));
            Assert.Equal(letter.Pictures.Select(picture => picture.Words), images.Select(image => image.GetAttribute("alt")));
            foreach (var picture in letter.Pictures)
            {
                using var png = SKBitmap.Decode(picture.Png.Span);
                Assert.Equal(picture.Width * 2, png.Width);
                Assert.Contains(png.Pixels, pixel => pixel != SKColors.White);
            }
        }
    }

    [Fact]
    public void Held_freight_comes_first()
    {
        var text = PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link).Text;

        Assert.True(text.IndexOf("B2: 1 pallet of 40 cartons [Held]", StringComparison.Ordinal) < text.IndexOf("A1: 3 pallets of 64 cartons [Ready]", StringComparison.Ordinal));
    }

    [Fact]
    public void A_large_pickup_stays_small_enough_to_be_mailed()
    {
        HandlingUnit[] lines = [.. Enumerable.Range(1, 150).Select(i => Written.Held with { Reference = $"L{i}", Outer = new(Freight.In(50 + (i * 0.01)), Freight.In(44), Freight.In(41.5)) })];
        var letter = PickupLetter.ForTerminal(Written.Pickup(lines), Written.Names, Written.Link);

        Assert.Equal(12, letter.Pictures.Count);
        Assert.True(letter.Pictures.Sum(picture => picture.Png.Length) < 4_000_000);
        Assert.InRange(letter.Html.Length, 1, 450_000);
        Assert.Contains("The portal has the drawings and findings of all lines.", letter.Text, StringComparison.Ordinal);
        Assert.Contains("And 30 pallets more: the portal has them all.", letter.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Figures_are_in_the_units_of_the_declaration()
    {
        var letter = PickupLetter.ForTerminal(Written.Pickup([Written.Ready, Written.Held], units: UnitSystem.Metric), Written.Names, Written.Link);

        // 2 in = 5.08 cm, 640 statute miles = 1,030 km.
        Assert.Contains("Measured 5.08\u00a0cm, limit 0\u00a0cm.", Written.Flat(letter.Text), StringComparison.Ordinal);
        Assert.Contains("1,030\u00a0km", letter.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("\u00a0in", letter.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("\u00a0lb", letter.Text, StringComparison.Ordinal);
    }

    [Theory]
    // Clocks in Chicago went back on 1 November 2026: the same UTC hour is another on the dock.
    [InlineData("2026-10-30T19:00Z", "2026-10-30T21:00Z", "America/Chicago", "Friday 30 October 2026, 14:00–16:00 (America/Chicago, UTC−05:00)", "Fri 30 Oct 14:00–16:00")]
    [InlineData("2026-11-24T22:00Z", "2026-11-25T08:00Z", "America/Chicago", "Tuesday 24 November 2026, 16:00 – Wednesday 25 November 2026, 02:00 (America/Chicago, UTC−06:00)", "Tuesday 16:00–Wednesday 02:00")]
    [InlineData("2026-12-08T20:00Z", "2026-12-08T22:00Z", "America/Denver", "Tuesday 8 December 2026, 13:00–15:00 (America/Denver, UTC−07:00)", "Tue 8 Dec 13:00–15:00")]
    [InlineData("2026-11-24T20:00Z", "2026-11-24T22:00Z", "Nowhere/Atall", "Tuesday 24 November 2026, 20:00–22:00 (UTC)", "Tuesday 20:00–22:00")]
    public void Times_are_on_the_sites_clock_with_its_zone_named(string from, string to, string zone, string whole, string brief)
    {
        var window = new PickupWindow(DateTimeOffset.Parse(from, null), DateTimeOffset.Parse(to, null), zone);
        var letter = PickupLetter.ForTerminal(Written.Pickup([Written.Ready], window: window), Written.Names, Written.Link);

        Assert.Contains(whole, Written.Flat(letter.Text), StringComparison.Ordinal);
        Assert.Contains(brief, letter.Subject, StringComparison.Ordinal);
    }

    [Fact]
    public void The_calendar_entry_reads_back_with_the_windows_times_and_a_lasting_name()
    {
        var letter = PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link, sequence: 2);
        var calendar = Ical.Net.Calendar.Load(letter.Calendar!.Content)!;
        var entry = Assert.Single(calendar.Events);

        Assert.Equal("PUBLISH", calendar.Method);
        Assert.Equal($"{Written.PickupId:D}@fettle", entry.Uid);
        Assert.Equal(2, entry.Sequence);
        Assert.Equal(Written.Window.From.UtcDateTime, entry.DtStart!.AsUtc);
        Assert.Equal(Written.Window.To.UtcDateTime, entry.DtEnd!.AsUtc);
        Assert.Equal(Written.Submitted.UtcDateTime, entry.DtStamp!.AsUtc);
        Assert.Contains("DTSTART:20261124T200000Z", letter.Calendar.Content, StringComparison.Ordinal);
        Assert.Equal("North dock, 14 Kiln Lane, Millbrook", entry.Location);
        Assert.Equal("P-4K7Q2M: 4 pallets from Bramblewick Glassware", entry.Summary);
        Assert.Equal(Written.Link, entry.Url);
        Assert.Equal("P-4K7Q2M.ics", letter.Calendar.FileName);
        Assert.Equal(entry.Uid, Ical.Net.Calendar.Load(PickupLetter.ForShipper(oneHeld, Written.Names, Written.Link).Calendar!.Content)!.Events.Single().Uid);
    }

    [Fact]
    public void The_same_pickup_gives_the_same_letter()
    {
        var once = PickupLetter.ForTerminal(oneHeld, Written.Names, Written.Link);
        var again = PickupLetter.ForTerminal(Written.Pickup([Written.Ready, Written.Held], oneHeld.ExceptionRequest), Written.Names, Written.Link);

        Assert.Equal(once.Text, again.Text);
        Assert.Equal(once.Html, again.Html);
        Assert.Equal(once.Calendar, again.Calendar);
        Assert.Equal(once.Pictures.Select(picture => Convert.ToBase64String(picture.Png.Span)), again.Pictures.Select(picture => Convert.ToBase64String(picture.Png.Span)));
    }

    [Theory]
    [InlineData("javascript:alert(1)")]
    [InlineData("file:///etc/passwd")]
    [InlineData("/pickups/1")]
    public void A_link_that_is_no_web_address_is_refused(string link) =>
        Assert.Throws<ArgumentException>(() => PickupLetter.ForTerminal(ready, Written.Names, new Uri(link, UriKind.RelativeOrAbsolute)));

    [GeneratedRegex(@"Measured [^.]*?\d[^,]*?, limit |Measured film")]
    private static partial Regex Figures();

    [GeneratedRegex(@"(Measured|limit) -?[\d.,]+[,.] ")]
    private static partial Regex BareFigure();

    [GeneratedRegex(@"\bsafe(ly|ty)?\b|guarantee", RegexOptions.IgnoreCase)]
    private static partial Regex Safe();
}
