using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using CsCheck;
using Fettle.Testing;

namespace Fettle.Web.Tests.Declarations;

/// <summary>What POST /api/v1/checks answers: its shape, and that it is one answer in whatever units it is asked.</summary>
public sealed class CheckAnswerTests(SharedPortal shared)
{
    private const string Checks = "/api/v1/checks";
    private const double CentimetresPerInch = 2.54;
    private const double KilogramsPerPound = 0.45359237;

    /// <summary>1 lb/in is 0.175127 kN/m: 4.4482216 N by 25.4 mm.</summary>
    private const double KilonewtonsPerMetre = 4.4482216152605 / 25.4;

    /// <summary>Situations that differ in what is found. Invented.</summary>
    public static TheoryData<string> Situations => [.. All.Keys];

    private static readonly Dictionary<string, Func<JsonObject>> All = new(StringComparer.Ordinal)
    {
        ["sound"] = Freight.Sound,
        ["troubled"] = Freight.Troubled,
        ["over the deck"] = () => With("""{"outer":{"length":52,"width":40,"height":53.5},"contents":{"perLayer":9}}"""),
        ["weak cartons"] = () => With("""{"contents":{"carton":{"board":{"edgeCrush":26}}}}"""),
        ["heavy cases"] = () => With("""{"grossWeight":2540,"contents":{"carton":{"length":12,"width":10,"height":8,"grossWeight":31.25},"perLayer":16,"layers":5},"outer":{"length":48,"width":40,"height":45.5},"fragile":"none"}"""),
        ["tall and narrow"] = () => With("""{"platform":{"length":30,"width":24},"outer":{"length":30,"width":24,"height":101.5},"grossWeight":552,"contents":{"carton":{"length":15,"width":12,"height":24,"grossWeight":32},"perLayer":4,"layers":4},"stackable":false}"""),
        ["few light cartons"] = () => With("""{"quantity":1,"outer":{"length":48,"width":40,"height":17.5},"grossWeight":94,"contents":{"carton":{"grossWeight":18},"perLayer":3,"layers":1},"stackable":false}"""),
        ["glass on a long way"] = () => With("""{"fragile":"glass","stackable":true,"protection":{"cornerBoards":"none"}}"""),
        ["a crate"] = () => With("""{"kind":"crate","platform":null,"outer":{"length":60,"width":40,"height":50},"grossWeight":820,"contents":{"kind":"piece","description":"lathe"},"stackable":false}"""),
        ["a loose carton"] = () => With("""{"kind":"loose-carton","platform":null,"quantity":3,"outer":{"length":16,"width":12,"height":12},"grossWeight":62,"contents":{"carton":{"grossWeight":62},"perLayer":1,"layers":1}}"""),
        ["board not known"] = () => With("""{"contents":{"carton":{"board":null}}}"""),
        ["feet for inches"] = () => With("""{"outer":{"length":4,"width":3.3333,"height":4.4583}}"""),
    };

