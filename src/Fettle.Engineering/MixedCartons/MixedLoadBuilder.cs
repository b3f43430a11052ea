using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>
/// Builds cartons of several kinds on one deck: layers of one kind, then layers of kinds of equal height, strong or heavy ones
/// low; then the rest in columns and gaps, each as low as it may stand; fragile ones last. Several orders are tried and the
/// best load is returned: most volume on the deck, then the flattest top, then the lowest centre of gravity. The result
/// depends on the arguments alone. See docs/engineering/mixed-cartons.md.
/// </summary>
public static class MixedLoadBuilder
{
    /// <summary>Comparisons of a carton with one already placed: some tenths of a second; a mix of 26 kinds takes a fraction.</summary>
    private const long MostWork = 40_000_000;

    /// <summary>Sides beyond this are no pallet; whole nanometres then never overflow.</summary>
    private static readonly Length longest = Length.FromMetres(100);

    /// <summary>Shares of the deck that a drafted layer must cover; the last, over one, is for loads without layers.</summary>
    private static readonly double[] leastShares = [0.75, 0.9, 2];

    /// <summary>The best load that was found.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A size, mass or the least support is out of its range, or a side of the room is over 100 m.
    /// </exception>
    public static MixedLoad Build(IReadOnlyList<CartonKind> kinds, PalletRoom room)
    {
        ThrowUnlessSensible(kinds, room);
        var work = new Work(MostWork);
        Attempt? best = null;
        foreach (var order in Enum.GetValues<Order>())
        {
            foreach (var leastShare in leastShares)
            {
                if (best is not null && work.IsSpent)
                    break;
                var attempt = new Attempt(kinds, room, work);
                var hasLayers = attempt.Build(leastShare, order);
                if (best is null || attempt.CompareTo(best) > 0)
                    best = attempt;
                if (!hasLayers)
                    break;
            }
        }

        return best!.Load();
    }

    private static void ThrowUnlessSensible(IReadOnlyList<CartonKind> kinds, PalletRoom room)
    {
        foreach (var side in (Length[])[room.DeckLength, room.DeckWidth, room.Height])
        {
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(side, Length.Zero, nameof(room));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(side, longest, nameof(room));
        }

        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(room.Mass, Mass.Zero, nameof(room));
        if (room.LeastSupport is not (> 0.5 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(room), room.LeastSupport, "The least support is a share over a half, up to one.");
        foreach (var kind in kinds)
        {
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(Length.Min(kind.Length, Length.Min(kind.Width, kind.Height)), Length.Zero, nameof(kinds));
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(kind.Mass, Mass.Zero, nameof(kinds));
            ArgumentOutOfRangeException.ThrowIfLessThan(kind.Bears, Force.Zero, nameof(kinds));
            ArgumentOutOfRangeException.ThrowIfNegative(kind.Count, nameof(kinds));
        }
    }
}

/// <summary>What goes low.</summary>
internal enum Order
{
    /// <summary>What bears most for its size.</summary>
    Strong,

    /// <summary>What weighs most.</summary>
    Heavy,

    /// <summary>What takes most of the deck.</summary>
    Broad,

    /// <summary>What is tallest, so that tops end level.</summary>
    Tall,
}
