using System.Text;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.RuleSets;

/// <summary>
/// What a limit's name and type do not say: how it is called on a page, which values are plausible, and below which gravity
/// a finding may not fall. A limit without a note is called by its name and may lie between a twentieth and twenty times its
/// default. The bounds are our choice, no source: they keep out slips of the finger, and values that no sum survives.
/// </summary>
public static class LimitNotes
{
    /// <summary>Without bounds of its own a figure may be so many times its default, or such a part of it, …</summary>
    private const double Times = 20;

    /// <summary>… or, where the default is nothing, this much.</summary>
    private const double MostWithoutDefault = 1000;

    private static readonly Dictionary<string, string> Groups = new(StringComparer.Ordinal)
    {
        ["overhang"] = "Load against the deck",
        ["weight"] = "Gross weight",
        ["wrap"] = "Stretch film",
        ["cornerBoards"] = "Corner boards and sleeve",
        ["tipping"] = "Tipping",
        ["strength"] = "Carton strength and top load",
        ["fewCartons"] = "Few light cartons, loose cartons",
        ["consistency"] = "Figures that contradict each other",
        ["deckFit"] = "How the load sits on its deck",
        ["sliding"] = "Sliding",
        ["top"] = "On top and between the layers",
        ["straps"] = "Straps on cartons",
        ["fragile"] = "Fragile goods",
        ["lifting"] = "Lifting by hand",
        ["class"] = "Freight class",
        ["platform"] = "The platform",
        ["awkward"] = "Long, heavy and awkward units",
        ["regulated"] = "Regulated goods",
        ["contents"] = "Drums, bags, rolls, furniture, machinery, crates",
        ["proof"] = "Proof of how it looked",
        ["inspection"] = "Measured at the terminal against declared",
        ["claims"] = "Times for claims",
        ["hold"] = "Hours to answer once freight is held",
    };

