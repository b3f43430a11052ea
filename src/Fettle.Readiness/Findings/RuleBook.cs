using System.Collections.Frozen;
using Fettle.Engineering.Units;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Findings;

/// <summary>What one finding is: for its heading, for the caution beside it, and for the page docs/guide/rules.md, whose table is made from it.</summary>
/// <param name="Title">A heading of a few words.</param>
/// <param name="Words">A few plain words that fit into a sentence.</param>
/// <param name="Computed">What is computed, and held against what.</param>
/// <param name="Limit">The limits that a rule set has for it.</param>
/// <param name="Gravity">Its severities in a rule set.</param>
/// <param name="Basis">Where the limit comes from.</param>
/// <param name="Caution">The usual caution where a figure can hurt someone.</param>
public sealed record RuleDescription(
    string Code,
    string Title,
    string Words,
    string Computed,
    Func<RuleSet, Phrase> Limit,
    Func<RuleSet, string> Gravity,
    string Basis,
    string? Caution = null)
{
    /// <summary>What is counted where the figures are a count: "2 turns"; pieces when not said.</summary>
    public (string One, string Many) Counts { get; init; } = ("piece", "pieces");
}

/// <summary>Every finding there is, in the order in which a reader looks for them.</summary>
public static class RuleBook
{
    private const string Practice = "common practice";

    private const string StrengthCaution =
        "Strength is an estimate from board grade and size: damp, damaged or re-used cartons bear less. The carrier's tariff and a packaging engineer have the last word before freight is put on top.";

    private const string SecuringCaution =
        "A computed figure does not replace load securing: keep clear of a load that can fall, and follow the carrier's rules and local law.";

    private const string LiftingCaution =
        "Lifting can injure. The limit is for ideal conditions; stay below it when reaching, twisting or lifting often, and follow local law.";

    private const string WeightCaution =
        "Do not move a unit that is over the platform's or the truck's rating. The maker's rating has the last word.";

    private const string StrapCaution =
        "A strap under tension can whip and a load can burst when it is cut: wear eye protection, cut from the side, and follow the maker's instructions.";

    private const string TruckCaution =
        "Forklift work is for trained drivers, within the truck's rated capacity at the load's centre. Liftgates have ratings of their own.";

    private const string RegulatedCaution =
        "Fettle does not classify and does not replace training: the shipper's trained people and the law decide whether and how regulated goods travel.";

