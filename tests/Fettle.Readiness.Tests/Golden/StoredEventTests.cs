using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;
using Fettle.Readiness.Claims;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.DockVisits;
using Fettle.Readiness.Findings;
using Fettle.Readiness.HandlingUnits;
using Fettle.Readiness.Holds;
using Fettle.Readiness.Inspections;
using Fettle.Readiness.Photos;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.Pickups;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Golden;

/// <summary>
/// Events are kept for ever as JSON: each one's form is pinned by a file here, written as the event store writes it. A
/// property may be added (old events are then read without it); one that is renamed or dropped makes the past unreadable.
/// </summary>
public class StoredEventTests
{
    /// <summary>As the web's store is set up: camel case, enums by name, nulls written.</summary>
    private static readonly JsonSerializerOptions Stored = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.Never,
        Converters = { new JsonStringEnumConverter() },
    };

    private static readonly JsonSerializerOptions Readable = new(Stored) { WriteIndented = true };

    [Fact]
    public void A_submitted_pickup_is_stored_as_pinned() => IsPinned(Submitted);

    [Fact]
    public void A_recorded_outcome_is_stored_as_pinned() => IsPinned(new OutcomeRecorded(
        Evening.PickupId,
        new("0198a1c0-0000-7000-8000-0000000000c1"),
        new(2026, 3, 6),
        [
            new("A1", 3, OutcomeKind.Clean, CarriedFreight: true),
            new("A1", 1, OutcomeKind.Damaged, DamagePlace.Corner, DamageManner.Crushed, Concealed: true, Note: "Two cartons."),
        ],
        new(new(2026, 3, 13), new(2026, 12, 6)),
        new("0198a1c0-0000-7000-8000-0000000000c0"),
        "Counted again.",
        Evening.Reviewer,
        Evening.At.AddDays(3)));

    [Fact]
    public void A_claim_is_stored_as_pinned()
    {
        var claim = new Guid("0198a1c0-0000-7000-8000-0000000000d1");
        var offer = new Guid("0198a1c0-0000-7000-8000-0000000000d3");
        IsPinned(new ClaimFiled(Evening.PickupId, claim, "C-4K7Q2M", new("0198a1c0-0000-7000-8000-0000000000c1"), new(2026, 3, 16), [new("A1", 1, Money.Dollars(310.5m))], "One crushed at the corner; invoice enclosed.", new(2026, 12, 6), new(2026, 4, 15), new(2026, 7, 14), Evening.Clerk, Evening.At.AddDays(10)));
        IsPinned(new ClaimAnswered(Evening.PickupId, claim, offer, ClaimAnswer.Disallowed, new(2026, 4, 2), [new("A1", 1, Money.Dollars(0))], "Cartons were over the deck.", new(2028, 4, 2), Evening.Reviewer, Evening.At.AddDays(28)));
        IsPinned(new ClaimOfferAccepted(Evening.PickupId, claim, offer, Money.Dollars(200), Evening.Clerk, Evening.At.AddDays(30)));
        IsPinned(new ClaimWithdrawn(Evening.PickupId, claim, [new("A1", 1, Money.Dollars(310.5m))], "Found behind the racks.", Evening.Clerk, Evening.At.AddDays(30)));
    }

    [Fact]
    public void A_dock_visit_is_stored_as_pinned()
    {
        IsPinned(new DockVisitAsked(VisitId, "V-4K7Q2M", Evening.Header.ShipperId, Evening.Header.SiteId, Evening.Header.CarrierId, Evening.Header.TerminalId, "Does this travel?", [new(VisitId, "Tins, four high", Cartons)], "Mornings", Evening.Clerk, Evening.At));
        IsPinned(new DockVisitPlanned(VisitId, Evening.At.AddDays(2), Evening.At.AddDays(2).AddHours(1), "Sam Marsh", "Have the scale ready.", Evening.Reviewer, Evening.At.AddHours(1)));
        IsPinned(new DockVisitCalledOff(VisitId, "Nobody free.", Evening.Reviewer, Evening.At.AddHours(2)));
        IsPinned(new DockVisitConcluded(VisitId, "Four high travels, five do not.", [new(VisitId, "Tins, four high", Approved: true, "Seen and shaken.")], [new(HoldId, "ab12")], Evening.Reviewer, Evening.At.AddDays(2)));
    }

    private static readonly Guid VisitId = new("0198a1c0-0000-7000-8000-0000000000b1");

    [Fact]
    public void A_placed_hold_is_stored_as_pinned() => IsPinned(Placed);

    [Fact]
    public void A_decided_hold_is_stored_as_pinned() => IsPinned(new HoldDecided(
        HoldId,
        StepId,
        HoldDecision.ReleaseAsException,
        "Strapped on our dock.",
        Evening.Reviewer,
        Evening.At.AddHours(2),
        new("0198a1c0-0000-7000-8000-0000000000e2"),
        new("X-P-4K7Q2M/A1", "Larkspur Motor Freight", "Crushed corners.", Evening.At.AddDays(3), "Nothing on top.")));

    [Fact]
    public void A_decision_from_before_others_could_take_its_place_is_still_read()
    {
        var old = JsonNode.Parse(File.ReadAllText(Path.Combine(Folder(), "HoldDecided.json")))!.AsObject();
        old.Remove("supersedes");
        old.Remove("exception");
        var read = old.Deserialize<HoldDecided>(Stored)!;
        Assert.Equal((null, null, "Strapped on our dock."), (read.Supersedes, read.Exception, read.Reason));
    }

    [Fact]
    public void A_hold_from_before_there_were_hours_has_the_usual_ones()
    {
        var old = JsonNode.Parse(File.ReadAllText(Path.Combine(Folder(), "HoldPlaced.json")))!.AsObject();
        old.Remove("hours");
        old.Remove("inspectionId");
        Assert.Equal(HoldHours.Usual, Hold.Evolve(null, old.Deserialize<HoldPlaced>(Stored)!)!.Hours());
    }

    [Fact]
    public void A_message_is_stored_as_pinned() => IsPinned(new HoldMessageSent(HoldId, StepId, HoldSide.Shipper, "We can send film.", Evening.Clerk, Evening.At));

    [Fact]
    public void An_offer_of_rework_is_stored_as_pinned() => IsPinned(new ReworkOffered(
        HoldId, StepId, "Turn by turn, over the pallet.", Money.Dollars(85.5m), Evening.At.AddHours(6), new("0198a1c0-0000-7000-8000-0000000000e2"), Evening.Reviewer, Evening.At));

    [Fact]
    public void An_offer_that_was_withdrawn_is_stored_as_pinned() => IsPinned(new ReworkOfferWithdrawn(HoldId, StepId, "No film left.", Evening.Reviewer, Evening.At));

    [Fact]
    public void An_authorised_rework_is_stored_as_pinned() => IsPinned(
        new ReworkAuthorised(HoldId, StepId, new("0198a1c0-0000-7000-8000-0000000000e2"), Money.Dollars(85.5m), Evening.Clerk, Evening.At));

    [Fact]
    public void A_corrected_declaration_is_stored_as_pinned() => IsPinned(
        new HoldDeclarationCorrected(HoldId, StepId, Cartons, [Found], Verdict.Hold, new("Common practice", 1), Evening.Clerk, Evening.At));

    [Fact]
    public void A_request_for_an_exception_is_stored_as_pinned() => IsPinned(new HoldExceptionRequested(HoldId, StepId, "Rides alone.", Evening.Clerk, Evening.At));

    [Fact]
    public void A_disputed_hold_is_stored_as_pinned() => IsPinned(
        new HoldDisputed(HoldId, StepId, "The tape was read wrongly.", [new(new("0198a1c0-0000-7000-8000-0000000000e3"), new string('a', 64))], Evening.Clerk, Evening.At));

    [Fact]
    public void An_inspected_hold_is_stored_as_pinned() => IsPinned(new HoldInspected(HoldId, StepId, Verdict.ReadyWithCautions, Evening.Reviewer, Evening.At));

    [Fact]
    public void A_reminder_is_stored_as_pinned() => IsPinned(new HoldReminded(HoldId, HoldSide.Shipper, Evening.At, Evening.At.AddHours(12), Evening.At.AddHours(10)));

    [Fact]
    public void An_escalated_hold_is_stored_as_pinned() => IsPinned(new HoldEscalated(HoldId, HoldSide.Terminal, Evening.At, Evening.At.AddHours(8), Evening.At.AddHours(9)));

    [Fact]
    public void Freight_that_arrived_is_stored_as_pinned() => IsPinned(new FreightArrived(Evening.PickupId, Evening.Reviewer, Evening.At));

    [Fact]
    public void A_recorded_inspection_is_read_as_pinned() => IsKept(Inspected);

    [Fact]
    public void A_photo_of_an_inspection_is_stored_as_pinned() => IsPinned(
        new InspectionPhotographed(Inspected.InspectionId, Inspected.Photos[0], Evening.Reviewer, Evening.At.AddHours(4)));

    [Fact]
    public void An_inspection_that_led_to_a_hold_is_stored_as_pinned() => IsPinned(
        new InspectionLedToHold(Inspected.InspectionId, HoldId, Evening.Reviewer, Evening.At.AddHours(4)));

    [Fact]
    public void A_begun_rule_set_is_read_as_pinned() => IsKept(new RuleSetDrafted(CarrierId, Heronways, new("Common practice", 1), Evening.Reviewer, Evening.At));

    [Fact]
    public void A_changed_rule_set_is_read_as_pinned() => IsKept(new RuleSetChanged(CarrierId, Heronways, Evening.Reviewer, Evening.At));

    [Fact]
    public void A_published_rule_set_is_read_as_pinned() => IsKept(new RuleSetPublished(CarrierId, Heronways, Evening.At.AddDays(7), "Lower doors.", Evening.Reviewer, Evening.At));

    [Fact]
    public void A_rule_set_given_up_is_stored_as_pinned() => IsPinned(new RuleSetDraftDropped(CarrierId, Evening.Reviewer, Evening.At));

    [Fact]
    public void A_limit_that_an_old_rule_set_does_not_have_takes_its_default()
    {
        var old = JsonNode.Parse(File.ReadAllText(Path.Combine(Folder(), "RuleSetPublished.json")))!;
        old["rules"]!["height"]!.AsObject().Remove("doubleStack");
        old["rules"]!.AsObject().Remove("wrap");

        var read = old.Deserialize<RuleSetPublished>(Stored)!.Rules;

        Assert.Equal((RuleSet.BuiltIn.Height.DoubleStack, RuleSet.BuiltIn.Wrap), (read.Height.DoubleStack, read.Wrap));
        Assert.Equal((Length.FromInches(100), Mass.FromPounds(1800), Severity.Stop), (read.Height.Limit, read.Weight.Heavy, read.Weight.HeavySeverity));
        Assert.Equal(new("Heronway Freight", 2), read.Identity);
    }

    [Fact]
    public void Every_event_has_its_file()
    {
        Assert.Equal(EventTypes.Select(type => type.Name + ".json").Order(), Directory.EnumerateFiles(Folder(), "*.json").Select(Path.GetFileName).Order());
    }

    [Fact]
    public void A_pinned_pickup_is_read_with_all_that_was_in_it()
    {
        var read = JsonSerializer.Deserialize<PickupSubmitted>(File.ReadAllText(Path.Combine(Folder(), "PickupSubmitted.json")), Stored)!;
        Assert.Equal(Submitted.Header, read.Header);
        Assert.Equal(Submitted.Declaration.Lane, read.Declaration.Lane);
        Assert.Equal(Submitted.Declaration.HandlingUnits, read.Declaration.HandlingUnits);
        Assert.Equal(Submitted.Numbers, read.Numbers);
        Assert.Equal(Submitted.Units[0].Findings, read.Units[0].Findings);
        Assert.Equal(Submitted.Findings, read.Findings);
        Assert.Equal((Submitted.RuleSet, Submitted.ExceptionRequest, Submitted.By, Submitted.At, Submitted.Verdict), (read.RuleSet, read.ExceptionRequest, read.By, read.At, read.Verdict));
        Assert.Equal(Submitted.Units[0].TopLoadCapacity, read.Units[0].TopLoadCapacity);
    }

    [Fact]
    public void A_pinned_hold_is_read_with_all_that_was_in_it()
    {
        var read = JsonSerializer.Deserialize<HoldPlaced>(File.ReadAllText(Path.Combine(Folder(), "HoldPlaced.json")), Stored)!;
        Assert.Equal(Placed with { Findings = read.Findings }, read);
        Assert.Equal(Placed.Findings, read.Findings);
    }

    [Fact]
    public void Events_are_read_whatever_order_the_database_gives_their_keys()
    {
        // PostgreSQL's jsonb puts the shortest key first; a kind that does not come first is not found.
        foreach (var file in Directory.EnumerateFiles(Folder(), "*.json"))
        {
            var type = EventTypes.Single(type => type.Name == Path.GetFileNameWithoutExtension(file));
            var pinned = File.ReadAllText(file);
            var kept = ShortestFirst(JsonNode.Parse(pinned)!).ToJsonString();
            Assert.Equal(
                JsonSerializer.Serialize(JsonSerializer.Deserialize(pinned, type, Stored), type, Stored),
                JsonSerializer.Serialize(JsonSerializer.Deserialize(kept, type, Stored), type, Stored));
        }

        static JsonNode ShortestFirst(JsonNode node) => node switch
        {
            JsonObject map => new JsonObject(map
                .OrderBy(pair => pair.Key.Length)
                .ThenBy(pair => pair.Key, StringComparer.Ordinal)
                .Select(pair => KeyValuePair.Create(pair.Key, pair.Value is null ? null : ShortestFirst(pair.Value)))),
            JsonArray list => new JsonArray([.. list.Select(item => item is null ? null : ShortestFirst(item))]),
            _ => node.DeepClone(),
        };
    }

    /// <summary>Whatever a stream may hold: every record whose base's name ends in "Event".</summary>
    private static IReadOnlyList<Type> EventTypes { get; } =
        [.. typeof(PickupEvent).Assembly.GetTypes().Where(type => !type.IsAbstract && type.BaseType is { IsAbstract: true } kind && kind.Name.EndsWith("Event", StringComparison.Ordinal))];

    private static void IsPinned<T>(T happened)
    {
        var json = JsonSerializer.Serialize(happened, Stored);
        Assert.Equal(json, JsonSerializer.Serialize(JsonSerializer.Deserialize<T>(json, Stored), Stored));

        var path = Path.Combine(Folder(), typeof(T).Name + ".json");
        var readable = JsonSerializer.Serialize(happened, Readable).ReplaceLineEndings("\n") + "\n";
        var pinned = File.Exists(path) ? File.ReadAllText(path).ReplaceLineEndings("\n") : "";
        if (readable == pinned)
            return;
        var received = Path.Combine(AppContext.BaseDirectory, typeof(T).Name + ".received.json");
        File.WriteAllText(received, readable);
        Assert.Fail(
            $"""
            {typeof(T).Name} would be stored in another form than tests/Fettle.Readiness.Tests/Golden/{typeof(T).Name}.json pins.
            Events that are stored already are not written again: whatever reads them must still understand the old form.
            If it does (a property was added, nothing was renamed or dropped), copy {received} over the pinned file.
            First line that differs: {FirstDifference(pinned, readable)}
            """);
    }

    /// <summary>
    /// For what holds a whole rule set: limits are added and defaults change, and all that was stored is still read. So
    /// everything in the pinned file comes back, whatever has come since.
    /// </summary>
    private static void IsKept<T>(T happened)
    {
        var path = Path.Combine(Folder(), typeof(T).Name + ".json");
        if (!File.Exists(path))
        {
            IsPinned(happened);
            return;
        }

        var pinned = JsonNode.Parse(File.ReadAllText(path))!;
        Holds(pinned, JsonSerializer.SerializeToNode(pinned.Deserialize<T>(Stored), Stored), "");
        // And under the same names as now.
        var now = (JsonObject)JsonSerializer.SerializeToNode(happened, Stored)!;
        Assert.Equal(pinned.AsObject().Select(pair => pair.Key), now.Select(pair => pair.Key));

        static void Holds(JsonNode? pinned, JsonNode? read, string at)
        {
            if (pinned is JsonObject map)
                Assert.All(map, pair => Holds(pair.Value, read![pair.Key], $"{at}.{pair.Key}"));
            else
                Assert.True(JsonNode.DeepEquals(pinned, read), $"{at} was {pinned?.ToJsonString()} and is read as {read?.ToJsonString()}.");
        }
    }

    private static string FirstDifference(string pinned, string now)
    {
        var (was, @is) = (pinned.Split('\n'), now.Split('\n'));
        var at = Enumerable.Range(0, Math.Max(was.Length, @is.Length)).First(i => was.ElementAtOrDefault(i) != @is.ElementAtOrDefault(i));
        return $"{at + 1}: was {was.ElementAtOrDefault(at)?.Trim() ?? "nothing"}, is {@is.ElementAtOrDefault(at)?.Trim() ?? "nothing"}";
    }

    private static string Folder() => Checkout.PathTo("tests", "Fettle.Readiness.Tests", "Golden");

    private static readonly Guid CarrierId = new("0198a1c0-0000-7000-8000-0000000000f1");

    private static readonly RuleSet Heronways = RuleSet.BuiltIn with
    {
        Identity = new("Heronway Freight", 2),
        Height = new() { Limit = Length.FromInches(100) },
        Weight = new() { Heavy = Mass.FromPounds(1800), HeavySeverity = Severity.Stop },
    };

    private static readonly Guid StepId = new("0198a1c0-0000-7000-8000-0000000000e1");

    private static readonly Guid HoldId = new("0198a1c0-0000-7000-8000-0000000000d1");

    // Written out by hand: what the rules say today is no matter here.
    private static HandlingUnit Cartons { get; } = new()
    {
        Reference = "A1",
        Quantity = 4,
        Kind = HandlingUnitKind.Pallet,
        Platform = new(Length.FromInches(48), Length.FromInches(40), Length.FromInches(5.5), Mass.FromPounds(40), PlatformMaterial.Wood, Mass.FromPounds(2500)),
        Outer = new(Length.FromInches(50), Length.FromInches(40), Length.FromInches(45.5)),
        GrossWeight = Mass.FromPounds(1320.5),
        Contents = new CartonContents(
            new(Length.FromInches(11), Length.FromInches(9), Length.FromInches(10), Mass.FromPounds(20), new Board(Flute.BC, 48)), 16, 4, StackKind.Interlocked, TopLayer: 3),
        Stackable = true,
        Protection = new(2, true, CornerBoards.ToPlatform, Sleeve: true, TopCap: false, Straps: 1, SlipSheets: true),
        Fragile = Fragility.Glass,
    };

    private static HandlingUnit Piece { get; } = new()
    {
        Reference = "C1",
        Quantity = 1,
        Kind = HandlingUnitKind.Crate,
        Platform = null,
        Outer = new(Length.FromCentimetres(120), Length.FromCentimetres(80.5), Length.FromCentimetres(100)),
        GrossWeight = Mass.FromKilograms(310.25),
        Contents = new PieceContents("pump, crated"),
    };

    private static Finding Found { get; } = new(
        FindingCodes.Overhang,
        Severity.Stop,
        "outer.length",
        Length.FromInches(1),
        Length.FromInches(0),
        Basis.CommonPractice("nothing past the deck's edge"),
        Phrase.Of($"The load is {Length.FromInches(50)} long: {Phrase.Of($"{2} ends")} stick out {"here"}."),
        Phrase.Of($"Bring it inside {Length.FromInches(48)}."),
        Phrase.Of($"({Length.FromInches(50)} − {Length.FromInches(48)}) ÷ 2 = {Length.FromInches(1)}"),
        new("Common practice", 1));

    private static Finding Unseen { get; } = new(
        FindingCodes.DriverOffDock,
        Severity.Caution,
        "driverOnDock",
        Quantity.Pieces(0),
        Quantity.Pieces(4),
        Basis.Standard("49 USC 80113(c), shipper's weight, load and count"),
        Phrase.Of($"The driver does not see the freight."),
        Phrase.Of($"Photograph all {4} sides."),
        Finding.Comparison(Quantity.Pieces(0), Quantity.Pieces(4)),
        new("Common practice", 1));

    private static PickupSubmitted Submitted { get; } = new(
        Evening.PickupId,
        Evening.Header,
        new Declaration(new(612.5, 2, CrossBorder: true), DriverOnDock: false, UnitSystem.Metric, [Cartons, Piece]),
        [
            .. Enumerable.Range(1, 4).Select(index => new UnitNumber("A1", index, Sscc.OfNumber("9521101", 40 + index))),
            new("C1", 1, null),
        ],
        new("Common practice", 1),
        [
            new("A1", 4, Verdict.Hold, [Found], CarriesLikeUnit: true, Mass.FromPounds(1700)),
            new("C1", 1, Verdict.Ready, [], CarriesLikeUnit: false, null),
        ],
        [Unseen],
        "The consignee asked for it.",
        Evening.Clerk,
        Evening.At);

    private static HoldPlaced Placed { get; } = new(
        HoldId, Evening.PickupId, "P-4K7Q2M/A1", Evening.Header, Cartons, UnitSystem.Metric, [Found], Found.Message, null, Evening.Clerk, Evening.Header.Window.To, Evening.At,
        new("0198a1c0-0000-7000-8000-0000000000e4"), new(12, 8, 24, 2));

    private static InspectionRecorded Inspected { get; } = new(
        new("0198a1c0-0000-7000-8000-0000000000a7"),
        Evening.PickupId,
        Evening.Header,
        "A1",
        2,
        Sscc.Create(3, "0614141", 123456789),
        Cartons,
        UnitSystem.Metric,
        new()
        {
            Length = Length.FromInches(50),
            Height = Length.FromInches(49.5),
            GrossWeight = Mass.FromPounds(1620),
            OverhangAtEnds = Length.FromInches(1),
            WrapTurns = 1,
            WrapOverPlatform = true,
            CornerBoards = CornerBoards.Partial,
        },
        Cartons with { Outer = Cartons.Outer with { Height = Length.FromInches(49.5) }, GrossWeight = Mass.FromPounds(1620) },
        [
            new("outer.height", Phrase.Of($"{Length.FromInches(45.5)}"), Phrase.Of($"{Length.FromInches(49.5)}"), Length.FromInches(4), Length.FromInches(0.5)),
            new("protection.cornerBoards", Phrase.Word("down to the pallet"), Phrase.Word("end above the pallet"), null, null),
        ],
        [Found],
        [Found],
        new("Common practice", 1),
        new(),
        Verdict.Hold,
        [new(DamageKind.Crushed, DamageSpot.Corner, "two cartons open"), new(DamageKind.Wet, DamageSpot.Bottom, null)],
        StackTest.Failed,
        Alike: 3,
        "Second from the door.",
        [new(new("0198a1c0-0000-7000-8000-0000000000b7"), "0badf00d0badf00d0badf00d0badf00d0badf00d0badf00d0badf00d0badf00d")],
        HoldId,
        Evening.Reviewer,
        Evening.At.AddHours(3),
        Evening.At.AddHours(3).AddMinutes(7));
}
