using Fettle.Engineering.Densities;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>A few light cartons that would travel better loose than alone on a pallet, and what a loose carton must stand.</summary>
public static class FewLightCartonsRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check) => check.Unit.Kind switch
    {
        HandlingUnitKind.Pallet => OnPallet(check),
        HandlingUnitKind.LooseCarton => Loose(check),
        HandlingUnitKind.Crate or HandlingUnitKind.Drum or HandlingUnitKind.Piece => [],
    };

    private static IEnumerable<Finding> OnPallet(UnitUnderCheck check)
    {
        var limits = check.Rules.FewCartons;
        if (check.Cartons is not { } cartons || cartons.Count > limits.Cartons || cartons.Carton.GrossWeight > limits.OnePersonLift)
            yield break;
        var carton = cartons.Carton;
        // Fragile freight keeps its pallet: nothing is loaded on it.
        if (check.Unit.Fragile != Fragility.None || !BearsOtherFreight(check, carton))
            yield break;
        var loose = Density.Of(carton.GrossWeight, carton.Length, carton.Width, carton.Height);
        if (loose < check.Measures.Density)
            yield break;
        var looseClass = FreightClassScale.ThirteenTier.ClassOf(loose);
        var ride = cartons.Count == 1
            ? Phrase.Of($"{Counted.Cartons(1)} of {carton.GrossWeight} rides alone on a pallet")
            : Phrase.Of($"{Counted.Cartons(cartons.Count)} of {carton.GrossWeight} ride alone on a pallet");
        yield return check.Find(
            FindingCodes.FewLightCartons,
            limits.Severity,
            "contents.perLayer",
            Quantity.Pieces(cartons.Count),
            Quantity.Pieces(limits.Cartons),
            check.BasisOf(rules => rules.FewCartons.Cartons, Basis.CommonPractice("a few light cartons travel better loose, on top of other freight")),
            $"{ride}: as built {check.Measures.Density} and class {ClassText(check.Measures.FreightClass)}, loose {loose} and class {ClassText(looseClass)}. One person can lift each of them.",
            $"Ship loose, or add to another pallet.");
    }

    private static IEnumerable<Finding> Loose(UnitUnderCheck check)
    {
        var limits = check.Rules.FewCartons;
        var weight = check.Unit.GrossWeight;
        if (weight > limits.TwoPersonLift)
            yield return TooHeavy(limits.TooHeavySeverity, limits.TwoPersonLift, rules => rules.FewCartons.TwoPersonLift, "too heavy for two people");
        else if (weight > limits.OnePersonLift)
            yield return TooHeavy(limits.TwoPersonSeverity, limits.OnePersonLift, rules => rules.FewCartons.OnePersonLift, "a lift for two people");

        if (check.Cartons is { Carton: { Board: not null } carton } && !BearsOtherFreight(check, carton))
        {
            var counted = CountedOn(check, carton)!.Value;
            var load = LoadOnLoose(check, carton);
            yield return check.Find(
                FindingCodes.LooseCartonStrength,
                limits.StrengthSeverity,
                "contents.carton.board",
                counted,
                load,
                Basis.Standard("ASTM D4169 vehicle stacking load; strength by McKee, derated by the Fibre Box Handbook"),
                $"Other freight will be loaded on it, {load} by the usual reckoning; its board can be counted on for {counted}.",
                $"Put it on a pallet with others, or use stronger board.");
        }

        Finding TooHeavy(Severity severity, Mass limit, Func<RuleSet, Mass> limitOf, string how) => check.Find(
            FindingCodes.LooseCartonLift,
            severity,
            "grossWeight",
            weight,
            limit,
            check.BasisOf(limitOf, Basis.Standard("NIOSH Pub. 94-110, load constant; twice that for two people is practice")),
            $"A loose carton of {weight} is {how}: the limit is {limit}.",
            $"Put it on a pallet, or pack smaller cartons.");
    }

    /// <summary>Strong enough, alone in a trailer, for what is loaded over it. A carton of unknown board is not.</summary>
    private static bool BearsOtherFreight(UnitUnderCheck check, Carton carton) =>
        CountedOn(check, carton) is { } counted && counted >= LoadOnLoose(check, carton);

    /// <summary>What a lone carton may be counted on to bear, the safety factor kept; null when its board is unknown.</summary>
    private static Mass? CountedOn(UnitUnderCheck check, Carton carton) =>
        UnitUnderCheck.StrengthOf(carton, StackKind.Column, Length.Zero, deckGaps: false, check.Lane, check.Rules.Strength)?.Usable.MassHeld() / check.Rules.Strength.SafetyFactor;

    private static Mass LoadOnLoose(UnitUnderCheck check, Carton carton)
    {
        var cubicFeet = carton.Length.Feet * carton.Width.Feet * carton.Height.Feet;
        var small = carton.GrossWeight < Mass.FromPounds(30) && cubicFeet < 2;
        var limits = check.Rules.Strength;
        return check.MixedFreightOn(
            new Dimensions(carton.Length, carton.Width, carton.Height),
            small ? limits.SmallPackageStack : limits.VehicleStack);
    }

    private static string ClassText(decimal freightClass) => freightClass.ToString("0.#", System.Globalization.CultureInfo.InvariantCulture);
}