    [Theory]
    [MemberData(nameof(Situations))]
    public async Task The_answer_has_exactly_the_documented_shape(string situation)
    {
        var answer = await CheckAsync(All[situation]());

        AssertNames(answer, "verdict", "ruleSet", "findings", "handlingUnits");
        Assert.Empty(answer["findings"]!.AsArray());
        AssertVerdict(answer["verdict"]);
        AssertRuleSet(answer["ruleSet"]!);
        var unit = Assert.Single(answer["handlingUnits"]!.AsArray())!.AsObject();
        AssertNames(unit, "reference", "quantity", "verdict", "measures", "findings", "alternatives", "blocked", "attempts", "searchStoppedEarly");
        AssertVerdict(unit["verdict"]);
        Assert.Equal(answer.At("verdict"), unit.At("verdict"));

        var measures = unit["measures"]!.AsObject();
        AssertNames(measures, "computedGrossWeight", "overhang", "clearance", "cartonStrength", "usableStrength", "selfCrushSafety", "topLoadCapacity", "topLoadExpected", "carriesLikeUnit", "tippingLateral", "tippingForward", "density", "freightClass");
        foreach (var (name, code) in (IEnumerable<(string, string)>)[("computedGrossWeight", "LBR"), ("cartonStrength", "LBR"), ("usableStrength", "LBR"), ("topLoadCapacity", "LBR"), ("topLoadExpected", "LBR"), ("density", "87")])
        {
            if (measures[name] is { } quantity)
                AssertQuantity(quantity, code);
        }

        foreach (var sides in (string[])["overhang", "clearance"])
        {
            AssertNames(measures[sides]!.AsObject(), "front", "back", "left", "right");
            foreach (var (_, side) in measures[sides]!.AsObject())
                AssertQuantity(side!, "INH");
        }

        Assert.InRange((double)measures["tippingLateral"]!, 0.01, 100);
        Assert.InRange((double)measures["freightClass"]!, 50, 500);

        foreach (var finding in unit["findings"]!.AsArray().Select(node => node!.AsObject()))
        {
            AssertNames(finding, "code", "severity", "subject", "measured", "limit", "basis", "message", "cure", "formula", "caution", "ruleSet");
            Assert.Matches("^[a-z]+(-[a-z]+)*$", finding.At("code")!);
            Assert.Contains(finding.At("severity"), (string[])["stop", "caution", "tip"]);
            Assert.True(Has(All[situation]()["handlingUnits"]![0]!, finding.At("subject")!), $"{finding.At("subject")} is no field of the request.");
            AssertQuantity(finding["measured"]!, null);
            AssertQuantity(finding["limit"]!, null);
            Assert.EndsWith(".", finding.At("message"), StringComparison.Ordinal);
            Assert.NotEqual("", finding.At("basis"));
            Assert.NotEqual("", finding.At("formula"));
            AssertRuleSet(finding["ruleSet"]!);
        }

        var severities = unit["findings"]!.AsArray().Select(finding => finding.At("severity")).ToArray();
        Assert.Equal(severities.Contains("stop") ? "hold" : severities.Contains("caution") ? "ready-with-cautions" : "ready", unit.At("verdict"));

        foreach (var alternative in unit["alternatives"]!.AsArray().Select(node => node!.AsObject()))
        {
            AssertNames(alternative, "key", "summary", "cures", "merits", "cost", "handlingUnits", "verdict");
            AssertNames(alternative["cost"]!.AsObject(), "extraPlatforms", "extraFloorPositions", "extraLinearFeet", "material", "minutes", "losesStackable", "newClass", "total");
            // One that cures nothing outright makes something grave less so.
            Assert.True(alternative["cures"]!.AsArray().Count > 0 || (unit.At("verdict"), alternative.At("verdict")) is ("hold", not "hold"), alternative.ToJsonString());
            Assert.NotEmpty(alternative["handlingUnits"]!.AsArray());
            AssertVerdict(alternative["verdict"]);
        }
    }

    [Fact]
    public async Task A_driver_kept_off_the_dock_is_found_about_the_whole_and_no_unit_is_judged_otherwise()
    {
        var check = Freight.Sound();
        check["driverOnDock"] = false;

        var answer = await CheckAsync(check);

        var finding = Assert.Single(answer["findings"]!.AsArray())!;
        Assert.Equal(("driver-off-dock", "caution", "driverOnDock"), (finding.At("code"), finding.At("severity"), finding.At("subject")));
        Assert.Equal("ready-with-cautions", answer.At("verdict"));
        Assert.Equal("ready", answer["handlingUnits"]![0]!.At("verdict"));
    }

    [Fact]
    public async Task The_situations_lead_to_every_verdict_and_to_alternatives()
    {
        var answers = new List<JsonObject>();
        foreach (var situation in All.Values)
            answers.Add(await CheckAsync(situation()));

        Assert.Equal(["hold", "ready", "ready-with-cautions"], answers.Select(answer => answer.At("verdict")).Distinct().Order(StringComparer.Ordinal));
        Assert.Equal("ready", answers[0].At("verdict"));
        Assert.Empty(answers[0]["handlingUnits"]![0]!["findings"]!.AsArray());
        Assert.True(answers.Count(answer => answer["handlingUnits"]![0]!["alternatives"]!.AsArray().Count > 0) >= 4);
    }

