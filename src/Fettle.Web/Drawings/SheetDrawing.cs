using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Drawings;

/// <summary>Drawings for whoever builds the unit: each kind of layer from above with its cartons counted, and the whole from a corner.</summary>
public static class SheetDrawing
{
    /// <summary>The layers that differ, from the floor up: one, two when every second one is turned, and an unfinished one on top. None where nothing is drawn carton by carton.</summary>
    public static IReadOnlyList<LayerDrawing> Layers(HandlingUnit unit, UnitSystem units, DrawingOptions options)
    {
        if (Scene.Of(unit) is not { ShowsCartons: true, Cartons: not null } scene || unit.Kind == HandlingUnitKind.LooseCarton)
            return [];
        var kinds = new List<LayerDrawing>();
        if (scene.FullLayers > 0)
        {
            var all = Enumerable.Range(1, scene.FullLayers);
            if (scene.OtherLayer is { } other && scene.FullLayers > 1)
            {
                kinds.Add(Draw(scene, [.. all.Where(tier => tier % 2 == 1)], null));
                kinds.Add(Draw(scene with { Layer = other }, [.. all.Where(tier => tier % 2 == 0)], scene.Turn));
            }
            else
            {
                kinds.Add(Draw(scene, [.. all], null));
            }
        }

        if (scene.TopLayer.Count > 0)
            kinds.Add(Draw(scene with { Layer = scene.TopLayer }, [scene.Tiers], null) with { IsUnfinished = true });
        return kinds;

        LayerDrawing Draw(Scene layer, IReadOnlyList<int> tiers, LayerTurn? turn)
        {
            const double Side = 190, Down = 160;
            var canvas = new Canvas(options);
            PlanView.Draw(canvas, layer, new(2, 2, Side - 4, Down - 4), units, figures: true, numbered: true);
            return new(tiers, layer.Layer.Count, turn, false, canvas.Finish(Side, Down, $"Layer {tiers[0]} from above", $"{Words.Number(layer.Layer.Count)} cartons"));
        }
    }

    /// <summary>The finished unit with its outside measures, and its labels where two are called for; null when a size is missing.</summary>
    public static string? Corner(HandlingUnit unit, UnitSystem units, DrawingOptions options)
    {
        const double Side = 210, Down = 190;
        if (Scene.Of(unit) is not { } scene)
            return null;
        var canvas = new Canvas(options);
        CornerView.Draw(canvas, scene, new(2, 2, Side - 4, Down - 4), units, labels: unit.Kind is HandlingUnitKind.Pallet or HandlingUnitKind.Crate);
        return canvas.Finish(Side, Down, Words.Kind(unit), Words.Describe(unit, scene, units));
    }
}

/// <param name="Tiers">Which layers look like this, counted from 1 at the platform.</param>
/// <param name="Turn">How it differs from the layer below; null for the first kind.</param>
/// <param name="IsUnfinished">The last layer, not full. Which places its cartons take is not declared.</param>
public sealed record LayerDrawing(IReadOnlyList<int> Tiers, int Cartons, LayerTurn? Turn, bool IsUnfinished, string Svg);
