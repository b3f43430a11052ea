using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Drawings;

/// <summary>
/// The unit seen from a corner and from above, to scale along each axis: the long side faces left, the end where the forks
/// go in faces right.
/// </summary>
internal sealed class CornerView
{
    /// <summary>How the two level axes run on the canvas, per inch: flatter than isometric, so that the faces show well.</summary>
    private const double Across = 0.87;
    private const double Down = 0.42;

    private readonly Canvas canvas;
    private readonly Scene scene;
    private readonly double scale;
    private readonly Spot origin;
    private readonly double left, right, near, far;

    private CornerView(Canvas canvas, Scene scene, Box area, double most)
    {
        this.canvas = canvas;
        this.scene = scene;
        (left, right) = (Math.Min(0, scene.LoadX), Math.Max(scene.DeckLength, scene.LoadRight));
        (near, far) = (Math.Min(0, scene.LoadY), Math.Max(scene.DeckWidth, scene.LoadFar));
        scale = Math.Min(most, Fitting(scene, area.Width, area.Height));
        origin = default;
        var middle = (At(left, far, 0).X + At(right, near, 0).X) / 2;
        origin = new(area.Middle.X - middle, area.Bottom - At(right, far, 0).Y);
    }

    /// <summary>The greatest scale at which a unit fits, canvas units per inch.</summary>
    public static double Fitting(Scene scene, double width, double height)
    {
        var length = Math.Max(scene.DeckLength, scene.LoadRight) - Math.Min(0, scene.LoadX);
        var breadth = Math.Max(scene.DeckWidth, scene.LoadFar) - Math.Min(0, scene.LoadY);
        return Math.Min(width / ((length + breadth) * Across), height / (((length + breadth) * Down) + scene.Height));
    }

    public static void Draw(Canvas canvas, Scene scene, Box area, double most = double.PositiveInfinity)
    {
        var view = new CornerView(canvas, scene, area, most);
        canvas.Open("fd-corner", view.scale);
        view.Unit();
        canvas.Close();
    }

    /// <summary>With the outside length, width and height written at the edges.</summary>
    /// <param name="labels">Where the two labels go, on the two sides that show.</param>
    public static void Draw(Canvas canvas, Scene scene, Box area, UnitSystem units, bool labels = false)
    {
        const double Margin = 17;
        var view = new CornerView(canvas, scene, new(area.X + Margin, area.Y + 3, area.Width - (2 * Margin), area.Height - Margin - 5), double.PositiveInfinity);
        canvas.Open("fd-corner", view.scale);
        view.Unit();
        if (labels)
            view.Labels();
        view.Dimensions(units);
        canvas.Close();
    }

    private Spot At(double x, double y, double z) =>
        origin + new Spot((x - y) * Across * scale, (((x + y) * Down) - z) * scale);

    private void Unit()
    {
        if (scene.Unit.Platform is { } platform)
            Platform(platform);
        if (scene.ShowsTiers)
            Tiers();
        else
            Block();
        Protection(scene.Unit.Protection);
        if (scene.Overhangs)
            Overhang();
    }

    private void Platform(Platform platform)
    {
        var (l, w, h) = (scene.DeckLength, scene.DeckWidth, scene.PlatformHeight);
        var (face, side) = Materials.Of(platform);
        canvas.Polygon(Look.Gap, At(0, w, 0), At(l, w, 0), At(l, 0, 0), At(l, 0, h), At(l, w, h), At(0, w, h));
        // Along the side the stringer shows; at the end, the stringers' ends with the fork openings between them.
        SideFace(side, 0, l, w, h * 0.12, h * 0.86);
        var post = w * 0.06;
        foreach (var y in new[] { 0, (w - post) / 2, w - post })
            EndFace(side, l, y, y + post, h * 0.12, h * 0.86);
        SideFace(face, 0, l, w, 0, h * 0.12);
        EndFace(side, l, 0, w, 0, h * 0.12);
        SideFace(face, 0, l, w, h * 0.86, h);
        EndFace(side, l, 0, w, h * 0.86, h);
        canvas.Polygon(face, At(0, 0, h), At(l, 0, h), At(l, w, h), At(0, w, h));
        var boards = Math.Clamp((int)Math.Round(l / 7), 3, 14);
        canvas.Path(Look.BoardLine, [.. Enumerable.Range(1, boards - 1).Select(i => l * i / boards).Select(x => new[] { At(x, 0, h), At(x, w, h) })], closed: false);
    }

