using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>A cap on fragile cartons, on a stackable flush load that goes far, and on bags.</summary>
public static class TopCapRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        if (unit.Protection.TopCap || check.IsBetterLoose)
            yield break;
        var limits = check.Rules.Top;
        var fragile = unit.Fragile != Fragility.None;
        if (check.IsPalletOfAnyCartons && fragile)
            yield return Missing(
                check.IsHardLane ? limits.FragileCapSeverity : limits.CapSeverity,
                check.IsHardLane ? Phrase.Of($"What is fragile is hit from above first, and here it goes {Quantity.Miles(check.Lane.Miles)} with {check.Lane.Transfers} changes of trailer.") : Phrase.Of($"What is fragile is hit from above first."));
        else if (check.IsPalletOfAnyCartons && unit.Stackable && check.IsFlush && check.Lane.Miles > check.Rules.CornerBoards.Miles)
            yield return Missing(limits.CapSeverity, Phrase.Of($"A deck on top works on the outermost cartons for {Quantity.Miles(check.Lane.Miles)}."));
        else if (unit is { Kind: HandlingUnitKind.Pallet, Contents: BagContents })
            yield return Missing(check.Rules.Contents.BagSheetSeverity, Phrase.Of($"Bags tear on whatever is set down on them."));

        Finding Missing(Severity severity, Phrase why) => check.Find(
            FindingCodes.TopCap,
            severity,
            "protection.topCap",
            Quantity.Pieces(0),
            Quantity.Pieces(1),
            Basis.CommonPractice("a cap over fragile freight, over bags, and over a flush load that carries another far"),
            $"There is no cap on top. {why}",
            $"Put a cap of corrugated board on top, under the film.");
    }
}