    [Theory]
    [MemberData(nameof(Situations))]
    public async Task Metric_and_imperial_say_the_same_of_the_same_freight(string situation)
    {
        var imperial = (await CheckAsync(All[situation]()))["handlingUnits"]![0]!;
        var metric = (await CheckAsync(Metric(All[situation]())))["handlingUnits"]![0]!;

        Assert.Equal(imperial.At("verdict"), metric.At("verdict"));
        foreach (var (name, value) in imperial["measures"]!.AsObject())
            AssertSame(value, metric["measures"]![name], name);
        var findings = imperial["findings"]!.AsArray().Zip(metric["findings"]!.AsArray()).ToArray();
        Assert.Equal(imperial["findings"]!.AsArray().Count, metric["findings"]!.AsArray().Count);
        foreach (var (a, b) in findings)
        {
            foreach (var name in (string[])["code", "severity", "subject", "basis", "caution"])
                Assert.Equal(a!.At(name), b!.At(name));
            AssertSame(a!["measured"], b!["measured"], $"{a.At("code")} measured");
            AssertSame(a["limit"], b["limit"], $"{a.At("code")} limit");
            Assert.DoesNotMatch(@"\d\s(in|lb)\b", b.At("message")!);
            Assert.DoesNotMatch(@"\d\s(cm|kg)\b", a.At("message")!);
        }

        Assert.Equal(Names(imperial), Names(metric));

        static IEnumerable<string?> Names(JsonNode unit) => unit["alternatives"]!.AsArray().Select(alternative => $"{alternative.At("key")}: {alternative.At("verdict")}");
    }

    [Theory]
    [InlineData(32)]
    [InlineData(5.604)]
    public async Task With_metric_units_edge_crush_is_read_in_either_unit_that_is_printed_on_cartons(double edgeCrush)
    {
        var imperial = Freight.Sound();
        imperial["handlingUnits"]![0]!["contents"]!["carton"]!["board"]!["edgeCrush"] = 32;
        var metric = Metric(imperial);
        metric["handlingUnits"]![0]!["contents"]!["carton"]!["board"]!["edgeCrush"] = edgeCrush;

        var wanted = (await CheckAsync(imperial))["handlingUnits"]![0]!;
        var found = (await CheckAsync(metric))["handlingUnits"]![0]!;

        Assert.Equal(wanted.At("verdict"), found.At("verdict"));
        Assert.Equal(wanted["findings"]!.AsArray().Select(finding => finding.At("code")), found["findings"]!.AsArray().Select(finding => finding.At("code")));
        // 5.604 is 32 rounded to four digits.
        Assert.Equal((double)wanted["measures"]!["cartonStrength"]!["value"]! * KilogramsPerPound, (double)found["measures"]!["cartonStrength"]!["value"]!, 0.1);
    }

    [Theory]
    [MemberData(nameof(Situations))]
    public async Task An_alternative_checked_again_gets_the_verdict_it_was_offered_with(string situation)
    {
        foreach (var body in (JsonObject[])[All[situation](), Metric(All[situation]())])
        {
            foreach (var alternative in (await CheckAsync(body))["handlingUnits"]![0]!["alternatives"]!.AsArray())
            {
                var again = (JsonObject)body.DeepClone();
                again["handlingUnits"] = alternative!["handlingUnits"]!.DeepClone();

                var answer = await CheckAsync(again);

                Assert.Equal(alternative.At("verdict"), answer.At("verdict"));
                Assert.NotEqual("hold", answer.At("verdict"));
                var codes = answer["handlingUnits"]!.AsArray().SelectMany(unit => unit!["findings"]!.AsArray()).Select(finding => finding.At("code")).ToArray();
                Assert.All(alternative["cures"]!.AsArray(), cure => Assert.DoesNotContain(cure!.ToString(), codes));
            }
        }
    }

    /// <summary>What rounding to the answer's digits might change: freight of any size, in either family of units.</summary>
    [Fact]
    public async Task An_alternative_of_any_freight_checked_again_gets_the_verdict_it_was_offered_with()
    {
        var offered = 0;
        var freight = Gen.Select(Gen.Int[60, 200], Gen.Int[60, 160], Gen.Int[40, 180], Gen.Int[50, 700], Gen.Int[4, 16], Gen.Int[2, 8], Gen.Int[0, 3], Gen.Bool);
        await freight.SampleAsync(
            async given =>
            {
                var (length, width, height, weight, perLayer, layers, turns, metric) = given;
                var body = Freight.Sound();
                var unit = body["handlingUnits"]![0]!;
                unit["outer"] = new JsonObject { ["length"] = Math.Max(48, length * 0.3), ["width"] = 40, ["height"] = 5.5 + (layers * height / 10.0) };
                unit["grossWeight"] = 40 + (perLayer * layers * weight / 10.0);
                unit["protection"]!["wrapTurns"] = turns;
                var contents = unit["contents"]!;
                (contents["perLayer"], contents["layers"]) = (perLayer, layers);
                var carton = contents["carton"]!;
                (carton["length"], carton["width"], carton["height"], carton["grossWeight"]) = (length / 10.0, width / 10.0, height / 10.0, weight / 10.0);
                if (metric)
                    body = Metric(body);
                foreach (var alternative in (await CheckAsync(body))["handlingUnits"]![0]!["alternatives"]!.AsArray())
                {
                    var again = (JsonObject)body.DeepClone();
                    again["handlingUnits"] = alternative!["handlingUnits"]!.DeepClone();
                    Assert.Equal(alternative.At("verdict"), (await CheckAsync(again)).At("verdict"));
                    Interlocked.Increment(ref offered);
                }
            },
            iter: 120,
            threads: 1);

        Assert.True(offered > 30, $"Only {offered} alternatives were offered.");
    }