    private static readonly Dictionary<string, Note> Notes = new(StringComparer.Ordinal)
    {
        ["overhang.overhangSeverity"] = new("Cartons past the deck's edge"),
        ["overhang.clearanceSeverity"] = new("Too little bare deck"),
        ["overhang.clearance"] = new("Bare deck wanted on each side", 0, 24),
        ["overhang.flush"] = new("Flush up to", 0, 4),
        ["weight.heavy"] = new("Heavy over", 100, 20_000),
        ["weight.heavySeverity"] = new("A heavy unit"),
        ["weight.ratingSeverity"] = new("Over the platform's rating"),
        ["weight.carrier"] = new("Your limit for one unit", 100, 20_000),
        ["weight.carrierSeverity"] = new("Over your limit"),
        ["weight.mismatchPercent"] = new("Declared and computed may differ by", 0, 25),
        ["weight.mismatch"] = new("… and by no more than", 0, 500),
        ["weight.packaging"] = new("Never a contradiction up to", 0, 100),
        ["weight.mismatchSeverity"] = new("Weights that do not agree"),
        ["wrap.turns"] = new("Full turns of film", 0, 20),
        ["wrap.turnsSeverity"] = new("Too few turns"),
        ["wrap.anchorSeverity"] = new("Film not tied to the platform"),
        ["cornerBoards.miles"] = new("A long lane, over", 0, 10_000),
        ["cornerBoards.transfers"] = new("Transfers that ask for boards", 1, 20),
        ["cornerBoards.severity"] = new("No corner boards"),
        ["cornerBoards.flushAndFarSeverity"] = new("No boards, flush and far"),
        ["cornerBoards.sleeveSeverity"] = new("No sleeve, flush and far"),
        ["height.limit"] = new("Door, or your limit", 24, 120),
        ["height.limitSeverity"] = new("Taller than that"),
        ["height.doubleStack"] = new("Two on one another stand under", 24, 120),
        ["height.doubleStackSeverity"] = new("Stackable, but too tall for two"),
        ["tipping.lateral"] = new("Sideways, share of g", 0.1, 2),
        ["tipping.forward"] = new("Forward, share of g", 0.1, 2),
        ["tipping.severity"] = new("Tips below that"),
        ["tipping.farBelow"] = new("Far below, share of the limit", 0.1, 1),
        ["tipping.farBelowSeverity"] = new("Tips far below that"),
        ["strength.days"] = new("Days under load", 1, 365),
        ["strength.relativeHumidity"] = new("Humidity in the trailer", 0, 100, Engineering.Units.Unit.Percent),
        ["strength.safetyFactor"] = new("Strength over load", 1, 10),
        ["strength.belowOneSeverity"] = new("Crushes itself"),
        ["strength.belowFactorSeverity"] = new("Below the factor"),
        ["strength.topLoadSeverity"] = new("Stackable, and cannot bear it"),
        ["strength.topSurfaceSeverity"] = new("Stackable, and the top is not full"),
        ["strength.unclaimedSeverity"] = new("Could be stackable"),
        ["strength.unknownBoardSeverity"] = new("Stackable, and the board is not named"),
        ["strength.topSpan"] = new("Share of the deck that a top covers", 0.25, 1),
        ["strength.deckGaps"] = new("Reckon with gaps in wooden decks"),
        ["strength.mixedFreightPoundsPerCubicFoot"] = new("Density of freight put on top", 1, 60, Engineering.Units.Unit.PoundPerCubicFoot),
        ["strength.vehicleStack"] = new("Vehicles are filled to", 24, 120),
        ["strength.smallPackageStack"] = new("… small packages to", 12, 120),
        ["fewCartons.cartons"] = new("Few, up to", 0, 100),
        ["fewCartons.severity"] = new("Would ride better loose"),
        ["fewCartons.onePersonLift"] = new("One person lifts", 5, 100),
        ["fewCartons.twoPersonLift"] = new("Two people lift", 10, 200),
        ["fewCartons.twoPersonSeverity"] = new("A loose carton for two"),
        ["fewCartons.tooHeavySeverity"] = new("Too heavy for two"),
        ["fewCartons.strengthSeverity"] = new("A weak loose carton"),
        ["consistency.size"] = new("Sizes may differ by", 0, 24),
        ["consistency.sizePercent"] = new("… or by", 0, 25),
        ["consistency.tape"] = new("What a tape measure argues about", 0, 4),
        ["consistency.smallestDeck"] = new("No deck is smaller than", 1, 48),
        ["consistency.severity"] = new("Sizes that do not agree"),
        ["wrap.poundsForcePerTurn"] = new("Squeeze of one turn, pounds-force", 0.1, 50),
        ["wrap.containmentSeverity"] = new("Too little squeeze for the weight"),
        ["tipping.forwardSeverity"] = new("Tips forward below that"),
        ["tipping.securedSeverity"] = new("… with a strap or bulkhead asked for"),
        ["tipping.farBelowSecuredSeverity"] = new("Far below, with one asked for"),
        ["deckFit.support"] = new("Share of a base on the deck", 0.1, 1),
        ["deckFit.supportSeverity"] = new("Bases mostly past the edge"),
        ["deckFit.offCentre"] = new("Middle beside the deck's, share of its side", 0, 0.5),
        ["deckFit.offCentreSeverity"] = new("A load off the middle"),
        ["deckFit.boardGap"] = new("Gap between top boards", 0, 24),
        ["deckFit.gaps"] = new("A carton covers at least so many gaps", 0, 10),
        ["deckFit.gapSeverity"] = new("Small cartons on boards"),
        ["sliding.lateral"] = new("Sideways, share of g", 0.1, 2),
        ["sliding.ordinary"] = new("Friction from which nothing is said", 0, 1),
        ["sliding.severity"] = new("May slide"),
        ["sliding.heavySeverity"] = new("Heavy, and may slide"),
        ["top.surfaceSeverity"] = new("Stackable, and the top is not flat"),
        ["top.neverSeverity"] = new("Stackable, though nothing can stand on it"),
        ["top.capSeverity"] = new("No top cap"),
        ["top.fragileCapSeverity"] = new("No top cap, fragile and far"),
        ["top.sheetTiers"] = new("Layers in columns that want sheets, from", 2, 50),
        ["top.fragileSheetTiers"] = new("… fragile, from", 2, 50),
        ["top.sheetSeverity"] = new("No slip sheets"),
        ["straps.width"] = new("Width of a strap", 0.1, 6),
        ["straps.tension"] = new("Tension that a tool leaves", 1, 2000),
        ["straps.severity"] = new("Straps on bare edges"),
        ["fragile.partitionSeverity"] = new("No partitions"),
        ["fragile.careSeverity"] = new("Neither decking nor airbags asked for"),
        ["fragile.stackableSeverity"] = new("Fragile and stackable"),
        ["lifting.loadConstant"] = new("Load constant", 5, 100),
        ["lifting.tipIndex"] = new("Lifting index of a tip, over", 0.5, 10),
        ["lifting.tipSeverity"] = new("Over that index"),
        ["lifting.cautionIndex"] = new("Lifting index of a caution, over", 0.5, 10),
        ["lifting.cautionSeverity"] = new("Over the higher index"),
        ["lifting.byMachine"] = new("Set by machine from", 50, 2000),
        ["lifting.takenFrom"] = new("Cartons are taken from a height of", 0, 70),
        ["lifting.liftsPerMinute"] = new("Lifts a minute", 0.1, 15),
        ["class.severity"] = new("Declared class is another"),
        ["platform.markSeverity"] = new("No treatment mark across a border"),
        ["platform.damagedSeverity"] = new("A damaged platform"),
        ["platform.wornSeverity"] = new("A worn platform"),
        ["platform.twoWaySeverity"] = new("Forks enter at two ends only"),
        ["platform.missingSeverity"] = new("Machinery or bags without one"),
        ["awkward.long"] = new("Long, over", 48, 636),
        ["awkward.longSeverity"] = new("Longer than that"),
        ["awkward.heavyLoose"] = new("Heavy without a platform, over", 50, 5000),
        ["awkward.heavyLooseSeverity"] = new("Heavier than that"),
        ["awkward.liftgateWeight"] = new("A liftgate takes", 200, 6000),
        ["awkward.liftgateLength"] = new("… and holds a length of", 24, 120),
        ["awkward.liftgateSeverity"] = new("Too much for a liftgate"),
        ["awkward.noDock"] = new("Taken down by hand, up to", 20, 500),
        ["awkward.noDockSeverity"] = new("Heavier, and no dock"),
        ["regulated.severity"] = new("Not confirmed by a trained person"),
        ["contents.steelDrumTiers"] = new("Steel drums above one another", 1, 10),
        ["contents.otherDrumTiers"] = new("Other drums above one another", 1, 10),
        ["contents.drumTiersSeverity"] = new("More tiers of drums"),
        ["contents.looseDrumsSeverity"] = new("Drums that nothing holds together"),
        ["contents.drumSheetSeverity"] = new("Drums without sheets between tiers"),
        ["contents.loneDrumSeverity"] = new("One drum by itself"),
        ["contents.bagColumnSeverity"] = new("Bags in straight columns"),
        ["contents.bagSheetSeverity"] = new("Bags without sheet or cap"),
        ["contents.rollsOnSideSeverity"] = new("Rolls on the side that nothing holds"),
        ["contents.rollsRequestedSeverity"] = new("… with a strap or bulkhead asked for"),
        ["contents.rollsOnEndSeverity"] = new("Rolls on end, not held together"),
        ["contents.bareFurnitureSeverity"] = new("Furniture without carton or film"),
        ["contents.unfastenedSeverity"] = new("Machinery not fastened"),
        ["contents.strappedSeverity"] = new("… with straps only"),
        ["contents.unbracedSeverity"] = new("A crate not braced inside"),
        ["proof.severity"] = new("The driver is kept off the dock"),
        ["proof.photos"] = new("Sides to photograph", 0, 12),
        ["inspection.length"] = new("A size may differ by", 0, 12),
        ["inspection.weight"] = new("A weight may differ by", 0, 500),
        ["inspection.weightPercent"] = new("… or by, whichever is more", 0, 25),
        ["inspection.damageSeverity"] = new("Damage seen"),
        ["inspection.stackTestSeverity"] = new("Stackable, and the stack test failed"),
        ["claims.concealedDamageDays"] = new("Business days to report concealed damage", 1, 60),
        ["claims.claimMonths"] = new("Months to file a claim", 9, 60),
        ["claims.acknowledgeDays"] = new("Days to acknowledge a claim", 1, 30),
        ["claims.answerDays"] = new("Days to pay, offer or disallow", 1, 120),
        ["claims.suitYears"] = new("Years to bring a suit after a disallowance", 2, 20),
        ["hold.shipperHours"] = new("The shipper answers within", 1, 336),
        ["hold.wrapHours"] = new("… about film, boards or straps", 1, 336),
        ["hold.figuresHours"] = new("… about figures that contradict each other", 1, 336),
        ["hold.regulatedHours"] = new("… about regulated goods or unmarked wood", 1, 336),
        ["hold.terminalHours"] = new("The terminal decides within", 1, 336),
        ["hold.reworkHours"] = new("… rebuilds and inspects within", 1, 336),
        ["hold.remindHours"] = new("A reminder goes out before the end", 0, 336),
    };

