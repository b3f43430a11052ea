using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>A pile, and where it stands in the trailer.</summary>
/// <param name="Pile">The pile.</param>
/// <param name="Place">Of its lowest unit.</param>
/// <param name="Base">Above the floor: zero, or the deck's height.</param>
internal sealed record PlacedPile(Pile Pile, Placement Place, Length Base)
{
    public bool IsOnDeck => Base > Length.Zero;

    /// <summary>A piece of the pile in the trailer's directions.</summary>
    public Placement PlaceOf(Pile.Piece piece)
    {
        var own = IsTurned ? new Placement(piece.Place.Y, piece.Place.X, piece.Place.Width, piece.Place.Length) : piece.Place;
        return own.MovedBy(Place.X, Place.Y);
    }

    private bool IsTurned => (Place.Length, Place.Width) != (Pile.Place.Length, Pile.Place.Width);
}

/// <summary>All piles set in a trailer, whose length does not yet matter.</summary>
/// <param name="Piles">In no order.</param>
/// <param name="Used">From the nose to the last pile's end.</param>
/// <param name="FloorBound">For piles all on the floor: no other way to set these takes less.</param>
/// <param name="IsFlat">Nothing stands on anything, and nothing may.</param>
/// <param name="DeckHeight">Of the second floor; null without one.</param>
internal sealed record Loading(IReadOnlyList<PlacedPile> Piles, Length Used, Length FloorBound, bool IsFlat, Length? DeckHeight)
{
    public static Loading OnTheFloor(IReadOnlyList<LoadUnits> units, Trailer trailer)
    {
        var piles = Piling.All(units, trailer.Height);
        var floor = Set(piles, Length.Zero, Length.Zero, trailer, FloorEffort.Quick);
        var isFlat = !units.Distinct().Any(a => units.Any(b => a.ForStack.MayStandOn(b.ForStack, trailer.Height)));
        return new(floor.Piles, floor.Used, floor.Bound, isFlat, null);
    }

    /// <summary>First what can stand neither under the deck nor on it, two high if it may; behind it the two floors above one another.</summary>
    public static Loading Decked(DeckSplit split, IReadOnlyList<LoadUnits> units, Trailer trailer, FloorEffort effort)
    {
        var (tall, under, above) = split.Piles(units, trailer);
        var first = Set(tall, Length.Zero, Length.Zero, trailer, effort);
        var floor = Set(under, first.Used, Length.Zero, trailer, effort);
        var deck = Set(above, first.Used, split.DeckHeight, trailer, effort);
        return new([.. first.Piles, .. floor.Piles, .. deck.Piles], Length.Max(floor.Used, deck.Used), Length.Zero, IsFlat: false, split.DeckHeight);
    }

    /// <summary>Fewer units stand past the door; or as many, and it is shorter.</summary>
    public bool IsBetterThan(Loading other, Trailer trailer)
    {
        var (own, others) = (Outside(this), Outside(other));
        return own < others || (own == others && Used < other.Used);

        int Outside(Loading loading) => loading.Piles.Where(p => p.Place.Right > trailer.Length).Sum(p => p.Pile.Pieces.Count);
    }

    private static (List<PlacedPile> Piles, Length Used, Length Bound) Set(
        IReadOnlyList<Pile> piles, Length from, Length height, Trailer trailer, FloorEffort effort)
    {
        // Of equal footprints the heavier stand nearer the nose.
        Pile[] ordered = [.. piles.OrderByDescending(p => p.Weight)];
        FloorUnits[] floor = [.. ordered.Select(p => new FloorUnits(p.Place.Length, p.Place.Width, 1, p.MayTurn))];
        var spent = effort == FloorEffort.Sketch ? effort : FloorUnits.EffortFor(floor, trailer.Width);
        var plan = FloorPlanner.Shortest(floor, trailer.Width, spent)
            ?? throw new InvalidOperationException("A pile is wider than the trailer.");
        return ([.. plan.Positions.Select(p => new PlacedPile(ordered[p.Kind], p.Place.MovedBy(from, Length.Zero), height))], from + plan.LengthUsed, plan.LowerBound);
    }
}
