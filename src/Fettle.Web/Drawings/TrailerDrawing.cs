using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Web.Drawings;

/// <summary>
/// A trailer's plan to scale: each level from above, nose to the left, and the whole from the left side. Units go by the
/// number that they have in the plan, which a table beside the drawing can explain. Made as <see cref="UnitDrawing"/> is.
/// </summary>
public static class TrailerDrawing
{
    /// <summary>Of a whole drawing in its own units; at this many pixels its text is as large as small print.</summary>
    public const double Width = 900;

    private const double Margin = 6;
    private const double Caption = 18;
    private const double NumberSize = 11;

    public static string Svg(LoadPlan plan, IReadOnlyList<string> references, UnitSystem units, DrawingOptions? options = null)
    {
        var canvas = new Canvas(options ?? DrawingOptions.ForPage);
        var scale = (Width - (2 * Margin)) / plan.Trailer.Length.Inches;
        var y = 0.0;
        foreach (var level in plan.Positions.Select(p => p.Level).Distinct().Order())
            y = FromAbove(canvas, plan, level, y, scale, units);
        y = FromTheSide(canvas, plan, y, scale, units);
        return canvas.Finish(Width, y, "Floor plan", Describe(plan, references, units));
    }

    /// <summary>"48 × 40 × 50 in" as the unit stands.</summary>
    public static string Size(LoadPosition position, UnitSystem units) => Words.Size(units, position.Place.Length, position.Place.Width, position.Height);

    private static double FromAbove(Canvas canvas, LoadPlan plan, LoadLevel level, double top, double scale, UnitSystem units)
    {
        var room = new Box(Margin, top + Caption, plan.Trailer.Length.Inches * scale, plan.Trailer.Width.Inches * scale);
        canvas.Text(Look.Strong, new(Margin, top + Caption - 5), Title(plan, level, units));
        canvas.Text(Look.Text, new(room.Right, top + Caption - 5), "door", Canvas.Anchor.End);
        canvas.Open($"fd-level-{(int)level}", scale);
        canvas.Rect(Look.Room, room);
        // What stands below shows through, so that one sees what carries what.
        foreach (var below in plan.Positions.Where(p => p.Level < level))
            canvas.Rect(Look.Below, At(below));
        for (var i = 0; i < plan.Positions.Count; i++)
        {
            var position = plan.Positions[i];
            if (position.Level != level)
                continue;
            var box = At(position);
            canvas.Rect(Of(position), box, round: 1.5);
            Number(canvas, box, i + 1);
        }

        canvas.Close();
        if (level == LoadLevel.Floor)
            Used(canvas, plan, room, scale);
        return room.Bottom + 8;

        Box At(LoadPosition p) => new(
            room.X + (p.Place.X.Inches * scale), room.Y + (p.Place.Y.Inches * scale), p.Place.Length.Inches * scale, p.Place.Width.Inches * scale);
    }

    private static double FromTheSide(Canvas canvas, LoadPlan plan, double top, double scale, UnitSystem units)
    {
        var room = new Box(Margin, top + Caption, plan.Trailer.Length.Inches * scale, plan.Trailer.Height.Inches * scale);
        canvas.Text(Look.Strong, new(Margin, top + Caption - 5), $"From the side, {Words.Show(plan.Trailer.Height, units)} high inside");
        canvas.Open("fd-side-view", scale);
        canvas.Rect(Look.Room, room);
        // The far side first, so that the near one covers it.
        foreach (var p in plan.Positions.OrderByDescending(p => p.Place.Y))
        {
            canvas.Rect(Of(p), new(
                room.X + (p.Place.X.Inches * scale), room.Bottom - (p.Top.Inches * scale), p.Place.Length.Inches * scale, p.Height.Inches * scale), round: 1.5);
        }

        if (plan.DeckHeight is { } deck)
        {
            var decked = plan.Positions.Where(p => p.IsOnDeck).ToList();
            var y = room.Bottom - (deck.Inches * scale);
            canvas.Line(
                Look.Beam,
                new Spot(room.X + (decked.Min(p => p.Place.X).Inches * scale), y),
                new Spot(room.X + (decked.Max(p => p.Place.Right).Inches * scale), y));
        }

        canvas.Close();
        return room.Bottom + 8;
    }

    /// <summary>A line across the floor where the freight ends.</summary>
    private static void Used(Canvas canvas, LoadPlan plan, Box room, double scale)
    {
        var x = room.X + (plan.LengthUsed.Inches * scale);
        canvas.Line(Look.UsedLine, new Spot(x, room.Y - 2), new Spot(x, room.Bottom + 2));
        var text = $"{Words.Feet(plan.LinearFeet)} used";
        if (room.Right - x > Letters.Width(text, 11) + 10)
            canvas.Text(Look.Text, new(x + 6, room.Middle.Y + 4), text);
    }

    private static void Number(Canvas canvas, Box box, int number)
    {
        var text = Words.Number(number);
        if (Letters.Width(text, NumberSize) < box.Width - 2 && NumberSize < box.Height - 1)
            canvas.Text(Look.UnitNumber, box.Middle + new Spot(0, NumberSize * 0.36), text, Canvas.Anchor.Middle);
    }

    private static Look Of(LoadPosition position) => position.IsOnDeck ? Look.OnDeck : position.Level switch
    {
        LoadLevel.Floor => Look.OnFloor,
        LoadLevel.Second => Look.OnUnit,
        LoadLevel.Top => Look.OnTop,
    };

    private static string Title(LoadPlan plan, LoadLevel level, UnitSystem units) => level switch
    {
        LoadLevel.Floor => "On the floor, from above; nose to the left",
        LoadLevel.Second when plan.DeckHeight is { } deck => plan.Positions.Any(p => p.Level == LoadLevel.Second && !p.IsOnDeck)
            ? $"On the deck, {Words.Show(deck, units)} up, and on other units"
            : $"On the deck, {Words.Show(deck, units)} up",
        LoadLevel.Second => "On other units",
        LoadLevel.Top => "On top of these",
    };

    private static string Describe(LoadPlan plan, IReadOnlyList<string> references, UnitSystem units)
    {
        var levels = plan.Positions.CountBy(p => p.Level).OrderBy(l => l.Key)
            .Select(l => $"{Words.Number(l.Value)} {(l.Key == LoadLevel.Floor ? "on the floor" : l.Key == LoadLevel.Second ? "above them" : "on top")}");
        return $"{Words.Feet(plan.LinearFeet)} of a trailer {Words.Show(plan.Trailer.Length, units)} long are used: {string.Join(", ", levels)}. "
            + $"Units: {string.Join(", ", plan.Positions.CountBy(p => p.Kind).Select(k => $"{Words.Number(k.Value)} × {Letters.Shortened(references[k.Key], 24)}"))}.";
    }
}
