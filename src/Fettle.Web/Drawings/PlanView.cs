using Fettle.Engineering.Units;

namespace Fettle.Web.Drawings;

/// <summary>The deck with one full layer, seen from above, to scale.</summary>
internal static class PlanView
{
    /// <summary>Room kept for the fork arrows at each end.</summary>
    private const double Forks = 17;

    private static readonly Length Bare = Length.FromInches(0.05);

    /// <param name="figures">Write what overhangs, what is bare and where the forks go in.</param>
    /// <param name="numbered">Count the cartons, row by row.</param>
    /// <returns>Where the drawing ends below.</returns>
    public static double Draw(Canvas canvas, Scene scene, Box area, UnitSystem units, bool figures, bool numbered = false)
    {
        var (x0, x1) = (Math.Min(0, scene.LoadX), Math.Max(scene.DeckLength, scene.LoadRight));
        var (y0, y1) = (Math.Min(0, scene.LoadY), Math.Max(scene.DeckWidth, scene.LoadFar));
        var forks = figures && scene.Unit.Platform is not null ? Forks : 0;
        var scale = Math.Min((area.Width - (2 * forks)) / (x1 - x0), area.Height / (y1 - y0));
        var origin = area.Middle - new Spot((x0 + x1) / 2 * scale, (y0 + y1) / 2 * scale);
        Box At(double x, double y, double length, double width) =>
            new(origin.X + (x * scale), origin.Y + (y * scale), length * scale, width * scale);

        var all = At(x0, y0, x1 - x0, y1 - y0);
        canvas.Open("fd-plan", scale);
        var deck = At(0, 0, scene.DeckLength, scene.DeckWidth);
        if (scene.Unit.Platform is not null)
            Deck(canvas, scene, deck);
        var load = At(scene.LoadX, scene.LoadY, scene.LoadLength, scene.LoadWidth);
        if (scene.ShowsCartons)
            Cartons(canvas, scene, At, numbered);
        else
            Block(canvas, scene, load);
        if (scene.Overhangs)
            Overhang(canvas, scene, deck, At);
        if (figures && scene.Unit.Platform is not null)
        {
            Arrows(canvas, all, area);
            Sides(canvas, scene, deck, load, all, units);
        }

        canvas.Close();
        return forks > 0 ? Math.Max(all.Bottom, all.Middle.Y + Spread(all, area) + 4) : all.Bottom;
    }

    private static void Deck(Canvas canvas, Scene scene, Box deck)
    {
        canvas.Rect(Materials.Of(scene.Unit.Platform!).Face, deck);
        // Top boards of a common deck lie across the stringers, some seven to four feet.
        var boards = Math.Clamp((int)Math.Round(scene.DeckLength / 7), 3, 14);
        canvas.Path(
            Look.BoardLine,
            [.. Enumerable.Range(1, boards - 1).Select(i => deck.X + (deck.Width * i / boards)).Select(x => new Spot[] { new(x, deck.Y), new(x, deck.Bottom) })],
            closed: false);
    }

    private static void Cartons(Canvas canvas, Scene scene, Func<double, double, double, double, Box> at, bool numbered)
    {
        var seams = new List<Spot[]>();
        var count = 0;
        // Cartons whose near edges are level to a quarter of an inch are of one row.
        foreach (var slot in numbered ? scene.Layer.OrderBy(slot => Math.Round(slot.Y * 4)).ThenBy(slot => slot.X) : scene.Layer.AsEnumerable())
        {
            var box = at(slot.X, slot.Y, slot.Length, slot.Width);
            canvas.Rect(slot.Turned ? Look.Turned : Look.Carton, box);
            count++;
            if (numbered)
            {
                if (Math.Min(box.Width, box.Height) > 9)
                    canvas.Text(Look.Count, box.Middle + new Spot(0, 4), Words.Number(count), Canvas.Anchor.Middle);
                continue;
            }

            // The tape runs along a carton's length.
            var (middle, half) = (box.Middle, 0.32);
            if (Math.Min(box.Width, box.Height) > 5)
                seams.Add(slot.Turned
                    ? [middle - new Spot(0, box.Height * half), middle + new Spot(0, box.Height * half)]
                    : [middle - new Spot(box.Width * half, 0), middle + new Spot(box.Width * half, 0)]);
        }

        canvas.Path(Look.Seam, seams, closed: false);
    }

