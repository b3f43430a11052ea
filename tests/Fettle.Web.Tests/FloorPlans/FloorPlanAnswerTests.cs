using System.Net;
using System.Text.Json.Nodes;
using CsCheck;
using Fettle.Testing;

namespace Fettle.Web.Tests.FloorPlans;

/// <summary>What POST /api/v1/floor-plans answers.</summary>
public sealed class FloorPlanAnswerTests(SharedPortal shared)
{
    private const string Path = "/api/v1/floor-plans";

    /// <summary>Answers are rounded to a millionth.</summary>
    private const double Rounding = 3e-6;

    /// <summary>By hand: ten that carry each other stand in five places, turned in one lane of 5 × 40 in; beside it four tall ones, 4 × 48 in.</summary>
    [Fact]
    public async Task Units_are_turned_stacked_and_topped_with_cartons_and_what_does_not_go_in_is_told()
    {
        var answer = (await PostAsync(Freight.ForFloor())).Json;

        Assert.Equal(5 * 40, (double)answer["usedLength"]!);
        Assert.Equal(200 / 12.0, (double)answer["linearFeet"]!, 1e-6);
        var positions = answer["positions"]!.AsArray();
        Assert.Equal(20, positions.Count);
        Assert.Equal(5, positions.Count(p => p.At("reference") == "A1" && (int)p!["level"]! == 1));
        Assert.All(positions.Where(p => p.At("reference") == "C1"), p => Assert.Equal(2, (int)p!["level"]!));
        Assert.All(positions.Where(p => p.At("reference") == "B1"), p => Assert.Equal(0, (int)p!["level"]!));
        var left = Assert.Single(answer["unplaced"]!.AsArray())!;
        Assert.Equal(("D1", "1", "too-tall"), (left.At("reference"), left.At("quantity"), left.At("reason")));
        Assert.False((bool)answer["proved"]!);
        Assert.Equal(10 * 1000 + 4 * 1400 + 6 * 20, (double)answer["balance"]!["weight"]!, 1e-6);
        Assert.Equal(32_000 + 15_720, (double)answer["balance"]!["axles"]!["gross"]!, 1e-3);
    }

    [Fact]
    public async Task The_same_load_in_centimetres_and_kilograms_is_the_same_plan()
    {
        var body = Freight.ForFloor();
        var imperial = (await PostAsync(body)).Json;
        var metric = (await PostAsync(InMetric(body))).Json;

        Assert.Equal(2.54 * (double)imperial["usedLength"]!, (double)metric["usedLength"]!, Rounding);
        Assert.Equal((double)imperial["linearFeet"]!, (double)metric["linearFeet"]!, Rounding);
        Assert.Equal((double)imperial["cubeUse"]!, (double)metric["cubeUse"]!, Rounding);
        Assert.Equal(imperial["positions"]!.AsArray().Count, metric["positions"]!.AsArray().Count);
    }

    [Fact]
    public async Task Imperial_is_meant_where_no_units_are_named_and_nothing_else_is_known()
    {
        var body = Freight.ForFloor();
        var imperial = await PostAsync(body);
        body.Remove("units");
        Assert.Equal(imperial.Text, (await PostAsync(body)).Text);
        body["units"] = "us";
        Assert.Equal("Choose one of: imperial, metric.", (await (await shared.ClerkAsync()).PostAsync(Path, body)).Json.At("errors.units.0"));
    }

    [Fact]
    public async Task A_second_floor_halves_the_length_of_what_may_not_be_stacked()
    {
        var body = Plain(52);
        Assert.Equal(26, (int)(await PostAsync(body)).Json["unplaced"]![0]!["quantity"]!);

        body["decks"] = true;
        var decked = (await PostAsync(body)).Json;

        Assert.Empty(decked["unplaced"]!.AsArray());
        Assert.Equal(56, (double)decked["deckHeight"]!);
        Assert.Equal(26, decked["positions"]!.AsArray().Count(p => (int)p!["level"]! == 1 && p["on"] is null && (double)p["z"]! == 56));
        Assert.True((bool)decked["proved"]!);
    }

