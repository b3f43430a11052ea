using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Furniture without a carton of its own is protected by film alone, if at all.</summary>
public static class FurnitureRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit.Contents is not FurnitureContents { Boxed: false } || check.Unit.Kind == HandlingUnitKind.Crate)
            yield break;
        var turns = check.Unit.Protection.WrapTurns;
        var wanted = check.Rules.Wrap.Turns;
        if (turns < wanted)
            yield return check.Find(
                FindingCodes.BareFurniture,
                check.Rules.Contents.BareFurnitureSeverity,
                "protection.wrapTurns",
                Quantity.Pieces(turns),
                Quantity.Pieces(wanted),
                check.BasisOf(rules => rules.Wrap.Turns, Basis.CommonPractice("furniture is boxed, or blanketed and wrapped at least twice round")),
                $"Furniture without a carton and with less than {Counted.FullTurns(wanted)} of film is scratched by the first thing that touches it.",
                $"Box it, or blanket it and wrap {Counted.FullTurns(wanted)}.");
    }
}
