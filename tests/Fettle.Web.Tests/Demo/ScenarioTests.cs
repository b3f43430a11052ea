using System.Text.Json;
using System.Text.Json.Nodes;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;
using Fettle.Testing;
using Fettle.Web.Declarations;
using Fettle.Web.Demo;
using Json.Schema;
using Role = Fettle.Web.Identity.Role;

namespace Fettle.Web.Tests.Demo;

/// <summary>The data in demo-data/ against its schema, the form that clerks fill in and the check.</summary>
public sealed class ScenarioTests
{
    private static readonly Scenario Demo = Scenario.Read(Scenario.Folder);

    public static TheoryData<string> Files() =>
        [.. Directory.EnumerateFiles(Repository.PathTo("demo-data"), "*.json", SearchOption.AllDirectories)
            .Select(file => Path.GetRelativePath(Repository.PathTo("demo-data"), file).Replace('\\', '/'))
            .Where(file => !file.StartsWith("schema/", StringComparison.Ordinal))];

    public static TheoryData<string> Shippers() => [.. Demo.Shippers.Select(shipper => shipper.Name)];

    [Theory]
    [MemberData(nameof(Files))]
    public void Each_file_is_valid_by_the_schema_that_it_names(string file)
    {
        var path = Repository.PathTo($"demo-data/{file}");
        using var data = JsonDocument.Parse(File.ReadAllText(path));
        var schema = Schema(Path.Combine(Path.GetDirectoryName(path)!, data.RootElement.GetProperty("$schema").GetString()!));

        var result = schema.Evaluate(data.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(result.IsValid, string.Join('\n', (result.Details ?? []).SelectMany(detail => detail.Errors ?? new Dictionary<string, string>(), (detail, error) => $"{detail.InstanceLocation}: {error.Value}")));
    }

    [Theory]
    [InlineData("builds/0/unit/grossWeight", "940")]
    [InlineData("builds/0/unit/contents/stack", "sideways")]
    [InlineData("email", "someone@bramblewick.com")]
    [InlineData("story/shareHeld/1", 12)]
    [InlineData("pickupsPerDay", 2)]
    public void The_schema_refuses_a_slip(string place, object slip)
    {
        var shipper = JsonNode.Parse(Repository.Read("demo-data/shippers/bramblewick-glassware.json"))!;
        var steps = place.Split('/');
        var parent = steps[..^1].Aggregate(shipper, (node, step) => int.TryParse(step, out var index) ? node[index]! : node[step]!);
        if (int.TryParse(steps[^1], out var last))
            parent[last] = JsonValue.Create(slip);
        else
            parent[steps[^1]] = JsonValue.Create(slip);
        using var slipped = JsonDocument.Parse(shipper.ToJsonString());

        Assert.False(Schema(Repository.PathTo("demo-data/schema/shipper.schema.json")).Evaluate(slipped.RootElement).IsValid);
    }

    [Fact]
    public void A_misspelt_name_in_the_data_is_an_error_and_not_a_default()
    {
        var folder = Directory.CreateTempSubdirectory();
        foreach (var file in Directory.EnumerateFiles(Scenario.Folder, "*.json", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(folder.FullName, Path.GetRelativePath(Scenario.Folder, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.WriteAllText(copy, File.ReadAllText(file).Replace("\"stackable\"", "\"stackible\"", StringComparison.Ordinal));
        }

        Assert.Throws<JsonException>(() => Scenario.Read(folder.FullName));
        folder.Delete(recursive: true);
    }

    [Fact]
    public void The_firms_are_those_of_the_scenario()
    {
        Assert.Equal(["Heronway Freight", "Larkspur Motor Freight"], Demo.Carriers.Select(carrier => carrier.Name).Order());
        Assert.Equal(["Millbrook", "Saltgrass", "Copper Fork"], Demo.Carriers.Single(carrier => carrier.Name == "Larkspur Motor Freight").Terminals.Select(terminal => terminal.Name));
        Assert.Equal(
            ["Bramblewick Glassware", "Cedar Gate Fasteners", "Finch & Barrow Pantry Goods", "Ironmoor Castings", "Osprey Hollow Furniture", "Quillfeather Paper", "Saltmarsh Cordials", "Tallow Lane Candles"],
            Demo.Shippers.Select(shipper => shipper.Name).Order());
        Assert.True(Demo.Shippers.SelectMany(shipper => shipper.Sites).Select(site => site.TimeZone).Distinct().Count() >= 4);
    }

    [Fact]
    public void Every_party_that_is_named_exists_and_every_time_zone_is_known()
    {
        var rights = Demo.People.People.Select(person => person.Rights).Concat(Demo.People.ApiKeys.Select(key => key.Rights)).ToArray();

        Assert.All(rights, right => Assert.Equal(right.Role, Demo.RightsOf(right).Role));
        Assert.All(Demo.Shippers.SelectMany(shipper => shipper.Lanes), lane => Assert.NotNull(Demo.TerminalOf(lane).Terminal));
        var zones = Demo.Shippers.SelectMany(shipper => shipper.Sites).Select(site => site.TimeZone).Concat(Demo.Carriers.SelectMany(carrier => carrier.Terminals).Select(terminal => terminal.TimeZone));
        Assert.All(zones, zone => Assert.NotNull(TimeZoneInfo.FindSystemTimeZoneById(zone)));
    }

    [Fact]
    public void Each_role_has_somebody_wherever_the_freight_goes()
    {
        Assert.All(Demo.Shippers, shipper => Assert.All(shipper.Sites, site => Assert.Equal(Role.ShipperClerk, Demo.ClerkAt(shipper, site.Name).Rights.Role)));
        Assert.All(Demo.Carriers, carrier => Assert.All(carrier.Terminals, terminal => Assert.NotEmpty(Demo.ReviewersAt(carrier.TerminalId(terminal.Name)))));
        var larkspur = Demo.Carriers.Single(carrier => carrier.Name == "Larkspur Motor Freight");
        Assert.Equal(2, Demo.ReviewersAt(larkspur.TerminalId("Millbrook")).Count);
        Assert.Equal([null, "Heronway Freight"], Demo.People.People.Where(person => person.Rights.Role == Role.Administrator).Select(person => person.Rights.Carrier));
        Assert.Equal(Demo.People.ApiKeys.Count, Demo.People.ApiKeys.Select(key => key.Rights.Role).Distinct().Count());
    }

    [Fact]
    public void A_carriers_account_manager_looks_after_exactly_the_shippers_that_use_it()
    {
        foreach (var carrier in Demo.Carriers)
        {
            var manager = Assert.Single(Demo.People.People, person => person.Rights.Role == Role.AccountManager && person.Rights.Carrier == carrier.Name);
            var users = Demo.Shippers.Where(shipper => shipper.Lanes.Any(lane => Demo.TerminalOf(lane).Carrier == carrier)).Select(shipper => shipper.Id);
            Assert.Equal(users.Order(), Demo.RightsOf(manager.Rights).AccountShipperIds.Order());
        }
    }

    [Theory]
    [MemberData(nameof(Shippers))]
    public void Each_build_can_be_read_and_is_stopped_by_what_it_says_on_every_lane(string name)
    {
        var shipper = Demo.Shippers.Single(shipper => shipper.Name == name);
        Assert.InRange(shipper.Builds.Count, 3, 9);
        foreach (var build in shipper.Builds)
        {
            foreach (var lane in shipper.Lanes)
            {
                var reading = Reading.Of(new PickupForm
                {
                    Units = "imperial",
                    Destination = lane.Destination,
                    Window = new() { Date = "2026-01-15", From = "10:00", To = "12:00" },
                    Equipment = lane.Equipment,
                    Lane = lane.Form,
                    HandlingUnits = [build.Unit with { Reference = "A1", Quantity = "1" }],
                });

                Assert.Empty(reading.Errors);
                // By the built-in rules and by those of the lane's carrier.
                foreach (var rules in (RuleSet[])[RuleSet.BuiltIn, Demo.TerminalOf(lane).Carrier.Rules?.Read() ?? RuleSet.BuiltIn])
                {
                    var result = ReadinessCheck.Run(reading.Readable!, rules).HandlingUnits.Single();
                    var stops = result.Findings.Where(finding => finding.Severity == Severity.Stop).Select(finding => finding.Code).ToHashSet();
                    Assert.True(build.IsHeld == (result.Verdict == Verdict.Hold), $"{build.Name} to {lane.Destination}: {string.Join(", ", stops)}");
                    Assert.Superset((build.Stops ?? []).ToHashSet(), stops);
                }
            }
        }
    }

    [Fact]
    public void Heronway_has_rules_of_its_own_before_the_first_pickup_of_the_year()
    {
        var now = new DateTimeOffset(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);
        var heronway = Demo.Carriers.Single(carrier => carrier.Name == "Heronway Freight");

        var rules = Demo.RuleSetOf(heronway, History.BeginningOf(now)).Aggregate(default(CarrierRules), CarrierRules.Evolve)!;

        var first = History.Of(Demo, now).Pickups.Min(pickup => pickup.SubmittedAt);
        Assert.Equal(new("Heronway Freight", 1), rules.RulesAt(first).Identity);
        Assert.Equal(heronway.Rules!.Limits.Keys.Order(), Limit.Between(RuleSet.BuiltIn, rules.RulesAt(first)).Select(change => change.Limit.Path).Order());
        Assert.Empty(Demo.RuleSetOf(Demo.Carriers.Single(carrier => carrier.Name == "Larkspur Motor Freight"), now));
    }

    [Fact]
    public void Whatever_is_stopped_has_a_request_and_several_decisions_that_fit_it()
    {
        var held = Demo.Shippers.SelectMany(shipper => shipper.Builds).Where(build => build.IsHeld).ToArray();

        Assert.NotEmpty(held);
        Assert.All(held, build => Assert.NotNull(build.ExceptionRequest));
        Assert.All(held.SelectMany(build => build.Stops!).Distinct(), stop => Assert.True(Demo.Decisions.Count(decision => decision.Stop == stop) > 1, stop));
        Assert.Contains(Demo.Decisions, decision => decision.Stop is null);
        var now = DateTimeOffset.UnixEpoch.AddYears(57);
        Assert.All(Demo.Decisions, decision => Assert.DoesNotContain(
            new Fettle.Web.Holds.DecisionForm { Decision = decision.Decision.Word(), Reason = decision.Reason }.Errors(new(now, now, "UTC"), now).Keys, field => field is "decision" or "reason"));
    }

    /// <summary>Each in a registry of its own: the common one takes a schema but once.</summary>
    private static JsonSchema Schema(string path) => JsonSchema.FromFile(path, new BuildOptions { SchemaRegistry = new() });
}
