using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Drawings;

/// <summary>
/// Drawings of handling units to scale, as SVG that may stand in any page: no style attribute, script, id or reference. A
/// style sheet may restyle every part by its class, all of which begin with <c>fd</c>: <c>.fd-carton</c>, <c>.fd-film</c>,
/// <c>.fd-text</c>, <c>.fd-wrong</c> (see <see cref="Look"/>). Each has a title and a description that say the same in
/// words. Pure: the same unit gives the same text.
/// </summary>
public static class UnitDrawing
{
    /// <summary>Width of a whole drawing in its own units; at this many pixels its text is as large as small print.</summary>
    public const double Width = 360;

    private const double PanelTop = 17;
    private const double PanelHeight = 168;
    private const double LineHeight = 14;

    /// <summary>Left, one full layer on the deck seen from above; right, the unit seen from a corner; below, the facts.</summary>
    public static string Svg(HandlingUnit unit, UnitSystem units, DrawingOptions? options = null)
    {
        var canvas = new Canvas(options ?? DrawingOptions.ForPage);
        var scene = Scene.Of(unit);
        var y = PanelTop;
        if (scene is not null)
        {
            canvas.Text(Look.Text, new(4, 12), T("From above"));
            canvas.Text(Look.Text, new(180, 12), T("From the corner"));
            var bottom = PlanView.Draw(canvas, scene, new(4, PanelTop + 4, 160, PanelHeight - 30), units, figures: true);
            canvas.Text(Look.Text, new(84, bottom + 15), Below(scene, units), Canvas.Anchor.Middle);
            CornerView.Draw(canvas, scene, new(174, PanelTop, Width - 176, PanelHeight), units);
            y += PanelHeight;
        }

        foreach (var (look, line) in Lines(unit, scene, units))
        {
            y += LineHeight;
            canvas.Text(look, new(4, y), line);
        }

        return canvas.Finish(Width, y + 6, Title(unit), Words.Describe(unit, scene, units));
    }

    /// <summary>A small view from above alone.</summary>
    public static string LayerSvg(HandlingUnit unit, UnitSystem units, DrawingOptions? options = null)
    {
        const double Side = 120;
        var canvas = new Canvas(options ?? DrawingOptions.ForPage);
        var scene = Scene.Of(unit);
        if (scene is not null)
            PlanView.Draw(canvas, scene, new(4, 4, Side - 8, Side - 26), units, figures: false);
        canvas.Text(Look.Text, new(Side / 2, Side - 6), LayerCaption(unit), Canvas.Anchor.Middle);
        return canvas.Finish(Side, Side, Title(unit), Words.Describe(unit, scene, units));
    }

    /// <summary>
    /// The lines of one way to build, small and side by side at one scale, each with how many of it there are: "2 × 4
    /// layers". At most <see cref="MostInBuild"/> are drawn; more are counted.
    /// </summary>
    public static string BuildSvg(IReadOnlyList<HandlingUnit> lines, UnitSystem units, DrawingOptions? options = null)
    {
        const double Cell = 118, Picture = 112, Caption = 30;
        var canvas = new Canvas(options ?? DrawingOptions.ForPage);
        var shown = lines.Take(MostInBuild).Select(line => (Line: line, Scene: Scene.Of(line))).ToArray();
        var scale = shown.Where(s => s.Scene is not null)
            .Select(s => CornerView.Fitting(s.Scene!, Cell - 10, Picture - 8))
            .DefaultIfEmpty(1)
            .Min();
        var columns = Math.Clamp(shown.Length, 1, 3);
        for (var i = 0; i < shown.Length; i++)
        {
            var (line, scene) = shown[i];
            var corner = new Spot(i % columns * Cell, i / columns * (Picture + Caption));
            if (scene is not null)
                CornerView.Draw(canvas, scene, new(corner.X + 5, corner.Y + 4, Cell - 10, Picture - 8), scale);
            var captions = BuildCaption(line);
            for (var k = 0; k < captions.Count; k++)
                canvas.Text(k == 0 ? Look.Strong : Look.Text, corner + new Spot(Cell / 2, Picture + 9 + (k * 13)), captions[k], Canvas.Anchor.Middle);
        }

        var rows = (shown.Length + columns - 1) / columns;
        var height = rows * (Picture + Caption);
        if (lines.Count > shown.Length)
        {
            height += LineHeight;
            canvas.Text(Look.Text, new(4, height - 3), T("and {0} more lines, not drawn", Words.Number(lines.Count - shown.Length)));
        }

        return canvas.Finish(
            columns * Cell,
            height + 2,
            string.Join("; ", lines.Take(MostInBuild).Select(line => string.Join(", ", BuildCaption(line)))),
            string.Join(' ', shown.Select(s => Words.Describe(s.Line, s.Scene, units))));
    }

