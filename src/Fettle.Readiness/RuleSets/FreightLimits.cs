using Fettle.Engineering.Lifting;
using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.RuleSets;

/// <summary>How the load sits on its deck.</summary>
public sealed record DeckFitLimits
{
    /// <summary>
    /// Share of a carton's base that must be on the deck: the lower end of the 75 to 95 % that Carpenter and Dowsland 1985 ask
    /// for under a carton (from memory).
    /// </summary>
    public double Support { get; init; } = 0.75;

    public Severity SupportSeverity { get; init; } = Severity.Caution;

    /// <summary>
    /// The load's middle may be this share of the deck's side away from the deck's: three cartons where four would fill the
    /// deck are 8.3 % off. Our choice, no source.
    /// </summary>
    public double OffCentre { get; init; } = 0.08;

    public Severity OffCentreSeverity { get; init; } = Severity.Caution;

    /// <summary>
    /// Gap between the top boards of a wooden deck: a 48-in deck of two boards of 5.5 in and five of 3.5 in leaves six gaps of
    /// 3.25 in (board widths from memory).
    /// </summary>
    public Length BoardGap { get; init; } = Length.FromInches(3.25);

    /// <summary>A carton's shorter side must be at least so many gaps, or the gap takes half its footing. Our choice, no source.</summary>
    public double Gaps { get; init; } = 2;

    public Severity GapSeverity { get; init; } = Severity.Caution;
}

/// <summary>Sliding on the trailer's floor: friction after the CTU Code, accelerations after EN 12195-1:2010.</summary>
public sealed record SlidingLimits
{
    /// <summary>Sideways design acceleration, share of g: what friction or neighbours must hold.</summary>
    public double Lateral { get; init; } = RoadAccelerations.En12195Edition2010.Lateral;

    /// <summary>
    /// Nothing is said from this friction up: a wooden pallet (0.40 to 0.45) is blocked by its neighbours in a loaded van, and
    /// a finding for each would teach nobody anything. Our choice, no source.
    /// </summary>
    public double Ordinary { get; init; } = 0.4;

    public Severity Severity { get; init; } = Severity.Tip;

    /// <summary>For a piece over <see cref="AwkwardLimits.HeavyLoose"/>.</summary>
    public Severity HeavySeverity { get; init; } = Severity.Caution;
}

/// <summary>What is on top of the load and between its layers. Common practice, no source.</summary>
public sealed record TopLimits
{
    /// <summary>Declared stackable with a top that is not flat.</summary>
    public Severity SurfaceSeverity { get; init; } = Severity.Stop;

    /// <summary>Declared stackable though nothing can stand on it: furniture, bare machinery, rolls on their side, a bare piece.</summary>
    public Severity NeverSeverity { get; init; } = Severity.Stop;

    /// <summary>No top cap on fragile freight, or on a stackable flush load that goes far.</summary>
    public Severity CapSeverity { get; init; } = Severity.Tip;

    /// <summary>No top cap on fragile freight that goes far or changes trailer often.</summary>
    public Severity FragileCapSeverity { get; init; } = Severity.Caution;

    /// <summary>From so many layers in columns up, slip sheets tie the columns on a long lane. Our choice, no source.</summary>
    public int SheetTiers { get; init; } = 5;

    /// <summary>The same for fragile freight.</summary>
    public int FragileSheetTiers { get; init; } = 3;

    public Severity SheetSeverity { get; init; } = Severity.Tip;
}

/// <summary>Straps round cartons.</summary>
public sealed record StrapLimits
{
    /// <summary>Width of a plastic strap. Common practice, no source.</summary>
    public Length Width { get; init; } = Length.FromInches(0.625);

    /// <summary>Tension that a hand tool leaves in it, as the weight that pulls as hard. Our choice, no source.</summary>
    public Mass Tension { get; init; } = Mass.FromPounds(100);

    public Severity Severity { get; init; } = Severity.Caution;
}

/// <summary>Glass, ceramics, liquids, eggs and the like. Common practice, no source.</summary>
public sealed record FragileLimits
{
    /// <summary>Glass, ceramics, liquids or eggs in cartons without partitions.</summary>
    public Severity PartitionSeverity { get; init; } = Severity.Stop;

    /// <summary>Neither decking nor airbags asked for.</summary>
    public Severity CareSeverity { get; init; } = Severity.Caution;

    /// <summary>Declared stackable although fragile.</summary>
    public Severity StackableSeverity { get; init; } = Severity.Caution;
}

/// <summary>Cartons lifted by hand, one after another, when a pallet is built.</summary>
public sealed record LiftingLimits
{
    /// <summary>The load constant of the revised NIOSH lifting equation (Pub. 94-110): the most for one person in ideal conditions.</summary>
    public Mass LoadConstant { get; init; } = LiftingEquation.LoadConstant;

