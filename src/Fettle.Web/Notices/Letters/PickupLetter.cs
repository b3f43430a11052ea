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
        var subject = Plain.Line($"{pickup.Header.Number}: {freight.Count} {freight.When}, {freight.Outcome("will be held")}");
        var sheet = new Sheet();
        sheet.Title($"Freight coming: {freight.Count}, {freight.When}");
        sheet.Banner(freight.Tone, freight.Held == 0
            ? freight.HasCautions ? "Ready, with cautions: nothing will be held." : "Ready: nothing will be held."
            : $"{Capital(freight.HeldOfAll)} will be held. {(pickup.ExceptionRequest is null ? "No exception was asked for." : "An exception is asked for.")}");
        Facts(sheet, pickup, names);
        Table(sheet, freight);
        if (pickup.ExceptionRequest is { } request && freight.Held > 0)
        {
            sheet.Heading("Exception asked for");
            sheet.Paragraph($"{pickup.SubmittedBy.Name} of {names.Shipper} writes:");
            sheet.Quote(request);
        }

        sheet.Link(freight.Held > 0 ? "Look at it and decide" : "Open the pickup", FreightPages.Web(link));
        var pictures = Lines(sheet, freight, freight.Lines, Severity.Tip);
        sheet.Small(FreightPages.NoPromise);
        return new(
            subject,
            sheet.Text,
            sheet.Html(subject, $"{names.Shipper}, {names.Site}. {freight.Outcome("will be held")}."),
            pictures,
            PickupCalendar.Of(pickup, names, $"{pickup.Header.Number}: {freight.Count} from {names.Shipper}", $"{freight.Count} from {names.Shipper} to {pickup.Header.Destination}; {freight.Outcome("will be held")}.", link, sequence));
    }

    /// <summary>To the shipper: booked, or held from the start with what to put right.</summary>
    /// <inheritdoc cref="ForTerminal"/>
    public static Letter ForShipper(Pickup pickup, PickupNames names, Uri link, int sequence = 0)
    {
        var freight = new Freight(pickup);
        var subject = Plain.Line(freight.Held == 0
            ? $"{pickup.Header.Number}: booked, {freight.Count} {freight.When}"
            : $"{pickup.Header.Number}: {freight.HeldOfAll} held from the start, pickup {freight.When}");
        var sheet = new Sheet();
        sheet.Title(freight.Held == 0 ? $"Booked: {freight.Count}, {freight.When}" : $"Submitted: {freight.HeldOfAll} held from the start");
        sheet.Banner(freight.Tone, freight.Held == 0
            ? $"{names.Terminal} of {names.Carrier} has been told. Nothing is held."
            : pickup.ExceptionRequest is null
                ? "Held freight does not move until the terminal decides. Put it right before the truck comes."
                : "Held freight does not move until the terminal decides. It has your request for an exception.");
        Facts(sheet, pickup, names);
        Table(sheet, freight);
        if (pickup.ExceptionRequest is { } request && freight.Held > 0)
        {
            sheet.Heading("You asked for an exception");
            sheet.Quote(request);
        }

        sheet.Link(freight.Held > 0 ? "See what to put right" : "Open the pickup, labels and papers", FreightPages.Web(link));
        LetterPicture[] pictures = [];
        if (freight.HeldLines.Count > 0)
        {
            sheet.Heading("What to put right");
            pictures = Lines(sheet, freight, freight.HeldLines, Severity.Caution);
        }

        var others = freight.Lines.Except(freight.HeldLines).Where(line => line.Judgement.Findings.Count > 0).ToArray();
        if (others.Length > 0)
        {
            sheet.Heading("May travel, worth a look");
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
            sheet.Html(subject, freight.Held == 0 ? $"{names.Carrier}, {names.Terminal}. Nothing is held." : "What to put right before the truck comes."),
            pictures,
            PickupCalendar.Of(pickup, names, $"{pickup.Header.Number}: {names.Carrier} picks up {freight.Count}", $"{freight.Count} to {pickup.Header.Destination}; {freight.Outcome("held")}.", link, sequence));
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static void Facts(Sheet sheet, Pickup pickup, PickupNames names)
    {
        var (header, declaration) = (pickup.Header, pickup.Declaration);
        sheet.Facts(
            ("Pickup", header.Number),
            ("When", Moments.Long(header.Window)),
            ("Shipper", names.Shipper),
            ("Where", $"{names.Site}\n{names.SiteAddress}"),
            ("Carrier", $"{names.Carrier}, {names.Terminal} terminal"),
            ("To", $"{header.Destination}, {Quantity.Miles(declaration.Lane.Miles).Show(declaration.Units, System.Globalization.CultureInfo.InvariantCulture)}, changes of trailer: {declaration.Lane.Transfers.ToString(System.Globalization.CultureInfo.InvariantCulture)}{(declaration.Lane.CrossBorder ? ", across a border" : "")}"),
            ("Truck", $"{FreightWords.Equipment(header.Equipment)}; {(declaration.DriverOnDock ? "the driver may come on the dock" : "the driver stays off the dock: shipper's load and count")}"),
            ("Submitted", $"{pickup.SubmittedBy.Name}, {Moments.Long(pickup.SubmittedAt, header.Window)}"),
            ("Checked by", $"rule set {pickup.RuleSet}"));
    }

    private static void Table(Sheet sheet, Freight freight)
    {
        sheet.Table(
            ["Line", "What", "Size and weight", "Verdict"],
            [.. freight.Lines.Take(FreightPages.MostLines * 3).Select(line =>
            {
                var (tone, words) = FreightWords.Verdict(line.Judgement.Verdict);
                IReadOnlyList<string> cells = [line.Unit.Reference, What(line.Unit), FreightWords.SizeAndWeight(line.Unit, freight.Units)];
                return (cells, tone, words);
            })]);
        if (freight.Lines.Count > FreightPages.MostLines * 3)
            sheet.Paragraph($"And {FreightWords.Count([.. freight.Lines.Skip(FreightPages.MostLines * 3).Select(line => (line.Unit.Kind, line.Unit.Quantity))])} more: the portal has them all.");
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
                sheet.Paragraph("The checks found nothing.");
            FreightPages.Findings(sheet, line.Judgement.Findings, freight.Units, least);
        }

        if (lines.Count > FreightPages.MostPictures)
            sheet.Paragraph("The portal has the drawings and findings of all lines.");
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
            : $"{FreightWords.Count(unit)}{(ContentsInWords.IsCounted(unit.Contents) ? " of " : ": ")}{what}";
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
        }

        public UnitSystem Units { get; }

        public IReadOnlyList<Line> Lines { get; }

        public IReadOnlyList<Line> HeldLines { get; }

        /// <summary>"4 pallets".</summary>
        public string Count { get; }

        /// <summary>"Tuesday 14:00–16:00".</summary>
        public string When { get; }

        public long Held { get; }

        public bool HasCautions => Lines.Any(line => line.Judgement.Verdict == Verdict.ReadyWithCautions);

        public Tone Tone => Held > 0 ? Tone.Stop : HasCautions ? Tone.Caution : Tone.Good;

        /// <summary>"1 of 4 pallets", or "All 4 pallets".</summary>
        public string HeldOfAll => HeldLines.Count == Lines.Count
            ? Lines.Sum(line => (long)line.Unit.Quantity) == 1 ? Count : $"all {Count}"
            : $"{Held.ToString("#,0", System.Globalization.CultureInfo.InvariantCulture)} of {Count}";

        /// <summary>"1 will be held", "all will be held", "ready" or "ready with cautions".</summary>
        public string Outcome(string held) => Held > 0
            ? HeldLines.Count == Lines.Count ? $"all {held}" : $"{Held.ToString("#,0", System.Globalization.CultureInfo.InvariantCulture)} {held}"
            : HasCautions ? "ready with cautions" : "ready";

        private static string Counted(IEnumerable<Line> lines) => FreightWords.Count(lines.Select(line => (line.Unit.Kind, line.Unit.Quantity)));
    }
}