    [Fact]
    public async Task New_lines_of_an_alternative_have_names_that_no_other_line_has()
    {
        var body = Freight.Tall();
        var offered = (await CheckAsync(body))["handlingUnits"]![0]!["alternatives"]!.AsArray().First(alternative => alternative!["handlingUnits"]!.AsArray().Count > 1)!;
        var first = offered["handlingUnits"]!.AsArray().Select(unit => unit.At("reference")!).ToArray();
        // Another line that has the name which the new line would get.
        var other = Freight.Sound()["handlingUnits"]![0]!.DeepClone();
        other["reference"] = first[1].ToUpperInvariant();
        body["handlingUnits"]!.AsArray().Add(other);

        var again = (await CheckAsync(body))["handlingUnits"]![0]!["alternatives"]!.AsArray().Single(alternative => alternative.At("key") == offered.At("key"))!;
        var lines = again["handlingUnits"]!.DeepClone().AsArray();
        lines.Add(other.DeepClone());
        body["handlingUnits"] = lines;

        Assert.Equal(HttpStatusCode.OK, (await (await shared.ClerkAsync()).PostAsync(Checks, body)).Status);
    }

    [Theory]
    [InlineData("none", 0)]
    [InlineData("best", 1)]
    [InlineData("ALL", 5)]
    [InlineData(null, 5)]
    public async Task As_many_alternatives_are_answered_as_are_asked_for(string? wanted, int most)
    {
        var answer = (await (await shared.ClerkAsync()).PostAsync(Checks + (wanted is null ? "" : $"?alternatives={wanted}"), Freight.Tall())).Json;
        var offered = answer["handlingUnits"]![0]!["alternatives"]!.AsArray();
        Assert.InRange(offered.Count, Math.Min(most, 2), most);
        Assert.All(offered, alternative => Assert.NotEqual("hold", alternative!.At("verdict")));
    }

