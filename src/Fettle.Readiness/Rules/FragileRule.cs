using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Fragile freight: kept apart inside its cartons, with nothing on top, and asked to be treated so.</summary>
public static class FragileRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        // A drum, bag or roll of liquid is its own package; machines say themselves how they want to be handled.
        if (unit.Fragile == Fragility.None || unit.Contents is DrumContents or BagContents or RollContents or MachineryContents)
            yield break;
        var limits = check.Rules.Fragile;
        if (unit.Contents is CartonContents or MixedCartonContents && !unit.Partitions && InCartons(unit.Fragile) is { } what)
            yield return check.Find(
                FindingCodes.Partitions,
                limits.PartitionSeverity,
                "partitions",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("glass, ceramics, liquids and eggs are kept apart inside their carton"),
                $"{what} without partitions touch each other: a knock that the carton shrugs off breaks what is inside, and a claim for it is seldom paid.",
                $"Pack with dividers, trays or cells, no empty space left, this way up.");

        if (unit.Kind is HandlingUnitKind.Pallet or HandlingUnitKind.Crate && unit.Requests is { Decking: false, Airbags: false })
            yield return check.Find(
                FindingCodes.FragileCare,
                limits.CareSeverity,
                "requests",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("decking or airbags are asked for with fragile freight; freight marked 'do not stack' is sometimes stacked all the same"),
                $"It is fragile, and neither decking nor airbags are asked for: other freight may be set on it and lean on it.",
                $"Ask the carrier for decking above it or airbags beside it, and mark it this way up.");

        if (unit.Stackable)
            yield return check.Find(
                FindingCodes.FragileStackable,
                limits.StackableSeverity,
                "stackable",
                Quantity.Pieces(1),
                Quantity.Pieces(0),
                Basis.CommonPractice("nothing rides on fragile freight"),
                $"Declared fragile and stackable: the carton may bear a load on top that what is in it does not.",
                $"Declare it not stackable.",
                $"declared fragile; declared stackable");
    }

    private static Phrase? InCartons(Fragility fragile) => fragile switch
    {
        Fragility.Glass => Phrase.Of($"Glasses"),
        Fragility.Ceramics => Phrase.Of($"Ceramics"),
        Fragility.Liquid => Phrase.Of($"Bottles"),
        Fragility.Eggs => Phrase.Of($"Eggs"),
        Fragility.None or Fragility.Other => null,
    };
}