    /// <summary>
    /// Lifting index above which a tip is given. The publication's goal is 1 and nearly every carton of a working day is over
    /// it somewhere in the stack; twice the recommended weight is worth a word. Our choice, no source.
    /// </summary>
    public double TipIndex { get; init; } = 2;

    public Severity TipSeverity { get; init; } = Severity.Tip;

    /// <summary>Lifting index above which the risk is raised for nearly all workers (Pub. 94-110).</summary>
    public double CautionIndex { get; init; } = 3;

    public Severity CautionSeverity { get; init; } = Severity.Caution;

    /// <summary>Heavier cartons are set by machine, and nothing is said about hands. Our choice, no source.</summary>
    public Mass ByMachine { get; init; } = Mass.FromPounds(150);

    /// <summary>Height of the hands where cartons are taken up, from a table or conveyor: by default the equation's own ideal.</summary>
    public Length TakenFrom { get; init; } = Length.FromInches(30);

    /// <summary>Lifts a minute, up to an hour at a time. Our choice, no source.</summary>
    public double LiftsPerMinute { get; init; } = 2;
}

/// <summary>Freight class by density on the 13-tier scale of July 2025.</summary>
public sealed record ClassLimits
{
    /// <summary>The class on the shipper's papers differs from the computed one.</summary>
    public Severity Severity { get; init; } = Severity.Caution;
}

/// <summary>The platform itself.</summary>
public sealed record PlatformLimits
{
    /// <summary>Wood without a treatment mark across a border: ISPM 15.</summary>
    public Severity MarkSeverity { get; init; } = Severity.Stop;

    public Severity DamagedSeverity { get; init; } = Severity.Stop;

    public Severity WornSeverity { get; init; } = Severity.Tip;

    /// <summary>Forks enter at two ends only.</summary>
    public Severity TwoWaySeverity { get; init; } = Severity.Tip;

    /// <summary>Machinery or bags without a platform.</summary>
    public Severity MissingSeverity { get; init; } = Severity.Caution;
}

/// <summary>Long, heavy and awkward units. Common practice, no source: carriers' tariffs differ.</summary>
public sealed record AwkwardLimits
{
    /// <summary>Longest side that turns and loads like ordinary freight: eight feet, as wide as a trailer.</summary>
    public Length Long { get; init; } = Length.FromInches(96);

    public Severity LongSeverity { get; init; } = Severity.Caution;

    /// <summary>A piece, crate or drum without a platform.</summary>
    public Mass HeavyLoose { get; init; } = Mass.FromPounds(750);

    public Severity HeavyLooseSeverity { get; init; } = Severity.Caution;

    /// <summary>What a liftgate takes at once.</summary>
    public Mass LiftgateWeight { get; init; } = Mass.FromPounds(2000);

    /// <summary>Longest side that stands on a liftgate's platform.</summary>
    public Length LiftgateLength { get; init; } = Length.FromInches(72);

    public Severity LiftgateSeverity { get; init; } = Severity.Caution;

    /// <summary>Without a dock and without a liftgate, more than two people take down by hand.</summary>
    public Mass NoDock { get; init; } = Mass.FromPounds(102);

    public Severity NoDockSeverity { get; init; } = Severity.Caution;
}

/// <summary>Goods that the law has more to say about. Fettle does not classify.</summary>
public sealed record RegulatedLimits
{
    /// <summary>Declared hazardous or temperature-controlled, and no trained person named who confirmed it.</summary>
    public Severity Severity { get; init; } = Severity.Stop;
}

/// <summary>Contents that are not cartons. Common practice, no source.</summary>
public sealed record ContentsLimits
{
    /// <summary>Steel drums above one another.</summary>
    public int SteelDrumTiers { get; init; } = 2;

    /// <summary>Plastic or fibre drums above one another.</summary>
    public int OtherDrumTiers { get; init; } = 1;

    public Severity DrumTiersSeverity { get; init; } = Severity.Caution;

    /// <summary>Several drums that neither straps nor enough film hold together.</summary>
    public Severity LooseDrumsSeverity { get; init; } = Severity.Stop;

    /// <summary>Drums above one another without sheets between.</summary>
    public Severity DrumSheetSeverity { get; init; } = Severity.Caution;

    /// <summary>One drum by itself, which is tilted and rolled by hand.</summary>
    public Severity LoneDrumSeverity { get; init; } = Severity.Caution;

    /// <summary>Bags in straight columns.</summary>
    public Severity BagColumnSeverity { get; init; } = Severity.Caution;

