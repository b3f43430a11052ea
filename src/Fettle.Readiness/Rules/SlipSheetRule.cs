using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Sheets between layers that would work on each other: tall columns on a hard lane, drums in tiers, bags on boards.</summary>
public static class SlipSheetRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit.Protection.SlipSheets || check.Unit.Kind != HandlingUnitKind.Pallet)
            yield break;
        if (check.Unit.Contents switch
        {
            CartonContents => Cartons(check),
            DrumContents { Tiers: > 1 } drums => Drums(check, drums),
            BagContents bags => Bags(check, bags),
            _ => null,
        } is { } finding)
            yield return finding;
    }

    private static Finding? Cartons(UnitUnderCheck check)
    {
        var limits = check.Rules.Top;
        var from = check.Unit.Fragile == Fragility.None ? limits.SheetTiers : limits.FragileSheetTiers;
        return check.Cartons is not { Stack: StackKind.Column } cartons || cartons.Tiers < from || !check.IsHardLane ? null : check.Find(
            FindingCodes.SlipSheets,
            limits.SheetSeverity,
            "protection.slipSheets",
            Quantity.Pieces(cartons.Tiers),
            Quantity.Pieces(from),
            check.BasisOf<int>(
                check.Unit.Fragile == Fragility.None ? rules => rules.Top.SheetTiers : rules => rules.Top.FragileSheetTiers,
                Basis.CommonPractice("sheets between layers keep tall columns together; the number of layers is our choice")),
            $"{Counted.Layers(cartons.Tiers)} in straight columns sway apart over {Quantity.Miles(check.Lane.Miles)} with {check.Lane.Transfers} changes of trailer.",
            $"Lay sheets between some of the layers: they tie the columns and cost no strength.",
            $"{cartons.Tiers} layers, from {from}");
    }

    private static Finding Drums(UnitUnderCheck check, DrumContents drums) => check.Find(
        FindingCodes.SlipSheets,
        check.Rules.Contents.DrumSheetSeverity,
        "protection.slipSheets",
        Quantity.Pieces(drums.Tiers),
        Quantity.Pieces(1),
        Basis.CommonPractice("a sheet or board between tiers of drums"),
        $"Drums stand in {drums.Tiers} tiers, rim on rim, with nothing between: they slip off each other.",
        $"Lay a sheet or boards between the tiers.");

    private static Finding Bags(UnitUnderCheck check, BagContents bags) => check.Find(
        FindingCodes.SlipSheets,
        check.Rules.Contents.BagSheetSeverity,
        "protection.slipSheets",
        Quantity.Pieces(bags.Layers),
        Quantity.Pieces(0),
        Basis.CommonPractice("a sheet between bags and deck"),
        $"The lowest bags lie on the deck's boards and nails, which cut them open.",
        $"Lay a sheet on the deck.");
}
