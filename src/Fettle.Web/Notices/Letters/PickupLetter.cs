using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Web.Drawings;

namespace Fettle.Web.Notices.Letters;

/// <summary>What is written when a pickup has been submitted.</summary>
public static class PickupLetter
{
    /// <summary>To the carrier's terminal: freight is coming, what it is, and what of it will be held.</summary>
    /// <param name="link">The pickup in the portal.</param>
    /// <param name="sequence">How often the pickup has been moved, for calendars.</param>
    /// <exception cref="ArgumentException"><paramref name="link"/> is not a whole web address.</exception>
    public static Letter ForTerminal(Pickup pickup, PickupNames names, Uri link, int sequence = 0)
    {
        var freight = new Freight(pickup);
        var subject = Plain.Line($"{pickup.Header.Number}: {freight.Count} {freight.When}, {freight.Outcome(T("will be held"))}");
        var sheet = new Sheet();
        sheet.Title(T("Freight coming: {0}, {1}", freight.Count, freight.When));
        sheet.Banner(freight.Tone, freight.Held == 0
            ? freight.HasCautions ? T("Ready, with cautions: nothing will be held.") : T("Ready: nothing will be held.")
            : T("{0} will be held. {1}", Capital(freight.HeldOfAll), T(pickup.ExceptionRequest is null ? "No exception was asked for." : "An exception is asked for.")));
        Facts(sheet, pickup, names);
        Table(sheet, freight);
        WholePickup(sheet, pickup);
        if (pickup.ExceptionRequest is { } request && freight.Held > 0)
        {
            sheet.Heading(T("Exception asked for"));
            sheet.Paragraph(T("{0} of {1} writes:", pickup.SubmittedBy.Name, names.Shipper));
            sheet.Quote(request);
        }

        sheet.Link(freight.Held > 0 ? T("Look at it and decide") : T("Open the pickup"), FreightPages.Web(link));
        var pictures = Lines(sheet, freight, freight.Lines, Severity.Tip);
        sheet.Small(FreightPages.NoPromise);
        return new(
            subject,
            sheet.Text,
            sheet.Html(subject, $"{names.Shipper}, {names.Site}. {freight.Outcome(T("will be held"))}."),
            pictures,
            PickupCalendar.Of(pickup, names, T("{0}: {1} from {2}", pickup.Header.Number, freight.Count, names.Shipper), T("{0} from {1} to {2}; {3}.", freight.Count, names.Shipper, pickup.Header.Destination, freight.Outcome(T("will be held"))), link, sequence));
    }

