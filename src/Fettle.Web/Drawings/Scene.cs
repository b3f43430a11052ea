using Fettle.Engineering.Patterns;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Rules;

namespace Fettle.Web.Drawings;

/// <summary>One carton of a layer, in inches from the deck's corner.</summary>
/// <param name="Turned">Its length lies across the deck's length.</param>
internal readonly record struct Slot(double X, double Y, double Length, double Width, bool Turned)
{
    public double Right => X + Length;

    public double Far => Y + Width;
}

/// <summary>
/// A handling unit as plain numbers in inches, with the deck's corner at 0, 0, 0; x along the deck's length, y along its
/// width, z up from the floor. Without a platform the deck is the load's own footprint.
/// </summary>
/// <param name="Layer">One full layer; empty when the unit is not drawn as cartons.</param>
/// <param name="OtherLayer">The layers between, when they are interlocked and the layer can be turned so that it differs.</param>
/// <param name="Turn">How those differ from the layer; null without them.</param>
/// <param name="TopLayer">The cartons of an unfinished layer, put where they hide least: which places they take is not declared.</param>
internal sealed record Scene(
    HandlingUnit Unit,
    LoadShape Shape,
    double DeckLength,
    double DeckWidth,
    double PlatformHeight,
    double LoadX,
    double LoadY,
    double LoadLength,
    double LoadWidth,
    double LoadHeight,
    IReadOnlyList<Slot> Layer,
    IReadOnlyList<Slot>? OtherLayer,
    LayerTurn? Turn,
    IReadOnlyList<Slot> TopLayer,
    int FullLayers)
{
    /// <summary>A layer of more cartons is drawn as a block: nobody could count them.</summary>
    public const int MostCartons = 160;

    /// <summary>A stack of more tiers is drawn without its cartons.</summary>
    public const int MostTiers = 40;

    /// <summary>A stack of more cartons is drawn without them: the drawing would grow too large to send.</summary>
    public const int MostInStack = 600;

    public double LoadRight => LoadX + LoadLength;

    public double LoadFar => LoadY + LoadWidth;

    public double Height => PlatformHeight + LoadHeight;

    public CartonContents? Cartons => Unit.Contents as CartonContents;

    public int Tiers => FullLayers + (TopLayer.Count > 0 ? 1 : 0);

    public double TierHeight => LoadHeight / Math.Max(1, Tiers);

    public bool Overhangs => Shape.Overhang.Greatest > Engineering.Units.Length.Zero;

    /// <summary>Cartons of the layer are drawn one by one.</summary>
    public bool ShowsCartons => Layer.Count is > 0 and <= MostCartons;

    /// <summary>Cartons are drawn in the view from the corner too.</summary>
    public bool ShowsTiers => ShowsCartons && Tiers <= MostTiers && Layer.Count * Tiers <= MostInStack;

    /// <summary>The parts of a carton, or of the whole load, that lie past the deck: none, or up to four that do not overlap.</summary>
    public IEnumerable<Slot> PastDeck(Slot slot)
    {
        if (Unit.Platform is null)
            yield break;
        var (x0, x1) = (Math.Clamp(0, slot.X, slot.Right), Math.Clamp(DeckLength, slot.X, slot.Right));
        var (y0, y1) = (Math.Clamp(0, slot.Y, slot.Far), Math.Clamp(DeckWidth, slot.Y, slot.Far));
        Slot[] parts =
        [
            slot with { Length = x0 - slot.X },
            slot with { X = x1, Length = slot.Right - x1 },
            slot with { X = x0, Length = x1 - x0, Width = y0 - slot.Y },
            slot with { X = x0, Length = x1 - x0, Y = y1, Width = slot.Far - y1 },
        ];
        foreach (var part in parts)
        {
            if (part is { Length: > 1e-6, Width: > 1e-6 })
                yield return part;
        }
    }

    /// <summary>Null when the declaration lacks a size or a count that a drawing needs.</summary>
    public static Scene? Of(HandlingUnit unit)
    {
        if (!IsDrawable(unit))
            return null;
        var shape = LoadShape.Of(unit);
        var deckLength = unit.Platform?.Length.Inches ?? shape.LoadLength.Inches;
        var deckWidth = unit.Platform?.Width.Inches ?? shape.LoadWidth.Inches;
        var (length, width) = (Math.Max(0, shape.LoadLength.Inches), Math.Max(0, shape.LoadWidth.Inches));
        var (x, y) = ((deckLength - length) / 2, (deckWidth - width) / 2);
        var cartons = unit.Contents as CartonContents;
        Slot[] layer = [];
        // A loose carton is as large as its outside, whatever the catalogue says of it.
        if (unit.Platform is null && shape.Layer is { Count: 1 })
            layer = [new(x, y, length, width, false)];
        else if (cartons is not null && shape.Layer is { } placed)
            layer = Centred([.. placed.Placements.Select(p => SlotOf(p, cartons.Carton))], x + (length / 2), y + (width / 2));
        var isFull = cartons is { Layers: > 0 };
        Slot[] top = cartons is { TopLayer: > 0 } && layer.Length > 0
            ? [.. layer.OrderBy(slot => slot.Right + slot.Far).Take(cartons.TopLayer)]
            : [];
        var (other, turn) = cartons?.Stack == StackKind.Interlocked && layer.Length <= MostCartons ? Turned(layer, x, y, length, width) : default;
        return new(
            unit,
            shape,
            deckLength,
            deckWidth,
            Math.Max(0, shape.PlatformHeight.Inches),
            x,
            y,
            length,
            width,
            Math.Max(0, shape.LoadHeight.Inches),
            layer,
            other,
            turn,
            top,
            isFull ? cartons!.Layers : layer.Length > 0 && top.Length == 0 ? 1 : 0);
    }

    private static bool IsDrawable(HandlingUnit unit)
    {
        static bool Over(params ReadOnlySpan<Engineering.Units.Length> sides)
        {
            foreach (var side in sides)
            {
                if (side <= Engineering.Units.Length.Zero)
                    return false;
            }

            return true;
        }

        if (unit.Platform is { } deck ? !Over(deck.Length, deck.Width) : !Over(unit.Outer.Length, unit.Outer.Width))
            return false;
        return unit.Contents is not CartonContents cartons
            || (Over(cartons.Carton.Length, cartons.Carton.Width)
                && cartons is { Layers: >= 0, TopLayer: >= 0 }
                && (cartons.Layers == 0 || cartons.PerLayer > 0)
                && (cartons.Layers > 0 || cartons.TopLayer > 0));
    }

    private static Slot SlotOf(Placement p, Carton carton) =>
        new(p.X.Inches, p.Y.Inches, p.Length.Inches, p.Width.Inches, p.Length != carton.Length);

    /// <summary>A single row cannot be drawn apart to the declared footprint; it stands in its middle.</summary>
    private static Slot[] Centred(Slot[] layer, double x, double y)
    {
        if (layer.Length == 0)
            return layer;
        var right = x - ((layer.Min(slot => slot.X) + layer.Max(slot => slot.Right)) / 2);
        var far = y - ((layer.Min(slot => slot.Y) + layer.Max(slot => slot.Far)) / 2);
        return [.. layer.Select(slot => slot with { X = slot.X + right, Y = slot.Y + far })];
    }

    /// <summary>The layer mirrored or turned half round within its footprint, whichever first differs; nothing when none does.</summary>
    private static (Slot[]? Layer, LayerTurn? Turn) Turned(Slot[] layer, double x, double y, double length, double width)
    {
        var right = x + x + length;
        var far = y + y + width;
        foreach (var turn in new[] { LayerTurn.MirroredAlongLength, LayerTurn.MirroredAcrossWidth, LayerTurn.HalfTurn })
        {
            Slot[] turned = [.. layer.Select(slot => slot with
            {
                X = turn != LayerTurn.MirroredAcrossWidth ? right - slot.Right : slot.X,
                Y = turn != LayerTurn.MirroredAlongLength ? far - slot.Far : slot.Y,
            })];
            if (!Same(layer, turned))
                return (turned, turn);
        }

        return default;
    }

    private static bool Same(Slot[] a, Slot[] b)
    {
        static (double, double, double) Key(Slot slot) => (Math.Round(slot.X, 3), Math.Round(slot.Y, 3), Math.Round(slot.Length, 3));
        return a.Select(Key).ToHashSet().SetEquals(b.Select(Key));
    }
}
