using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Pickups;

namespace Fettle.Web.Notices.Letters;

/// <summary>The trade's words for what letters tell.</summary>
internal static class FreightWords
{
    private static readonly CultureInfo culture = CultureInfo.InvariantCulture;

    /// <summary>"4 pallets", or "16 handling units" when they are of several kinds.</summary>
    public static string Count(IEnumerable<(HandlingUnitKind Kind, int Quantity)> units)
    {
        var all = units.ToArray();
        var count = all.Sum(unit => (long)unit.Quantity);
        var kinds = all.Select(unit => unit.Kind).Distinct().ToArray();
        var (one, many) = kinds.Length != 1
            ? ("handling unit", "handling units")
            : kinds[0] switch
            {
                HandlingUnitKind.Pallet => ("pallet", "pallets"),
                HandlingUnitKind.Crate => ("crate", "crates"),
                HandlingUnitKind.LooseCarton => ("loose carton", "loose cartons"),
                HandlingUnitKind.Drum => ("drum", "drums"),
                HandlingUnitKind.Piece => ("piece", "pieces"),
            };
        return $"{count.ToString("#,0", culture)} {(count == 1 ? one : many)}";
    }

    public static string Count(HandlingUnit unit) => Count([(unit.Kind, unit.Quantity)]);

    /// <summary>"48 × 40 × 45.5 in, 765 lb each".</summary>
    public static string SizeAndWeight(HandlingUnit unit, UnitSystem units)
    {
        var outer = new[] { unit.Outer.Length, unit.Outer.Width, unit.Outer.Height }
            .Select(side => ((Quantity)side).Show(units, culture).Split('\u00a0'))
            .ToArray();
        return $"{string.Join(" × ", outer.Select(side => side[0]))}\u00a0{outer[0][1]}, {((Quantity)unit.GrossWeight).Show(units, culture)}{(unit.Quantity == 1 ? "" : " each")}";
    }

    public static string Equipment(Equipment equipment) => equipment switch
    {
        Readiness.Pickups.Equipment.Van53 => "53-ft van",
        Readiness.Pickups.Equipment.Van48 => "48-ft van",
        Readiness.Pickups.Equipment.Pup28 => "28-ft pup",
        Readiness.Pickups.Equipment.Straight26 => "26-ft straight truck",
        Readiness.Pickups.Equipment.Liftgate => "truck with liftgate",
    };

    public static (Tone Tone, string Words) Verdict(Verdict verdict) => verdict switch
    {
        Readiness.Findings.Verdict.Ready => (Tone.Good, "Ready"),
        Readiness.Findings.Verdict.ReadyWithCautions => (Tone.Caution, "Ready, with cautions"),
        Readiness.Findings.Verdict.Hold => (Tone.Stop, "Held"),
    };

    public static (Tone Tone, string Words) Gravity(Severity severity) => severity switch
    {
        Severity.Stop => (Tone.Stop, "Stop:"),
        Severity.Caution => (Tone.Caution, "Caution:"),
        Severity.Tip => (Tone.Calm, "Tip:"),
    };

    /// <summary>"released as an exception": what became of freight.</summary>
    public static string Decided(HoldDecision decision) => decision switch
    {
        HoldDecision.Release => "released",
        HoldDecision.ReleaseAsException => "released as an exception",
        HoldDecision.Rework => "to be rebuilt at the terminal",
        HoldDecision.Return => "goes back to the shipper",
        HoldDecision.Refuse => "refused",
    };

    /// <summary>"Measured 2 in, limit 0 in. Common practice, no source: nothing past the deck's edge."</summary>
    public static string Figures(Finding finding, UnitSystem units) =>
        $"Measured {Figure(finding, finding.Measured, units)}, limit {Figure(finding, finding.Limit, units)}. {finding.Basis}.";

    /// <summary>A figure always has its unit, also where it is a count or a ratio.</summary>
    private static string Figure(Finding finding, Quantity figure, UnitSystem units)
    {
        var shown = figure.Show(units, culture);
        return figure.Unit switch
        {
            Unit.Piece => finding.Code switch
            {
                FindingCodes.WrapTurns => Counted("turn", "turns"),
                FindingCodes.WrapAnchor => figure.Value > 0 ? "film over the pallet" : "film not over the pallet",
                FindingCodes.CornerBoards => Counted("change of trailer", "changes of trailer"),
                FindingCodes.TopSurface or FindingCodes.FewLightCartons or FindingCodes.InconsistentDimensions => Counted("carton", "cartons"),
                _ => Counted("piece", "pieces"),
            },
            Unit.One => finding.Code switch
            {
                FindingCodes.Tipping => shown + "\u00a0g",
                FindingCodes.SelfCrush => shown + " times the load above",
                _ => shown + " (ratio)",
            },
            Unit.Percent or Unit.Inch or Unit.Centimetre or Unit.Pound or Unit.Kilogram or Unit.PoundPerCubicFoot
                or Unit.KilogramPerCubicMetre or Unit.Mile or Unit.Kilometre => shown,
        };

        string Counted(string one, string many) => $"{shown}\u00a0{(Math.Abs(figure.Value - 1) < 1e-9 ? one : many)}";
    }
}
