using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;

namespace Fettle.Web.Notices.Letters;

/// <summary>Whom a letter about a hold is for.</summary>
public enum HoldReader
{
    Shipper,
    Terminal,

    /// <summary>The carrier's account managers, who are told when a time has passed.</summary>
    Accounts,
}

/// <summary>What is written when freight is held, and when the terminal has decided about it.</summary>
public static class HoldLetter
{
    /// <summary>Freight of one line is held: why, since when, and who decides by when.</summary>
    /// <param name="link">The hold in the portal.</param>
    /// <exception cref="ArgumentException"><paramref name="link"/> is not a whole web address.</exception>
    public static Letter Placed(HoldPlaced placed, PickupNames names, Uri link, HoldReader reader)
    {
        var window = placed.Pickup.Window;
        var count = FreightWords.Count(placed.HandlingUnit);
        var by = Moments.Short(placed.DecideBy, window, placed.At);
        var subject = Plain.Line(reader switch
        {
            HoldReader.Shipper => T("{0}: {1} held until {2} decides", placed.Number, count, names.Terminal),
            HoldReader.Terminal or HoldReader.Accounts => T("{0}: {1} held, decide by {2}", placed.Number, count, by),
        });
        var sheet = new Sheet();
        sheet.Title(T("Held: {0}, {1}", placed.Number, count));
        sheet.Banner(Tone.Stop, reader switch
        {
            // What was inspected has been picked up: no truck waits for it any more.
            HoldReader.Shipper when placed.InspectionId is not null => T("It does not move until {0} decides. Answer before then: your time ends {1}.", names.Terminal, by),
            HoldReader.Shipper => T("It does not move until {0} decides. The truck leaves {1}.", names.Terminal, Moments.Short(window.To, window, placed.At)),
            HoldReader.Terminal or HoldReader.Accounts => T("It must not move until you decide, at the latest {0}.", by),
        });
        Facts(sheet, placed, names);
        if (placed.ExceptionRequest is { } request)
        {
            sheet.Heading(reader == HoldReader.Shipper ? T("You asked for an exception") : T("Exception asked for"));
            sheet.Quote(request);
        }

        sheet.Link(reader switch { HoldReader.Shipper => T("See what to put right"), HoldReader.Terminal or HoldReader.Accounts => T("Look at it and decide") }, FreightPages.Web(link));
        sheet.Heading(T("Why it is held"));
        var picture = Freight(sheet, placed);
        sheet.Small(FreightPages.NoPromise);
        return new(subject, sheet.Text, sheet.Html(subject, placed.Reason.Say(placed.Units)), [picture], null);
    }

    /// <summary>To the shipper: what was decided about held freight, why, by whom and when, and what to do next.</summary>
    /// <param name="link">The hold in the portal.</param>
    /// <exception cref="ArgumentException">The hold is still open, or <paramref name="link"/> is not a whole web address.</exception>
    public static Letter Decided(Hold hold, PickupNames names, Uri link)
    {
        var placed = hold.Placed;
        var decided = hold.Decided ?? throw new ArgumentException("The hold is still open.", nameof(hold));
        var outcome = FreightWords.Decided(decided.Decision);
        var count = FreightWords.Count(placed.HandlingUnit);
        var (tone, next) = Next(decided.Decision, names);
        var subject = Plain.Line($"{placed.Number}: {outcome} ({count})");
        var sheet = new Sheet();
        sheet.Title($"{placed.Number}: {outcome}");
        sheet.Banner(tone, next.Meaning);
        sheet.Facts(
            (T("Freight"), T("{0} of {1}, line {2}", count, names.Shipper, placed.HandlingUnit.Reference)),
            (T("Decided"), $"{decided.By.Name}, {names.Terminal}\n{Moments.Long(decided.At, placed.Pickup.Window)}"),
            (T("Carrier"), names.Carrier),
            (T("To"), placed.Pickup.Destination),
            (T("Checked by"), CheckedBy(placed)));
        sheet.Heading(T("Reason"));
        sheet.Quote(decided.Reason);
        if (decided.Exception is { } terms)
        {
            sheet.Heading(T("Exception {0}", terms.Number));
            sheet.Facts(
                (T("Risk"), terms.Risk),
                (T("Accepted by"), terms.AcceptedBy),
                (T("Until"), Moments.Long(terms.Until, placed.Pickup.Window)),
                (T("Conditions"), terms.Conditions));
        }

        if (decided.Supersedes is not null)
            sheet.Paragraph(T("This takes the place of an earlier decision about the same freight."));
        sheet.Heading(T("What to do next"));
        sheet.Paragraph(next.Step);
        sheet.Link(T("Open the hold"), FreightPages.Web(link));
        sheet.Heading(T("Why it was held"));
        var picture = Freight(sheet, placed);
        sheet.Small(FreightPages.NoPromise);
        return new(subject, sheet.Text, sheet.Html(subject, string.Join(' ', Plain.Lines(decided.Reason))), [picture], null);
    }