    public static readonly IReadOnlyList<RuleDescription> All =
    [
        new(FindingCodes.Overhang, "Over the deck's edge", "overhang",
            "load past the deck, half of it at each end or side; the forks strike it at the ends, it rubs at the sides",
            _ => Phrase.Of($"{Length.Zero}"),
            r => Word(r.Overhang.OverhangSeverity), Practice),
        new(FindingCodes.Clearance, "Little bare deck", "too little bare deck",
            "least bare deck beside the cartons, the layer centred; not asked for where corner boards reach the platform",
            r => Phrase.Of($"{r.Overhang.Clearance}"),
            r => Word(r.Overhang.ClearanceSeverity), Practice),
        new(FindingCodes.DeckEdge, "Base past the deck", "cartons that stand past the deck",
            "share of the outermost carton's base that is on the deck, where the load hangs over",
            r => Phrase.Of($"{Quantity.Percent(r.DeckFit.Support * 100)}"),
            r => Word(r.DeckFit.SupportSeverity), "Carpenter and Dowsland 1985 (from memory)"),
        new(FindingCodes.OffCentre, "Off the deck's middle", "a load beside the middle of its deck",
            "middle of a layer, built as close as it goes, beside the deck's middle, as a share of the deck's side",
            r => Phrase.Of($"{Quantity.Percent(r.DeckFit.OffCentre * 100)}"),
            r => Word(r.DeckFit.OffCentreSeverity), "common practice; the share is our choice"),
        new(FindingCodes.DeckGap, "Small cartons on boards", "cartons that sink between the boards",
            "a carton's shorter side against the gaps between the boards of a wooden deck; not where sheets are laid",
            r => Phrase.Of($"{Quantity.Ratio(r.DeckFit.Gaps)} gaps of {r.DeckFit.BoardGap}"),
            r => Word(r.DeckFit.GapSeverity), "common practice; the gap follows from boards of a usual width (from memory)"),
        new(FindingCodes.GrossWeight, "Weight", "the gross weight",
            "declared gross weight, against the mark for heavy units, the carrier's limit and the platform maker's rating",
            r => Phrase.Of($"heavy: {r.Weight.Heavy}; carrier: {r.Weight.Carrier}; the maker's rating"),
            r => $"heavy: {Word(r.Weight.HeavySeverity)}; carrier: {Word(r.Weight.CarrierSeverity)}; rating: {Word(r.Weight.RatingSeverity)}",
            "common practice; the rating is the maker's", WeightCaution),
        new(FindingCodes.WeightMismatch, "Weights do not agree", "weights that do not agree",
            "declared gross weight against pieces × weight of one + empty platform, for all contents that are weighed piece by piece; of a crate, which has boards of its own, only too little; also a gross weight that is no more than the empty platform's",
            r => Phrase.Of($"{r.Weight.Mismatch} or {Quantity.Percent(r.Weight.MismatchPercent)} of the declared weight, whichever is less; on a platform never less than {r.Weight.Packaging}"),
            r => Word(r.Weight.MismatchSeverity), "arithmetic; the allowance for film and boards is our choice"),
        new(FindingCodes.InconsistentDimensions, "Sizes do not agree", "sizes that do not agree",
            "figures that cannot all be true: outside less than the platform, cartons, drums or rolls that do not fit in the outer size or would stand with their middle past the edge, layers that do not add up to the height, cartons of more volume than the outer size, a centre of gravity outside, a platform under a foot, a piece denser than lead",
            r => Phrase.Of($"platform: {r.Consistency.Tape}; size: {r.Consistency.Size} or {Quantity.Percent(r.Consistency.SizePercent)}, whichever is more; smallest platform: {r.Consistency.SmallestDeck}; lead: {Density.FromPoundsPerCubicFoot(r.Consistency.DensestPoundsPerCubicFoot)}"),
            r => Word(r.Consistency.Severity), "arithmetic; the allowances are our choice") { Counts = ("carton", "cartons") },
        new(FindingCodes.TreatmentMark, "No treatment mark", "a missing treatment mark",
            "a treatment mark on a wooden platform when the lane crosses a border",
            _ => Phrase.Of($"{1} mark"),
            r => Word(r.Platform.MarkSeverity), "ISPM 15") { Counts = ("mark", "marks") },
        new(FindingCodes.PlatformCondition, "Pallet worn or broken", "a pallet that is not sound",
            "condition of the platform as declared",
            _ => Phrase.Of($"sound"),
            r => $"damaged: {Word(r.Platform.DamagedSeverity)}; worn: {Word(r.Platform.WornSeverity)}", Practice, WeightCaution) { Counts = ("fault", "faults") },
        new(FindingCodes.ForkEntry, "Forks enter at two ends", "forks that enter at two ends only",
            "sides under which forks enter",
            _ => Phrase.Of($"{4} sides"),
            r => Word(r.Platform.TwoWaySeverity), Practice) { Counts = ("side", "sides") },
        new(FindingCodes.PlatformMissing, "No pallet", "a missing pallet",
            "machinery or bags declared as a piece without a platform",
            _ => Phrase.Of($"{1} platform"),
            r => Word(r.Platform.MissingSeverity), Practice) { Counts = ("pallet", "pallets") },
        new(FindingCodes.WrapTurns, "Too little film", "too little film",
            "full turns of film round cartons, mixed cartons or bags on a platform",
            r => Phrase.Of($"{r.Wrap.Turns} turns"),
            r => Word(r.Wrap.TurnsSeverity), Practice) { Counts = ("turn", "turns") },
        new(FindingCodes.WrapAnchor, "Film not tied to the pallet", "film that does not hold the pallet",
            "the film comes down over the platform; not said where there is no film",
            _ => Phrase.Of($"down over the platform"),
            r => Word(r.Wrap.AnchorSeverity), Practice) { Counts = ("turn over the pallet", "turns over the pallet") },
        new(FindingCodes.Containment, "Film for the weight", "too little film for the weight",
            "turns × squeeze of one turn, for a load over the mark for heavy units",
            r => Phrase.Of($"over {r.Weight.Heavy}: {Engineering.Wrapping.Containment.Guide(Engineering.Wrapping.LoadTemper.HeavyUnstable).Least.MassHeld()} of squeeze at {Mass.FromPounds(r.Wrap.PoundsForcePerTurn)} a turn"),
            r => Word(r.Wrap.ContainmentSeverity), "a film supplier's starting guide, advice only; the squeeze of a turn is our choice") { Counts = ("turn", "turns") },
        new(FindingCodes.CornerBoards, "Corner boards", "missing corner boards",
            "boards that reach the platform, on cartons and mixed cartons, where the load is flush, the lane long, or the freight changes trailer; not for a few light cartons on a bare deck, which travel better loose",
            r => Phrase.Of($"flush: {r.Overhang.Flush} of bare deck; {Quantity.Miles(r.CornerBoards.Miles)}; {r.CornerBoards.Transfers} transfers"),
            r => $"{Word(r.CornerBoards.Severity)}; flush and far: {Word(r.CornerBoards.FlushAndFarSeverity)}", Practice) { Counts = ("change of trailer", "changes of trailer") },
        new(FindingCodes.Sleeve, "Sleeve", "a missing sleeve",
            "a sleeve round a flush load on a long lane",
            r => Phrase.Of($"{Quantity.Miles(r.CornerBoards.Miles)}"),
            r => Word(r.CornerBoards.SleeveSeverity), Practice),
        new(FindingCodes.TopCap, "Top cap", "a missing top cap",
            "a cap on fragile cartons, on a stackable load that is flush and goes far, and on bags",
            r => Phrase.Of($"far: {Quantity.Miles(r.CornerBoards.Miles)} or {r.CornerBoards.Transfers} transfers"),
            r => $"{Word(r.Top.CapSeverity)}; fragile and far: {Word(r.Top.FragileCapSeverity)}", Practice) { Counts = ("cap", "caps") },
        new(FindingCodes.SlipSheets, "Slip sheets", "missing slip sheets",
            "sheets between the layers of tall columns on a long lane, between tiers of drums, and under bags",
            r => Phrase.Of($"columns: {r.Top.SheetTiers} layers, fragile {r.Top.FragileSheetTiers}, over {Quantity.Miles(r.CornerBoards.Miles)} or {r.CornerBoards.Transfers} transfers"),
            r => $"{Word(r.Top.SheetSeverity)}; drums: {Word(r.Contents.DrumSheetSeverity)}; bags: {Word(r.Contents.BagSheetSeverity)}",
            "common practice; the numbers of layers are our choice") { Counts = ("layer", "layers") },
        new(FindingCodes.Straps, "Straps on bare edges", "straps that cut into cartons",
            "edge crush × width of the strap × what time and damp leave, against the tension of a hand tool; where neither corner boards nor a cap are under the straps",
            r => Phrase.Of($"{r.Straps.Tension} in a strap of {r.Straps.Width}"),
            r => Word(r.Straps.Severity), "common practice; the tension is our choice", StrapCaution),
        new(FindingCodes.Height, "Too tall", "the height",
            "outside height against the door",
            r => Phrase.Of($"{r.Height.Limit}"),
            r => Word(r.Height.LimitSeverity), "common practice: the lowest door quoted for 53-ft vans"),
        new(FindingCodes.DoubleStackHeight, "Too tall for two", "too much height for two",
            "two on one another against the roof, when declared stackable",
            r => Phrase.Of($"{r.Height.DoubleStack}"),
            r => Word(r.Height.DoubleStackSeverity), "common practice: the lowest inside height quoted", StrengthCaution),
        new(FindingCodes.Tipping, "Tips easily", "tipping",
            "half the base over the height of the centre of gravity (a machine's own where it is given), across and along the trailer, in g; a strap asked for answers both, a bulkhead the forward one",
            r => Phrase.Of($"across: {Quantity.Ratio(r.Tipping.Lateral)}; along: {Quantity.Ratio(r.Tipping.Forward)}; far below: under {Quantity.Ratio(r.Tipping.FarBelow)} of either"),
            r => $"across: {Word(r.Tipping.Severity)}; along: {Word(r.Tipping.ForwardSeverity)}; far below: {Word(r.Tipping.FarBelowSeverity)}; with a strap or bulkhead asked for: {Word(r.Tipping.SecuredSeverity)}, far below {Word(r.Tipping.FarBelowSecuredSeverity)}",
            "EN 12195-1:2010; the share and the gravity along the trailer are our choice", SecuringCaution),
        new(FindingCodes.Sliding, "Slides easily", "sliding",
            "friction of pieces, machines, drums and crates on the trailer's floor against the pull of a bend; said only below an ordinary pallet's friction, and not where a strap or bulkhead is asked for",
            r => Phrase.Of($"{Quantity.Ratio(r.Sliding.Lateral)}, said below {Quantity.Ratio(r.Sliding.Ordinary)}; heavy: over {r.Awkward.HeavyLoose}"),
            r => $"{Word(r.Sliding.Severity)}; heavy: {Word(r.Sliding.HeavySeverity)}",
            "EN 12195-1:2010; friction: CTU Code, annex 7, appendix 2; from where on it is said is our choice", SecuringCaution),
        new(FindingCodes.SelfCrush, "Crushes itself", "cartons that sink into themselves",
            "usable strength of the bottom carton over the weight above it; of mixed cartons, whether any order that was tried keeps those below whole",
            r => Phrase.Of($"{1}; factor: {Quantity.Ratio(r.Strength.SafetyFactor)}"),
            r => $"below one: {Word(r.Strength.BelowOneSeverity)}; below the factor: {Word(r.Strength.BelowFactorSeverity)}",
            "McKee 1963, derated by the Fibre Box Handbook (deck gaps and handling from memory); the factor after Popil", StrengthCaution),
        new(FindingCodes.TopLoad, "Cannot bear a top load", "cartons too weak for a load on top",
            "what the top layer may carry besides its own stack, against the same unit again or mixed freight, whichever is more; when declared stackable",
            Heaped, r => Word(r.Strength.TopLoadSeverity), "ASTM D4169; strength as above", StrengthCaution),
        new(FindingCodes.TopSurface, "Top not flat and full", "a top that carries nothing",
            "an unfinished top layer, a load that reaches over too little of the deck, or a top declared uneven or a pyramid; when declared stackable",
            r => Phrase.Of($"a full layer; {Quantity.Percent(r.Strength.TopSpan * 100)} of the deck's length and width; flat"),
            r => r.Strength.TopSurfaceSeverity == r.Top.SurfaceSeverity ? Word(r.Top.SurfaceSeverity) : $"layer and deck: {Word(r.Strength.TopSurfaceSeverity)}; not flat: {Word(r.Top.SurfaceSeverity)}",
            "common practice; the share is our choice", StrengthCaution) { Counts = ("carton", "cartons") },
        new(FindingCodes.NeverStackable, "Nothing stands on it", "freight that never carries another unit",
            "furniture, a machine without a crate, rolls on their side or a bare piece declared stackable",
            _ => Phrase.Of($"not stackable"),
            r => Word(r.Top.NeverSeverity), Practice, StrengthCaution) { Counts = ("load on top", "loads on top") },
        new(FindingCodes.StackableUnclaimed, "Could be stackable", "strength that is not declared",
            "the same as `top-load` when declared not stackable: flat, nothing fragile, neither no top load nor decking asked for, no overhang, strong enough for its like, and the pair stands under the roof",
            Heaped, r => Word(r.Strength.UnclaimedSeverity), "ASTM D4169; strength as above", StrengthCaution),
        new(FindingCodes.BoardUnknown, "Board not known", "board that is not named",
            "declared stackable, and no board grade to compute its strength from",
            _ => Phrase.Of($"{1} grade"),
            r => Word(r.Strength.UnknownBoardSeverity), Practice, StrengthCaution) { Counts = ("grade", "grades") },
        new(FindingCodes.Partitions, "No partitions", "missing partitions",
            "glass, ceramics, liquids or eggs in cartons without partitions",
            _ => Phrase.Of($"partitions"),
            r => Word(r.Fragile.PartitionSeverity), Practice) { Counts = ("partition", "partitions") },
        new(FindingCodes.FragileCare, "Nothing asked for", "fragile freight without decking or airbags",
            "fragile freight on a pallet or in a crate, and neither decking nor airbags asked for",
            _ => Phrase.Of($"{1} request"),
            r => Word(r.Fragile.CareSeverity), Practice) { Counts = ("request", "requests") },
        new(FindingCodes.FragileStackable, "Fragile and stackable", "fragile freight declared stackable",
            "declared fragile and declared stackable",
            _ => Phrase.Of($"not stackable"),
            r => Word(r.Fragile.StackableSeverity), Practice, StrengthCaution) { Counts = ("load on top", "loads on top") },
        new(FindingCodes.FewLightCartons, "Few light cartons", "few light cartons",
            "cartons on a pallet that one person lifts, that bear other freight, and that are denser loose than on the pallet; nothing is then said about deck, cap and sheets, nor about boards while the deck is bare on all sides",
            r => Phrase.Of($"{r.FewCartons.Cartons} cartons of {r.FewCartons.OnePersonLift}"),
            r => Word(r.FewCartons.Severity), "common practice; weight: NIOSH Pub. 94-110", LiftingCaution) { Counts = ("carton", "cartons") },
        new(FindingCodes.LooseCartonLift, "Heavy to lift", "a carton too heavy to lift",
            "weight of a loose carton",
            r => Phrase.Of($"one person: {r.FewCartons.OnePersonLift}; two: {r.FewCartons.TwoPersonLift}"),
            r => $"two people: {Word(r.FewCartons.TwoPersonSeverity)}; more: {Word(r.FewCartons.TooHeavySeverity)}",
            "NIOSH Pub. 94-110, load constant; twice that is practice", LiftingCaution),
        new(FindingCodes.LooseCartonStrength, "Weak loose carton", "a carton too weak to ride loose",
            "usable strength of a loose carton less the factor, against freight heaped over it",
            r => Phrase.Of($"{Density.FromPoundsPerCubicFoot(r.Strength.MixedFreightPoundsPerCubicFoot)} to {r.Strength.VehicleStack}, or {r.Strength.SmallPackageStack} when under {Mass.FromPounds(30)} and 2 ft³"),
            r => Word(r.FewCartons.StrengthSeverity), "ASTM D4169; strength as above", StrengthCaution),
        new(FindingCodes.ManualLift, "Lifted by hand", "cartons too heavy to lift by hand",
            "a carton's weight against the limit recommended where it is hardest to take up or set down, lowest or highest layer, from a table; heavier cartons are set by machine",
            r => Phrase.Of($"one carton: {r.Lifting.LoadConstant}; lifting index: {Quantity.Ratio(r.Lifting.TipIndex)} and {Quantity.Ratio(r.Lifting.CautionIndex)}; by machine from {r.Lifting.ByMachine}"),
            r => $"over the first index: {Word(r.Lifting.TipSeverity)}; over the second or the weight: {Word(r.Lifting.CautionSeverity)}",
            "NIOSH Pub. 94-110; the first index, the table's height and the lifts a minute are our choice", LiftingCaution),
        new(FindingCodes.DrumTiers, "Drums too high", "too many tiers of drums",
            "drums above one another",
            r => Phrase.Of($"steel: {r.Contents.SteelDrumTiers}; plastic or fibre: {r.Contents.OtherDrumTiers}"),
            r => Word(r.Contents.DrumTiersSeverity), Practice, SecuringCaution) { Counts = ("tier", "tiers") },
        new(FindingCodes.LooseDrums, "Drums not held together", "drums that nothing holds together",
            "several drums on a pallet with neither straps nor enough film",
            r => Phrase.Of($"{1} strap or {r.Wrap.Turns} turns"),
            r => Word(r.Contents.LooseDrumsSeverity), Practice, SecuringCaution) { Counts = ("strap", "straps") },
        new(FindingCodes.LoneDrum, "A drum by itself", "a drum by itself",
            "one drum without a pallet",
            r => Phrase.Of($"{r.FewCartons.OnePersonLift}"),
            r => Word(r.Contents.LoneDrumSeverity), "common practice; weight: NIOSH Pub. 94-110", LiftingCaution),
        new(FindingCodes.BagColumns, "Bags in columns", "bags in straight columns",
            "layers of bags in straight columns",
            _ => Phrase.Of($"{1} layer"),
            r => Word(r.Contents.BagColumnSeverity), Practice) { Counts = ("layer", "layers") },
        new(FindingCodes.RollChocks, "Rolls can roll", "rolls that nothing holds",
            "rolls on their side without straps on the unit",
            _ => Phrase.Of($"{1} strap"),
            r => $"{Word(r.Contents.RollsOnSideSeverity)}; strap or bulkhead asked for: {Word(r.Contents.RollsRequestedSeverity)}", Practice, SecuringCaution) { Counts = ("strap", "straps") },
        new(FindingCodes.RollsOnEnd, "Rolls stand loose", "rolls that stand loose",
            "several rolls on end on a pallet with neither straps nor enough film",
            r => Phrase.Of($"{r.Wrap.Turns} turns"),
            r => Word(r.Contents.RollsOnEndSeverity), Practice) { Counts = ("turn", "turns") },
        new(FindingCodes.BareFurniture, "Bare furniture", "bare furniture",
            "turns of film round furniture without a carton of its own",
            r => Phrase.Of($"{r.Wrap.Turns} turns"),
            r => Word(r.Contents.BareFurnitureSeverity), Practice) { Counts = ("turn", "turns") },
        new(FindingCodes.Unfastened, "Machine not fastened", "a machine that is not fastened",
            "a machine on a platform or in a crate that is not declared fastened",
            _ => Phrase.Of($"fastened"),
            r => $"{Word(r.Contents.UnfastenedSeverity)}; with straps: {Word(r.Contents.StrappedSeverity)}", Practice, SecuringCaution) { Counts = ("fastening", "fastenings") },
        new(FindingCodes.Unbraced, "Loose in its crate", "contents that move in their crate",
            "a crate whose contents are not declared braced",
            _ => Phrase.Of($"braced"),
            r => Word(r.Contents.UnbracedSeverity), Practice) { Counts = ("brace", "braces") },
        new(FindingCodes.OverLength, "Very long", "the length",
            "longer outside side",
            r => Phrase.Of($"{r.Awkward.Long}"),
            r => Word(r.Awkward.LongSeverity), Practice, TruckCaution),
        new(FindingCodes.HeavyLoose, "Heavy without a pallet", "a heavy piece without a pallet",
            "gross weight of a piece, crate or drum without a platform",
            r => Phrase.Of($"{r.Awkward.HeavyLoose}"),
            r => Word(r.Awkward.HeavyLooseSeverity), Practice, TruckCaution),
        new(FindingCodes.Liftgate, "Too much for a liftgate", "too much for a liftgate",
            "gross weight and longer side when the consignee is served with a liftgate",
            r => Phrase.Of($"{r.Awkward.LiftgateWeight}; {r.Awkward.LiftgateLength}"),
            r => Word(r.Awkward.LiftgateSeverity), Practice, TruckCaution),
        new(FindingCodes.NoDock, "No dock there", "a consignee without a dock",
            "gross weight when the consignee has neither dock nor liftgate",
            r => Phrase.Of($"{r.Awkward.NoDock}"),
            r => Word(r.Awkward.NoDockSeverity), "common practice: twice the NIOSH load constant", LiftingCaution),
        new(FindingCodes.Regulated, "Not confirmed", "regulated goods that nobody confirmed",
            "a trained person named for goods declared hazardous or temperature-controlled; Fettle does not classify",
            _ => Phrase.Of($"{1} name"),
            r => Word(r.Regulated.Severity), "49 CFR 172.704; temperature: common practice", RegulatedCaution) { Counts = ("name", "names") },
        new(FindingCodes.FreightClass, "Class by density", "a class that density does not bear out",
            "declared freight class against the class of gross weight over outermost size; nothing where no class is declared",
            _ => Phrase.Of($"the same class"),
            r => Word(r.Class.Severity), "13-tier density scale of July 2025"),
        new(FindingCodes.DriverOffDock, "Driver kept off the dock", "a driver kept off the dock",
            "about the whole pickup: the driver does not see the freight; it never holds freight by itself",
            r => Phrase.Of($"{r.Proof.Photos} photographs"),
            r => Word(r.Proof.Severity), "49 USC 80113(c)") { Counts = ("photographed side", "photographed sides") },
        new(FindingCodes.DamageSeen, "Damage seen", "damage seen at the terminal",
            "found at the terminal only: harm that the inspection names, a broken platform left out, which is judged as a platform",
            _ => Phrase.Of($"none"),
            r => Word(r.Inspection.DamageSeverity), Practice) { Counts = ("damage", "damages") },
        new(FindingCodes.StackTest, "Stack test failed", "a failed stack test",
            "found at the terminal only: declared stackable, and did not bear another unit when it was tried",
            _ => Phrase.Of($"{1} unit on top"),
            r => Word(r.Inspection.StackTestSeverity), Practice, StrengthCaution) { Counts = ("unit on top", "units on top") },
    ];

