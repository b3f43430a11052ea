namespace Fettle.Readiness.Findings;

/// <summary>The codes of all findings. A code, once published, keeps its meaning for ever.</summary>
public static class FindingCodes
{
    public const string Overhang = "overhang";
    public const string Clearance = "clearance";
    public const string GrossWeight = "gross-weight";
    public const string WeightMismatch = "weight-mismatch";
    public const string WrapTurns = "wrap-turns";
    public const string WrapAnchor = "wrap-anchor";
    public const string CornerBoards = "corner-boards";
    public const string Sleeve = "sleeve";
    public const string Height = "height";
    public const string DoubleStackHeight = "double-stack-height";
    public const string Tipping = "tipping";
    public const string SelfCrush = "self-crush";
    public const string TopLoad = "top-load";
    public const string TopSurface = "top-surface";
    public const string StackableUnclaimed = "stackable-unclaimed";
    public const string BoardUnknown = "board-unknown";
    public const string FewLightCartons = "few-light-cartons";
    public const string LooseCartonLift = "loose-carton-lift";
    public const string LooseCartonStrength = "loose-carton-strength";
    public const string InconsistentDimensions = "inconsistent-dimensions";

    /// <summary>What a finding is about, in a few plain words that fit into a sentence; the code itself when it is none of these.</summary>
    public static string Words(string code) => code switch
    {
        Overhang => "overhang",
        Clearance => "too little bare deck",
        GrossWeight => "the gross weight",
        WeightMismatch => "weights that do not agree",
        WrapTurns => "too little film",
        WrapAnchor => "film that does not hold the pallet",
        CornerBoards => "missing corner boards",
        Sleeve => "a missing sleeve",
        Height => "the height",
        DoubleStackHeight => "too much height for two",
        Tipping => "tipping",
        SelfCrush => "cartons that sink into themselves",
        TopLoad => "cartons too weak for a load on top",
        TopSurface => "a top that carries nothing",
        StackableUnclaimed => "strength that is not declared",
        BoardUnknown => "board that is not named",
        FewLightCartons => "few light cartons",
        LooseCartonLift => "a carton too heavy to lift",
        LooseCartonStrength => "a carton too weak to ride loose",
        InconsistentDimensions => "sizes that do not agree",
        _ => code,
    };

    /// <summary>The same as a phrase, so that it can be put into another language.</summary>
    public static Phrase InWords(string code) => Phrase.Word(Words(code));

    /// <summary>Findings that say the declared figures contradict each other: nothing can be computed from them until they are put right.</summary>
    public static bool IsContradiction(string code) => code is WeightMismatch or InconsistentDimensions;

    /// <summary>The usual caution that goes with a figure that can hurt someone; null when none is due.</summary>
    public static string? CautionFor(string code) => code switch
    {
        SelfCrush or TopLoad or TopSurface or StackableUnclaimed or BoardUnknown or DoubleStackHeight or LooseCartonStrength =>
            "Strength is an estimate from board grade and size: damp, damaged or re-used cartons bear less. The carrier's tariff and a packaging engineer have the last word before freight is put on top.",
        Tipping =>
            "A computed figure does not replace load securing: keep clear of a load that can fall, and follow the carrier's rules and local law.",
        LooseCartonLift or FewLightCartons =>
            "Lifting can injure. The limit is for ideal conditions; stay below it when reaching, twisting or lifting often, and follow local law.",
        GrossWeight =>
            "Do not move a unit that is over the platform's or the truck's rating. The maker's rating has the last word.",
        _ => null,
    };
}
