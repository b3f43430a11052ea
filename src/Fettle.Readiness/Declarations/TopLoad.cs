namespace Fettle.Readiness.Declarations;

/// <summary>
/// Whether anything may be put directly on a unit, from what its shipper declares of it: the one rule behind labels, build
/// sheets, manifests, floor plans and what stacking is worth. Common practice, no source. It only rules out: what a top bears
/// is computed elsewhere (<see cref="Rules.Measures.TopLoadCapacity"/>), and the people on the dock and the carrier's tariff
/// decide in the end.
/// </summary>
public static class TopLoad
{
    /// <summary>Declared stackable, and nothing else that is declared rules it out.</summary>
    public static bool MayCarry(HandlingUnit unit) => unit.Stackable && !IsRuledOut(unit);

    /// <summary>
    /// Nothing goes on it, even where it is declared stackable: it is fragile, its top is not flat and full, or its shipper asks
    /// for no top load or for decking. It may still stand under decking beams or on them, and ride on other freight.
    /// </summary>
    public static bool IsRuledOut(HandlingUnit unit) =>
        unit.Fragile != Fragility.None
        || unit.TopSurface != TopSurface.Flat
        || unit.Contents is CartonContents { Settled.TopLayer: > 0 }
        || unit.Requests is { NoTopLoad: true } or { Decking: true };
}