    private void SideFace(Look look, double x0, double x1, double y, double z0, double z1) =>
        canvas.Polygon(look, Side(x0, x1, y, z0, z1));

    private void EndFace(Look look, double x, double y0, double y1, double z0, double z1) =>
        canvas.Polygon(look, End(x, y0, y1, z0, z1));

    private Spot[] Side(double x0, double x1, double y, double z0, double z1) => [At(x0, y, z0), At(x1, y, z0), At(x1, y, z1), At(x0, y, z1)];

    private Spot[] End(double x, double y0, double y1, double z0, double z1) => [At(x, y1, z0), At(x, y0, z0), At(x, y0, z1), At(x, y1, z1)];

    private Spot[] Top(double x0, double x1, double y0, double y1, double z) => [At(x0, y0, z), At(x1, y0, z), At(x1, y1, z), At(x0, y1, z)];

    /// <summary>Everything that is not cartons, or too many of them: one box, with its layers marked as far as that helps.</summary>
    private void Block()
    {
        var (x0, x1, y0, y1) = (scene.LoadX, scene.LoadRight, scene.LoadY, scene.LoadFar);
        var (z0, z1) = (scene.PlatformHeight, scene.Height);
        SideFace(Look.Side, x0, x1, y1, z0, z1);
        EndFace(Look.End, x1, y0, y1, z0, z1);
        canvas.Polygon(Look.Top, Top(x0, x1, y0, y1, z1));
        var lines = new List<Spot[]>();
        if (!ContentsInWords.IsCounted(scene.Unit.Contents))
        {
            // A crate's boards and braces; of a bare piece nothing is known.
            if (scene.Unit.Kind == HandlingUnitKind.Crate)
            {
                for (var i = 1; i < 4; i++)
                {
                    var z = z0 + ((z1 - z0) * i / 4);
                    lines.Add([At(x0, y1, z), At(x1, y1, z), At(x1, y0, z)]);
                }

                lines.Add([At(x0, y1, z0), At(x1, y1, z1)]);
                lines.Add([At(x1, y1, z0), At(x1, y0, z1)]);
            }
        }
        else if (scene.Tiers is > 1 and <= Scene.MostTiers)
        {
            for (var i = 1; i < scene.Tiers; i++)
            {
                var z = z0 + (scene.TierHeight * i);
                lines.Add([At(x0, y1, z), At(x1, y1, z), At(x1, y0, z)]);
            }
        }

        canvas.Path(Look.BoxLine, lines, closed: false);
    }

    private IReadOnlyList<Slot> LayerOf(int tier) => tier % 2 == 1 && scene.OtherLayer is { } other ? other : scene.Layer;

    private void Tiers()
    {
        var even = Painted.Of(this, scene.Layer);
        var odd = scene.OtherLayer is { } other ? Painted.Of(this, other) : even;
        var interlocked = scene.Cartons!.Stack == StackKind.Interlocked;
        for (var tier = 0; tier < scene.FullLayers; tier++)
        {
            var between = interlocked && tier % 2 == 1;
            Tier(between ? odd : even, tier, between, showTops: tier == scene.FullLayers - 1);
            var z = scene.PlatformHeight + (scene.TierHeight * tier);
            if (scene.Unit.Protection.SlipSheets && tier > 0)
                canvas.Line(Look.SlipSheet, At(scene.LoadX, scene.LoadFar, z), At(scene.LoadRight, scene.LoadFar, z), At(scene.LoadRight, scene.LoadY, z));
        }

        if (scene.TopLayer.Count > 0)
            Tier(Painted.Of(this, scene.TopLayer), scene.FullLayers, interlocked && scene.FullLayers % 2 == 1, showTops: true);
    }

