using System.Globalization;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Web.Drawings;

namespace Fettle.Web.BuildSheets;

/// <summary>
/// Every word of a build sheet, in one place. Each is a <see cref="Phrase"/> whose English template is the key of its
/// translation; all go through <see cref="Say(Phrase)"/>. Short, since they are read from two metres.
/// </summary>
public sealed class BuildSheetWords(UnitSystem units, CultureInfo culture)
{
    /// <summary>More kinds of carton than this do not fit a line.</summary>
    private const int MostKinds = 4;

    /// <summary>Under this height labels go as high as they can: GS1 General Specifications.</summary>
    private static readonly Length Low = LabelPlace.Lowest;

    public CultureInfo Culture => culture;

    public string Say(Phrase phrase) => phrase.Say(units);

    private string Say(FormattableString sentence) => Say(Phrase.Of(sentence));

    // The head.

    public string OfPickup(string number, int line, int of) => Say($"Pickup {number}, line {line} of {of}");

    public string OfCatalogue(string shipper) => Say($"Standard build of {shipper}");

    public string Alike(int quantity) => quantity == 1 ? Say($"Build {1}") : Say($"Build {quantity} alike");

    public string Load(HandlingUnit unit)
    {
        var what = ContentsInWords.Of(unit.Contents);
        return unit.Contents switch
        {
            CartonContents when unit.Kind == HandlingUnitKind.LooseCarton => Say($"Loose carton"),
            CartonContents { Layers: 0 } => Say($"{what}: 1 layer, not full"),
            CartonContents { TopLayer: > 0 } cartons => Say($"{what}: {cartons.Layers} layers of {cartons.PerLayer}, {cartons.TopLayer} on top"),
            CartonContents { Layers: 1 } => Say($"{what}: 1 layer"),
            CartonContents cartons => Say($"{what}: {cartons.Layers} layers of {cartons.PerLayer}"),
            BagContents { Layers: > 1 } bags => Say($"{what}: {bags.Layers} layers of {bags.PerLayer}"),
            _ => Say(what),
        };
    }

    public string Weight(Mass gross) => Say($"{gross}");

    public string Size(Dimensions outer) => Words.Size(units, outer.Length, outer.Width, outer.Height);

    public string Stacking(bool mayCarry) => mayCarry ? Say($"Another may ride on top") : Say($"Nothing on top");

    public string WouldBeHeld(IReadOnlyList<Phrase> stops) => Say($"Ask the office before you build this: it would be held. {Phrase.Join(" ", stops)}");

    public string WeightCaption => Say($"Gross weight each");

    public string SizeCaption => Say($"Outside");

    // The drawings.

    public string Layer(LayerDrawing layer)
    {
        var tiers = Tiers(layer.Tiers);
        if (layer.IsUnfinished)
            return Say($"{tiers}: {layer.Cartons}, each on whole cartons");
        if (layer.Turn is not { } turn)
            return Say($"{tiers}: {layer.Cartons} each");
        return turn switch
        {
            LayerTurn.HalfTurn => Say($"{tiers}: {layer.Cartons} each, turned half round"),
            LayerTurn.MirroredAlongLength => Say($"{tiers}: {layer.Cartons} each, end for end"),
            LayerTurn.MirroredAcrossWidth => Say($"{tiers}: {layer.Cartons} each, side for side"),
            LayerTurn.QuarterTurn => Say($"{tiers}: {layer.Cartons} each, turned a quarter"),
            LayerTurn.Same => Say($"{tiers}: {layer.Cartons} each"),
        };
    }

    public string Finished => Say($"Finished");

    private Phrase Tiers(IReadOnlyList<int> tiers)
    {
        if (tiers.Count == 1)
            return Phrase.Of($"Layer {tiers[0]}");
        if (tiers.Count == 2)
            return Phrase.Of($"Layers {tiers[0]} and {tiers[1]}");
        var step = tiers[1] - tiers[0];
        return step == 1
            ? Phrase.Of($"Layers {tiers[0]} to {tiers[^1]}")
            : tiers.Count <= 4
                ? Phrase.Of($"Layers {string.Join(", ", tiers.Select(tier => tier.ToString(culture)))}")
                : Phrase.Of($"Layers {tiers[0]}, {tiers[1]} … {tiers[^1]}");
    }

    // The steps, in the order of the work. Null where there is nothing to do.

    public SheetStep Platform(Platform deck)
    {
        var size = Words.Size(units, deck.Length, deck.Width);
        var material = Material(deck.Material);
        return new(Say($"Pallet"), deck.TreatmentMark == TreatmentMark.None
            ? Say($"{size}, {material}. No broken board, no nail up")
            : Say($"{size}, {material}, stamped {deck.TreatmentMark.ToString()}. No broken board, no nail up"));
    }

    private static Phrase Material(PlatformMaterial material) => material switch
    {
        PlatformMaterial.Wood => Phrase.Of($"wood"),
        PlatformMaterial.Plastic => Phrase.Of($"plastic"),
        PlatformMaterial.Metal => Phrase.Of($"metal"),
        PlatformMaterial.Paperboard => Phrase.Of($"paperboard"),
    };