    private static readonly FrozenDictionary<string, RuleDescription> byCode = All.ToFrozenDictionary(rule => rule.Code, StringComparer.Ordinal);

    /// <summary>The description of a code; null when it is none of ours.</summary>
    public static RuleDescription? Find(string code) => byCode.GetValueOrDefault(code);

    /// <summary>A figure of a finding as people read it, always with what it counts: "2 turns", "0.48 g", "1.2 times the load above".</summary>
    public static Phrase Figure(Finding finding, Quantity figure)
    {
        return (figure.Unit, finding.Code, finding.Subject) switch
        {
            (Unit.Piece, FindingCodes.TopSurface, "topSurface") => Counted("flat top", "flat tops"),
            (Unit.Piece, FindingCodes.InconsistentDimensions, "contents.diameter") => Counted("side by side", "side by side"),
            (Unit.Piece, _, _) => Find(finding.Code) is { Counts: var (one, many) } ? Counted(one, many) : Counted("piece", "pieces"),
            (Unit.One, FindingCodes.Tipping or FindingCodes.Sliding, _) => Phrase.Of($"{figure}\u00a0g"),
            (Unit.One, FindingCodes.SelfCrush, _) => Phrase.Of($"{figure} times the load above"),
            (Unit.One, FindingCodes.FreightClass, _) => Phrase.Of($"class\u00a0{figure}"),
            (Unit.One, _, _) => Phrase.Of($"{figure} (ratio)"),
            _ => Phrase.Of($"{figure}"),
        };

        Phrase Counted(string one, string many) => Phrase.Of($"{figure}\u00a0{Phrase.Word(Math.Abs(figure.Value - 1) < 1e-9 ? one : many)}");
    }

    private static Phrase Heaped(RuleSet rules) =>
        Phrase.Of($"{Density.FromPoundsPerCubicFoot(rules.Strength.MixedFreightPoundsPerCubicFoot)} to {rules.Strength.VehicleStack}");

    private static string Word(Severity severity) => severity switch { Severity.Stop => "stop", Severity.Caution => "caution", Severity.Tip => "tip" };
}