    /// <summary>Findings about which people can come to harm. By a part of the name, so that limits added later are met too.</summary>
    private static readonly Floor[] Floors =
    [
        new("rating", Severity.Stop, "over what its maker rates it to carry, a platform may break under the forks"),
        new("platform.mark", Severity.Stop, Untreated),
        new("treatment", Severity.Stop, Untreated),
        new("platform.damaged", Severity.Caution, "a broken platform may let its load down on whoever is near"),
        new("regulated", Severity.Stop, Regulated),
        new("hazard", Severity.Stop, Regulated),
        new("temperature", Severity.Stop, Regulated),
        new("unconfirmed", Severity.Stop, Regulated),
        new("strength.belowOne", Severity.Caution, "a stack that crushes itself can come down on whoever opens the door"),
        new("farBelow", Severity.Caution, "a unit that tips so easily can fall on whoever is beside it"),
        new("tooHeavy", Severity.Caution, "whoever lifts it can be hurt"),
    ];

    private const string Untreated = "wood without the mark is turned back at the border, whatever a carrier thinks of it (ISPM 15)";

    private const string Regulated = "a trained, named person has to confirm regulated goods; no carrier may waive that";

    /// <summary>Pairs of which the first is never over the second.</summary>
    private static readonly (string Low, string High, string Message)[] Ordered =
    [
        ("weight.heavy", "weight.carrier", "Heavy comes before your limit for one unit: at most {0}."),
        ("fewCartons.onePersonLift", "fewCartons.twoPersonLift", "One person lifts no more than two: at most {0}."),
    ];

