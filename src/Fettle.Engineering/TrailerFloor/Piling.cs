using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>Makes piles of units, so that few of them stand on the floor. Units are meant by their index.</summary>
internal static class Piling
{
    /// <summary>
    /// Loose pieces are set aside and the rest is piled two high; then loose pieces go on top, the largest first; those that
    /// find no place are piled among themselves.
    /// </summary>
    public static List<Pile> All(IReadOnlyList<LoadUnits> units, Length highest)
    {
        var loose = Loose(units, highest);
        var piles = TwoHigh(units, Enumerable.Range(0, units.Count).Except(loose), highest);
        piles.AddRange(TwoHigh(units, PutOnTop(units, loose, piles), highest));
        return piles;
    }

    /// <summary>As many pairs as there can be; whatever still stands alone and may ride then goes where there is room for it.</summary>
    public static List<Pile> TwoHigh(IReadOnlyList<LoadUnits> units, IEnumerable<int> some, Length highest)
    {
        int[] which = [.. some];
        var piles = TrailerFloor.TwoHigh.Stack([.. which.Select(i => units[i].ForStack)], highest)
            .Select(stack => new Pile(units, which[stack.Lower], stack.Upper is { } upper ? which[upper] : null, highest))
            .ToList();
        // No two of these find room on the same stack (each would have stood on one of its two, and more pairs been made), nor on
        // each other: their order does not matter.
        foreach (var pile in piles.Where(p => p.IsAlone).ToList())
        {
            if (Ride(pile.Lowest, piles.Where(p => p != pile)))
                piles.Remove(pile);
        }

        return piles;
    }

    /// <summary>Units that some other would carry with three quarters of its top to spare.</summary>
    public static IReadOnlyList<int> Loose(IReadOnlyList<LoadUnits> units, Length highest)
    {
        var kinds = units.Distinct().ToList();
        var loose = kinds.Where(kind => kinds.Any(other => kind.Area <= Pile.LooseShare * other.Area && kind.ForStack.MayStandOn(other.ForStack, highest))).ToHashSet();
        return [.. Enumerable.Range(0, units.Count).Where(i => loose.Contains(units[i]))];
    }

    /// <summary>Puts on top what can be, the largest first; returns the rest.</summary>
    public static IReadOnlyList<int> PutOnTop(IReadOnlyList<LoadUnits> units, IEnumerable<int> riders, IReadOnlyCollection<Pile> piles) =>
        [.. riders.OrderByDescending(i => units[i].Area).Where(rider => !Ride(rider, piles))];

    private static bool Ride(int rider, IEnumerable<Pile> piles)
    {
        (Pile Pile, Pile.Room Room)? best = null;
        foreach (var pile in piles)
        {
            if (pile.RoomFor(rider) is { } room && (best is null || room.Waste < best.Value.Room.Waste))
                best = (pile, room);
        }

        best?.Pile.Put(rider, best.Value.Room.Place);
        return best is not null;
    }
}