    private static void Block(Canvas canvas, Scene scene, Box load)
    {
        canvas.Rect(Look.Carton with { Class = "fd-block" }, load);
        if (scene.Cartons is null)
            canvas.Path(Look.BoxLine, [[new(load.X, load.Y), new(load.Right, load.Bottom)], [new(load.Right, load.Y), new(load.X, load.Bottom)]], closed: false);
    }

    private static void Overhang(Canvas canvas, Scene scene, Box deck, Func<double, double, double, double, Box> at)
    {
        IReadOnlyList<Slot> load = scene.ShowsCartons ? scene.Layer : [new(scene.LoadX, scene.LoadY, scene.LoadLength, scene.LoadWidth, false)];
        var hatch = new List<Spot[]>();
        foreach (var part in load.SelectMany(scene.PastDeck))
        {
            var box = at(part.X, part.Y, part.Length, part.Width);
            canvas.Rect(Look.Over, box);
            hatch.AddRange(Hatch.Lines(new(box.X, box.Y), new(box.Width, 0), new(0, box.Height), 4));
        }

        canvas.Path(Look.OverHatch, hatch, closed: false);
        canvas.Rect(Look.DeckEdge, deck);
    }

    /// <summary>Two tines at each end of the deck's length: there the forks go in.</summary>
    private static void Arrows(Canvas canvas, Box all, Box area)
    {
        var spread = Spread(all, area);
        var middle = all.Middle.Y;
        foreach (var (edge, inwards) in new[] { (all.X - 2, 1.0), (all.Right + 2, -1.0) })
        {
            foreach (var y in new[] { middle - spread, middle + spread })
            {
                canvas.Polygon(
                    Look.Fork,
                    new Spot(edge, y),
                    new Spot(edge - (6 * inwards), y - 3.5),
                    new Spot(edge - (6 * inwards), y - 1.2),
                    new Spot(edge - (13 * inwards), y - 1.2),
                    new Spot(edge - (13 * inwards), y + 1.2),
                    new Spot(edge - (6 * inwards), y + 1.2),
                    new Spot(edge - (6 * inwards), y + 3.5));
            }

            canvas.Text(Look.Text, new(edge - (inwards * 7) + 3.5, middle), T("forks"), Canvas.Anchor.Middle, -90);
        }
    }

    /// <summary>From the middle to each tine; the word stands between them.</summary>
    private static double Spread(Box all, Box area) => Math.Min(Math.Max(all.Height * 0.28, (Letters.Width(T("forks"), 11) / 2) + 6), (area.Height / 2) - 4);

    /// <summary>How far each side overhangs, or how much deck lies bare there, written inside the outline.</summary>
    private static void Sides(Canvas canvas, Scene scene, Box deck, Box load, Box all, UnitSystem units)
    {
        // In less room the figures would hide one another; the words below say them too.
        if (all.Width < 110 || all.Height < 55)
            return;
        var over = scene.Shape.Overhang;
        var bare = scene.Shape.Clearance;
        var middle = deck.Middle;
        Tag(over.Front, bare.Front, new((deck.X + load.X) / 2, middle.Y));
        Tag(over.Back, bare.Back, new((deck.Right + load.Right) / 2, middle.Y));
        Tag(over.Left, bare.Left, new(middle.X, (deck.Y + load.Y) / 2));
        Tag(over.Right, bare.Right, new(middle.X, (deck.Bottom + load.Bottom) / 2));

        void Tag(Length past, Length left, Spot at)
        {
            if (past > Length.Zero)
                canvas.Tag(Look.OverTag, Look.OverTagText, at, Words.Show(past, units), 10.5, all);
            else if (left > Bare)
                canvas.Tag(Look.Tag, Look.TagText, at, Words.Show(left, units), 10, all);
        }
    }
}