    [Fact]
    public async Task Nothing_in_an_answer_leaves_the_trailer_or_overlaps_in_whatever_units()
    {
        var lines = Gen.Select(Gen.Int[8, 60], Gen.Int[8, 60], Gen.Int[8, 70], Gen.Int[1, 6], Gen.Bool, Gen.Bool)
            .Select((l, w, h, count, stackable, rides) => (l, w, h, count, stackable, rides)).Array[1, 5];
        await Gen.Select(lines, Gen.Bool, Gen.Bool).SampleAsync(async given =>
        {
            var (some, metric, decks) = given;
            var body = new JsonObject
            {
                ["trailer"] = new JsonObject { ["length"] = 324, ["width"] = 98.5, ["height"] = 108 },
                ["decks"] = decks,
                ["handlingUnits"] = new JsonArray([.. some.Select((u, i) => (JsonNode)new JsonObject
                {
                    ["reference"] = $"U{i}",
                    ["quantity"] = u.count,
                    ["length"] = u.l,
                    ["width"] = u.w,
                    ["height"] = u.h,
                    ["weight"] = 100,
                    ["stackable"] = u.stackable,
                    ["topLoadCapacity"] = 250,
                    ["mayRideOnTop"] = u.rides,
                })]),
            };
            var answer = await PostAsync(metric ? InMetric(body) : body);
            var factor = metric ? 2.54 : 1;
            var boxes = answer.Json["positions"]!.AsArray().Select(p => new Box(p!.AsObject(), factor)).ToArray();
            Assert.Equal(some.Sum(u => u.count), boxes.Length + answer.Json["unplaced"]!.AsArray().Sum(left => (int)left!["quantity"]!));
            Assert.All(boxes, box => Assert.True(box.IsWithin(324, 98.5, 108), $"{box} leaves the trailer."));
            for (var i = 0; i < boxes.Length; i++)
            {
                for (var j = 0; j < i; j++)
                    Assert.True(boxes[i].IsApart(boxes[j]), $"{boxes[i]} and {boxes[j]} overlap.");
            }
        }, iter: 40, threads: 1);
    }

    [Theory]
    [InlineData("trailer", null, "trailer.length")]
    [InlineData("trailer.width", "0", "trailer.width")]
    [InlineData("trailer.height", "1e308", "trailer.height")]
    [InlineData("units", "\"furlongs\"", "units")]
    [InlineData("decks", "\"yes\"", "decks")]
    [InlineData("handlingUnits", "[]", "handlingUnits")]
    [InlineData("handlingUnits", null, "handlingUnits")]
    [InlineData("handlingUnits.0", null, "handlingUnits[0].reference")]
    [InlineData("handlingUnits.0.reference", "\"\"", "handlingUnits[0].reference")]
    [InlineData("handlingUnits.0.reference", "\"b1\"", "handlingUnits[1].reference")]
    [InlineData("handlingUnits.0.reference", "\"A name that is very much longer than thirty\"", "handlingUnits[0].reference")]
    [InlineData("handlingUnits.0.quantity", "0", "handlingUnits[0].quantity")]
    [InlineData("handlingUnits.0.quantity", "1.5", "handlingUnits[0].quantity")]
    [InlineData("handlingUnits.0.quantity", "2147483647", "handlingUnits[0].quantity")]
    [InlineData("handlingUnits.0.quantity", "190", "handlingUnits")]
    [InlineData("handlingUnits.0.length", "-48", "handlingUnits[0].length")]
    [InlineData("handlingUnits.0.width", null, "handlingUnits[0].width")]
    [InlineData("handlingUnits.0.height", "\"fifty\"", "handlingUnits[0].height")]
    [InlineData("handlingUnits.0.height", "0.00000000001", "handlingUnits[0].height")]
    [InlineData("handlingUnits.0.weight", "0", "handlingUnits[0].weight")]
    [InlineData("handlingUnits.0.topLoadCapacity", null, "handlingUnits[0].topLoadCapacity")]
    [InlineData("handlingUnits.0.topLoadCapacity", "-1", "handlingUnits[0].topLoadCapacity")]
    public async Task What_cannot_be_read_is_named_with_a_sentence(string field, string? value, string named)
    {
        var body = Freight.ForFloor();
        var steps = field.Split('.');
        JsonNode parent = body;
        foreach (var step in steps[..^1])
            parent = parent is JsonArray list ? list[int.Parse(step, System.Globalization.CultureInfo.InvariantCulture)]! : parent[step]!;
        var node = value is null ? null : JsonNode.Parse(value);
        if (parent is JsonArray array)
            array[int.Parse(steps[^1], System.Globalization.CultureInfo.InvariantCulture)] = node;
        else
            parent[steps[^1]] = node;

        var answer = await (await shared.ClerkAsync()).PostAsync(Path, body);

        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("application/problem+json", answer.ContentType);
        Assert.NotEqual("", answer.Json["errors"]![named]![0]!.ToString());
    }

