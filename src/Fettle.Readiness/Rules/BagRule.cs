using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Bags settle as they ride: straight columns of them lean, layers that tie each other do not.</summary>
public static class BagRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit is not { Kind: HandlingUnitKind.Pallet, Contents: BagContents { Stack: StackKind.Column, Layers: > 1 } bags })
            yield break;
        yield return check.Find(
            FindingCodes.BagColumns,
            check.Rules.Contents.BagColumnSeverity,
            "contents.stack",
            Quantity.Pieces(bags.Layers),
            Quantity.Pieces(1),
            Basis.CommonPractice("bags are laid in layers that tie each other"),
            $"{Counted.Layers(bags.Layers)} of bags in straight columns settle on the way and lean out over the deck.",
            $"Turn every other layer, so that the bags tie each other.");
    }
}
