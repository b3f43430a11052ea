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
        var of = counted ? " of " : ": ";
        return unit.Kind switch
        {
            HandlingUnitKind.Pallet => $"pallet{of}{what}",
            HandlingUnitKind.Crate => $"crate{of}{what}",
            HandlingUnitKind.LooseCarton => unit.Contents is CartonContents ? "loose carton" : $"loose{of}{what}",
            HandlingUnitKind.Drum => "drum",
            HandlingUnitKind.Piece => counted ? what : $"piece{of}{what}",
        };
    }

    /// <summary>"4 layers of 10 + 3 on top, interlocked"; null when not made of layers.</summary>
    public static string? Layers(HandlingUnit unit)
    {
        if (unit.Kind == HandlingUnitKind.LooseCarton || unit.Contents is not CartonContents cartons)
            return null;
        var onTop = cartons.TopLayer > 0 ? $"{Number(cartons.TopLayer)} on top" : null;
        if (cartons.Layers == 0)
            return $"one unfinished layer of {Number(cartons.TopLayer)}";
        var layers = cartons.Layers == 1 ? $"1 layer of {Number(cartons.PerLayer)}" : $"{Number(cartons.Layers)} layers of {Number(cartons.PerLayer)}";
        var stack = (cartons.Layers + cartons.TopLayer > 1 ? cartons.Stack : (StackKind?)null) switch
        {
            StackKind.Column => ", in columns",
            StackKind.Interlocked => ", interlocked",
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
            .. over.Front > Length.Zero ? [$"{Show(over.Front, units)} at each end"] : Array.Empty<string>(),
            .. over.Left > Length.Zero ? [$"{Show(over.Left, units)} on each side"] : Array.Empty<string>(),
        ];
        return "Past the deck: " + string.Join(", ", places);
    }

    /// <summary>"1.5 in bare at each end, flush on the sides"; null without a platform or when all sides overhang.</summary>
    public static string? Clearance(Scene scene, UnitSystem units)
    {
        if (scene.Unit.Platform is null)
            return null;
        var (over, bare) = (scene.Shape.Overhang, scene.Shape.Clearance);
        var places = new List<string>();
        if (over.Front == Length.Zero)
            places.Add(bare.Front == Length.Zero ? "flush at the ends" : $"{Show(bare.Front, units)} of deck bare at each end");
        if (over.Left == Length.Zero)
            places.Add(bare.Left == Length.Zero ? "flush on the sides" : $"{Show(bare.Left, units)} bare on each side");
        return places.Count == 0 ? null : string.Join(", ", places);
    }

    /// <summary>Film, boards, sleeve, cap, straps and sheets, each a few words.</summary>
    public static IEnumerable<string> Protection(HandlingUnit unit)
    {
        var p = unit.Protection;
        if (unit.Kind == HandlingUnitKind.Pallet)
            yield return p.WrapTurns <= 0 ? "no film" : LooseFilm(unit) ?? $"film {Number(p.WrapTurns)}×, over the pallet";
        if (p.CornerBoards != CornerBoards.None)
            yield return p.CornerBoards == CornerBoards.ToPlatform ? "corner boards to the pallet" : "short corner boards";
        if (p.Sleeve)
            yield return "sleeve";
        if (p.TopCap)
            yield return "top cap";
        if (p.SlipSheets)
            yield return "slip sheets";
        if (p.Straps > 0)
            yield return p.Straps == 1 ? "1 strap" : $"{Number(p.Straps)} straps";
    }

    /// <summary>"film 1×, ends above the pallet"; null when it ties the load to the pallet, or when there is none.</summary>
    public static string? LooseFilm(HandlingUnit unit) =>
        unit is { Kind: HandlingUnitKind.Pallet, Protection: { WrapTurns: > 0, WrapOverPlatform: false } protection }
            ? $"film {Number(protection.WrapTurns)}×, ends above the pallet"
            : null;

    /// <summary>What was left out to keep the drawing readable; null when nothing was.</summary>
    public static string? LeftOut(Scene scene)
    {
        if (scene.Cartons is not { } cartons)
            return null;
        if (scene.Layer.Count == 0)
            return scene.Shape.CartonsDoNotFit ? "Cartons not drawn: so many do not fit in a layer" : null;
        if (!scene.ShowsCartons)
            return $"Drawn as a block: {Number(scene.Layer.Count)} cartons a layer are too many to draw";
        if (!scene.ShowsTiers)
            return scene.Tiers > Scene.MostTiers
                ? $"Drawn as a block: {Number(scene.Tiers)} layers are too many to draw"
                : $"Drawn as a block: {Number(Count(cartons))} cartons are too many to draw";
        return cartons.Stack == StackKind.Interlocked && scene.OtherLayer is null && scene.Tiers > 1
            ? "How the layers are turned is not declared"
            : null;
    }

    /// <summary>All facts of the drawing as sentences.</summary>
    public static string Describe(HandlingUnit unit, Scene? scene, UnitSystem units)
    {
        var sentences = new List<string> { Sentence(Kind(unit)) };
        if (unit.Quantity > 1)
            sentences.Add($"{Number(unit.Quantity)} alike.");
        if (Layers(unit) is { } layers)
            sentences.Add(Sentence(layers));
        sentences.Add($"Outside {Show(unit.Outer.Length, units)} long, {Show(unit.Outer.Width, units)} wide, {Show(unit.Outer.Height, units)} high.");
        if (unit.Platform is { } deck)
            sentences.Add($"Deck {Size(units, deck.Length, deck.Width)}, platform {Show(deck.Height, units)} high.");
        sentences.Add($"{Show(unit.GrossWeight, units)} gross each.");
        if (scene is null)
        {
            sentences.Add("Not drawn: a size or a count is missing.");
            return string.Join(' ', sentences);
        }

        if (Overhang(scene, units) is { } over)
            sentences.Add(Sentence(over));
        if (Clearance(scene, units) is { } bare)
            sentences.Add(Sentence(bare));
        if (unit.Platform is not null)
            sentences.Add("Forks enter at the ends.");
        if (string.Join(", ", Protection(unit)) is { Length: > 0 } protection)
            sentences.Add(Sentence(protection));
        if (LeftOut(scene) is { } leftOut)
            sentences.Add(Sentence(leftOut));
        return string.Join(' ', sentences);
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";
}