    /// <summary>A rule's name as a heading.</summary>
    public static string Heading(string group) => Groups.GetValueOrDefault(group) ?? Words(group);

    internal static string Title(Limit limit) => Notes.GetValueOrDefault(limit.Path)?.Title ?? Words(
        limit.Kind == LimitKind.Severity && limit.Name.EndsWith("Severity", StringComparison.Ordinal) && limit.Name.Length > "Severity".Length ? limit.Name[..^"Severity".Length] : limit.Name);

    internal static Unit Unit(Limit limit) => limit.Kind switch
    {
        LimitKind.Length => Engineering.Units.Unit.Inch,
        LimitKind.Mass => Engineering.Units.Unit.Pound,
        LimitKind.Whole => Engineering.Units.Unit.Piece,
        _ when Notes.GetValueOrDefault(limit.Path)?.Unit is { } unit => unit,
        _ when limit.Name.EndsWith("Percent", StringComparison.Ordinal) => Engineering.Units.Unit.Percent,
        _ when limit.Name.EndsWith("Miles", StringComparison.Ordinal) => Engineering.Units.Unit.Mile,
        _ when limit.Name.EndsWith("PoundsPerCubicFoot", StringComparison.Ordinal) => Engineering.Units.Unit.PoundPerCubicFoot,
        _ => Engineering.Units.Unit.One,
    };