    [Fact]
    public async Task Another_word_for_how_many_alternatives_is_refused()
    {
        var refused = await (await shared.ClerkAsync()).PostAsync(Checks + "?alternatives=some", Freight.Tall());
        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Contains("Choose one of: none, best, all.", refused.Json["errors"]!["alternatives"]!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_verdict_of_all_is_that_of_the_worst_line()
    {
        var body = Freight.Sound();
        body["handlingUnits"]!.AsArray().Add(Freight.Troubled()["handlingUnits"]![0]!.DeepClone());

        var answer = await CheckAsync(body);

        Assert.Equal("hold", answer.At("verdict"));
        Assert.Equal(["ready", "hold"], answer["handlingUnits"]!.AsArray().Select(unit => unit.At("verdict")));
    }

    [Fact]
    public async Task Nothing_is_stored()
    {
        var clerk = await shared.OtherClerkAsync();
        var before = (await clerk.ReadAsync("/api/v1/holds?state=all")).Text;

        await clerk.PostAsync(Checks, Freight.Troubled());

        Assert.Equal(before, (await clerk.ReadAsync("/api/v1/holds?state=all")).Text);
    }

    private async Task<JsonObject> CheckAsync(JsonObject body)
    {
        var answer = await (await shared.ClerkAsync()).PostAsync(Checks, body);
        Assert.True(answer.Status == HttpStatusCode.OK, answer.ToString());
        return answer.Json;
    }

    /// <summary>The sound freight with these fields changed.</summary>
    private static JsonObject With(string changes)
    {
        var body = Freight.Sound();
        Merge(body["handlingUnits"]![0]!.AsObject(), JsonNode.Parse(changes)!.AsObject());
        return body;
    }

    private static void Merge(JsonObject into, JsonObject changes)
    {
        foreach (var (name, value) in changes)
        {
            if (value is JsonObject inner && into[name] is JsonObject old)
                Merge(old, inner);
            else
                into[name] = value?.DeepClone();
        }
    }

    /// <summary>The same freight in centimetres, kilograms and kN/m.</summary>
    private static JsonObject Metric(JsonObject imperial)
    {
        var body = (JsonObject)imperial.DeepClone();
        body["units"] = "metric";
        foreach (var unit in body["handlingUnits"]!.AsArray())
            Convert(unit!.AsObject());
        return body;

        static void Convert(JsonObject node)
        {
            foreach (var (name, value) in node.ToArray())
            {
                if (value is JsonObject inner)
                    Convert(inner);
                else if (value is not null && name is "length" or "width" or "height")
                    node[name] = Number(value!) * CentimetresPerInch;
                else if (value is not null && name is "grossWeight" or "tare" or "rating")
                    node[name] = Number(value!) * KilogramsPerPound;
                else if (value is not null && name is "edgeCrush")
                    node[name] = Number(value) * KilonewtonsPerMetre;
            }
        }
    }

    private static double Number(JsonNode node) => double.Parse(node.ToJsonString(), CultureInfo.InvariantCulture);

    private static void AssertNames(JsonObject node, params string[] names) => Assert.Equal(names.Order(StringComparer.Ordinal), node.Select(property => property.Key).Order(StringComparer.Ordinal));

    private static void AssertVerdict(JsonNode? verdict) => Assert.Contains(verdict?.ToString(), (string[])["ready", "ready-with-cautions", "hold"]);

    private static void AssertRuleSet(JsonNode ruleSet)
    {
        AssertNames(ruleSet.AsObject(), "name", "version");
        Assert.NotEqual("", ruleSet.At("name"));
        Assert.True((int)ruleSet["version"]! >= 1);
    }

    private static void AssertQuantity(JsonNode quantity, string? unit)
    {
        AssertNames(quantity.AsObject(), "value", "unit");
        Assert.True(double.IsFinite(Number(quantity["value"]!)));
        if (unit is null)
            Assert.Contains(quantity.At("unit"), (string[])["INH", "LBR", "87", "SMI", "P1", "H87", "C62"]);
        else
            Assert.Equal(unit, quantity.At("unit"));
    }

    /// <summary>The same quantity in the two families of units, or the same number or word.</summary>
    private static void AssertSame(JsonNode? imperial, JsonNode? metric, string what)
    {
        if (imperial is JsonObject sides && sides.ContainsKey("front"))
        {
            foreach (var (side, length) in sides)
                AssertSame(length, metric![side], $"{what} {side}");
            return;
        }

        if (imperial is not JsonObject quantity)
        {
            // Numbers are rounded to four or five places.
            if (imperial is not null && imperial.GetValueKind() == System.Text.Json.JsonValueKind.Number)
                Assert.True(Math.Abs(Number(imperial) - Number(metric!)) <= 0.00011, $"{what}: {imperial}, {metric}");
            else
                Assert.Equal(imperial?.ToJsonString(), metric?.ToJsonString());
            return;
        }

        var (factor, unit) = quantity.At("unit") switch
        {
            "INH" => (CentimetresPerInch, "CMT"),
            "LBR" => (KilogramsPerPound, "KGM"),
            "87" => (KilogramsPerPound / 0.028316846592, "KMQ"),
            "SMI" => (1.609344, "KMT"),
            var same => (1, same),
        };
        Assert.Equal(unit, metric!.At("unit"));
        var expected = Number(quantity["value"]!) * factor;
        Assert.True(Math.Abs(expected - Number(metric!["value"]!)) <= Math.Max(1e-5, Math.Abs(expected) * 1e-5), $"{what}: {quantity} is {expected} {unit}, not {metric}");
    }

    private static bool Has(JsonNode node, string path)
    {
        var here = node;
        foreach (var step in path.Split('.'))
        {
            if (here is not JsonObject thing)
                return true; // What is left out, such as a board that is not known, may still be what a finding is about.
            if (!thing.ContainsKey(step))
                return step is "topLayer" or "slipSheets" or "sleeve" or "topCap" or "straps";
            here = thing[step]!;
        }

        return true;
    }
}