    private void Tier(Painted layer, int tier, bool between, bool showTops)
    {
        var z0 = scene.PlatformHeight + (scene.TierHeight * tier);
        var z1 = z0 + scene.TierHeight;
        var sideLook = between ? Look.OtherSide : Look.Side;
        var endLook = between ? Look.OtherEnd : Look.End;
        if (layer.Flush)
        {
            // No carton stands before another of its tier, so that one path holds each face.
            canvas.Path(sideLook, layer.Sides.Select(slot => Side(slot.X, slot.Right, slot.Far, z0, z1)), closed: true);
            canvas.Path(endLook, layer.Ends.Select(slot => End(slot.Right, slot.Y, slot.Far, z0, z1)), closed: true);
            if (!showTops)
                return;
        }
        else
        {
            foreach (var slot in layer.Slots)
            {
                SideFace(sideLook, slot.X, slot.Right, slot.Far, z0, z1);
                EndFace(endLook, slot.Right, slot.Y, slot.Far, z0, z1);
            }
        }

        // Nothing of the same tier stands higher than a top, so that they need no order. Under further tiers they only show
        // between cartons, where it is dark.
        canvas.Path(showTops ? Look.Top : Look.Depth, layer.Slots.Select(slot => Top(slot.X, slot.Right, slot.Y, slot.Far, z1)), closed: true);
    }

    private static (double From, double To) AlongSide(Slot slot) => (slot.X, slot.Right);

    private static (double From, double To) AcrossSide(Slot slot) => (slot.Y, slot.Far);

    /// <summary>A layer ready to be painted.</summary>
    /// <param name="Slots">Farthest first, unless flush.</param>
    /// <param name="Flush">Both faces that show are without steps and level with the load's outside.</param>
    private sealed record Painted(IReadOnlyList<Slot> Slots, Slot[] Sides, Slot[] Ends, bool Flush)
    {
        public static Painted Of(CornerView view, IReadOnlyList<Slot> layer)
        {
            Slot[] sides = [.. layer.Where(slot => !Hidden(slot, layer, AlongSide, AcrossSide))];
            Slot[] ends = [.. layer.Where(slot => !Hidden(slot, layer, AcrossSide, AlongSide))];
            var flush = layer.Count == view.scene.Layer.Count
                && sides.All(slot => Math.Abs(slot.Far - view.scene.LoadFar) < 0.01)
                && ends.All(slot => Math.Abs(slot.Right - view.scene.LoadRight) < 0.01);
            return new(flush ? layer : Order(layer), sides, ends, flush);
        }
    }

    /// <summary>Cartons in front cover the whole face.</summary>
    private static bool Hidden(Slot slot, IReadOnlyList<Slot> layer, Func<Slot, (double From, double To)> along, Func<Slot, (double From, double To)> depth)
    {
        var (from, to) = along(slot);
        foreach (var (start, end) in layer
            .Where(other => depth(other).From >= depth(slot).To - 0.01)
            .Select(along)
            .OrderBy(span => span.From))
        {
            if (start <= from + 0.01)
                from = Math.Max(from, end);
        }

        return from >= to - 0.01;
    }

    /// <summary>Farthest first, so that nearer cartons are painted over them.</summary>
    private static List<Slot> Order(IReadOnlyList<Slot> layer)
    {
        static bool Before(Slot a, Slot b) =>
            (a.Right <= b.X + 0.001 && b.Far > a.Y + 0.001) || (a.Far <= b.Y + 0.001 && b.Right > a.X + 0.001);

        var waiting = layer.OrderBy(slot => slot.X + slot.Y).ToList();
        var ordered = new List<Slot>(waiting.Count);
        while (waiting.Count > 0)
        {
            var next = waiting.FindIndex(slot => !waiting.Exists(other => other != slot && Before(other, slot) && !Before(slot, other)));
            // Cartons that overlap, as only impossible figures make them, are painted in any order.
            next = Math.Max(0, next);
            ordered.Add(waiting[next]);
            waiting.RemoveAt(next);
        }

        return ordered;
    }

