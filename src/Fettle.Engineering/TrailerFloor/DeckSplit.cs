using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>Which units stand under a deck, on it, or before it because they can do neither. Units are meant by their index.</summary>
/// <param name="Decking">The beams.</param>
/// <param name="Highest">Of what stands under the deck.</param>
/// <param name="Neither">Too tall or too heavy for both.</param>
/// <param name="Under">Must stand under it.</param>
/// <param name="Above">Must stand on it.</param>
/// <param name="Either">Units that may stand under it or on it, the lightest first.</param>
/// <param name="Up">How many of these are on it.</param>
/// <param name="Loose">Pieces that ride on others, if there is room.</param>
/// <param name="Estimate">Of the floor that it takes, in square metres.</param>
internal sealed record DeckSplit(
    Decking Decking,
    Length Highest,
    IReadOnlyList<int> Neither,
    IReadOnlyList<int> Under,
    IReadOnlyList<int> Above,
    IReadOnlyList<int> Either,
    int Up,
    IReadOnlyList<int> Loose,
    double Estimate)
{
    public Length DeckHeight => Highest + Decking.Lost;

    /// <summary>The split for a deck that just clears units of a height, equal areas above and below; null when nothing can stand on it.</summary>
    public static DeckSplit? At(Length highest, IReadOnlyList<LoadUnits> units, Trailer trailer, Decking decking)
    {
        var room = trailer.Height - highest - decking.Lost;
        var loose = Piling.Loose(units, trailer.Height);
        var bulk = Enumerable.Range(0, units.Count).Except(loose).ToLookup(i => (
            Under: units[i].Height <= highest,
            Above: MayStandOn(units[i], room, trailer, decking)));
        int[] neither = [.. bulk[(false, false)]];
        int[] under = [.. bulk[(true, false)]];
        int[] above = [.. bulk[(false, true)]];
        // The heaviest stay lowest.
        int[] either = [.. bulk[(true, true)].OrderBy(i => units[i].Weight).ThenBy(i => units[i].Area)];
        if (above.Length + either.Length == 0)
            return null;
        var (below, over) = (Area(under) + Area(either), Area(above));
        var up = 0;
        while (up < either.Length && over + units[either[up]].Area <= below)
        {
            over += units[either[up]].Area;
            below -= units[either[up]].Area;
            up++;
        }

        return new(decking, highest, neither, under, above, either, up, loose, Area(neither) + Math.Max(below, over));

        double Area(int[] some) => some.Sum(i => units[i].Area);
    }

    /// <summary>This split, and those with one or two units less on the deck.</summary>
    public IEnumerable<DeckSplit> Nearby() => ((int[])[Up, Up - 1, Up - 2])
        .Where(up => up >= 0 && Above.Count + up > 0)
        .Select(up => this with { Up = up });

    /// <summary>The piles before the deck, under it and on it. Loose pieces ride where they can; the others stand where there is less.</summary>
    public (IReadOnlyList<Pile> Before, IReadOnlyList<Pile> Under, IReadOnlyList<Pile> Above) Piles(IReadOnlyList<LoadUnits> units, Trailer trailer)
    {
        var room = trailer.Height - DeckHeight;
        var before = Piling.TwoHigh(units, Neither, trailer.Height);
        var under = Piling.TwoHigh(units, [.. Under, .. Either.Skip(Up)], Highest);
        List<Pile> above = [.. Above.Concat(Either.Take(Up)).Select(OnDeck)];
        foreach (var piece in Piling.PutOnTop(units, Loose, [.. before, .. under, .. above]))
        {
            var mayBeUnder = units[piece].Height <= Highest;
            if (MayStandOn(units[piece], room, trailer, Decking) && (!mayBeUnder || AreaOf(above) < AreaOf(under)))
                above.Add(OnDeck(piece));
            else
                (mayBeUnder ? under : before).Add(new(units, piece, null, mayBeUnder ? Highest : trailer.Height));
        }

        return (before, under, above);

        Pile OnDeck(int unit) => new(units, unit, null, room, Decking.MostFor(units[unit].Length, units[unit].Width, trailer.Width));

        static double AreaOf(List<Pile> piles) => piles.Sum(p => p.Place.Length.Metres * p.Place.Width.Metres);
    }

    private static bool MayStandOn(LoadUnits unit, Length room, Trailer trailer, Decking decking) =>
        unit.Height <= room && unit.Weight <= decking.MostFor(unit.Length, unit.Width, trailer.Width);
}
