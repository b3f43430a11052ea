using Fettle.Engineering.Stability;
using Fettle.Engineering.Stacking;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.RuleSets;

/// <summary>Which rule set judged: its name and version.</summary>
public sealed record RuleSetVersion(string Name, int Version)
{
    public override string ToString() => $"{Name}, version {Version}";
}

/// <summary>
/// Every limit and severity of the check. The defaults are the built-in set; a carrier's own set is a copy with other
/// values and a version of its own.
/// </summary>
public sealed record RuleSet
{
    public required RuleSetVersion Identity { get; init; }

    public OverhangLimits Overhang { get; init; } = new();

    public WeightLimits Weight { get; init; } = new();

    public WrapLimits Wrap { get; init; } = new();

    public CornerBoardLimits CornerBoards { get; init; } = new();

    public HeightLimits Height { get; init; } = new();

    public TippingLimits Tipping { get; init; } = new();

    public StrengthLimits Strength { get; init; } = new();

    public FewCartonLimits FewCartons { get; init; } = new();

    public ConsistencyLimits Consistency { get; init; } = new();

    public DeckFitLimits DeckFit { get; init; } = new();

    public SlidingLimits Sliding { get; init; } = new();

    public TopLimits Top { get; init; } = new();

    public StrapLimits Straps { get; init; } = new();

    public FragileLimits Fragile { get; init; } = new();

    public LiftingLimits Lifting { get; init; } = new();

    public ClassLimits Class { get; init; } = new();

    public PlatformLimits Platform { get; init; } = new();

    public AwkwardLimits Awkward { get; init; } = new();

    public RegulatedLimits Regulated { get; init; } = new();

    public ContentsLimits Contents { get; init; } = new();

    public ProofLimits Proof { get; init; } = new();

    public InspectionLimits Inspection { get; init; } = new();

    public ClaimTerms Claims { get; init; } = new();

    public HoldLimits Hold { get; init; } = new();

    /// <summary>Common practice and the named standards.</summary>
    public static readonly RuleSet BuiltIn = new() { Identity = new("Common practice", 1) };
}

/// <summary>Load footprint against deck. Common practice, no source: no overhang at all, a few inches of bare deck at best.</summary>
public sealed record OverhangLimits
{
    public Severity OverhangSeverity { get; init; } = Severity.Stop;

    public Severity ClearanceSeverity { get; init; } = Severity.Caution;

    /// <summary>Bare deck wanted on each side, unless corner boards protect the edges.</summary>
    public Length Clearance { get; init; } = Length.FromInches(2);

    /// <summary>A side with no more bare deck than this counts as flush.</summary>
    public Length Flush { get; init; } = Length.FromInches(0.25);
}

/// <summary>Gross weight. Common practice, no source, but for the platform's own rating.</summary>
public sealed record WeightLimits
{
    public Mass Heavy { get; init; } = Mass.FromPounds(2000);

    public Severity HeavySeverity { get; init; } = Severity.Caution;

    /// <summary>Over what the platform's maker rates it to carry.</summary>
    public Severity RatingSeverity { get; init; } = Severity.Stop;

    /// <summary>The carrier's limit for one handling unit.</summary>
    public Mass Carrier { get; init; } = Mass.FromPounds(4000);

    public Severity CarrierSeverity { get; init; } = Severity.Stop;

    /// <summary>Declared and computed weight may differ by this share of the declared weight, in percent …</summary>
    public double MismatchPercent { get; init; } = 3;

    /// <summary>… and by no more than this.</summary>
    public Mass Mismatch { get; init; } = Mass.FromPounds(25);

    /// <summary>
    /// On a platform a difference up to this is never a contradiction, whatever its share: film, boards and the steps of a
    /// floor scale weigh as much. Our choice, no source.
    /// </summary>
    public Mass Packaging { get; init; } = Mass.FromPounds(5);

    public Severity MismatchSeverity { get; init; } = Severity.Stop;
}

/// <summary>Stretch film. Common practice, no source.</summary>
public sealed record WrapLimits
{
    public int Turns { get; init; } = 2;

    public Severity TurnsSeverity { get; init; } = Severity.Stop;

    public Severity AnchorSeverity { get; init; } = Severity.Stop;

    /// <summary>What one turn of film squeezes with, in pounds of force. Film and machine decide; our choice, no source.</summary>
    public double PoundsForcePerTurn { get; init; } = 2.5;

    /// <summary>Less squeeze than a supplier's starting guide has for a heavy load (over <see cref="WeightLimits.Heavy"/>): advice only.</summary>
    public Severity ContainmentSeverity { get; init; } = Severity.Tip;
}

/// <summary>Corner boards and sleeves. Common practice, no source.</summary>
public sealed record CornerBoardLimits
{
    public double Miles { get; init; } = 500;

    public int Transfers { get; init; } = 2;

    public Severity Severity { get; init; } = Severity.Caution;

    /// <summary>A flush load on a lane over <see cref="Miles"/> without boards.</summary>
    public Severity FlushAndFarSeverity { get; init; } = Severity.Stop;

    public Severity SleeveSeverity { get; init; } = Severity.Tip;
}

/// <summary>Height. Doors of 53-ft dry vans are quoted from 105 to 110 in high and the inside from 108 to 110; the lowest are taken.</summary>
public sealed record HeightLimits
{
    public Length Limit { get; init; } = Length.FromInches(105);

    public Severity LimitSeverity { get; init; } = Severity.Stop;

    /// <summary>Two units on one another must stand under this: the inside height, for the second is set on inside the trailer.</summary>
    public Length DoubleStack { get; init; } = Length.FromInches(108);