    private static void Facts(Sheet sheet, HoldPlaced placed, PickupNames names)
    {
        var window = placed.Pickup.Window;
        sheet.Facts(
            (T("Freight"), $"{FreightWords.Count(placed.HandlingUnit)}, {FreightWords.SizeAndWeight(placed.HandlingUnit, placed.Units)}"),
            (T("Shipper"), $"{names.Shipper}, {names.Site}"),
            (T("Terminal"), $"{names.Terminal}, {names.Carrier}"),
            (T("To"), placed.Pickup.Destination),
            (T("Pickup"), Moments.Long(window)),
            (T("Declared by"), placed.DeclaredBy.Name),
            (T("Held since"), Moments.Long(placed.At, window)),
            (T("Decide by"), Moments.Long(placed.DecideBy, window)),
            (T("Checked by"), CheckedBy(placed)));
    }

    private static string CheckedBy(HoldPlaced placed) =>
        string.Join("; ", placed.Findings.Select(finding => finding.RuleSet).Distinct().Select(ruleSet => T("rule set {0}", ruleSet.Say())));

    private static LetterPicture Freight(Sheet sheet, HoldPlaced placed)
    {
        // The usual reason is the stopping findings in a row, and each of them is told below.
        Phrase[] stops = [.. placed.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Message)];
        if (stops.Length == 0 || !placed.Reason.Equals(Phrase.Join(" ", stops)))
            sheet.Paragraph(placed.Reason.Say(placed.Units));
        var picture = FreightPages.Picture(placed.HandlingUnit, placed.Units);
        sheet.Picture(picture);
        FreightPages.Findings(sheet, placed.Findings, placed.Units, Severity.Caution);
        return picture;
    }

    private static (Tone Tone, (string Meaning, string Step) Next) Next(HoldDecision decision, PickupNames names) => decision switch
    {
        HoldDecision.Release => (Tone.Good, (
            T("The freight conforms and goes on."),
            T("Nothing. The decision stays with the pickup's record."))),
        HoldDecision.ReleaseAsException => (Tone.Caution, (
            T("The freight does not conform and goes on all the same, for the reason given."),
            T("Nothing for this freight. The exception is recorded and will be read if there is a claim: build the next ones as the cures below say."))),
        HoldDecision.Rework => (Tone.Caution, (
            T("{0} rebuilds the freight before it goes on.", names.Terminal),
            T("Expect it to leave later, and charges by the tariff of {0}. Ask the terminal what was changed, and build the next ones as the cures below say.", names.Carrier))),
        HoldDecision.Return => (Tone.Stop, (
            T("The freight comes back to you."),
            T("Agree with the terminal when it comes back. Put right what is named below, then declare it on a new pickup."))),
        HoldDecision.Refuse => (Tone.Stop, (
            T("{0} does not take this freight.", names.Carrier),
            T("It stays with you. Put right what is named below and declare it on a new pickup, or arrange other transport."))),
    };
}
