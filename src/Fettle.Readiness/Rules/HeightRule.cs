using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Height against the door, and against a second unit on top.</summary>
public static class HeightRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Height;
        var height = check.Unit.Outer.Height;
        if (height > limits.Limit)
            yield return check.Find(
                FindingCodes.Height,
                limits.LimitSeverity,
                "outer.height",
                height,
                limits.Limit,
                check.BasisOf(rules => rules.Height.Limit, Basis.CommonPractice("the lowest door height quoted for 53-ft dry vans; doors differ, measure")),
                $"At {height} it is {height - limits.Limit} taller than the door ({limits.Limit}).",
                check.IsPalletOfCartons
                    ? (FormattableString)$"Take layers off and spread them over another pallet."
                    : $"Lower it if it can be taken apart, or ask the carrier for equipment that takes it.");
        else if (check.Unit.Stackable && !check.PairFits)
            yield return check.Find(
                FindingCodes.DoubleStackHeight,
                limits.DoubleStackSeverity,
                "outer.height",
                height * 2,
                limits.DoubleStack,
                check.BasisOf(rules => rules.Height.DoubleStack, Basis.CommonPractice("two units on one another against the lowest inside height quoted for 53-ft dry vans")),
                $"Declared stackable, but two of them are {height * 2} tall and do not stand under {limits.DoubleStack}. Only lower freight fits on top.",
                $"Build to {limits.DoubleStack / 2} or lower to have it double-stacked, or declare it not stackable.");
    }
}
