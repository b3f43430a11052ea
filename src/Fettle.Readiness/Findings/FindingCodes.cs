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
    public const string DeckEdge = "deck-edge";
    public const string OffCentre = "off-centre";
    public const string DeckGap = "deck-gap";
    public const string Sliding = "sliding";
    public const string NeverStackable = "never-stackable";
    public const string TopCap = "top-cap";
    public const string SlipSheets = "slip-sheets";
    public const string Straps = "straps";
    public const string Containment = "containment";
    public const string Partitions = "partitions";
    public const string FragileCare = "fragile-care";
    public const string FragileStackable = "fragile-stackable";
    public const string ManualLift = "manual-lift";
    public const string FreightClass = "freight-class";
    public const string TreatmentMark = "treatment-mark";
    public const string PlatformCondition = "platform-condition";
    public const string ForkEntry = "fork-entry";
    public const string PlatformMissing = "platform-missing";
    public const string OverLength = "over-length";
    public const string HeavyLoose = "heavy-loose";
    public const string Liftgate = "liftgate";
    public const string NoDock = "no-dock";
    public const string Regulated = "regulated";
    public const string DrumTiers = "drum-tiers";
    public const string LooseDrums = "loose-drums";
    public const string LoneDrum = "lone-drum";
    public const string BagColumns = "bag-columns";
    public const string RollChocks = "roll-chocks";
    public const string RollsOnEnd = "rolls-on-end";
    public const string BareFurniture = "bare-furniture";
    public const string Unfastened = "unfastened";
    public const string Unbraced = "unbraced";
    public const string DriverOffDock = "driver-off-dock";

    // Only an inspection at the terminal finds these.
    public const string DamageSeen = "damage-seen";
    public const string StackTest = "stack-test";

    /// <summary>What a finding is about, in a few plain words that fit into a sentence; the code itself when it is none of these.</summary>
    public static string Words(string code) => RuleBook.Find(code)?.Words ?? code;

    /// <summary>Its short name, as a heading; the code itself when it is none of these.</summary>
    public static string Title(string code) => RuleBook.Find(code)?.Title ?? code;

    /// <summary>The same as a phrase, so that it can be put into another language.</summary>
    public static Phrase InWords(string code) => Phrase.Word(Words(code));

    /// <summary>Findings that say the declared figures contradict each other: nothing can be computed from them until they are put right.</summary>
    public static bool IsContradiction(string code) => code is WeightMismatch or InconsistentDimensions;

    /// <summary>The usual caution that goes with a figure that can hurt someone; null when none is due.</summary>
    public static string? CautionFor(string code) => RuleBook.Find(code)?.Caution;
}