    /// <summary>Bags without a sheet over the deck, or without a cap.</summary>
    public Severity BagSheetSeverity { get; init; } = Severity.Tip;

    /// <summary>Rolls on their side that nothing holds.</summary>
    public Severity RollsOnSideSeverity { get; init; } = Severity.Stop;

    /// <summary>The same when only a strap or bulkhead in the trailer is asked for.</summary>
    public Severity RollsRequestedSeverity { get; init; } = Severity.Caution;

    /// <summary>Rolls on end that neither film nor straps hold together.</summary>
    public Severity RollsOnEndSeverity { get; init; } = Severity.Tip;

    /// <summary>Furniture without a carton of its own and without enough film.</summary>
    public Severity BareFurnitureSeverity { get; init; } = Severity.Caution;

    /// <summary>Machinery on a platform, not fastened to it.</summary>
    public Severity UnfastenedSeverity { get; init; } = Severity.Stop;

    /// <summary>The same with straps round machine and platform.</summary>
    public Severity StrappedSeverity { get; init; } = Severity.Caution;

    /// <summary>A crate whose contents are not braced.</summary>
    public Severity UnbracedSeverity { get; init; } = Severity.Caution;
}

/// <summary>What can be shown afterwards about how the load looked.</summary>
public sealed record ProofLimits
{
    /// <summary>
    /// The driver is kept off the dock. No one line is at fault, and so it never holds freight: a stop counts as a caution in
    /// the verdict.
    /// </summary>
    public Severity Severity { get; init; } = Severity.Caution;

    /// <summary>Sides of the load to photograph.</summary>
    public int Photos { get; init; } = 4;
}

/// <summary>
/// How far a terminal's measurement may be from the declaration before the two differ. Common practice, no source: what tapes
/// and bulging film argue about, and what floor scales are apart.
/// </summary>
public sealed record InspectionLimits
{
    public Length Length { get; init; } = Length.FromInches(0.5);

    /// <summary>Weights may differ by this …</summary>
    public Mass Weight { get; init; } = Mass.FromPounds(20);

    /// <summary>… or by this share of the declared weight in percent, whichever is more.</summary>
    public double WeightPercent { get; init; } = 2;

    /// <summary>Harm that was seen.</summary>
    public Severity DamageSeverity { get; init; } = Severity.Stop;

    /// <summary>Declared stackable, and did not bear another unit when it was tried.</summary>
    public Severity StackTestSeverity { get; init; } = Severity.Stop;
}

/// <summary>
/// Times for claims, as the carrier's tariff sets them; the defaults are the least that law and classification leave the shipper, and
/// the most that they leave the carrier. Only reminders follow from them.
/// </summary>
public sealed record ClaimTerms
{
    /// <summary>Business days after delivery to report damage not seen at delivery: NMFC 300135 (18 April 2015).</summary>
    public int ConcealedDamageDays { get; init; } = 5;

    /// <summary>Months after delivery to file a claim: no fewer than nine by 49 USC 14706(e).</summary>
    public int ClaimMonths { get; init; } = 9;

    /// <summary>Days after a claim for the carrier to say that it has it: 49 CFR 370.5, quoted from memory.</summary>
    public int AcknowledgeDays { get; init; } = 30;

    /// <summary>Days after a claim for the carrier to pay, offer or disallow: 49 CFR 370.9, quoted from memory.</summary>
    public int AnswerDays { get; init; } = 120;

    /// <summary>Years after a written disallowance to bring a suit: no fewer than two by 49 USC 14706(e).</summary>
    public int SuitYears { get; init; } = 2;
}

/// <summary>How long each side has once freight is held, in hours. Common practice, no source: freight on a floor is in the way within a day.</summary>
public sealed record HoldLimits
{
    /// <summary>For the shipper to answer, whatever has no time of its own below.</summary>
    public int ShipperHours { get; init; } = 24;

    /// <summary>The same for film, corner boards and straps: the terminal puts them right in minutes, once it is told to.</summary>
    public int WrapHours { get; init; } = 12;

    /// <summary>The same for figures that contradict each other: one look at the scale's slip settles them.</summary>
    public int FiguresHours { get; init; } = 8;

    /// <summary>The same for regulated goods and wood without a mark: they should not stand there at all.</summary>
    public int RegulatedHours { get; init; } = 4;

    /// <summary>For the terminal to decide: a shift.</summary>
    public int TerminalHours { get; init; } = 8;

    /// <summary>For the terminal to rebuild and inspect.</summary>
    public int ReworkHours { get; init; } = 24;

    /// <summary>Whoever must act is reminded so long before their time ends; half-way when there is less.</summary>
    public int RemindHours { get; init; } = 2;
}
