using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>Which limit ends a stack.</summary>
public enum StackLimit
{
    /// <summary>One layer more would be too high.</summary>
    Height,

    /// <summary>One layer more would be too heavy.</summary>
    Weight,
}

/// <summary>How many full layers a limit allows.</summary>
/// <param name="Layers">Full layers, 0 or more.</param>
/// <param name="LimitedBy">The limit that the next layer would pass; height when it would pass both.</param>
/// <param name="Height">Of the platform and these layers.</param>
/// <param name="Weight">Of the platform and these layers.</param>
public sealed record LayersAllowed(int Layers, StackLimit LimitedBy, Length Height, Mass Weight)
{
    /// <summary>Full layers on a platform up to a height and a gross weight, both inclusive.</summary>
    /// <param name="greatestHeight">Of the whole unit.</param>
    /// <param name="greatestWeight">Of the whole unit.</param>
    /// <param name="platformHeight">Zero or more.</param>
    /// <param name="platformWeight">Zero or more.</param>
    /// <param name="layerHeight">Over zero: the carton's height, with a slip sheet if there is one.</param>
    /// <param name="layerWeight">Over zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A layer without height or weight, or a platform with less than none.</exception>
    public static LayersAllowed By(Length greatestHeight, Mass greatestWeight, Length platformHeight, Mass platformWeight, Length layerHeight, Mass layerWeight)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(platformHeight, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThan(platformWeight, Mass.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(layerHeight, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(layerWeight, Mass.Zero);
        var byHeight = Math.Max(0, (greatestHeight - platformHeight).Nanometres / layerHeight.Nanometres);
        var byWeight = Math.Max(0, (greatestWeight - platformWeight).Nanograms / layerWeight.Nanograms);
        var layers = (int)Math.Min(int.MaxValue, Math.Min(byHeight, byWeight));
        return new LayersAllowed(layers, byHeight <= byWeight ? StackLimit.Height : StackLimit.Weight, platformHeight + layerHeight * layers, platformWeight + layerWeight * layers);
    }
}

/// <summary>How much of what was paid for is filled.</summary>
public static class LayerUse
{
    /// <summary>Share of a deck's area under cartons, 0 to 1; more when the layer hangs over.</summary>
    public static double AreaUsed(this LayerPattern layer, Length deckLength, Length deckWidth)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(deckLength, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(deckWidth, Length.Zero);
        return layer.Placements.Sum(p => p.Length / deckLength * (p.Width / deckWidth));
    }

    /// <summary>Share of the room over a deck, up to a height above the deck, that layers of cartons fill, 0 to 1.</summary>
    public static double CubeUsed(this LayerPattern layer, Length deckLength, Length deckWidth, Length room, Length cartonHeight, int layers)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(room, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(cartonHeight, Length.Zero);
        ArgumentOutOfRangeException.ThrowIfNegative(layers);
        return layer.AreaUsed(deckLength, deckWidth) * (cartonHeight * layers / room);
    }
}
