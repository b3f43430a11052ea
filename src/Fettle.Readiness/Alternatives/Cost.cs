using Fettle.Readiness.Declarations;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Alternatives;

/// <summary>Reckons what a build costs against the original line.</summary>
internal static class Cost
{
    public static AlternativeCost Of(Candidate candidate, HandlingUnit unit, UnitResult original, UnitCosts costs)
    {
        var count = candidate.Lines.Sum(Platforms);
        var platforms = count - Platforms(unit);
        var floor = candidate.Lines.Zip(candidate.Results, Floor).Sum() - Floor(unit, original);
        var area = candidate.Lines.Zip(candidate.Results, (line, result) => Floor(line, result) * Share(line)).Sum() - (Floor(unit, original) * Share(unit));
        var loses = unit.Stackable && candidate.Lines.Any(line => !line.Stackable && line.Kind == HandlingUnitKind.Pallet);
        var (protection, protecting) = candidate.Build.Loose ? (0, 0) : Protection(candidate, unit, costs);
        var (mended, mending) = candidate.Build.Loose ? (0, 0) : Mended(candidate, unit, costs);
        // What stood on another platform before keeps that one for the next load; nothing is credited for it.
        var material = (candidate.Build.Deck is { } deck ? count * deck.Price : platforms * costs.Platform) + protection + mended;
        var minutes = Math.Round(protecting + mending + (costs.MinutesPerCarton * CartonsMoved(candidate, unit)), 1);
        var newClass = candidate.Results.Max(result => result.Measures.FreightClass);
        return new(
            platforms,
            floor,
            Math.Round(area * PositionFeet, 1),
            material,
            minutes,
            loses,
            newClass == original.Measures.FreightClass ? null : newClass,
            material + (decimal.Round((decimal)area, 3) * costs.FloorPosition) + ((decimal)minutes * costs.Minute));
    }

    private static int Platforms(HandlingUnit line) => line.Platform is null ? 0 : line.Quantity;

    /// <summary>Trailer length of one position of 48 × 40 in, two of them across 96 in.</summary>
    private const double PositionFeet = 48.0 * 40 / 96 / 12;

    /// <summary>How much more floor than a position of 48 × 40 in the unit's platform takes; 1 for that and for smaller ones.</summary>
    private static double Share(HandlingUnit line) =>
        line.Platform is { } deck ? Math.Max(1, deck.Length.Inches * deck.Width.Inches / (48.0 * 40)) : 1;

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

    /// <summary>Caps, slip sheets, straps, partitions, fastening, another platform under the same load, and what the carrier asks for requests.</summary>
    private static (decimal Material, double Minutes) Mended(Candidate candidate, HandlingUnit unit, UnitCosts costs)
    {
        var now = candidate.Lines[0];
        var (had, has) = (unit.Protection, now.Protection);
        var (material, minutes) = (0m, 0.0);
        Add(has.TopCap && !had.TopCap, costs.TopCap, costs.MinutesPerProtection);
        Add(has.SlipSheets && !had.SlipSheets, costs.SlipSheets, costs.MinutesPerProtection);
        var straps = Math.Max(0, has.Straps - had.Straps);
        Add(straps > 0, costs.Strap * straps, costs.MinutesPerProtection);
        Add(now.Partitions && !unit.Partitions, costs.Partitions * now.Contents.Pieces, costs.MinutesPerRepack * now.Contents.Pieces);
        var asked = Asked(now.Requests) - Asked(unit.Requests);
        Add(asked > 0, costs.Request * asked, 0);
        var swapped = candidate.Build.Deck is null && now.Platform is { } deck && unit.Platform is { } before && (deck.Condition != before.Condition || deck.TreatmentMark != before.TreatmentMark);
        Add(swapped, costs.Platform, costs.MinutesPerFastening);
        Add(now.Contents != unit.Contents && now.Contents is MachineryContents or CrateContents, 0, costs.MinutesPerFastening);
        // Bags are laid anew; cartons are counted by what is lifted.
        Add(candidate.Build.Restacks && unit.Contents is BagContents, 0, costs.MinutesPerCarton * unit.Contents.Pieces);
        Add(candidate.Build.Deck is not null && unit.Contents is not CartonContents and not BagContents, 0, costs.MinutesPerFastening);
        var units = candidate.Lines.Sum(line => line.Quantity);
        return (material * units, minutes * units);

        void Add(bool applies, decimal each, double work)
        {
            if (!applies)
                return;
            material += each;
            minutes += work;
        }
    }

    private static int Asked(Requests requests) =>
        (requests.Decking ? 1 : 0) + (requests.Airbags ? 1 : 0) + (requests.Strap ? 1 : 0) + (requests.Bulkhead ? 1 : 0);

    /// <summary>A changed layer or stack is built again from the deck up; otherwise only the layers that go elsewhere are lifted.</summary>
    private static int CartonsMoved(Candidate candidate, HandlingUnit unit)
    {
        if (unit.Contents is not CartonContents before || !(candidate.Build.Restacks || candidate.Build.Loose))
            return 0;
        var all = before.Count * unit.Quantity;
        if (candidate.Build is not { PerLayer: null, Stack: null, Deck: null, Loose: false })
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
