using System.Globalization;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Drawings;

/// <summary>What a drawing shows, said in words: for its own lines of text, its title, and readers who cannot see it.</summary>
internal static class Words
{
    private const char NarrowGap = '\u00a0';

    public static string Show(Length length, UnitSystem units) => ((Quantity)length).Show(units, CultureInfo.InvariantCulture);

    public static string Show(Mass mass, UnitSystem units) => ((Quantity)mass).Show(units, CultureInfo.InvariantCulture);

    /// <summary>"48 × 40 × 50 in": the unit once.</summary>
    public static string Size(UnitSystem units, params IReadOnlyList<Length> sides)
    {
        var shown = sides.Select(side => Show(side, units).Split(NarrowGap)).ToArray();
        return string.Join(" × ", shown.Select(parts => parts[0])) + NarrowGap + shown[0][1];
    }

    /// <summary>"36.7 ft", whatever the units: the trade counts a trailer's length in feet.</summary>
    public static string Feet(double feet) => feet.ToString("0.0", CultureInfo.InvariantCulture) + NarrowGap + "ft";

    public static string Number(long count) => count.ToString("#,0", CultureInfo.InvariantCulture);

    public static long Count(CartonContents cartons) => ((long)cartons.PerLayer * cartons.Layers) + cartons.TopLayer;

    /// <summary>"pallet of 40 cartons".</summary>
    public static string Kind(HandlingUnit unit)
    {
        var said = ContentsInWords.Of(unit.Contents).Say(UnitSystem.Imperial);
        var counted = ContentsInWords.IsCounted(unit.Contents);
        var what = counted ? said : Letters.Shortened(said.Trim(), 60);
        return unit.Kind switch
        {
            HandlingUnitKind.Pallet => T(counted ? "pallet of {0}" : "pallet: {0}", what),
            HandlingUnitKind.Crate => T(counted ? "crate of {0}" : "crate: {0}", what),
            HandlingUnitKind.LooseCarton => unit.Contents is CartonContents ? T("loose carton") : T(counted ? "loose {0}" : "loose: {0}", what),
            HandlingUnitKind.Drum => T("drum"),
            HandlingUnitKind.Piece => counted ? what : T("piece: {0}", what),
        };
    }

    /// <summary>"4 layers of 10 + 3 on top, interlocked"; null when not made of layers.</summary>
    public static string? Layers(HandlingUnit unit)
    {
        if (unit.Kind == HandlingUnitKind.LooseCarton || unit.Contents is not CartonContents cartons)
            return null;
        var onTop = cartons.TopLayer > 0 ? T("{0} on top", Number(cartons.TopLayer)) : null;
        if (cartons.Layers == 0)
            return T("one unfinished layer of {0}", Number(cartons.TopLayer));
        var layers = cartons.Layers == 1 ? T("1 layer of {0}", Number(cartons.PerLayer)) : T("{0} layers of {1}", Number(cartons.Layers), Number(cartons.PerLayer));
        var stack = (cartons.Layers + cartons.TopLayer > 1 ? cartons.Stack : (StackKind?)null) switch
        {
            StackKind.Column => T(", in columns"),
            StackKind.Interlocked => T(", interlocked"),
            null => "",
        };
        return layers + (onTop is null ? "" : " + " + onTop) + stack;
    }

    /// <summary>"2 in past the deck at each end, 1 in on each side"; null without overhang.</summary>
    public static string? Overhang(Scene scene, UnitSystem units)
    {
        var over = scene.Shape.Overhang;
        if (scene.Unit.Platform is null || !scene.Overhangs)
            return null;
        string[] places =
        [
            .. over.Front > Length.Zero ? [T("{0} at each end", Show(over.Front, units))] : Array.Empty<string>(),
            .. over.Left > Length.Zero ? [T("{0} on each side", Show(over.Left, units))] : Array.Empty<string>(),
        ];
        return T("Past the deck: ") + string.Join(", ", places);
    }

