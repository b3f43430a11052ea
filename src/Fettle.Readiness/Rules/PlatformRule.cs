using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>The platform itself: marked, whole, open to forks, and there where it is needed.</summary>
public static class PlatformRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Platform;
        if (check.Unit.Platform is not { } deck)
        {
            if (check.Unit is { Kind: HandlingUnitKind.Piece, Contents: MachineryContents or BagContents })
                yield return check.Find(
                    FindingCodes.PlatformMissing,
                    limits.MissingSeverity,
                    "kind",
                    Quantity.Pieces(0),
                    Quantity.Pieces(1),
                    Basis.CommonPractice("machines and bags travel on a pallet or skid"),
                    $"Without a pallet there is nothing for forks to lift it by: it is dragged, tilted or lifted by its own parts.",
                    $"Put it on a pallet or skid that carries its weight, and fasten it.");
            yield break;
        }

        if (check.Lane.CrossBorder && deck is { Material: PlatformMaterial.Wood, TreatmentMark: TreatmentMark.None })
            yield return check.Find(
                FindingCodes.TreatmentMark,
                limits.MarkSeverity,
                "platform.treatmentMark",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.Standard("ISPM 15, marks on wood packaging"),
                $"The lane crosses a border and the wooden pallet has no treatment mark: it can be turned back there with all that is on it.",
                $"Take a pallet with the mark (HT, MB, DH or SF), or one of plastic.");

        if (deck.Condition == PlatformCondition.Damaged)
            yield return check.Find(
                FindingCodes.PlatformCondition,
                limits.DamagedSeverity,
                "platform.condition",
                Quantity.Pieces(1),
                Quantity.Pieces(0),
                Basis.CommonPractice("nothing is lifted on a broken pallet"),
                $"The pallet is damaged: a broken board, block or nail gives way under {check.Unit.GrossWeight} when forks lift it, or tears the load.",
                $"Restack on a sound pallet.",
                $"declared damaged");
        else if (deck.Condition == PlatformCondition.Worn)
            yield return check.Find(
                FindingCodes.PlatformCondition,
                limits.WornSeverity,
                "platform.condition",
                Quantity.Pieces(1),
                Quantity.Pieces(0),
                Basis.CommonPractice("a repaired pallet bears less than a new one"),
                $"The pallet is worn or repaired: its rating was for a new one.",
                $"Keep it for light loads.",
                $"declared worn");

        if (deck.Entry == ForkEntry.TwoWay)
            yield return check.Find(
                FindingCodes.ForkEntry,
                limits.TwoWaySeverity,
                "platform.entry",
                Quantity.Pieces(2),
                Quantity.Pieces(4),
                Basis.CommonPractice("a pallet that forks enter on four sides can be loaded turned"),
                $"Forks enter at two ends only: in a trailer it cannot be turned to fill a gap, and is pushed where it cannot be lifted.",
                $"Use four-way pallets where you have the choice.");
    }
}