    private void Protection(Protection protection)
    {
        var (x0, x1, y0, y1) = (scene.LoadX, scene.LoadRight, scene.LoadY, scene.LoadFar);
        // What goes round the load goes round its full layers; an unfinished top layer stands out above.
        var full = scene.FullLayers > 0 && scene.TopLayer.Count > 0 ? scene.TierHeight * scene.FullLayers : scene.LoadHeight;
        var (z0, z1) = (scene.PlatformHeight, scene.PlatformHeight + full);
        var tall = z1 - z0;
        if (protection.Sleeve)
            Sleeve(x0, x1, y0, y1, z0, z1);
        if (protection.CornerBoards != CornerBoards.None)
        {
            var foot = protection.CornerBoards == CornerBoards.ToPlatform ? z0 : z0 + (tall * 0.3);
            var b = Math.Min(2.5, Math.Min(x1 - x0, y1 - y0) * 0.15);
            SideFace(Look.Board, x0, x0 + b, y1, foot, z1);
            SideFace(Look.Board, x1 - b, x1, y1, foot, z1);
            EndFace(Look.Board, x1, y1 - b, y1, foot, z1);
            EndFace(Look.Board, x1, y0, y0 + b, foot, z1);
        }

        if (protection.TopCap)
        {
            var skirt = Math.Min(2.5, tall * 0.12);
            SideFace(Look.Cap, x0, x1, y1, z1 - skirt, z1);
            EndFace(Look.Cap, x1, y0, y1, z1 - skirt, z1);
            if (full >= scene.LoadHeight)
                canvas.Polygon(Look.Cap, Top(x0, x1, y0, y1, z1));
        }

        if (protection.WrapTurns > 0 && scene.Unit.Kind == HandlingUnitKind.Pallet)
            Film(protection, x0, x1, y0, y1, z0, z1);
        for (var i = 1; i <= Math.Min(protection.Straps, 6); i++)
        {
            var x = x0 + ((x1 - x0) * i / (Math.Min(protection.Straps, 6) + 1));
            canvas.Line(Look.Strap, At(x, y0, z1), At(x, y1, z1), At(x, y1, z0), At(x, Math.Min(y1, scene.DeckWidth), z0 * 0.86));
        }
    }

    private void Sleeve(double x0, double x1, double y0, double y1, double z0, double z1)
    {
        SideFace(Look.Sleeve, x0, x1, y1, z0, z1);
        EndFace(Look.Sleeve, x1, y0, y1, z0, z1);
        var flutes = new List<Spot[]>();
        for (var i = 1; i < 16; i++)
        {
            var (x, y) = (x0 + ((x1 - x0) * i / 16), y0 + ((y1 - y0) * i / 16));
            flutes.Add([At(x, y1, z0), At(x, y1, z1)]);
            flutes.Add([At(x1, y, z0), At(x1, y, z1)]);
        }

        canvas.Path(Look.SleeveLine, flutes, closed: false);
    }

