using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>Corner boards where the load is flush, goes far or changes trailers; a sleeve where it will rub for long.</summary>
public static class CornerBoardRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        // A few light cartons on a bare deck are told to travel without it, not to have boards as high as one layer.
        if (!check.IsPalletOfAnyCartons || (check.IsBetterLoose && !check.IsFlush))
            yield break;
        var limits = check.Rules.CornerBoards;
        var far = check.Lane.Miles > limits.Miles;
        if (check.Unit.Protection.CornerBoards != CornerBoards.ToPlatform && Needed(check, far) is var (measured, limit, why))
        {
            var worst = check.IsFlush && far;
            var boards = check.Unit.Protection.CornerBoards == CornerBoards.Partial
                ? Phrase.Of($"The corner boards end above the pallet.")
                : Phrase.Of($"There are no corner boards.");
            yield return check.Find(
                FindingCodes.CornerBoards,
                worst ? limits.FlushAndFarSeverity : limits.Severity,
                "protection.cornerBoards",
                measured,
                limit,
                Ours(check)
                    ? Basis.CommonPractice("corner boards down to the platform for flush loads, over 500 miles, or with two or more transfers")
                    : Basis.CarrierRule(check.Rules.Identity.ToString()),
                $"{boards} {why}",
                $"Put boards on all four corners, from the pallet to the top layer, under the film.");
        }

        if (check.IsFlush && far && !check.Unit.Protection.Sleeve)
            yield return check.Find(
                FindingCodes.Sleeve,
                limits.SleeveSeverity,
                "protection.sleeve",
                Quantity.Miles(check.Lane.Miles),
                Quantity.Miles(limits.Miles),
                check.BasisOf(rules => rules.CornerBoards.Miles, Basis.CommonPractice("over some 500 miles friction wears through cartons; a corrugated sleeve prevents it")),
                $"A load level with the deck's edge or past it rubs on walls and neighbours for {Quantity.Miles(check.Lane.Miles)}.",
                $"Put a corrugated sleeve round the load; it keeps the cartons whole.");
    }

    private static bool Ours(UnitUnderCheck check)
    {
        var (limits, builtIn) = (check.Rules, RuleSet.BuiltIn);
        return limits.CornerBoards.Miles == builtIn.CornerBoards.Miles
            && limits.CornerBoards.Transfers == builtIn.CornerBoards.Transfers
            && limits.Overhang.Flush == builtIn.Overhang.Flush;
    }

    private static (Quantity Measured, Quantity Limit, Phrase Why)? Needed(UnitUnderCheck check, bool far)
    {
        var limits = check.Rules.CornerBoards;
        var miles = Quantity.Miles(check.Lane.Miles);
        var milesLimit = Quantity.Miles(limits.Miles);
        var flush = check.Shape.Overhang.Greatest > Length.Zero
            ? Phrase.Of($"The cartons stand past the deck's edge")
            : Phrase.Of($"The cartons stand level with the deck's edge");
        if (check.IsFlush && far)
            return (miles, milesLimit, Phrase.Of($"{flush} and travel {miles}: they rub through on the way."));
        if (far)
            return (miles, milesLimit, Phrase.Of($"Over {milesLimit} ({miles} here) carton edges wear and film cuts into them."));
        if (check.Lane.Transfers >= limits.Transfers)
            return (
                Quantity.Pieces(check.Lane.Transfers),
                Quantity.Pieces(limits.Transfers),
                Phrase.Of($"The freight changes trailer {Counted.Times(check.Lane.Transfers)}, and each time it is handled by its edges."));
        if (check.IsFlush)
            return (check.Shape.Clearance.Least, check.Rules.Overhang.Flush, Phrase.Of($"{flush}, where forks and walls touch them first."));
        return null;
    }
}
