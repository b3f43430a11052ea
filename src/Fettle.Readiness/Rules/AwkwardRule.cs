using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>Units that need more room, more machine or more people than the dock at the other end may have.</summary>
public static class AwkwardRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Awkward;
        var unit = check.Unit;
        var longest = Length.Max(unit.Outer.Length, unit.Outer.Width);
        var side = unit.Outer.Length >= unit.Outer.Width ? "outer.length" : "outer.width";
        if (longest > limits.Long)
            yield return check.Find(
                FindingCodes.OverLength,
                limits.LongSeverity,
                side,
                longest,
                limits.Long,
                check.BasisOf(rules => rules.Awkward.Long, Basis.CommonPractice("over eight feet it does not turn across a trailer; tariffs differ")),
                $"{longest} is {longest - limits.Long} over {limits.Long}: it does not turn in a trailer, takes floor that others cannot use, and is lifted off its balance.",
                $"Ask the carrier before it is picked up; the tariff may charge for length.");

        if (unit.Kind is HandlingUnitKind.Piece or HandlingUnitKind.Crate or HandlingUnitKind.Drum && unit.Platform is null && unit.GrossWeight > limits.HeavyLoose)
            yield return check.Find(
                FindingCodes.HeavyLoose,
                limits.HeavyLooseSeverity,
                "grossWeight",
                unit.GrossWeight,
                limits.HeavyLoose,
                check.BasisOf(rules => rules.Awkward.HeavyLoose, Basis.CommonPractice("over 750 lb a piece without a pallet is an awkward one")),
                $"{unit.GrossWeight} without a pallet is {unit.GrossWeight - limits.HeavyLoose} over {limits.HeavyLoose}: whoever handles it has to find a place for the forks first.",
                $"Put it on a pallet or skid, or mark where it is to be lifted.");

        if (check.Lane.Liftgate)
        {
            if (unit.GrossWeight > limits.LiftgateWeight)
                yield return Gate("grossWeight", unit.GrossWeight, limits.LiftgateWeight, rules => rules.Awkward.LiftgateWeight);
            if (longest > limits.LiftgateLength)
                yield return Gate(side, longest, limits.LiftgateLength, rules => rules.Awkward.LiftgateLength);
        }
        else if (check.Lane.NoDock && unit.GrossWeight > limits.NoDock)
            yield return check.Find(
                FindingCodes.NoDock,
                limits.NoDockSeverity,
                "grossWeight",
                unit.GrossWeight,
                limits.NoDock,
                check.BasisOf(rules => rules.Awkward.NoDock, Basis.CommonPractice("what two people cannot carry needs a dock, a liftgate or a forklift on the ground")),
                $"The consignee has no dock, and no liftgate is asked for: {unit.GrossWeight} cannot be taken down by hand.",
                $"Ask for a liftgate, or make sure that a forklift is there.");

        Finding Gate<T>(string subject, Quantity measured, Quantity limit, Func<RuleSet, T> limitOf) => check.Find(
            FindingCodes.Liftgate,
            limits.LiftgateSeverity,
            subject,
            measured,
            limit,
            check.BasisOf(limitOf, Basis.CommonPractice("what ordinary liftgates take; the one that comes may take less")),
            $"It goes down on a liftgate: {measured} is more than the {limit} that an ordinary one takes.",
            $"Split it, or ask the carrier which liftgate will come.");
    }
}
