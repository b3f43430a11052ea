using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>Evens the weight out across the trailer without taking any more of its length.</summary>
internal static class Balancing
{
    /// <summary>
    /// Where the trailer can be cut across without cutting a pile, each part may change sides as a whole. The part that leans
    /// most is taken first, and each is turned away from where those before it lean.
    /// </summary>
    public static List<PlacedPile> Across(IReadOnlyList<PlacedPile> piles, Length width)
    {
        var (even, lean) = (new List<PlacedPile>(), 0.0);
        foreach (var part in Parts(piles).Select(part => (Piles: part, Lean: part.Sum(LeanOf))).OrderByDescending(p => Math.Abs(p.Lean)))
        {
            var changes = lean * part.Lean > 0;
            lean += changes ? -part.Lean : part.Lean;
            even.AddRange(changes ? part.Piles.Select(Mirrored) : part.Piles);
        }

        return even;

        double LeanOf(PlacedPile pile) => pile.Pile.Weight.Kilograms * (pile.Place.Y + pile.Place.Width / 2 - width / 2).Metres;

        PlacedPile Mirrored(PlacedPile pile) => pile with { Place = pile.Place with { Y = width - pile.Place.Top } };
    }

    private static List<List<PlacedPile>> Parts(IReadOnlyList<PlacedPile> piles)
    {
        var parts = new List<List<PlacedPile>>();
        var end = Length.Zero;
        foreach (var pile in piles.OrderBy(p => p.Place.X))
        {
            if (parts.Count == 0 || pile.Place.X >= end)
                parts.Add([]);
            parts[^1].Add(pile);
            end = Length.Max(end, pile.Place.Right);
        }

        return parts;
    }
}
