using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Gross weight against the ratings, and against what the contents add up to.</summary>
public static class WeightRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Weight;
        var gross = check.Unit.GrossWeight;
        if (check.Unit.Platform?.Rating is { } rating && gross > rating)
            yield return check.Find(
                FindingCodes.GrossWeight,
                Severity.Stop,
                "grossWeight",
                gross,
                rating,
                Basis.CommonPractice("the platform maker's own rating is never exceeded"),
                $"{gross} is {gross - rating} more than the pallet is rated for ({rating}). It can break when it is lifted.",
                $"Split the load over more pallets, or use one with a higher rating.");
        if (gross > limits.Carrier)
            yield return check.Find(
                FindingCodes.GrossWeight,
                Severity.Stop,
                "grossWeight",
                gross,
                limits.Carrier,
                Basis.CommonPractice("one handling unit must be within what a dock truck lifts"),
                $"{gross} is {gross - limits.Carrier} over the limit for one handling unit ({limits.Carrier}).",
                $"Split the load over more pallets.");
        else if (gross > limits.Heavy)
            yield return check.Find(
                FindingCodes.GrossWeight,
                limits.HeavySeverity,
                "grossWeight",
                gross,
                limits.Heavy,
                Basis.CommonPractice("over about 2,000 lb a pallet asks for trouble in LTL handling"),
                $"{gross} is heavy for a pallet that changes trailers; {limits.Heavy} is the usual mark.",
                $"Spread the layers over one more pallet.");

        if (check.Measures.ComputedGrossWeight is not { } computed)
            yield break;
        var difference = (gross - computed).Abs();
        var percent = gross > Mass.Zero ? difference / gross * 100 : 100;
        if (percent <= limits.MismatchPercent && difference <= limits.Mismatch)
            yield break;
        // Whichever bound is passed is the one named.
        var byMass = difference > limits.Mismatch;
        yield return check.Find(
            FindingCodes.WeightMismatch,
            Severity.Stop,
            "grossWeight",
            byMass ? difference : Quantity.Percent(percent),
            byMass ? limits.Mismatch : Quantity.Percent(limits.MismatchPercent),
            Basis.Arithmetic("cartons × weight of one + empty pallet"),
            $"{check.Cartons!.Count} cartons of {check.Cartons.Carton.GrossWeight} and the pallet make {computed}, but {gross} is declared: {difference} apart. One of them is wrong.",
            $"Weigh the unit again, or correct the count, the carton's weight or the pallet's.");
    }
}
