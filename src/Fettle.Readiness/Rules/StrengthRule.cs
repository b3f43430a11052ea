using System.Globalization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>What the bottom carton bears, and what may ride on top.</summary>
public static class StrengthRule
{
    private static readonly Basis Strength = Basis.Standard(
        "McKee, Gander and Wachuta 1963 (simplified form), derated by the factors of the Fibre Box Handbook");

    private static readonly Basis OnTop = Basis.Standard(
        "ASTM D4169 mixed-freight load, or the same unit again; strength by McKee, derated by the Fibre Box Handbook");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Cartons is not { } cartons || check.Unit.Kind != HandlingUnitKind.Pallet)
            yield break;
        if (SelfCrush(check, cartons) is { } crush)
            yield return crush;
        if ((check.Unit.Stackable ? Claimed(check, cartons) : Unclaimed(check, cartons)) is { } top)
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
            ? Phrase.Of($" Interlocked layers cost a good part of it; columns keep it.")
            : Phrase.Empty;
        return check.Find(
            FindingCodes.SelfCrush,
            stops ? limits.BelowOneSeverity : limits.BelowFactorSeverity,
            "contents.layers",
            Quantity.Ratio(safety),
            Quantity.Ratio(stops ? 1 : limits.SafetyFactor),
            Strength,
            $"The bottom carton bears {above} from the {Counted.Layers(cartons.Tiers - 1)} above it. New it holds about {fresh}; after days in a damp, shaking trailer about {usable}.{interlocked}",
            cartons.Stack == StackKind.Interlocked
                ? (FormattableString)$"Fewer layers, stronger board, or straight columns."
                : $"Fewer layers, or stronger board.",
            $"{Working(check, cartons.Carton)} = {usable}; {usable} ÷ {above} = {Quantity.Ratio(safety)}");
    }

    /// <summary>Edge crush is printed in lb/in whatever else is measured in, and so the whole product stays in inches.</summary>
    private static Phrase Working(UnitUnderCheck check, Carton carton)
    {
        var board = carton.Board!;
        var left = check.Measures.StrengthLeft!;
        string Inches(Length length) => length.Inches.ToString("0.###", CultureInfo.InvariantCulture);
        var factors = new[] { left.Time, left.Humidity, left.Pattern, left.Overhang, left.DeckGaps, left.Handling }.Where(factor => factor != 1);
        return Phrase.Of(
            $"5.87 × {Quantity.Ratio(board.EdgeCrush)} lb/in × √({Inches(FluteProfile.Caliper(board.Flute))} in × {Inches(McKee.Perimeter(carton.Length, carton.Width))} in) × {Phrase.Join(" × ", [.. factors.Select(factor => Phrase.Of($"{Quantity.Ratio(factor)}"))])}");
    }

    private static Phrase OnTopWorking(UnitUnderCheck check, CartonContents cartons, Mass capacity) => Phrase.Of(
        $"({check.Measures.UsableStrength!.Value} ÷ {Quantity.Ratio(check.Rules.Strength.SafetyFactor)} − {check.Measures.LoadOnBottomCarton!.Value}) × {Counted.Cartons(cartons.PerLayer)} = {capacity}");

    /// <summary>Declared stackable: can it?</summary>
    private static Finding? Claimed(UnitUnderCheck check, CartonContents cartons)
    {
        var limits = check.Rules.Strength;
        // A top that is not flat has been named already.
        if (check.Unit.TopSurface != TopSurface.Flat)
            return null;
        if (cartons.TopLayer > 0)
            return check.Find(
                FindingCodes.TopSurface,
                limits.TopSurfaceSeverity,
                "stackable",
                Quantity.Pieces(cartons.TopLayer),
                Quantity.Pieces(cartons.PerLayer),
                Basis.CommonPractice("only a full, level top layer carries another unit"),
                $"Declared stackable, but the top layer holds {cartons.TopLayer} of {Counted.Cartons(cartons.PerLayer)}: another unit would rest on {(cartons.TopLayer == 1 ? "that one" : "those")} alone.",
                $"Fill the top layer, take it off, or declare the unit not stackable.");
        if (!check.TopSpansDeck)
        {
            var span = 100 * Math.Min(check.Shape.LoadLength / check.Unit.Platform!.Length, check.Shape.LoadWidth / check.Unit.Platform.Width);
            return check.Find(
                FindingCodes.TopSurface,
                limits.TopSurfaceSeverity,
                "stackable",
                Quantity.Percent(span),
                Quantity.Percent(limits.TopSpan * 100),
                check.BasisOf(rules => rules.Strength.TopSpan, Basis.CommonPractice("another deck needs its footing over most of its length and width")),
                $"Declared stackable, but the load is only {check.Shape.LoadLength} × {check.Shape.LoadWidth} on a deck of {check.Unit.Platform.Length} × {check.Unit.Platform.Width}: another unit would stand on too small a foot.",
                $"Spread the cartons over the deck, or declare the unit not stackable.");
        }

        var expected = check.Measures.TopLoadExpected;
        if (check.Measures.TopLoadCapacity is not { } capacity)
            return check.Find(
                FindingCodes.BoardUnknown,
                limits.UnknownBoardSeverity,
                "contents.carton.board",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("a claim that freight double-stacks is worth what can be shown for it"),
                $"Declared stackable, but the carton's board is not given: nobody can say whether it bears the {expected} to expect on top.",
                $"Give flute and edge crush as printed in the maker's mark on the carton.");
        return capacity >= expected
            ? null
            : check.Find(
                FindingCodes.TopLoad,
                limits.TopLoadSeverity,
                "stackable",
                capacity,
                expected,
                OnTop,
                $"Declared stackable: expect {expected} on top. The cartons may carry {capacity} besides their own stack.",
                $"Declare it not stackable, build it with fewer layers, or use stronger cartons.",
                $"{OnTopWorking(check, cartons, capacity)}");
    }

    /// <summary>Declared not stackable: could it?</summary>
    private static Finding? Unclaimed(UnitUnderCheck check, CartonContents cartons)
    {
        var expected = check.Measures.TopLoadExpected;
        return check.Measures is { CarriesLikeUnit: true, TopLoadCapacity: { } capacity } && capacity >= expected && cartons.TopLayer == 0
            ? check.Find(
                FindingCodes.StackableUnclaimed,
                check.Rules.Strength.UnclaimedSeverity,
                "stackable",
                capacity,
                expected,
                OnTop,
                $"Declared not stackable, but by calculation it may carry {capacity}; {expected} is what to expect on top. Freight that double-stacks is worth money in the rate.",
                $"Declare it stackable if the top is flat and level.",
                $"{OnTopWorking(check, cartons, capacity)}")
            : null;
    }
}