    private void Film(Protection protection, double x0, double x1, double y0, double y1, double z0, double z1)
    {
        var tall = z1 - z0;
        var foot = protection.WrapOverPlatform ? z0 : z0 + (tall * 0.1);
        List<Spot[]> sheets = [Side(x0, x1, y1, foot, z1), End(x1, y0, y1, foot, z1)];
        if (protection.WrapOverPlatform)
        {
            // The film draws in to the platform and ends half way down it.
            sheets.Add([At(0, scene.DeckWidth, z0 * 0.4), At(scene.DeckLength, scene.DeckWidth, z0 * 0.4), At(x1, y1, z0), At(x0, y1, z0)]);
            sheets.Add([At(scene.DeckLength, scene.DeckWidth, z0 * 0.4), At(scene.DeckLength, 0, z0 * 0.4), At(x1, y0, z0), At(x1, y1, z0)]);
        }

        canvas.Path(Look.Film, sheets, closed: true);
        var turns = Math.Min(protection.WrapTurns, 6);
        var lines = new List<Spot[]>();
        for (var i = 0; i < turns; i++)
        {
            // One slanting edge of film for each turn.
            var z = foot + ((z1 - foot) * (i + 0.35) / turns);
            var rise = (z1 - foot) * 0.3 / turns;
            lines.Add([At(x0, y1, z), At(x1, y1, z + rise), At(x1, y0, z + (2 * rise))]);
        }

        canvas.Path(Look.FilmLine, lines, closed: false);
        if (!protection.WrapOverPlatform)
            canvas.Line(Look.FilmEnd, At(x0, y1, foot), At(x1, y1, foot), At(x1, y0, foot));
    }

    /// <summary>What of the load lies past the deck: on top, on the faces cut by the deck's edge, and along the foot of a face that stands past it.</summary>
    private void Overhang()
    {
        var marks = new List<Spot[]>();
        if (scene.ShowsTiers)
        {
            var (even, odd) = (Faces(LayerOf(0)), Faces(LayerOf(1)));
            for (var tier = 0; tier < scene.FullLayers; tier++)
                FacesPast(marks, tier % 2 == 0 ? even : odd, tier);
            if (scene.TopLayer.Count > 0)
                FacesPast(marks, scene.TopLayer, scene.FullLayers);
            if (scene.FullLayers > 0)
                TopsPast(marks, LayerOf(scene.FullLayers - 1).Where(slot => !scene.TopLayer.Any(above => Overlap(above, slot))), scene.FullLayers);
            TopsPast(marks, scene.TopLayer, scene.Tiers);
        }
        else
        {
            Slot[] all = [Whole];
            FacesPast(marks, all, null);
            TopsPast(marks, all, scene.Tiers);
        }

        canvas.Path(Look.Over, marks, closed: true);
        canvas.Path(Look.OverHatch, marks.SelectMany(face => Hatch.Lines(face[0], face[1] - face[0], face[3] - face[0], 4)), closed: false);
    }

    /// <summary>One slot for the whole layer when its outside is without steps, so that a mark runs along the face unbroken.</summary>
    private IReadOnlyList<Slot> Faces(IReadOnlyList<Slot> layer) =>
        Painted.Of(this, layer).Flush ? [Whole] : layer;

    private Slot Whole => new(scene.LoadX, scene.LoadY, scene.LoadLength, scene.LoadWidth, false);

    /// <param name="tier">Null for the whole load.</param>
    private void FacesPast(List<Spot[]> marks, IReadOnlyList<Slot> slots, int? tier)
    {
        var (l, w) = (scene.DeckLength, scene.DeckWidth);
        var z0 = scene.PlatformHeight + ((tier ?? 0) * scene.TierHeight);
        var z1 = tier is null ? scene.Height : z0 + scene.TierHeight;
        var foot = z0 + Math.Min((z1 - z0) / 2, scene.LoadHeight / 8);
        var isLowest = tier is null or 0;
        foreach (var slot in slots)
        {
            // Only what stands outermost is marked on its faces: nothing hides it.
            if (slot.Right > scene.LoadRight - 0.25)
            {
                Add(slot.Y < 0, () => End(slot.Right, slot.Y, Math.Min(0, slot.Far), z0, z1));
                Add(slot.Far > w, () => End(slot.Right, Math.Max(w, slot.Y), slot.Far, z0, z1));
                Add(isLowest && slot.Right > l, () => End(slot.Right, slot.Y, slot.Far, z0, foot));
            }

            if (slot.Far > scene.LoadFar - 0.25)
            {
                Add(slot.X < 0, () => Side(slot.X, Math.Min(0, slot.Right), slot.Far, z0, z1));
                Add(slot.Right > l, () => Side(Math.Max(l, slot.X), slot.Right, slot.Far, z0, z1));
                Add(isLowest && slot.Far > w, () => Side(slot.X, slot.Right, slot.Far, z0, foot));
            }
        }

        void Add(bool past, Func<Spot[]> face)
        {
            if (past)
                marks.Add(face());
        }
    }