    /// <summary>"1.5 in bare at each end, flush on the sides"; null without a platform or when all sides overhang.</summary>
    public static string? Clearance(Scene scene, UnitSystem units)
    {
        if (scene.Unit.Platform is null)
            return null;
        var (over, bare) = (scene.Shape.Overhang, scene.Shape.Clearance);
        var places = new List<string>();
        if (over.Front == Length.Zero)
            places.Add(bare.Front == Length.Zero ? T("flush at the ends") : T("{0} of deck bare at each end", Show(bare.Front, units)));
        if (over.Left == Length.Zero)
            places.Add(bare.Left == Length.Zero ? T("flush on the sides") : T("{0} bare on each side", Show(bare.Left, units)));
        return places.Count == 0 ? null : string.Join(", ", places);
    }

    /// <summary>Film, boards, sleeve, cap, straps and sheets, each a few words.</summary>
    public static IEnumerable<string> Protection(HandlingUnit unit)
    {
        var p = unit.Protection;
        if (unit.Kind == HandlingUnitKind.Pallet)
            yield return p.WrapTurns <= 0 ? T("no film") : LooseFilm(unit) ?? T("film {0}×, over the pallet", Number(p.WrapTurns));
        if (p.CornerBoards != CornerBoards.None)
            yield return p.CornerBoards == CornerBoards.ToPlatform ? T("corner boards to the pallet") : T("short corner boards");
        if (p.Sleeve)
            yield return T("sleeve");
        if (p.TopCap)
            yield return T("top cap");
        if (p.SlipSheets)
            yield return T("slip sheets");
        if (p.Straps > 0)
            yield return p.Straps == 1 ? T("1 strap") : T("{0} straps", Number(p.Straps));
    }

    /// <summary>"film 1×, ends above the pallet"; null when it ties the load to the pallet, or when there is none.</summary>
    public static string? LooseFilm(HandlingUnit unit) =>
        unit is { Kind: HandlingUnitKind.Pallet, Protection: { WrapTurns: > 0, WrapOverPlatform: false } protection }
            ? T("film {0}×, ends above the pallet", Number(protection.WrapTurns))
            : null;

    /// <summary>What was left out to keep the drawing readable; null when nothing was.</summary>
    public static string? LeftOut(Scene scene)
    {
        if (scene.Cartons is not { } cartons)
            return null;
        if (scene.Layer.Count == 0)
            return scene.Shape.CartonsDoNotFit ? T("Cartons not drawn: so many do not fit in a layer") : null;
        if (!scene.ShowsCartons)
            return T("Drawn as a block: {0} cartons a layer are too many to draw", Number(scene.Layer.Count));
        if (!scene.ShowsTiers)
            return scene.Tiers > Scene.MostTiers
                ? T("Drawn as a block: {0} layers are too many to draw", Number(scene.Tiers))
                : T("Drawn as a block: {0} cartons are too many to draw", Number(Count(cartons)));
        return cartons.Stack == StackKind.Interlocked && scene.OtherLayer is null && scene.Tiers > 1
            ? T("How the layers are turned is not declared")
            : null;
    }

    /// <summary>All facts of the drawing as sentences.</summary>
    public static string Describe(HandlingUnit unit, Scene? scene, UnitSystem units)
    {
        var sentences = new List<string> { Sentence(Kind(unit)) };
        if (unit.Quantity > 1)
            sentences.Add(T("{0} alike.", Number(unit.Quantity)));
        if (Layers(unit) is { } layers)
            sentences.Add(Sentence(layers));
        sentences.Add(T("Outside {0} long, {1} wide, {2} high.", Show(unit.Outer.Length, units), Show(unit.Outer.Width, units), Show(unit.Outer.Height, units)));
        if (unit.Platform is { } deck)
            sentences.Add(T("Deck {0}, platform {1} high.", Size(units, deck.Length, deck.Width), Show(deck.Height, units)));
        sentences.Add(T("{0} gross each.", Show(unit.GrossWeight, units)));
        if (scene is null)
        {
            sentences.Add(T("Not drawn: a size or a count is missing."));
            return string.Join(' ', sentences);
        }

        if (Overhang(scene, units) is { } over)
            sentences.Add(Sentence(over));
        if (Clearance(scene, units) is { } bare)
            sentences.Add(Sentence(bare));
        if (unit.Platform is not null)
            sentences.Add(T("Forks enter at the ends."));
        if (string.Join(", ", Protection(unit)) is { Length: > 0 } protection)
            sentences.Add(Sentence(protection));
        if (LeftOut(scene) is { } leftOut)
            sentences.Add(Sentence(leftOut));
        return string.Join(' ', sentences);
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";
}
