using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Web.Declarations;
using Fettle.Web.Drawings;
using Fettle.Web.Identity;
using Fettle.Web.Papers;
using Fettle.Web.Parties;
using Fettle.Web.RuleSets;
using Marten;

namespace Fettle.Web.BuildSheets;

/// <summary>Finds the lines of a pickup, submitted or still a draft, that build sheets are made of.</summary>
public sealed class BuildSheetDesk(IDocumentStore store, TimeProvider clock, CarrierRuleBook rules)
{
    /// <summary>Null when there is no such pickup that the caller may see.</summary>
    public async Task<PickupLines?> LinesAsync(Guid id, Caller caller, CancellationToken cancel)
    {
        await using var session = store.QuerySession();
        if (await session.LoadAsync<Pickup>(id, cancel) is { } pickup)
            return caller.MaySee(pickup.Header) ? PickupLines.Of(pickup) : null;
        if (await session.LoadAsync<Draft>(id, cancel) is not { } draft || !caller.MayDeclareFor(draft.ShipperId, draft.SiteId))
            return null;
        var terminal = Heading.TerminalOf(draft.Form, await session.Query<Carrier>().ToListAsync(cancel));
        return PickupLines.Of(draft, await rules.InForceAsync(terminal?.Carrier.Id, clock.GetUtcNow(), cancel));
    }
}

/// <param name="Lines">In their order; null where a draft's line cannot be read or checked yet.</param>
/// <param name="Errors">What keeps a draft's lines from being read, by field.</param>
public sealed record PickupLines(string Number, UnitSystem Units, RuleSetVersion RuleSet, IReadOnlyList<SheetLine?> Lines, IReadOnlyDictionary<string, string> Errors)
{
    public static PickupLines Of(Pickup pickup) => new(
        pickup.Header.Number,
        pickup.Declaration.Units,
        pickup.RuleSet,
        [.. pickup.Declaration.HandlingUnits.Zip(pickup.Units, (unit, judged) => new SheetLine(unit, judged.Findings))],
        new Dictionary<string, string>());

    public static PickupLines Of(Draft draft, RuleSet rules)
    {
        var reading = Reading.Of(draft.Form);
        return new(
            draft.Number,
            reading.Units,
            rules.Identity,
            [
                .. reading.Lines.Select(unit => unit is null || reading.Lane is null ? null : new SheetLine(unit, ReadinessCheck.Run(unit, reading.Lane, rules, reading.Units).Findings)),
            ],
            reading.FreightErrors.ToDictionary(StringComparer.Ordinal));
    }

    /// <param name="number">Counted from 1; one whose line can be read.</param>
    public BuildSheet Sheet(int number, DrawingOptions drawings, CultureInfo culture)
    {
        var line = Lines[number - 1]!;
        return BuildSheet.For(line.Unit, line.Unit.Reference, words => words.OfPickup(Number, number, Lines.Count), line.Findings, RuleSet, Units, culture, drawings);
    }

    public byte[] Pdf(Paper? paper, CultureInfo culture) =>
        SheetPdf.Write([.. Enumerable.Range(1, Lines.Count).Select(number => Sheet(number, DrawingOptions.ForMail, culture))], paper ?? PaperSizes.For(Units));
}

public sealed record SheetLine(HandlingUnit Unit, IReadOnlyList<Finding> Findings);