    public Severity DoubleStackSeverity { get; init; } = Severity.Caution;
}

/// <summary>Tipping under braking and cornering, as shares of g: EN 12195-1:2010.</summary>
public sealed record TippingLimits
{
    public double Lateral { get; init; } = RoadAccelerations.En12195Edition2010.Lateral;

    public double Forward { get; init; } = RoadAccelerations.En12195Edition2010.Forward;

    /// <summary>Across the trailer: nothing but a wall or a gap is beside it.</summary>
    public Severity Severity { get; init; } = Severity.Caution;

    /// <summary>Along the trailer, where the freight in front usually blocks it. Our choice, no source.</summary>
    public Severity ForwardSeverity { get; init; } = Severity.Tip;

    /// <summary>At most this when a strap is asked for, or for the forward axis a bulkhead.</summary>
    public Severity SecuredSeverity { get; init; } = Severity.Tip;

    /// <summary>The same for a unit that is far below the limit: a request is not yet a promise.</summary>
    public Severity FarBelowSecuredSeverity { get; init; } = Severity.Caution;

    /// <summary>Below this share of the limit the unit is far too tall for its base. Our choice, no source.</summary>
    public double FarBelow { get; init; } = 0.7;

    public Severity FarBelowSeverity { get; init; } = Severity.Stop;
}

/// <summary>Carton strength: McKee with the handbook's derating factors.</summary>
public sealed record StrengthLimits
{
    /// <summary>Days under load; the handbook's first row is 10.</summary>
    public double Days { get; init; } = 10;

    /// <summary>Relative humidity in the trailer, percent. Our choice for an unheated trailer, no source.</summary>
    public double RelativeHumidity { get; init; } = 70;

    /// <summary>
    /// What is left of the computed strength must exceed the load by this factor, since the formula scatters: 1/0.75, after
    /// an average error of 25 % that remained when the formula was refitted to one set of boxes (Popil, Georgia Tech).
    /// </summary>
    public double SafetyFactor { get; init; } = 4.0 / 3;

    public Severity BelowOneSeverity { get; init; } = Severity.Stop;

    public Severity BelowFactorSeverity { get; init; } = Severity.Caution;

    public Severity TopLoadSeverity { get; init; } = Severity.Stop;

    public Severity TopSurfaceSeverity { get; init; } = Severity.Stop;

    public Severity UnclaimedSeverity { get; init; } = Severity.Tip;

    /// <summary>Declared stackable, and the board that would have to bear it is not named.</summary>
    public Severity UnknownBoardSeverity { get; init; } = Severity.Tip;

    /// <summary>
    /// A top carries another unit when the load reaches over at least this share of the deck both ways. Our choice, after
    /// the 75 to 95 % of support that Carpenter and Dowsland 1985 ask for under a carton (from memory).
    /// </summary>
    public double TopSpan { get; init; } = 0.75;

    /// <summary>
    /// Wooden decks have gaps between their boards, which take support from under the lowest cartons. The handbook's row for
    /// it could only be quoted from memory, so that it decides nothing until a carrier says so.
    /// </summary>
    public bool DeckGaps { get; init; }

    /// <summary>Density of mixed freight that is put on top, lb/ft³: ASTM D4169, editions up to -16 (10); a later one names 12.</summary>
    public double MixedFreightPoundsPerCubicFoot { get; init; } = 10;

    /// <summary>Height to which a vehicle is filled: ASTM D4169.</summary>
    public Length VehicleStack { get; init; } = VehicleStackingLoad.TrailerStackHeight;

    /// <summary>The same for packages under 30 lb and 2 ft³: ASTM D4169.</summary>
    public Length SmallPackageStack { get; init; } = VehicleStackingLoad.SmallPackageStackHeight;
}

/// <summary>A few light cartons on a pallet, and cartons that travel loose. Common practice, no source, but for the lifting limit.</summary>
public sealed record FewCartonLimits
{
    public int Cartons { get; init; } = 6;

    public Severity Severity { get; init; } = Severity.Tip;

    /// <summary>The load constant of the revised NIOSH lifting equation (Pub. 94-110): the most for one person in ideal conditions.</summary>
    public Mass OnePersonLift { get; init; } = Mass.FromPounds(51);

    /// <summary>Two people; twice the one-person constant is practice, not part of the equation.</summary>
    public Mass TwoPersonLift { get; init; } = Mass.FromPounds(102);

    /// <summary>A loose carton that takes two people.</summary>
    public Severity TwoPersonSeverity { get; init; } = Severity.Caution;

    /// <summary>A loose carton that is too heavy even for two.</summary>
    public Severity TooHeavySeverity { get; init; } = Severity.Stop;

    /// <summary>A loose carton whose board does not bear what is loaded over it.</summary>
    public Severity StrengthSeverity { get; init; } = Severity.Caution;
}

/// <summary>How far declared and computed sizes may differ before one of them must be wrong. Our choice, no source.</summary>
public sealed record ConsistencyLimits
{
    public Length Size { get; init; } = Length.FromInches(1.5);

    /// <summary>Or this share of the computed size in percent, whichever is more: cartons bulge and settle.</summary>
    public double SizePercent { get; init; } = 3;

    /// <summary>What a tape measure argues about: the outer size may be this much below the platform's own.</summary>
    public Length Tape { get; init; } = Length.FromInches(0.25);

    /// <summary>Nothing that is shipped is denser, lb/ft³: lead has 708.</summary>
    public double DensestPoundsPerCubicFoot { get; init; } = 708;

    /// <summary>No platform has a side below this.</summary>
    public Length SmallestDeck { get; init; } = Length.FromInches(12);

    public Severity Severity { get; init; } = Severity.Stop;
}
