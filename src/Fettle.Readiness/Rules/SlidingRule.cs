using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>
/// Pieces, machines and drums with slippery feet. Ordinary pallets are left out: in a loaded van their neighbours block them,
/// and wood on a trailer's floor has nearly the friction that a bend asks for.
/// </summary>
public static class SlidingRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        var limits = check.Rules.Sliding;
        if (unit.Contents is not (MachineryContents or PieceContents or DrumContents or CrateContents) || unit.Kind == HandlingUnitKind.LooseCarton)
            yield break;
        var (surfaces, pair) = Feet(unit);
        var friction = Friction.Static(surfaces);
        if (unit.Requests.Strap || unit.Requests.Bulkhead || friction >= limits.Ordinary || Sliding.Holds(friction, limits.Lateral))
            yield break;
        var heavy = unit.GrossWeight > check.Rules.Awkward.HeavyLoose;
        var missing = Sliding.Missing(unit.GrossWeight, friction, limits.Lateral).MassHeld();
        yield return check.Find(
            FindingCodes.Sliding,
            heavy ? limits.HeavySeverity : limits.Severity,
            "requests",
            Quantity.Ratio(friction),
            Quantity.Ratio(limits.Lateral),
            check.BasisOf(rules => rules.Sliding.Lateral, Basis.Standard("EN 12195-1:2010 accelerations; friction by the CTU Code, annex 7, appendix 2")),
            $"{pair} holds {Quantity.Ratio(friction)} of its weight by friction; a bend pulls with {Quantity.Ratio(limits.Lateral)}. With a gap beside it, it slides: {missing} of hold is missing.",
            $"Ask for a strap or a bulkhead, put it on a wooden pallet, or lay an anti-slip mat.",
            $"({Quantity.Ratio(limits.Lateral)} − {Quantity.Ratio(friction)}) × {unit.GrossWeight} = {missing}");
    }

    private static (Surfaces Surfaces, Phrase Words) Feet(HandlingUnit unit) => unit switch
    {
        { Platform.Material: PlatformMaterial.Wood } => (Surfaces.WoodOnPlywood, Phrase.Of($"Wood on the trailer's floor")),
        { Platform.Material: PlatformMaterial.Plastic } => (Surfaces.PlasticOnPlywood, Phrase.Of($"Plastic on the trailer's floor")),
        { Platform.Material: PlatformMaterial.Metal } => (Surfaces.SteelCrateOnPlywood, Phrase.Of($"Steel on the trailer's floor")),
        { Kind: HandlingUnitKind.Crate } => (Surfaces.WoodOnPlywood, Phrase.Of($"Wood on the trailer's floor")),
        { Contents: DrumContents { Material: DrumMaterial.Plastic } } => (Surfaces.PlasticOnPlywood, Phrase.Of($"Plastic on the trailer's floor")),
        _ => (Surfaces.Unknown, Phrase.Of($"What stands on the trailer's floor")),
    };
}
