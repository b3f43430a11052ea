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
            ? (T("handling unit"), T("handling units"))
            : kinds[0] switch
            {
                HandlingUnitKind.Pallet => (T("pallet"), T("pallets")),
                HandlingUnitKind.Crate => (T("crate"), T("crates")),
                HandlingUnitKind.LooseCarton => (T("loose carton"), T("loose cartons")),
                HandlingUnitKind.Drum => (T("drum"), T("drums")),
                HandlingUnitKind.Piece => (T("piece"), T("pieces")),
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
        return $"{string.Join(" × ", outer.Select(side => side[0]))}\u00a0{outer[0][1]}, {((Quantity)unit.GrossWeight).Show(units, culture)}{(unit.Quantity == 1 ? "" : T(" each"))}";
    }

    public static string Equipment(Equipment equipment) => equipment switch
    {
        Readiness.Pickups.Equipment.Van53 => T("53-ft van"),
        Readiness.Pickups.Equipment.Van48 => T("48-ft van"),
        Readiness.Pickups.Equipment.Pup28 => T("28-ft pup"),
        Readiness.Pickups.Equipment.Straight26 => T("26-ft straight truck"),
        Readiness.Pickups.Equipment.Liftgate => T("truck with liftgate"),
    };

    public static (Tone Tone, string Words) Verdict(Verdict verdict) => verdict switch
    {
        Readiness.Findings.Verdict.Ready => (Tone.Good, T("Ready")),
        Readiness.Findings.Verdict.ReadyWithCautions => (Tone.Caution, T("Ready, with cautions")),
        Readiness.Findings.Verdict.Hold => (Tone.Stop, T("Held")),
    };

    public static (Tone Tone, string Words) Gravity(Severity severity) => severity switch
    {
        Severity.Stop => (Tone.Stop, T("Stop:")),
        Severity.Caution => (Tone.Caution, T("Caution:")),
        Severity.Tip => (Tone.Calm, T("Tip:")),
    };

    /// <summary>"released as an exception": what became of freight.</summary>
    public static string Decided(HoldDecision decision) => decision switch
    {
        HoldDecision.Release => T("released"),
        HoldDecision.ReleaseAsException => T("released as an exception"),
        HoldDecision.Rework => T("to be rebuilt at the terminal"),
        HoldDecision.Return => T("goes back to the shipper"),
        HoldDecision.Refuse => T("refused"),
    };

    /// <summary>"Measured 2 in, limit 0 in. Common practice, no source: nothing past the deck's edge."</summary>
    public static string Figures(Finding finding, UnitSystem units) =>
        T("Measured {0}, limit {1}. {2}.", RuleBook.Figure(finding, finding.Measured).Say(units), RuleBook.Figure(finding, finding.Limit).Say(units), finding.Basis.Say());
}