    public SheetStep Contents(HandlingUnit unit) => unit.Contents switch
    {
        CartonContents when unit.Kind == HandlingUnitKind.LooseCarton => new(Say($"Carton"), Say($"closed and taped, one by one")),
        CartonContents cartons => new(Say($"Cartons"), (cartons.Settled.Tiers, cartons.Stack) switch
        {
            (1, _) => Say($"{cartons.Count} as drawn"),
            (_, StackKind.Column) => Say($"{cartons.Settled.PerLayer} a layer as drawn, corners straight above corners"),
            (_, StackKind.Interlocked) => Say($"{cartons.Settled.PerLayer} a layer, every second layer turned as drawn"),
        }),
        MixedCartonContents mixed => new(Say($"Cartons"), Say($"heavy below, light above: {Kinds(mixed)}")),
        CrateContents crate => new(Say($"Crate"), crate.Braced ? Say($"{crate.Description}: blocked and braced, then closed") : Say($"{crate.Description}: closed on all sides")),
        DrumContents { Count: 1 } drum => new(Say($"Drum"), Say($"upright, {Drum(drum.Material)}, bung and lid closed")),
        DrumContents { Tiers: 1 } drums => new(Say($"Drums"), Say($"{drums.Count} upright, {Drum(drums.Material)}, close together, lids closed")),
        DrumContents drums => new(Say($"Drums"), Say($"{drums.Count} upright in {drums.Tiers} tiers, {Drum(drums.Material)}, a sheet between tiers")),
        BagContents { Stack: StackKind.Interlocked } bags => new(Say($"Bags"), Say($"{bags.PerLayer} a layer, {bags.Layers} layers, every second layer turned, pressed flat")),
        BagContents bags => new(Say($"Bags"), Say($"{bags.PerLayer} a layer, {bags.Layers} layers, straight, pressed flat")),
        RollContents { Standing: RollStanding.OnEnd } rolls => new(Say($"Rolls"), Say($"{rolls.Count} on end, close together")),
        RollContents rolls => new(Say($"Rolls"), Say($"{rolls.Count} on the side, wedged so that none can roll")),
        FurnitureContents { Boxed: true } furniture => new(Say($"Furniture"), Say($"{furniture.Description}: in its carton, closed")),
        FurnitureContents furniture => new(Say($"Furniture"), Say($"{furniture.Description}: blanket on every edge and corner")),
        MachineryContents { Fastened: true } machine => new(Say($"Machine"), Say($"{machine.Description}: bolted or strapped to what it stands on")),
        MachineryContents machine => new(Say($"Machine"), Say($"{machine.Description}: loose parts taken off or tied")),
        PieceContents piece => new(Say($"Piece"), Say($"{piece.Description}")),
        _ => throw new InvalidOperationException($"No step for {unit.Contents.GetType().Name}."),
    };

    private string Kinds(MixedCartonContents mixed)
    {
        var heaviestFirst = mixed.Lines.OrderByDescending(line => line.Carton.GrossWeight).ToArray();
        var told = heaviestFirst.Take(MostKinds).Select(line =>
            Say($"{line.Count} of {Words.Size(units, line.Carton.Length, line.Carton.Width, line.Carton.Height)}, {line.Carton.GrossWeight}"));
        return string.Join("; ", heaviestFirst.Length > MostKinds ? told.Append(Say($"{heaviestFirst.Length - MostKinds} kinds more")) : told);
    }

    private static Phrase Drum(DrumMaterial material) => material switch
    {
        DrumMaterial.Steel => Phrase.Of($"steel"),
        DrumMaterial.Plastic => Phrase.Of($"plastic"),
        DrumMaterial.Fibre => Phrase.Of($"fibre"),
    };

    public SheetStep? Fragile(HandlingUnit unit)
    {
        if (unit.Fragile == Fragility.None)
            return null;
        var what = unit.Fragile switch
        {
            Fragility.Glass => Phrase.Of($"glass"),
            Fragility.Ceramics => Phrase.Of($"ceramics"),
            Fragility.Liquid => Phrase.Of($"liquid"),
            Fragility.Eggs => Phrase.Of($"eggs"),
            Fragility.Other or Fragility.None => Phrase.Of($"breaks easily"),
        };
        return new(Say($"Fragile"), unit.Partitions ? Say($"{what}. Partitions in every carton, arrows up") : Say($"{what}. Arrows up"));
    }

    public SheetStep? SlipSheets(Protection protection) => protection.SlipSheets ? new(Say($"Slip sheets"), Say($"one between each two layers")) : null;

    public SheetStep? Sleeve(Protection protection) => protection.Sleeve ? new(Say($"Sleeve"), Say($"round the load, from the bottom to the top")) : null;

