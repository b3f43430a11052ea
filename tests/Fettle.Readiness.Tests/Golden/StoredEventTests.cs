using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Holds;
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
    public void A_placed_hold_is_stored_as_pinned() => IsPinned(Placed);

    [Fact]
    public void A_decided_hold_is_stored_as_pinned() => IsPinned(
        new HoldDecided(HoldId, new("0198a1c0-0000-7000-8000-0000000000e1"), HoldDecision.ReleaseAsException, "Strapped on our dock.", Evening.Reviewer, Evening.At.AddHours(2)));

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
        HoldId, Evening.PickupId, "P-4K7Q2M/A1", Evening.Header, Cartons, UnitSystem.Metric, [Found], Found.Message, null, Evening.Clerk, Evening.Header.Window.To, Evening.At);
}
