using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>
/// Plans a whole trailer: units turned and set close together on the floor, two high where they may be, on a second floor of
/// beams where the trailer has one, loose pieces on top. See docs/engineering/floor-use.md.
/// </summary>
public static class LoadPlanner
{
    /// <summary>More units than this are refused.</summary>
    public const int MostUnits = 200;

    /// <summary>Deck heights of which the split between floor and deck is worked out.</summary>
    private const int MostDeckHeights = 3;

    /// <summary>A plan in which as much of the freight as the planner can place takes little of the trailer's length.</summary>
    /// <param name="units">Kinds of units, in any order.</param>
    /// <param name="trailer">Its inside and its door.</param>
    /// <param name="decking">The beams, if the trailer has the track for a second floor and its use is wanted.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side that is not over zero, a negative weight or count, or more than <see cref="MostUnits"/>.</exception>
    public static LoadPlan Plan(IReadOnlyList<LoadUnits> units, Trailer trailer, Decking? decking = null)
    {
        Check(units, trailer);
        var leftOut = units
            .Select((unit, kind) => (unit.Count, Kind: kind, Reason: Misfit(unit, trailer)))
            .Where(u => u is { Count: > 0, Reason: not null })
            .Select(u => new LeftOut(u.Kind, u.Count, u.Reason!.Value))
            .ToList();
        int[] kinds = [.. units.SelectMany((unit, kind) => Misfit(unit, trailer) is null ? Enumerable.Repeat(kind, unit.Count) : [])];
        LoadUnits[] each = [.. kinds.Select(kind => Standing(units[kind], trailer))];

        var loading = Loading.OnTheFloor(each, trailer);
        if (decking is not null && WithDeck(each, trailer, decking) is { } decked && decked.IsBetterThan(loading, trailer))
            loading = decked;

        // What stands past the door stays on the dock.
        var inside = loading.Piles.Where(p => p.Place.Right <= trailer.Length).ToList();
        var outside = loading.Piles.Where(p => p.Place.Right > trailer.Length).SelectMany(p => p.Pile.Pieces).CountBy(piece => kinds[piece.Unit]);
        leftOut.AddRange(outside.OrderBy(o => o.Key).Select(o => new LeftOut(o.Key, o.Value, LeftOutReason.NoRoomLeft)));
        inside = Balancing.Across(inside, trailer.Width);
        var positions = Positions(inside, each, kinds);
        var used = inside.Select(p => p.Place.Right).DefaultIfEmpty().Max();
        int[] placed = [.. inside.SelectMany(p => p.Pile.Pieces).Select(piece => piece.Unit)];
        var isAll = placed.Length == each.Length;
        var bound = isAll && loading.IsFlat && decking is null
            ? loading.FloorBound
            : LoadBound.Of([.. placed.Select(unit => each[unit])], trailer, decking, used);
        return new LoadPlan(trailer, units, positions, leftOut, used, Length.Min(bound, used), inside.Any(p => p.IsOnDeck) ? loading.DeckHeight : null);
    }

    /// <summary>The best of some heights for the second floor; null when nothing can be decked.</summary>
    private static Loading? WithDeck(LoadUnits[] units, Trailer trailer, Decking decking)
    {
        var splits = units.Select(u => u.Height).Distinct()
            .Select(height => DeckSplit.At(height, units, trailer, decking))
            .OfType<DeckSplit>()
            .OrderBy(split => split.Estimate)
            .Take(MostDeckHeights)
            .SelectMany(split => split.Nearby());
        var best = splits
            .Select(split => (Split: split, Loading.Decked(split, units, trailer, FloorEffort.Sketch).Used))
            .DefaultIfEmpty()
            .MinBy(tried => tried.Used);
        return best.Split is null ? null : Loading.Decked(best.Split, units, trailer, FloorEffort.Quick);
    }

    private static List<LoadPosition> Positions(IReadOnlyList<PlacedPile> piles, LoadUnits[] units, int[] kinds)
    {
        var positions = new List<LoadPosition>();
        foreach (var pile in piles.OrderBy(p => p.Place.X).ThenBy(p => p.Base).ThenBy(p => p.Place.Y))
        {
            var first = positions.Count;
            foreach (var piece in pile.Pile.Pieces)
            {
                var level = (pile.IsOnDeck ? LoadLevel.Second : LoadLevel.Floor) + (piece.On is null ? 0 : piece.On.Value + 1);
                positions.Add(new(kinds[piece.Unit], pile.PlaceOf(piece), pile.Base + piece.Bottom, units[piece.Unit].Height, level, first + piece.On));
            }
        }

        return positions;
    }

    private static LeftOutReason? Misfit(LoadUnits unit, Trailer trailer)
    {
        if (unit.Height > trailer.Height || unit.Height > trailer.DoorHeight)
            return LeftOutReason.TooTall;
        var straight = unit.Width <= trailer.Width;
        var turned = unit.MayTurn && unit.Length <= trailer.Width;
        if (!(straight || turned) || Length.Min(unit.Length, unit.Width) > trailer.DoorWidth)
            return LeftOutReason.TooWide;
        return (straight && unit.Length <= trailer.Length) || (turned && unit.Width <= trailer.Length) ? null : LeftOutReason.TooLong;
    }

    /// <summary>A unit that can stand in one way only is taken in that way.</summary>
    private static LoadUnits Standing(LoadUnits unit, Trailer trailer) =>
        unit.Width <= trailer.Width && unit.Length <= trailer.Length ? unit : unit with { Length = unit.Width, Width = unit.Length, MayTurn = false };

    private static void Check(IReadOnlyList<LoadUnits> units, Trailer trailer)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(trailer.Length, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(trailer.Width, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(trailer.Height, Length.Zero);
        foreach (var unit in units)
        {
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unit.Length, Length.Zero);
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unit.Width, Length.Zero);
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unit.Height, Length.Zero);
            ArgumentOutOfRangeException.ThrowIfLessThan(unit.Weight, Mass.Zero);
            ArgumentOutOfRangeException.ThrowIfNegative(unit.Count);
        }

        ArgumentOutOfRangeException.ThrowIfGreaterThan(units.Sum(u => (long)u.Count), MostUnits);
    }
}