    /// <summary>The parts past the deck of tops that lie above the given number of tiers.</summary>
    private void TopsPast(List<Spot[]> marks, IEnumerable<Slot> slots, int tiers)
    {
        var z = scene.PlatformHeight + (scene.TierHeight * Math.Max(1, tiers));
        foreach (var part in slots.SelectMany(scene.PastDeck))
            marks.Add(Top(part.X, part.Right, part.Y, part.Far, z));
    }

    private static bool Overlap(Slot a, Slot b) => a.X < b.Right - 0.01 && b.X < a.Right - 0.01 && a.Y < b.Far - 0.01 && b.Y < a.Far - 0.01;

    /// <summary>An A6 label on each face, its right edge near the face's right edge, its bars between the heights that GS1 asks for.</summary>
    private void Labels()
    {
        var (wide, high) = (LabelPlace.Width.Inches, LabelPlace.Height.Inches);
        var top = Math.Min(LabelPlace.Highest.Inches, scene.Height - 1);
        var foot = Math.Max(scene.PlatformHeight, top - high);
        var edge = LabelPlace.FromEdge.Inches;
        if (scene.LoadLength > wide + edge)
            Label(Side(scene.LoadRight - edge - wide, scene.LoadRight - edge, scene.LoadFar, foot, top));
        if (scene.LoadWidth > wide + edge)
            Label(End(scene.LoadRight, scene.LoadY + edge, scene.LoadY + edge + wide, foot, top));

        void Label(Spot[] face)
        {
            canvas.Polygon(Look.Label, face);
            var (along, up) = (face[1] - face[0], face[3] - face[0]);
            canvas.Path(
                Look.LabelBars,
                Enumerable.Range(1, 5).Select(i => face[0] + (along * (i / 6.0)) + (up * 0.1)).Select(foot => new[] { foot, foot + (up * 0.4) }),
                closed: false);
        }
    }

    private void Dimensions(UnitSystem units)
    {
        var outer = scene.Unit.Outer;
        var turn = Math.Atan2(Down, Across) * 180 / Math.PI;
        // Along the two lower edges, a little below them.
        Slanted(At(left, far, 0), At(right, far, 0), Words.Show(outer.Length, units), turn, new(-3, 5));
        Slanted(At(right, far, 0), At(right, near, 0), Words.Show(outer.Width, units), -turn, new(3, 5));
        Upright(At(left, far, 0), At(left, far, scene.Height), Words.Show(outer.Height, units));
    }

    private void Slanted(Spot from, Spot to, string text, double degrees, Spot off)
    {
        var (a, b) = (from + off, to + off);
        canvas.Line(Look.Measure, a, b);
        Ticks(a, b);
        var middle = (a + b) * 0.5;
        canvas.Text(Look.Text, middle + new Spot(degrees > 0 ? -5 : 5, 10.5), text, Canvas.Anchor.Middle, degrees);
    }

    private void Upright(Spot foot, Spot head, string text)
    {
        var off = new Spot(-7, 0);
        var (a, b) = (foot + off, head + off);
        canvas.Line(Look.Measure, a, b);
        Ticks(a, b);
        canvas.Text(Look.Text, ((a + b) * 0.5) + new Spot(-3.5, 0), text, Canvas.Anchor.Middle, -90);
    }

    private void Ticks(Spot a, Spot b)
    {
        var along = b - a;
        if (along.Length < 0.01)
            return;
        var tick = new Spot(-along.Y / along.Length * 3, along.X / along.Length * 3);
        canvas.Path(Look.Measure, [[a - tick, a + tick], [b - tick, b + tick]], closed: false);
    }
}
