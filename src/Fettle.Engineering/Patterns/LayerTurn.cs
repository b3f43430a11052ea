using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>How the next layer is laid when every second one differs from the first.</summary>
public enum LayerTurn
{
    /// <summary>Every layer alike: columns, the strongest stack and the one that holds together least.</summary>
    Same,

    /// <summary>Every second layer turned by 180 degrees.</summary>
    HalfTurn,

    /// <summary>Every second layer mirrored end for end along the deck's length.</summary>
    MirroredAlongLength,

    /// <summary>Every second layer mirrored side for side across the deck's width.</summary>
    MirroredAcrossWidth,

    /// <summary>Every second layer turned by 90 degrees, where the footprint allows it.</summary>
    QuarterTurn,
}

/// <summary>Layers laid the other way.</summary>
public static class LayerTurns
{
    /// <summary>
    /// The layer turned within its own footprint: the corner of the footprint stays where it was. A quarter turn swaps the
    /// footprint's length and width.
    /// </summary>
    public static LayerPattern Turned(this LayerPattern layer, LayerTurn turn)
    {
        if (layer.Count == 0 || turn == LayerTurn.Same)
            return layer;
        var (nearX, nearY) = (layer.Placements.Min(p => p.X), layer.Placements.Min(p => p.Y));
        var (farX, farY) = (nearX + layer.FootprintLength, nearY + layer.FootprintWidth);
        return layer with { Placements = [.. layer.Placements.Select(Turn).OrderBy(p => p.X).ThenBy(p => p.Y)] };

        Placement Turn(Placement p) => turn switch
        {
            LayerTurn.Same => p,
            LayerTurn.HalfTurn => p with { X = nearX + farX - p.Right, Y = nearY + farY - p.Top },
            LayerTurn.MirroredAlongLength => p with { X = nearX + farX - p.Right },
            LayerTurn.MirroredAcrossWidth => p with { Y = nearY + farY - p.Top },
            LayerTurn.QuarterTurn => new Placement(nearX + farY - p.Top, nearY + p.X - nearX, p.Width, p.Length),
        };
    }
}
