using Fettle.Engineering.Statistics;

namespace Fettle.Readiness.Scorecards;

/// <summary>What one line of a submitted pickup adds to its shipper's record.</summary>
public sealed record ScoredUnit(int Quantity, bool Held, bool DeclaredStackable, bool CarriesLikeUnit);

/// <summary>One shipper's record over a period.</summary>
/// <param name="Units">Handling units declared.</param>
/// <param name="Held">Of them, held by the check.</param>
/// <param name="DeclaredStackable">Of them, declared stackable.</param>
/// <param name="StackWell">Of those, found able by calculation to carry another like itself.</param>
/// <param name="Lines">Lines declared: identical units are one observation, not many.</param>
/// <param name="StackWellInterval">95 % Wilson interval of the share that stacks well, over lines.</param>
public sealed record ShipperScore(
    int Units,
    int Held,
    int DeclaredStackable,
    int StackWell,
    int Lines,
    int StackableLines,
    int StackWellLines,
    Interval HeldInterval,
    Interval StackWellInterval)
{
    public static ShipperScore Of(IReadOnlyCollection<ScoredUnit> lines)
    {
        var stackable = lines.Where(line => line.DeclaredStackable).ToArray();
        var well = stackable.Where(line => line.CarriesLikeUnit).ToArray();
        return new(
            lines.Sum(line => line.Quantity),
            lines.Where(line => line.Held).Sum(line => line.Quantity),
            stackable.Sum(line => line.Quantity),
            well.Sum(line => line.Quantity),
            lines.Count,
            stackable.Length,
            well.Length,
            Wilson.Interval(lines.Count(line => line.Held), lines.Count),
            Wilson.Interval(well.Length, stackable.Length));
    }
}
