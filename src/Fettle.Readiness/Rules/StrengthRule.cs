using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>What the bottom carton bears, and what may ride on top.</summary>
public static class StrengthRule
{
    private static readonly Basis Strength = Basis.Standard(
        "McKee, Gander and Wachuta 1963 (simplified form), derated by the factors of the Fibre Box Handbook");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Cartons is not { } cartons || check.Unit.Kind != HandlingUnitKind.Pallet)
            yield break;
        if (SelfCrush(check, cartons) is { } crush)
            yield return crush;
        if (check.Unit.Stackable && cartons.TopLayer > 0)
            yield return check.Find(
                FindingCodes.TopSurface,
                check.Rules.Strength.TopSurfaceSeverity,
                "stackable",
                Quantity.Pieces(cartons.TopLayer),
                Quantity.Pieces(cartons.PerLayer),
                Basis.CommonPractice("only a full, level top layer carries another unit"),
                $"Declared stackable, but the top layer holds {cartons.TopLayer} of {cartons.PerLayer} cartons: another unit would rest on those alone.",
                $"Fill the top layer, take it off, or declare the unit not stackable.");
        else if (TopLoad(check) is { } top)
            yield return top;
    }

    private static Finding? SelfCrush(UnitUnderCheck check, CartonContents cartons)
    {
        if (check.Measures is not { SelfCrushSafety: { } safety, UsableStrength: { } usable, LoadOnBottomCarton: { } above, CartonStrength: { } fresh })
            return null;
        var limits = check.Rules.Strength;
        if (safety >= limits.SafetyFactor)
            return null;
        var stops = safety < 1;
        var interlocked = cartons.Stack == StackKind.Interlocked
            ? Phrase.Of($"Interlocked layers cost a good part of it; columns keep it.")
            : Phrase.Empty;
        return check.Find(
            FindingCodes.SelfCrush,
            stops ? limits.BelowOneSeverity : limits.BelowFactorSeverity,
            "contents.layers",
            Quantity.Ratio(safety),
            Quantity.Ratio(stops ? 1 : limits.SafetyFactor),
            Strength,
            $"The bottom carton bears {above} from the {cartons.Tiers - 1} above it. New it holds about {fresh}; after days in a damp, shaking trailer about {usable}. {interlocked}",
            $"Fewer layers, stronger board, or straight columns.");
    }

    private static Finding? TopLoad(UnitUnderCheck check)
    {
        if (check.Measures.TopLoadCapacity is not { } capacity)
            return null;
        var expected = check.Measures.TopLoadExpected;
        if (check.Unit.Stackable)
            return capacity >= expected
                ? null
                : check.Find(
                    FindingCodes.TopLoad,
                    check.Rules.Strength.TopLoadSeverity,
                    "stackable",
                    capacity,
                    expected,
                    Basis.Standard("ASTM D4169 mixed-freight load, or the same unit again; strength by McKee, derated by the Fibre Box Handbook"),
                    $"Declared stackable: expect {expected} on top. The cartons may carry {capacity} besides their own stack.",
                    $"Declare it not stackable, build it with fewer layers, or use stronger cartons.");
        return check.Measures.CarriesLikeUnit && capacity >= expected && check.Cartons?.TopLayer == 0
            ? check.Find(
                FindingCodes.StackableUnclaimed,
                check.Rules.Strength.UnclaimedSeverity,
                "stackable",
                capacity,
                expected,
                Basis.Standard("ASTM D4169 mixed-freight load, or the same unit again; strength by McKee, derated by the Fibre Box Handbook"),
                $"Declared not stackable, but by calculation it may carry {capacity}, more than the {expected} to expect. Freight that double-stacks is worth money in the rate.",
                $"Declare it stackable if the top is flat and level.")
            : null;
    }
}