    /// <summary>Lines of a build that are drawn.</summary>
    public const int MostInBuild = 6;

    /// <summary>The facts of a drawing in sentences: what stands in for it where it cannot be seen.</summary>
    public static string Describe(HandlingUnit unit, UnitSystem units) => Words.Describe(unit, Scene.Of(unit), units);

    private static string Title(HandlingUnit unit) => $"{Letters.Shortened(unit.Reference, 24)}: {Words.Kind(unit)}";

    private static string Below(Scene scene, UnitSystem units) => scene.Unit.Platform is { } deck
        ? T("Deck {0}, {1} high", Words.Size(units, deck.Length, deck.Width), Words.Show(deck.Height, units))
        : T("{0}, no pallet", Words.Size(units, scene.Unit.Outer.Length, scene.Unit.Outer.Width));

    private static IEnumerable<(Look Look, string Line)> Lines(HandlingUnit unit, Scene? scene, UnitSystem units)
    {
        const double Room = Width - 8;
        if (scene is null)
        {
            yield return (Look.Wrong, T("Not drawn: a size or a count is missing"));
            yield return (Look.Text, Letters.Shortened(Capital(Words.Kind(unit)), 60));
            yield break;
        }

        if (scene.Overhangs && Words.Overhang(scene, units) is { } over)
            yield return (Look.Wrong, over);
        var loose = Words.LooseFilm(unit);
        if (loose is not null)
            yield return (Look.Wrong, Capital(loose));
        foreach (var line in Letters.Lines([Capital(Words.Kind(unit)), .. Words.Layers(unit) is { } layers ? [layers] : Array.Empty<string>()], 11.5, Room))
            yield return (Look.Strong, line);
        List<string> facts = [T("{0} gross", Words.Show(unit.GrossWeight, units))];
        if (scene.Cartons is { } cartons && unit.Kind != HandlingUnitKind.LooseCarton)
            facts.Add(T("carton {0}, {1}", Words.Size(units, cartons.Carton.Length, cartons.Carton.Width, cartons.Carton.Height), Words.Show(cartons.Carton.GrossWeight, units)));
        facts.AddRange(Words.Protection(unit).Where(words => words != loose));
        foreach (var line in Letters.Lines(facts, 11, Room))
            yield return (Look.Text, line);
        if (Words.LeftOut(scene) is { } leftOut)
            yield return (Look.Text, leftOut);
    }

    private static string LayerCaption(HandlingUnit unit) => unit.Contents is CartonContents cartons && unit.Kind != HandlingUnitKind.LooseCarton
        ? T("{0} a layer", Words.Number(cartons.Layers > 0 ? cartons.PerLayer : cartons.TopLayer))
        : Letters.Shortened(Words.Kind(unit), 22);

    private static List<string> BuildCaption(HandlingUnit unit)
    {
        if (unit.Kind == HandlingUnitKind.LooseCarton || unit.Contents is not CartonContents cartons)
            return [$"{Words.Number(unit.Quantity)} ×", Letters.Shortened(Words.Kind(unit), 20)];
        if (cartons.Layers == 0)
            return [T("{0} × {1} cartons", Words.Number(unit.Quantity), Words.Number(cartons.TopLayer))];
        var layers = T(cartons.Layers == 1 ? "{0} × {1} layer" : "{0} × {1} layers", Words.Number(unit.Quantity), Words.Number(cartons.Layers));
        return cartons.TopLayer > 0 ? [layers, T("and {0} on top", Words.Number(cartons.TopLayer))] : [layers, T("{0} a layer", Words.Number(cartons.PerLayer))];
    }

    private static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];
}
