using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Rules;

/// <summary>A figure for each side of the deck. Front and back are the ends of the deck's length; left and right the sides.</summary>
public sealed record Sides(Length Front, Length Back, Length Left, Length Right)
{
    public static readonly Sides None = new(Length.Zero, Length.Zero, Length.Zero, Length.Zero);

    public Length Greatest => Length.Max(Length.Max(Front, Back), Length.Max(Left, Right));

    public Length Least => Length.Min(Length.Min(Front, Back), Length.Min(Left, Right));
}

/// <summary>Where the load stands on its deck, worked out from the declaration.</summary>
/// <param name="Layer">One full layer, its placements measured from the deck's corner; a placement may lie past the deck. Null when not made of cartons or when they cannot be placed.</param>
/// <param name="Overhang">Load past the deck, per side; the load is taken as centred.</param>
/// <param name="Clearance">Bare deck, per side.</param>
/// <param name="LoadHeight">From the top of the platform to the top of the load.</param>
/// <param name="CartonsDoNotFit">The declared cartons cannot stand in a layer of the declared outer size.</param>
public sealed record LoadShape(
    LayerPattern? Layer,
    Length LoadLength,
    Length LoadWidth,
    Length LoadHeight,
    Length PlatformHeight,
    Sides Overhang,
    Sides Clearance,
    bool CartonsDoNotFit)
{
    /// <summary>
    /// The load's footprint is the declared outer size where that goes past the deck, for the outer size includes all that
    /// sticks out; elsewhere it is the extent of the most compact layer of the declared cartons.
    /// </summary>
    public static LoadShape Of(HandlingUnit unit)
    {
        var outer = unit.Outer;
        var cartons = (unit.Contents as CartonContents)?.Settled;
        if (unit.Platform is not { } deck)
        {
            var loose = cartons is { Count: 1 } single
                ? new LayerPattern([new(Length.Zero, Length.Zero, single.Carton.Length, single.Carton.Width)], 1, true)
                : null;
            // A loose carton is held against its own size; a crate must have room for what is in it.
            var tooMany = unit.Kind == HandlingUnitKind.Crate && cartons is not null && Holding(cartons, outer.Length, outer.Width) is null;
            return new(loose, outer.Length, outer.Width, outer.Height, Length.Zero, Sides.None, Sides.None, tooMany);
        }

        LayerPattern? layer = null;
        if (cartons is not null)
            layer = Holding(cartons, deck.Length, deck.Width)
                ?? Holding(cartons, Length.Max(outer.Length, deck.Length), Length.Max(outer.Width, deck.Width));

        var loadLength = layer is null || outer.Length > deck.Length + Tape ? outer.Length : layer.FootprintLength;
        var loadWidth = layer is null || outer.Width > deck.Width + Tape ? outer.Width : layer.FootprintWidth;
        var (front, bareFront) = Past(loadLength, deck.Length);
        var (left, bareLeft) = Past(loadWidth, deck.Width);
        return new(
            layer is null ? null : Spread(layer, loadLength, loadWidth, deck),
            loadLength,
            loadWidth,
            Length.Max(Length.Zero, outer.Height - deck.Height),
            deck.Height,
            new Sides(front, front, left, left),
            new Sides(bareFront, bareFront, bareLeft, bareLeft),
            CartonsDoNotFit: cartons is not null && layer is null);
    }

    private static LayerPattern? Holding(CartonContents cartons, Length length, Length width) =>
        PatternFinder.Holding(cartons.PerLayer, length, width, cartons.Carton.Length, cartons.Carton.Width);

    /// <summary>
    /// What two tapes disagree about: 122 cm on a deck of 48 in is no overhang. Our choice, no source.
    /// </summary>
    private static readonly Length Tape = Length.FromInches(0.125);

    private static (Length Over, Length Bare) Past(Length load, Length deck)
    {
        var past = load - deck;
        return past > Tape ? (past / 2, Length.Zero) : (Length.Zero, Length.Max(Length.Zero, -past) / 2);
    }

    /// <summary>Draws a compact layer apart to the declared footprint and puts it on the middle of the deck.</summary>
    private static LayerPattern Spread(LayerPattern layer, Length loadLength, Length loadWidth, Platform deck)
    {
        var placements = new Placement[layer.Count];
        for (var i = 0; i < placements.Length; i++)
        {
            var p = layer.Placements[i];
            placements[i] = p with
            {
                X = Along(p.X, p.Length, layer.FootprintLength, loadLength, deck.Length),
                Y = Along(p.Y, p.Width, layer.FootprintWidth, loadWidth, deck.Width),
            };
        }

        return layer with { Placements = placements };

        static Length Along(Length start, Length side, Length extent, Length load, Length deck)
        {
            var room = extent - side;
            var spread = room > Length.Zero && load > extent ? start * ((load - side) / room) : start;
            return spread + ((deck - Length.Max(load, extent)) / 2);
        }
    }
}
