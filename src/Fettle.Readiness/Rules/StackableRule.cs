using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Declared stackable: contents that never carry another unit, and tops that are not flat.</summary>
public static class StackableRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        if (!unit.Stackable)
            yield break;
        if (Never(unit) is { } never)
            yield return check.Find(
                FindingCodes.NeverStackable,
                check.Rules.Top.NeverSeverity,
                "stackable",
                Quantity.Pieces(1),
                Quantity.Pieces(0),
                Basis.CommonPractice("furniture, bare machinery, rolls on their side and bare pieces carry nothing"),
                $"Declared stackable, but {never} gives another unit nothing level and firm to stand on.",
                $"Declare it not stackable, or crate it.",
                $"declared stackable; {never}");
        else if (unit.TopSurface != TopSurface.Flat)
        {
            var pyramid = unit.TopSurface == TopSurface.Pyramid;
            yield return check.Find(
                FindingCodes.TopSurface,
                check.Rules.Top.SurfaceSeverity,
                "topSurface",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("only a full, level top layer carries another unit"),
                $"Declared stackable, but the top is {(pyramid ? Phrase.Of($"a pyramid") : Phrase.Of($"not level"))}: another unit would rest on {(pyramid ? Phrase.Of($"the narrow part") : Phrase.Of($"what sticks up"))} alone.",
                $"Level the top, or declare the unit not stackable.",
                $"flat tops: {0} of {1}");
        }
    }

    private static Phrase? Never(HandlingUnit unit) => unit.Contents switch
    {
        _ when unit.Kind == HandlingUnitKind.Crate => null,
        FurnitureContents => Phrase.Of($"furniture"),
        MachineryContents => Phrase.Of($"a machine without a crate"),
        RollContents { Standing: RollStanding.OnSide } => Phrase.Of($"rolls on their side"),
        PieceContents when unit.Kind == HandlingUnitKind.Piece => Phrase.Of($"a bare piece"),
        _ => null,
    };
}
