using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Drums: how many above one another, held together, and one by itself.</summary>
public static class DrumRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit.Contents is not DrumContents drums)
            yield break;
        var limits = check.Rules.Contents;
        var most = drums.Material == DrumMaterial.Steel ? limits.SteelDrumTiers : limits.OtherDrumTiers;
        if (drums.Tiers > most)
            yield return check.Find(
                FindingCodes.DrumTiers,
                limits.DrumTiersSeverity,
                "contents.tiers",
                Quantity.Pieces(drums.Tiers),
                Quantity.Pieces(most),
                check.BasisOf<int>(
                    drums.Material == DrumMaterial.Steel ? rules => rules.Contents.SteelDrumTiers : rules => rules.Contents.OtherDrumTiers,
                    Basis.CommonPractice("steel drums two high, others one")),
                $"Drums stand {drums.Tiers} above one another; {most} is the most for such drums. Their rims dent and they topple when the trailer sways.",
                $"Spread them over more pallets.");

        var protection = check.Unit.Protection;
        if (check.Unit.Kind == HandlingUnitKind.Pallet && drums.Count > 1 && protection.Straps == 0 && protection.WrapTurns < check.Rules.Wrap.Turns)
            yield return check.Find(
                FindingCodes.LooseDrums,
                limits.LooseDrumsSeverity,
                "protection.straps",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("drums on a pallet are banded together or wrapped"),
                $"Nothing holds {ContentsInWords.Of(drums)} together: each walks by itself and falls from the pallet.",
                $"Put a band or strap round all of them, or wrap {Counted.FullTurns(check.Rules.Wrap.Turns)} of film.");

        if (check.Unit is { Kind: HandlingUnitKind.Drum, Platform: null })
            yield return check.Find(
                FindingCodes.LoneDrum,
                limits.LoneDrumSeverity,
                "kind",
                drums.WeightEach,
                check.Rules.FewCartons.OnePersonLift,
                check.BasisOf(rules => rules.FewCartons.OnePersonLift, Basis.CommonPractice("a drum by itself is tilted and rolled by hand; what one person lifts is the NIOSH load constant")),
                $"A drum of {drums.WeightEach} by itself is tilted and rolled by hand at every transfer, and stands alone in the trailer.",
                $"Put it on a pallet and band it to it.");
    }
}
