using Fettle.Engineering.Lifting;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>
/// Cartons set on a pallet by hand: the revised NIOSH lifting equation from a table of <c>LiftingLimits.TakenFrom</c> to the
/// lowest and the highest layer, the carton held at half its height, its shorter side towards the body, without handles. It is
/// set down with care, so that both ends of a lift count and the worse one decides.
/// </summary>
public static class LiftingRule
{
    private static readonly Basis Equation = Basis.Standard("NIOSH Pub. 94-110, revised lifting equation");

    /// <summary>Where the equation takes nothing off for the height of the hands.</summary>
    private static readonly Length Ideal = Length.FromInches(30);

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Lifting;
        if (check is not { IsPalletOfCartons: true, Cartons: { } cartons, Unit.Platform: { } deck } || cartons.Carton.GrossWeight > limits.ByMachine)
            yield break;
        var carton = cartons.Carton;
        var lowest = deck.Height + (carton.Height / 2);
        var lift = Worse(To(check, carton, lowest), To(check, carton, lowest + (carton.Height * (cartons.Tiers - 1))));
        var (worst, index) = (lift.Worse, lift.Worse.Index);
        var takenUp = lift.Origin.Index > lift.Destination.Index;
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
        var end = takenUp ? Phrase.Of($"where it is taken up") : Phrase.Of($"where it is hardest to set down");
        yield return check.Find(
            FindingCodes.ManualLift,
            caution ? limits.CautionSeverity : limits.TipSeverity,
            "contents.carton.grossWeight",
            carton.GrossWeight,
            limit,
            basis,
            recommended == Mass.Zero
                ? (FormattableString)$"A carton of {carton.GrossWeight} is lifted where nothing should be lifted by hand: too high, too low or too far from the body."
                : $"By hand a carton of {carton.GrossWeight} is {Quantity.Ratio(index)} times what is recommended {end} ({recommended}).",
            over
                ? (FormattableString)$"Use a lifting aid or two people, or pack smaller cartons."
                : takenUp
                    ? (FormattableString)$"Take cartons from a table about {Ideal} high, or pack smaller cartons."
                    : $"Build lower, use a lift table, or pack smaller cartons.",
            $"{LiftingEquation.LoadConstant} × {Quantity.Ratio(m.Horizontal)} × {Quantity.Ratio(m.Vertical)} × {Quantity.Ratio(m.Distance)} × {Quantity.Ratio(m.Asymmetry)} × {Quantity.Ratio(m.Frequency)} × {Quantity.Ratio(m.Coupling)} = {recommended} {end}");
    }

    private static LiftingAssessment To(UnitUnderCheck check, Carton carton, Length hands)
    {
        var limits = check.Rules.Lifting;
        var (depth, front) = (Length.Min(carton.Length, carton.Width), Length.Max(carton.Length, carton.Width));
        return LiftingEquation.Assess(new(
            carton.GrossWeight,
            new(LiftingEquation.ReachFor(depth, limits.TakenFrom), limits.TakenFrom),
            new(LiftingEquation.ReachFor(depth, hands), hands),
            limits.LiftsPerMinute,
            LiftingDuration.UpToOneHour,
            LiftingEquation.CouplingOf(front, carton.Height, handles: false)));
    }

    private static LiftingAssessment Worse(LiftingAssessment a, LiftingAssessment b) => b.Worse.Index > a.Worse.Index ? b : a;
}
