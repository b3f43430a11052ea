using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// Finds layers of identical cartons on a rectangle: cartons lie flat, may be turned by 90 degrees, and never overlap or
/// leave the rectangle. Results depend on the arguments alone (recent ones are kept, so that asking again costs next to
/// nothing) and may be used from any thread. The footprint's corner lies at 0, 0.
/// </summary>
public static class PatternFinder
{
    /// <summary>
    /// No layer returned has more cartons than this, whatever the sizes asked for; its bound still speaks of the whole
    /// rectangle. A real layer has a few hundred at most.
    /// </summary>
    public const int LargestLayer = 10_000;

    /// <summary>
    /// With more distinct lengths of whole cartons end to end than this along a side (some 400 cartons in a layer on a deck,
    /// fewer on a long narrow floor), layers are made of at most two blocks and no further search is made.
    /// </summary>
    internal const int MostSums = 400;

    /// <summary>Cuts that the search by blocks may try: some tens of milliseconds.</summary>
    private const long BlockWork = 2_000_000;

    /// <summary>The search by blocks goes three cuts deep; what it misses then, the search by L-shaped pieces finds sooner.</summary>
    private const int BlockDepths = 3;

    /// <summary>Cuts that the search by L-shaped pieces may try: about half a second.</summary>
    private const long LShapeWork = 70_000_000;

    private static readonly RecentLayers<(Length, Length, Length, Length)> recentBest = new();
    private static readonly RecentLayers<(int, Length, Length, Length, Length)> recentHolding = new();

    /// <summary>
    /// The most cartons that were found on a deck, without overhang. <see cref="LayerPattern.IsOptimal"/> says whether a
    /// bound proves that there is no better layer. Empty when no carton fits.
    /// </summary>
    /// <param name="deckLength">Over zero.</param>
    /// <param name="deckWidth">Over zero.</param>
    /// <param name="cartonLength">Over zero; may be less than the width.</param>
    /// <param name="cartonWidth">Over zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is zero or negative.</exception>
    public static LayerPattern Best(Length deckLength, Length deckWidth, Length cartonLength, Length cartonWidth)
    {
        ThrowUnlessPositive(deckLength, deckWidth, cartonLength, cartonWidth);
        var key = (deckLength, deckWidth, cartonLength, cartonWidth);
        return recentBest.GetOrAdd(key, static k => Best(Floor.Of(k.deckLength, k.deckWidth, k.cartonLength, k.cartonWidth)), key)!;
    }

    /// <summary>
    /// A compact layer of exactly <paramref name="count"/> cartons inside a rectangle, or null when none was found. A full
    /// grid (all cartons one way, rows and columns complete) is preferred when it is at most three times as long as wide;
    /// otherwise the layer with the smallest length + width, then the smallest area, whether a grid whose last row is not
    /// full, two blocks or a pinwheel. Of equal footprints the one that lies along the rectangle's length is taken.
    /// </summary>
    /// <param name="count">Cartons in the layer, 1 or more.</param>
    /// <param name="maxLength">Over zero.</param>
    /// <param name="maxWidth">Over zero.</param>
    /// <param name="cartonLength">Over zero; may be less than the width.</param>
    /// <param name="cartonWidth">Over zero.</param>
    /// <returns>
    /// The layer; its bound is that of the whole rectangle. Null when the cartons do not fit, as far as was found, or number
    /// more than <see cref="LargestLayer"/>.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">A side or the count is zero or negative.</exception>
    public static LayerPattern? Holding(int count, Length maxLength, Length maxWidth, Length cartonLength, Length cartonWidth)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(count);
        ThrowUnlessPositive(maxLength, maxWidth, cartonLength, cartonWidth);
        var key = (count, maxLength, maxWidth, cartonLength, cartonWidth);
        return recentHolding.GetOrAdd(key, static k => Holding(k.count, Floor.Of(k.maxLength, k.maxWidth, k.cartonLength, k.cartonWidth)), key);
    }

    private static LayerPattern Best(Floor? possible)
    {
        if (possible is not { } floor)
            return new LayerPattern([], 0, true);
        // Always searched lying along, so that a turned deck has the same layer, turned.
        var swap = floor.Length < floor.Width;
        var (cartons, bound) = Most(swap ? floor.Swapped : floor);
        return floor.Pattern(swap ? cartons.Select(c => c.Swapped) : cartons, LargestLayer, bound);
    }

    private static (IEnumerable<Box> Cartons, int Bound) Most(Floor floor)
    {
        if (CartonSums.UpTo(floor.Length, floor.CartonLength, floor.CartonWidth, MostSums) is not { } sums)
            return (Blocks.Best(floor), LayerBound.Of(floor));
        var (a, b) = (sums.RankOf(floor.Length), sums.RankOf(floor.Width));
        var blocks = new FiveBlockSearch(sums, BlockWork);
        var bound = blocks.Bound(a, b);
        var found = blocks.Most(a, b, bound, BlockDepths);
        if (found < bound)
            bound = Math.Min(bound, LayerBound.ByBars(sums.PartitionsOf(a), sums.PartitionsOf(b), found));
        if (found == bound || LShapeSearch.For(a, b, sums, blocks, LShapeWork) is not { } pieces)
            return (blocks.Layout(a, b), bound);
        pieces.Most(a, b, bound);
        return (pieces.Layout(a, b), bound);
    }

    private static LayerPattern? Holding(int count, Floor? possible)
    {
        if (possible is not { } floor || count > LargestLayer)
            return null;
        var bound = LayerBound.Of(floor);
        if (count > bound)
            return null;
        if (Compact.Layer(floor, count) is { } compact)
            return floor.Pattern(compact, count, bound);
        var most = Best(floor);
        return most.Count < count ? null : most with { Placements = [.. most.Placements.Take(count)], IsOptimal = count == most.UpperBound };
    }

    private static void ThrowUnlessPositive(Length deckLength, Length deckWidth, Length cartonLength, Length cartonWidth)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(deckLength, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(deckWidth, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(cartonLength, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(cartonWidth, Length.Zero);
    }
}