    public SheetStep? CornerBoards(HandlingUnit unit) => (unit.Protection.CornerBoards, unit.Platform) switch
    {
        (Readiness.Declarations.CornerBoards.None, _) => null,
        (Readiness.Declarations.CornerBoards.ToPlatform, not null) => new(Say($"Corner boards"), Say($"all 4 corners, from the pallet up to the top")),
        (Readiness.Declarations.CornerBoards.ToPlatform, null) => new(Say($"Corner boards"), Say($"all 4 corners, from the bottom up to the top")),
        (Readiness.Declarations.CornerBoards.Partial, _) => new(Say($"Corner boards"), Say($"all 4 corners, at the top")),
        _ => throw new InvalidOperationException("No words for these corner boards."),
    };

    public SheetStep? TopCap(Protection protection) => protection.TopCap ? new(Say($"Top cap"), Say($"on the top layer, under the film")) : null;

    public SheetStep? Film(HandlingUnit unit)
    {
        var turns = unit.Protection.WrapTurns;
        if (turns == 0)
            return null;
        return new(Say($"Film"), (unit.Platform, unit.Protection.WrapOverPlatform) switch
        {
            (null, _) => Say($"{turns} full turns at the thinnest place"),
            (_, true) => Say($"{turns} full turns at the thinnest place, {OverPlatform} down over the pallet, up over the top edge"),
            (_, false) => Say($"{turns} full turns at the thinnest place, up over the top edge"),
        });
    }

    /// <summary>In whole inches or centimetres.</summary>
    private string OverPlatform => units == UnitSystem.Imperial
        ? Say($"{Engineering.Wrapping.FilmWrap.LeastOverPlatform}")
        : Say($"{Length.FromCentimetres(Math.Ceiling(Engineering.Wrapping.FilmWrap.LeastOverPlatform.Centimetres - 0.5))}");

    public SheetStep? Straps(Protection protection) => protection.Straps switch
    {
        0 => null,
        1 => new(Say($"Strap"), Say($"1, tight, an edge guard under it at each edge")),
        _ => new(Say($"Straps"), Say($"{protection.Straps}, tight, an edge guard under them at each edge")),
    };

    /// <summary>GS1 General Specifications, with its own round inches for inch people.</summary>
    public SheetStep Labels(HandlingUnit unit)
    {
        var name = Say($"Labels");
        if (unit.Kind is not (HandlingUnitKind.Pallet or HandlingUnitKind.Crate))
            return new(name, Say($"1, on an upright side, where it is read as the piece stands"));
        var (lowest, highest, edge) = units == UnitSystem.Imperial
            ? (Length.FromInches(16), Length.FromInches(32), Length.FromInches(2))
            : (LabelPlace.Lowest, LabelPlace.Highest, LabelPlace.FromEdge);
        return new(name, unit.Outer.Height < Low
            ? Say($"2 alike, on two sides that meet, as high as they go, {edge} off the edge")
            : Say($"2 alike, on two sides that meet; bars {lowest} to {highest} off the floor, {edge} off the edge"));
    }

    public SheetStep Scale(Mass gross) => new(Say($"Scale"), Say($"{gross}. Anything else: tell the office"));

    public SheetStep? Ask(Requests requests)
    {
        var asked = new List<string>();
        if (requests.Decking)
            asked.Add(Say($"decking"));
        if (requests.Airbags)
            asked.Add(Say($"airbags beside it"));
        if (requests.NoTopLoad)
            asked.Add(Say($"no top load"));
        if (requests.Strap)
            asked.Add(Say($"a strap to the wall"));
        if (requests.Bulkhead)
            asked.Add(Say($"a bulkhead panel or load bar"));
        return asked.Count == 0 ? null : new(Say($"Tell the driver"), Say($"asked for: {string.Join(", ", asked)}"));
    }

    public SheetStep? Regulated(HandlingUnit unit)
    {
        var by = unit.ConfirmedBy is { } name ? Phrase.Of($"confirmed by {name}") : Phrase.Of($"not confirmed by anyone yet: do not load");
        return (unit.Hazardous, unit.TemperatureControlled) switch
        {
            (true, true) => new(Say($"Hazardous, temperature"), Say($"{by}")),
            (true, false) => new(Say($"Hazardous"), Say($"{by}")),
            (false, true) => new(Say($"Temperature"), Say($"{by}")),
            _ => null,
        };
    }

    // The cautions.

    public string TakeCare => Say($"Take care");

    public string LiftCaution(Mass one, int people) => people > 2
        ? Say($"Each piece weighs {one}: lift it with a machine, not by hand.")
        : Say($"Each piece weighs {one}: two people lift it, close to the body, without twisting. Lifting can injure.");

    public string StrapCaution => Say($"A strap under tension can whip: guard your eyes, stand aside when it is tightened or cut.");

    public string ForkCaution => Say($"Nobody stands beside or under a load that is being lifted. Do not move it when it leans.");

    public string NoPromise => Say($"The checks found nothing else against this build as it is declared. That is no promise that it is safe: the carrier's tariff, the pallet maker's rating, local law and qualified people have the last word.");

    public string CheckedBy(string ruleSet) => Say($"Checked by {ruleSet}.");
}

/// <summary>One thing to do: what, and how.</summary>
public sealed record SheetStep(string Name, string How);
