using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Gross weight against the ratings, and against what the contents add up to.</summary>
public static class WeightRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        foreach (var finding in TooHeavy(check))
            yield return finding;
        if (Mismatch(check) is { } mismatch)
            yield return mismatch;
    }

    private static IEnumerable<Finding> TooHeavy(UnitUnderCheck check)
    {
        var limits = check.Rules.Weight;
        var gross = check.Unit.GrossWeight;
        var overRating = false;
        if (check.Unit.Platform?.Rating is { } rating && gross > rating)
        {
            overRating = true;
            yield return check.Find(
                FindingCodes.GrossWeight,
                limits.RatingSeverity,
                "grossWeight",
                gross,
                rating,
                Basis.CommonPractice("the platform maker's own rating is never exceeded"),
                $"{gross} is {gross - rating} more than the pallet is rated for ({rating}). It can break when it is lifted.",
                $"Split the load over more pallets, or use one with a higher rating.");
        }

        if (gross > limits.Carrier)
            yield return check.Find(
                FindingCodes.GrossWeight,
                limits.CarrierSeverity,
                "grossWeight",
                gross,
                limits.Carrier,
                check.BasisOf(rules => rules.Weight.Carrier, Basis.CommonPractice("one handling unit must be within what a dock truck lifts")),
                $"{gross} is {gross - limits.Carrier} over the limit for one handling unit ({limits.Carrier}).",
                $"{Lighter(check)}");
        // Who is told that the pallet can break need not be told that it is heavy.
        else if (gross > limits.Heavy && !overRating)
            yield return check.Find(
                FindingCodes.GrossWeight,
                limits.HeavySeverity,
                "grossWeight",
                gross,
                limits.Heavy,
                check.BasisOf(rules => rules.Weight.Heavy, Basis.CommonPractice("over about 2,000 lb a pallet asks for trouble in LTL handling")),
                $"{gross} is {gross - limits.Heavy} over the weight ({limits.Heavy}) above which one unit is easily damaged, and does damage, when it changes trailers.",
                $"{Lighter(check)}");
    }

    private static Phrase Lighter(UnitUnderCheck check) => check.IsPalletOfCartons
        ? Phrase.Of($"Spread the cartons over more pallets.")
        : Phrase.Of($"Ship it in more and lighter units if it can be taken apart, or ask the carrier before it is picked up.");

    private static Finding? Mismatch(UnitUnderCheck check)
    {
        var gross = check.Unit.GrossWeight;
        var limits = check.Rules.Weight;
        if (check.Unit.Platform is { } deck && deck.Tare >= gross)
            return check.Find(
                FindingCodes.WeightMismatch,
                limits.MismatchSeverity,
                "grossWeight",
                gross,
                deck.Tare,
                Basis.Arithmetic("gross weight includes the platform"),
                $"The gross weight of {gross} is no more than the empty pallet's own {deck.Tare}: nothing would be left for the load.",
                $"Weigh the unit again, pallet included, or correct the pallet's weight.");
        if (check.Measures.ComputedGrossWeight is not { } computed)
            return null;
        // A crate has boards of its own, which nobody declares: only too little is a contradiction.
        if (check.Unit.Kind == HandlingUnitKind.Crate && gross > computed)
            return null;
        var difference = (gross - computed).Abs();
        var byMass = difference > limits.Mismatch;
        var byShare = difference > gross * (limits.MismatchPercent / 100) && !(check.Unit.Platform is not null && difference <= limits.Packaging);
        if (!byMass && !byShare)
            return null;
        var contents = OfWeight(check.Unit.Contents);
        var (sum, working) = check.Unit.Platform is { } platform
            ? (Phrase.Of($"{contents} and the pallet add up to {computed}"), Phrase.Of($"{contents} + {platform.Tare} = {computed}"))
            : (Phrase.Of($"{contents} add up to {computed}"), Phrase.Of($"{contents} = {computed}"));
        // Whichever bound is passed is the one named.
        return check.Find(
            FindingCodes.WeightMismatch,
            limits.MismatchSeverity,
            "grossWeight",
            byMass ? difference : Quantity.Percent(difference / gross * 100),
            byMass ? limits.Mismatch : Quantity.Percent(limits.MismatchPercent),
            Basis.Arithmetic("pieces × weight of one + empty pallet"),
            $"{sum}, but {gross} is declared: {difference} apart. One of the figures is wrong.",
            check.Unit.Platform is not null
                ? (FormattableString)$"Weigh the unit again, or correct the count, the weight of one or the pallet's."
                : $"Weigh the unit again, or correct the count or the weight of one.",
            $"{working}; {gross} declared");
    }

    /// <summary>"40 cartons of 20 lb", "3 kinds of carton".</summary>
    private static Phrase OfWeight(Contents contents) => contents switch
    {
        CartonContents cartons => Phrase.Of($"{ContentsInWords.Of(contents)} of {cartons.Carton.GrossWeight}"),
        DrumContents drums => Phrase.Of($"{ContentsInWords.Of(contents)} of {drums.WeightEach}"),
        BagContents bags => Phrase.Of($"{ContentsInWords.Of(contents)} of {bags.WeightEach}"),
        RollContents rolls => Phrase.Of($"{ContentsInWords.Of(contents)} of {rolls.WeightEach}"),
        _ => Phrase.Of($"{ContentsInWords.Of(contents)} of {contents.Weight ?? Mass.Zero} in all"),
    };
}
