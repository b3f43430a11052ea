using Fettle.Engineering.Lifting;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>
/// Cartons set on a pallet by hand: the revised NIOSH lifting equation from a table of <c>LiftingLimits.TakenFrom</c> to the
/// lowest and the highest layer, the carton held at half its height, its shorter side towards the body, without handles.
/// </summary>
public static class LiftingRule
{
    private static readonly Basis Equation = Basis.Standard("NIOSH Pub. 94-110, revised lifting equation");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Lifting;
        if (check is not { IsPalletOfCartons: true, Cartons: { } cartons, Unit.Platform: { } deck } || cartons.Carton.GrossWeight > limits.ByMachine)
            yield break;
        var carton = cartons.Carton;
        var lowest = deck.Height + (carton.Height / 2);
        var worst = Worse(To(check, carton, lowest), To(check, carton, lowest + (carton.Height * (cartons.Tiers - 1))));
        var index = worst.Index;
        var over = carton.GrossWeight > limits.LoadConstant;
        if (!over && index <= limits.TipIndex)
            yield break;
        var caution = over || index > limits.CautionIndex;
        var recommended = worst.Recommended;
        // Over the constant it is too heavy wherever it stands.
        var (limit, basis) = over
            ? (limits.LoadConstant, check.BasisOf(rules => rules.Lifting.LoadConstant, Equation))
            : caution
                ? (recommended * limits.CautionIndex, check.BasisOf(rules => rules.Lifting.CautionIndex, Equation))
                : (recommended * limits.TipIndex, check.BasisOf(rules => rules.Lifting.TipIndex, Equation));
        var m = worst.Multipliers;
        yield return check.Find(
            FindingCodes.ManualLift,
            caution ? limits.CautionSeverity : limits.TipSeverity,
            "contents.carton.grossWeight",
            carton.GrossWeight,
            limit,
            basis,
            recommended == Mass.Zero
                ? (FormattableString)$"A carton of {carton.GrossWeight} is lifted where nothing should be lifted by hand: too high, too low or too far from the body."
                : $"By hand a carton of {carton.GrossWeight} is {Quantity.Ratio(index)} times what is recommended where it is hardest to set down ({recommended}).",
            over
                ? (FormattableString)$"Use a lifting aid or two people, or pack smaller cartons."
                : $"Build lower, use a lift table, or pack smaller cartons.",
            $"{LiftingEquation.LoadConstant} × {Quantity.Ratio(m.Horizontal)} × {Quantity.Ratio(m.Vertical)} × {Quantity.Ratio(m.Distance)} × {Quantity.Ratio(m.Asymmetry)} × {Quantity.Ratio(m.Frequency)} × {Quantity.Ratio(m.Coupling)} = {recommended}");
    }

    private static LiftingLimit To(UnitUnderCheck check, Carton carton, Length hands)
    {
        var limits = check.Rules.Lifting;
        var (depth, front) = (Length.Min(carton.Length, carton.Width), Length.Max(carton.Length, carton.Width));
        return LiftingEquation.Assess(new(
            carton.GrossWeight,
            new(LiftingEquation.ReachFor(depth, limits.TakenFrom), limits.TakenFrom),
            new(LiftingEquation.ReachFor(depth, hands), hands),
            limits.LiftsPerMinute,
            LiftingDuration.UpToOneHour,
            LiftingEquation.CouplingOf(front, carton.Height, handles: false))).Destination;
    }

    private static LiftingLimit Worse(LiftingLimit a, LiftingLimit b) => b.Index > a.Index ? b : a;
}
