using Fettle.Engineering.Densities;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>A few light cartons that would travel better loose than alone on a pallet, and what a loose carton must stand.</summary>
public static class FewLightCartonsRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check) => check.Unit.Kind switch
    {
        HandlingUnitKind.Pallet => OnPallet(check),
        HandlingUnitKind.LooseCarton => Loose(check),
        HandlingUnitKind.Crate => [],
    };

    private static IEnumerable<Finding> OnPallet(UnitUnderCheck check)
    {
        var limits = check.Rules.FewCartons;
        if (check.Cartons is not { } cartons || cartons.Count > limits.Cartons || cartons.Carton.GrossWeight > limits.OnePersonLift)
            yield break;
        var carton = cartons.Carton;
        if (!BearsOtherFreight(check, carton))
            yield break;
        var loose = Density.Of(carton.GrossWeight, carton.Length, carton.Width, carton.Height);
        var looseClass = FreightClassScale.ThirteenTier.ClassOf(loose);
        yield return check.Find(
            FindingCodes.FewLightCartons,
            limits.Severity,
            "contents.perLayer",
            Quantity.Pieces(cartons.Count),
            Quantity.Pieces(limits.Cartons),
            Basis.CommonPractice("a few light cartons travel better loose, on top of other freight"),
            $"{cartons.Count} cartons of {carton.GrossWeight} ride alone on a pallet: {check.Measures.Density} and class {ClassText(check.Measures.FreightClass)} as built; loose they are {loose}, class {ClassText(looseClass)}, and each can be lifted by one person.",
            $"Ship them loose, or add them to another pallet.");
    }

    private static IEnumerable<Finding> Loose(UnitUnderCheck check)
    {
        var limits = check.Rules.FewCartons;
        var weight = check.Unit.GrossWeight;
        if (weight > limits.OnePersonLift)
        {
            var tooHeavy = weight > limits.TwoPersonLift;
            yield return check.Find(
                FindingCodes.LooseCartonLift,
                tooHeavy ? Severity.Stop : Severity.Caution,
                "grossWeight",
                weight,
                tooHeavy ? limits.TwoPersonLift : limits.OnePersonLift,
                Basis.Standard("NIOSH Pub. 94-110, load constant; twice that for two people is practice"),
                $"A loose carton of {weight} is {(tooHeavy ? "too heavy for two people" : "a lift for two people")}.",
                $"Put it on a pallet, or pack smaller cartons.");
        }

        if (check.Cartons is { Carton: { Board: not null } carton } && !BearsOtherFreight(check, carton))
            yield return check.Find(
                FindingCodes.LooseCartonStrength,
                Severity.Caution,
                "contents.carton.board",
                UnitUnderCheck.StrengthOf(carton, StackKind.Column, Length.Zero, check.Lane, check.Rules.Strength)!.Value.Usable.MassHeld(),
                LoadOnLoose(check, carton),
                Basis.Standard("ASTM D4169 vehicle stacking load; strength by McKee, derated by the Fibre Box Handbook"),
                $"Other freight will be loaded on it, {LoadOnLoose(check, carton)} by the usual reckoning, more than its board can be counted on for.",
                $"Put it on a pallet with others, or use stronger board.");
    }

    /// <summary>Strong enough, alone in a trailer, for what is loaded over it. A carton of unknown board is not.</summary>
    private static bool BearsOtherFreight(UnitUnderCheck check, Carton carton) =>
        UnitUnderCheck.StrengthOf(carton, StackKind.Column, Length.Zero, check.Lane, check.Rules.Strength) is { } strength
        && strength.Usable.MassHeld() / check.Rules.Strength.SafetyFactor >= LoadOnLoose(check, carton);

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