    [Fact]
    public async Task Two_hundred_different_units_are_answered()
    {
        var random = new Random(7);
        var lines = new JsonArray();
        for (var i = 0; i < 200; i++)
        {
            lines.Add(new JsonObject
            {
                ["reference"] = $"U{i}",
                ["length"] = 10 + Math.Round(random.NextDouble() * 50, 3),
                ["width"] = 10 + Math.Round(random.NextDouble() * 50, 3),
                ["height"] = 10 + Math.Round(random.NextDouble() * 60, 3),
                ["weight"] = 20 + random.Next(1_500),
                ["stackable"] = i % 2 == 0,
                ["topLoadCapacity"] = 2_000,
                ["mayRideOnTop"] = true,
            });
        }

        var answer = await PostAsync(new JsonObject { ["trailer"] = new JsonObject { ["length"] = 630, ["width"] = 98.5, ["height"] = 108 }, ["decks"] = true, ["handlingUnits"] = lines });

        Assert.Equal(200, answer.Json["positions"]!.AsArray().Count + answer.Json["unplaced"]!.AsArray().Sum(left => (int)left!["quantity"]!));
    }

    private async Task<ApiAnswer> PostAsync(JsonObject body)
    {
        var answer = await (await shared.ClerkAsync()).PostAsync(Path, body);
        Assert.True(answer.Status == HttpStatusCode.OK, answer.ToString());
        return answer;
    }

    private static JsonObject Plain(int count) => (JsonObject)JsonNode.Parse($$"""
        {"trailer":{"length":630,"width":98.5,"height":108},"handlingUnits":[{"reference":"A1","quantity":{{count}},"length":48,"width":40,"height":50,"weight":900,"turnable":false}]}
        """)!;

    private static JsonObject InMetric(JsonObject imperial)
    {
        var body = (JsonObject)imperial.DeepClone();
        body["units"] = "metric";
        foreach (var thing in body["handlingUnits"]!.AsArray().Append(body["trailer"]))
        {
            foreach (var name in (string[])["length", "width", "height"])
                thing![name] = Number(thing[name]!) * 2.54;
            foreach (var name in (string[])["weight", "topLoadCapacity"])
            {
                if (thing![name] is { } mass)
                    thing[name] = Number(mass) * 0.45359237;
            }
        }

        return body;

        static double Number(JsonNode node) => double.Parse(node.ToJsonString(), System.Globalization.CultureInfo.InvariantCulture);
    }

    private readonly record struct Box(double X, double Y, double Z, double Length, double Width, double Height)
    {
        public Box(JsonObject position, double factor)
            : this(Of(position, "x", factor), Of(position, "y", factor), Of(position, "z", factor), Of(position, "length", factor), Of(position, "width", factor), Of(position, "height", factor))
        {
        }

        public bool IsWithin(double length, double width, double height) =>
            X >= -Rounding && Y >= -Rounding && Z >= -Rounding && X + Length <= length + Rounding && Y + Width <= width + Rounding && Z + Height <= height + Rounding;

        public bool IsApart(Box b) => Beside(X, Length, b.X, b.Length) || Beside(Y, Width, b.Y, b.Width) || Beside(Z, Height, b.Z, b.Height);

        private static bool Beside(double a, double size, double b, double other) => a + size <= b + Rounding || b + other <= a + Rounding;

        private static double Of(JsonObject position, string name, double factor) => (double)position[name]! / factor;
    }
}