    /// <summary>To the shipper: booked, or held from the start with what to put right.</summary>
    /// <inheritdoc cref="ForTerminal"/>
    public static Letter ForShipper(Pickup pickup, PickupNames names, Uri link, int sequence = 0)
    {
        var freight = new Freight(pickup);
        var subject = Plain.Line(freight.Held == 0
            ? T("{0}: booked, {1} {2}", pickup.Header.Number, freight.Count, freight.When)
            : T("{0}: {1} held from the start, pickup {2}", pickup.Header.Number, freight.HeldOfAll, freight.When));
        var sheet = new Sheet();
        sheet.Title(freight.Held == 0 ? T("Booked: {0}, {1}", freight.Count, freight.When) : T("Submitted: {0} held from the start", freight.HeldOfAll));
        sheet.Banner(freight.Tone, freight.Held == 0
            ? T("{0} of {1} has been told. Nothing is held.", names.Terminal, names.Carrier)
            : pickup.ExceptionRequest is null
                ? T("Held freight does not move until the terminal decides. Put it right before the truck comes.")
                : T("Held freight does not move until the terminal decides. It has your request for an exception."));
        Facts(sheet, pickup, names);
        Table(sheet, freight);
        WholePickup(sheet, pickup);
        if (pickup.ExceptionRequest is { } request && freight.Held > 0)
        {
            sheet.Heading(T("You asked for an exception"));
            sheet.Quote(request);
        }

        sheet.Link(freight.Held > 0 ? T("See what to put right") : T("Open the pickup, labels and papers"), FreightPages.Web(link));
        LetterPicture[] pictures = [];
        if (freight.HeldLines.Count > 0)
        {
            sheet.Heading(T("What to put right"));
            pictures = Lines(sheet, freight, freight.HeldLines, Severity.Caution);
        }

        var others = freight.Lines.Except(freight.HeldLines).Where(line => line.Judgement.Findings.Count > 0).ToArray();
        if (others.Length > 0)
        {
            sheet.Heading(T("May travel, worth a look"));
            foreach (var line in others.Take(FreightPages.MostLines))
            {
                Heading(sheet, line);
                FreightPages.Findings(sheet, line.Judgement.Findings, pickup.Declaration.Units);
            }
        }

        sheet.Small(FreightPages.NoPromise);
        return new(
            subject,
            sheet.Text,
            sheet.Html(subject, freight.Held == 0 ? T("{0}, {1}. Nothing is held.", names.Carrier, names.Terminal) : T("What to put right before the truck comes.")),
            pictures,
            PickupCalendar.Of(pickup, names, T("{0}: {1} picks up {2}", pickup.Header.Number, names.Carrier, freight.Count), T("{0} to {1}; {2}.", freight.Count, pickup.Header.Destination, freight.Outcome(T("held"))), link, sequence));
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static void Facts(Sheet sheet, Pickup pickup, PickupNames names)
    {
        var (header, declaration) = (pickup.Header, pickup.Declaration);
        sheet.Facts(
            (T("Pickup"), header.Number),
            (T("When"), Moments.Long(header.Window)),
            (T("Shipper"), names.Shipper),
            (T("Where"), $"{names.Site}\n{names.SiteAddress}"),
            (T("Carrier"), T("{0}, {1} terminal", names.Carrier, names.Terminal)),
            (T("To"), T("{0}, {1}, changes of trailer: {2}{3}", header.Destination, Quantity.Miles(declaration.Lane.Miles).Show(declaration.Units, System.Globalization.CultureInfo.InvariantCulture), declaration.Lane.Transfers.ToString(System.Globalization.CultureInfo.InvariantCulture), declaration.Lane.CrossBorder ? T(", across a border") : "")),
            (T("Truck"), $"{FreightWords.Equipment(header.Equipment)}; {T(declaration.DriverOnDock ? "the driver may come on the dock" : "the driver stays off the dock: shipper's load and count")}"),
            (T("Submitted"), $"{pickup.SubmittedBy.Name}, {Moments.Long(pickup.SubmittedAt, header.Window)}"),
            (T("Checked by"), T("rule set {0}", pickup.RuleSet.Say())));
    }

    private static void Table(Sheet sheet, Freight freight)
    {
        sheet.Table(
            [T("Line"), T("What"), T("Size and weight"), T("Verdict")],
            [.. freight.Lines.Take(FreightPages.MostLines * 3).Select(line =>
            {
                var (tone, words) = FreightWords.Verdict(line.Judgement.Verdict);
                IReadOnlyList<string> cells = [line.Unit.Reference, What(line.Unit), FreightWords.SizeAndWeight(line.Unit, freight.Units)];
                return (cells, tone, words);
            })]);
        if (freight.Lines.Count > FreightPages.MostLines * 3)
            sheet.Paragraph(T("And {0} more: the portal has them all.", FreightWords.Count([.. freight.Lines.Skip(FreightPages.MostLines * 3).Select(line => (line.Unit.Kind, line.Unit.Quantity))])));
    }

    private static void WholePickup(Sheet sheet, Pickup pickup)
    {
        if (pickup.Findings.Count == 0)
            return;
        sheet.Heading(T("About the whole pickup"));
        FreightPages.Findings(sheet, pickup.Findings, pickup.Declaration.Units);
    }

    /// <summary>Line by line, the held ones first: the drawing and the findings. Returns the drawings.</summary>
    private static LetterPicture[] Lines(Sheet sheet, Freight freight, IReadOnlyList<Line> lines, Severity least)
    {
        var pictures = new List<LetterPicture>();
        foreach (var line in lines.OrderByDescending(line => line.Judgement.Verdict).Take(FreightPages.MostLines))
        {
            Heading(sheet, line);
            if (pictures.Count < FreightPages.MostPictures)
            {
                var picture = FreightPages.Picture(line.Unit, freight.Units);
                if (!pictures.Exists(had => had.ContentId == picture.ContentId))
                    pictures.Add(picture);
                sheet.Picture(picture);
            }
            else
            {
                sheet.InText(UnitDrawing.Describe(line.Unit, freight.Units));
            }

            if (line.Judgement.Findings.Count == 0)
                sheet.Paragraph(T("The checks found nothing."));
            FreightPages.Findings(sheet, line.Judgement.Findings, freight.Units, least);
        }

        if (lines.Count > FreightPages.MostPictures)
            sheet.Paragraph(T("The portal has the drawings and findings of all lines."));
        return [.. pictures];
    }

    private static void Heading(Sheet sheet, Line line)
    {
        var (tone, words) = FreightWords.Verdict(line.Judgement.Verdict);
        sheet.Heading($"{line.Unit.Reference}: {What(line.Unit)}", tone, words);
    }

    private static string What(HandlingUnit unit)
    {
        var what = ContentsInWords.Of(unit.Contents).Say(UnitSystem.Imperial);
        return unit.Kind is HandlingUnitKind.LooseCarton or HandlingUnitKind.Drum && ContentsInWords.IsCounted(unit.Contents)
            ? FreightWords.Count(unit)
            : T(ContentsInWords.IsCounted(unit.Contents) ? "{0} of {1}" : "{0}: {1}", FreightWords.Count(unit), what);
    }

    private sealed record Line(HandlingUnit Unit, UnitJudgement Judgement);

    /// <summary>A pickup's lines with what was judged about them, counted.</summary>
    private sealed class Freight
    {
        public Freight(Pickup pickup)
        {
            Units = pickup.Declaration.Units;
            Lines = [.. pickup.Declaration.HandlingUnits.Select(unit => new Line(unit, pickup.Units.First(judged => judged.Reference == unit.Reference)))];
            HeldLines = [.. Lines.Where(line => line.Judgement.Verdict == Verdict.Hold)];
            Count = Counted(Lines);
            When = Moments.Short(pickup.Header.Window, pickup.SubmittedAt);
            Held = HeldLines.Sum(line => (long)line.Unit.Quantity);
            HasCautions = pickup.Verdict == Verdict.ReadyWithCautions;
        }

        public UnitSystem Units { get; }

        public IReadOnlyList<Line> Lines { get; }

        public IReadOnlyList<Line> HeldLines { get; }

        /// <summary>"4 pallets".</summary>
        public string Count { get; }

        /// <summary>"Tuesday 14:00–16:00".</summary>
        public string When { get; }

        public long Held { get; }

        public bool HasCautions { get; }

        public Tone Tone => Held > 0 ? Tone.Stop : HasCautions ? Tone.Caution : Tone.Good;

        /// <summary>"1 of 4 pallets", or "All 4 pallets".</summary>
        public string HeldOfAll => HeldLines.Count == Lines.Count
            ? Lines.Sum(line => (long)line.Unit.Quantity) == 1 ? Count : T("all {0}", Count)
            : T("{0:#,0} of {1}", Held, Count);

        /// <summary>"1 will be held", "all will be held", "ready" or "ready with cautions".</summary>
        public string Outcome(string held) => Held > 0
            ? HeldLines.Count == Lines.Count ? T("all {0}", held) : $"{Held.ToString("#,0", System.Globalization.CultureInfo.InvariantCulture)} {held}"
            : HasCautions ? T("ready with cautions") : T("ready");

        private static string Counted(IEnumerable<Line> lines) => FreightWords.Count(lines.Select(line => (line.Unit.Kind, line.Unit.Quantity)));
    }
}
