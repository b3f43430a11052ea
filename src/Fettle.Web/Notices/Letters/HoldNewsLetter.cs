using Fettle.Readiness.Holds;

namespace Fettle.Web.Notices.Letters;

/// <summary>What is written when something happens to held freight between its placing and its decision.</summary>
public static class HoldNewsLetter
{
    /// <param name="happened">A message, an offer, an answer, a reminder or an escalation.</param>
    /// <param name="link">The hold in the portal.</param>
    /// <exception cref="ArgumentException"><paramref name="link"/> is not a whole web address, or nothing is written about what happened.</exception>
    public static Letter Of(HoldPlaced placed, HoldEvent happened, PickupNames names, Uri link, HoldReader reader)
    {
        var news = NewsOf(placed, happened, names, reader);
        var window = placed.Pickup.Window;
        var subject = Plain.Line($"{placed.Number}: {news.Title}");
        var sheet = new Sheet();
        sheet.Title(subject);
        sheet.Banner(news.Tone, news.Meaning);
        if (news.Quote is { } quote)
            sheet.Quote(quote);
        sheet.Facts(
        [
            .. news.Facts,
            (T("Freight"), T("{0} of {1}, line {2}", FreightWords.Count(placed.HandlingUnit), names.Shipper, placed.HandlingUnit.Reference)),
            (T("Terminal"), $"{names.Terminal}, {names.Carrier}"),
            (T("Held since"), Moments.Long(placed.At, window)),
        ]);
        sheet.Link(reader == HoldReader.Accounts ? T("Open the hold") : T("Open the hold and answer"), FreightPages.Web(link));
        sheet.Heading(T("Why it is held"));
        sheet.Paragraph(placed.Reason.Say(placed.Units));
        sheet.Small(FreightPages.NoPromise);
        return new(subject, sheet.Text, sheet.Html(subject, news.Quote is null ? news.Meaning : string.Join(' ', Plain.Lines(news.Quote))), [], null);
    }

    private static News NewsOf(HoldPlaced placed, HoldEvent happened, PickupNames names, HoldReader reader)
    {
        var window = placed.Pickup.Window;
        string When(DateTimeOffset at) => Moments.Long(at, window);
        string By(Readiness.Actor by, DateTimeOffset at) => $"{by.Name}\n{When(at)}";
        return happened switch
        {
            HoldMessageSent e => new(Tone.Calm, T("message from {0}", e.By.Name), T("{0} writes about freight that is held.", e.By.Name), e.Text, [(T("Written by"), By(e.By, e.At))]),
            ReworkOffered e => new(
                Tone.Caution,
                T("rework offered at {0}", e.Cost.ToString()),
                T("{0} would put it right at {1}, if you authorise it by {2}.", names.Terminal, e.Cost.ToString(), Moments.Short(e.ValidUntil, window, e.At)),
                e.Work,
                [(T("Cost"), e.Cost.ToString()), (T("Offer stands until"), When(e.ValidUntil)), (T("Offered by"), By(e.By, e.At))]),
            ReworkOfferWithdrawn e => new(Tone.Caution, T("offer of rework withdrawn"), T("The offer of rework no longer stands."), e.Reason, [(T("Withdrawn by"), By(e.By, e.At))]),
            ReworkAuthorised e => new(
                Tone.Good,
                T("rework authorised at {0}", e.Cost.ToString()),
                T("{0} pays {1} for the rework that you offered. Decide “Rework here” when it begins.", names.Shipper, e.Cost.ToString()),
                null,
                [(T("Cost"), e.Cost.ToString()), (T("Authorised by"), By(e.By, e.At))]),
            HoldDeclarationCorrected e => new(
                e.Verdict == Readiness.Findings.Verdict.Hold ? Tone.Stop : Tone.Good,
                T("declaration corrected"),
                e.Verdict == Readiness.Findings.Verdict.Hold
                    ? T("{0} declares the line anew. By the check it would still be held.", names.Shipper)
                    : T("{0} declares the line anew. By the check nothing stops it any more: measure it before you release it.", names.Shipper),
                null,
                [(T("Declared by"), By(e.By, e.At)), (T("Checked by"), T("rule set {0}", e.RuleSet.Say()))]),
            HoldExceptionRequested e => new(Tone.Caution, T("exception asked for"), T("{0} asks that it travels as it is.", names.Shipper), e.Reason, [(T("Asked by"), By(e.By, e.At))]),
            HoldDisputed e => new(Tone.Caution, T("hold disputed"), T("{0} says that the hold is wrong.", names.Shipper), e.Evidence, [(T("Written by"), By(e.By, e.At))]),
            HoldReminded e => new(
                Tone.Caution,
                reader == HoldReader.Shipper ? T("answer by {0}", Moments.Short(e.By, window, e.At)) : T("decide by {0}", Moments.Short(e.By, window, e.At)),
                reader == HoldReader.Shipper
                    ? T("The terminal waits for your answer. Your time ends {0}.", When(e.By))
                    : T("The shipper waits for your decision. Your time ends {0}.", When(e.By)),
                null,
                [(T("Waiting since"), When(e.Since)), (T("Time ends"), When(e.By))]),
            HoldEscalated e => new(
                Tone.Stop,
                e.Side == HoldSide.Shipper ? T("overdue, {0} has not answered", names.Shipper) : T("overdue, {0} has not decided", names.Terminal),
                e.Side == HoldSide.Shipper
                    ? T("The time of {0} to answer is over. The freight still stands there: decide, or telephone.", names.Shipper)
                    : T("The time of {0} to decide is over. The freight still stands there: decide, or telephone.", names.Terminal),
                null,
                [(T("Waiting since"), When(e.Since)), (T("Time ended"), When(e.By))]),
            _ => throw new ArgumentException($"Nothing is written about {happened.GetType().Name}.", nameof(happened)),
        };
    }

    private sealed record News(Tone Tone, string Title, string Meaning, string? Quote, IReadOnlyList<(string Name, string Value)> Facts);
}