    /// <summary>The least and the most that can be meant, in inches, pounds or the limit's own unit; null for what is no figure.</summary>
    public static (double Least, double Most)? Bounds(Limit limit)
    {
        if (limit.Kind is LimitKind.Severity or LimitKind.YesNo)
            return null;
        if (Notes.GetValueOrDefault(limit.Path) is { Least: { } least, Most: { } most })
            return (least, most);
        if (limit.Unit == Engineering.Units.Unit.Percent)
            return (0, 100);
        var usual = Figure(limit.Of(RuleSet.BuiltIn));
        // A figure without a note may be a divisor: it stays over nothing.
        return usual <= 0 ? (0, MostWithoutDefault) : (limit.Kind == LimitKind.Whole ? 0 : usual / Times, usual * Times);
    }

    /// <summary>The gravity below which the finding may not fall, and why; null when a carrier may choose.</summary>
    public static (Severity Least, string Why)? FloorOf(Limit limit) =>
        limit.Kind == LimitKind.Severity && Array.Find(Floors, floor => limit.Path.Contains(floor.Part, StringComparison.OrdinalIgnoreCase)) is { } found
            ? (found.Least, found.Why)
            : null;

    /// <summary>Everything that keeps these rules from being used.</summary>
    public static IReadOnlyList<LimitProblem> Problems(RuleSet rules) =>
    [
        .. Limit.All.Select(limit => (limit.Path, Message: Complaint(limit, limit.Of(rules)))).Where(found => found.Message is not null).Select(found => new LimitProblem(found.Path, found.Message!)),
        .. from pair in Ordered
           let low = Limit.Find(pair.Low)
           let high = Limit.Find(pair.High)
           where low is not null && high is not null && Figure(low.Of(rules)) > Figure(high.Of(rules))
           select new LimitProblem(pair.Low, string.Format(System.Globalization.CultureInfo.InvariantCulture, pair.Message, Show(high, Figure(high.Of(rules))))),
    ];

    /// <summary>Why the limit cannot have this value; null when it can.</summary>
    public static string? Complaint(Limit limit, object value)
    {
        if (value is Severity severity)
        {
            if (!Enum.IsDefined(severity))
                return "Choose stop, caution or tip.";
            return FloorOf(limit) is var (least, why) && severity < least ? $"At least a {least.ToString().ToLowerInvariant()}: {why}." : null;
        }

        if (Bounds(limit) is not var (from, to))
            return null;
        var figure = Figure(value);
        // Not a number is neither.
        return figure >= from && figure <= to ? null : $"From {Show(limit, from)} to {Show(limit, to)}.";
    }

    internal static double Figure(object value) => value switch
    {
        Length length => length.Inches,
        Mass mass => mass.Pounds,
        double number => number,
        int whole => whole,
        _ => throw new ArgumentException($"{value.GetType().Name} is no figure."),
    };

    private static string Show(Limit limit, double figure)
    {
        var number = figure.ToString("#,0.####", System.Globalization.CultureInfo.InvariantCulture);
        var unit = limit.Unit.Word();
        return unit.Length == 0 ? number : $"{number} {unit}";
    }

    /// <summary>"FlushAndFar" as "Flush and far".</summary>
    private static string Words(string name)
    {
        var words = new StringBuilder();
        foreach (var letter in name)
        {
            if (words.Length > 0 && char.IsUpper(letter))
                words.Append(' ');
            words.Append(words.Length == 0 ? char.ToUpperInvariant(letter) : char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }

    private sealed record Note(string Title, double? Least = null, double? Most = null, Unit? Unit = null);

    private sealed record Floor(string Part, Severity Least, string Why);
}
