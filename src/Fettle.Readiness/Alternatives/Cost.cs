using Fettle.Readiness.Declarations;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Alternatives;

/// <summary>Reckons what a build costs against the original line.</summary>
internal static class Cost
{
    public static AlternativeCost Of(Candidate candidate, HandlingUnit unit, UnitResult original, UnitCosts costs)
    {
        var platforms = candidate.Lines.Sum(Platforms) - Platforms(unit);
        var floor = candidate.Lines.Zip(candidate.Results, Floor).Sum() - Floor(unit, original);
        var loses = unit.Stackable && candidate.Lines.Any(line => !line.Stackable && line.Kind == HandlingUnitKind.Pallet);
        var (protection, protecting) = candidate.Build.Loose ? (0, 0) : Protection(candidate, unit, costs);
        var material = (platforms * costs.Platform) + protection;
        var minutes = Math.Round(protecting + (costs.MinutesPerCarton * CartonsMoved(candidate, unit)), 1);
        return new(platforms, floor, material, minutes, loses, material + (floor * costs.FloorPosition) + ((decimal)minutes * costs.Minute));
    }

    private static int Platforms(HandlingUnit line) => line.Platform is null ? 0 : line.Quantity;

    private static int Floor(HandlingUnit line, UnitResult result) => line.Kind == HandlingUnitKind.LooseCarton
        ? 0
        : line.Stackable && result.Measures.CarriesLikeUnit ? (line.Quantity + 1) / 2 : line.Quantity;

    /// <summary>
    /// Film, boards and sleeves. What is taken apart is wrapped afresh; its boards and sleeve are used again, and only
    /// platforms that are more than before need new ones.
    /// </summary>
    private static (decimal Material, double Minutes) Protection(Candidate candidate, HandlingUnit unit, UnitCosts costs)
    {
        var (had, now) = (unit.Protection, candidate.Lines[0].Protection);
        var units = candidate.Lines.Sum(line => line.Quantity);
        var more = Math.Max(0, units - unit.Quantity);
        var anew = candidate.Build.Restacks;
        var turns = anew
            ? now.WrapTurns + (now.WrapOverPlatform ? 1 : 0)
            : Math.Max(0, now.WrapTurns - had.WrapTurns) + (now.WrapOverPlatform && !had.WrapOverPlatform ? 1 : 0);
        var wrapped = turns > 0 ? units : 0;
        var newBoards = now.CornerBoards == had.CornerBoards ? (now.CornerBoards == CornerBoards.None ? 0 : more) : units;
        var newSleeves = now.Sleeve == had.Sleeve ? (now.Sleeve ? more : 0) : units;
        // Boards and sleeves that are used again are put on again all the same.
        var boarding = anew && now.CornerBoards != CornerBoards.None ? units : newBoards;
        var sleeving = anew && now.Sleeve ? units : newSleeves;
        return (
            (wrapped * turns * costs.FilmTurn) + (newBoards * costs.CornerBoards) + (newSleeves * costs.Sleeve),
            costs.MinutesPerProtection * (wrapped + boarding + sleeving));
    }

    /// <summary>A changed layer or stack is built again from the deck up; otherwise only the layers that go elsewhere are lifted.</summary>
    private static int CartonsMoved(Candidate candidate, HandlingUnit unit)
    {
        if (unit.Contents is not CartonContents before || !(candidate.Build.Restacks || candidate.Build.Loose))
            return 0;
        var all = before.Count * unit.Quantity;
        if (candidate.Build is not { PerLayer: null, Stack: null, Loose: false })
            return all;
        // The new units that keep most stay where they are, as many as there were.
        var (places, kept) = (unit.Quantity, 0);
        foreach (var line in candidate.Lines.OrderByDescending(Count))
        {
            var stay = Math.Min(places, line.Quantity);
            kept += stay * Math.Min(Count(line), before.Count);
            places -= stay;
        }

        return all - kept;
    }

    private static int Count(HandlingUnit line) => line.Contents is CartonContents cartons ? cartons.Count : 0;
}
