using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using CsCheck;
using Fettle.Testing;

namespace Fettle.Web.Tests.Declarations;

public sealed class PatternAnswerTests(SharedPortal shared)
{
    /// <summary>Answers are rounded to a millionth.</summary>
    private const double Rounding = 2e-6;

    [Fact]
    public async Task Cartons_of_a_layer_lie_on_the_deck_beside_one_another_and_are_as_many_as_is_said()
    {
        var clerk = await shared.ClerkAsync();
        var sides = Gen.Select(Gen.Int[200, 600], Gen.Int[200, 600], Gen.Int[30, 400], Gen.Int[30, 400], Gen.Bool);
        await sides.SampleAsync(async given =>
        {
            var (deckLength, deckWidth, length, width, metric) = given;
            var deck = (Length: deckLength / 10.0, Width: deckWidth / 10.0);
            var carton = (Length: length / 10.0, Width: width / 10.0);

            var answer = await clerk.PostAsync("/api/v1/patterns", Body(metric ? "metric" : "imperial", deck, carton));

            Assert.True(answer.Status == HttpStatusCode.OK, answer.ToString());
            var placed = Placements(answer.Json);
            Assert.Equal(placed.Length, (int)answer.Json["count"]!);
            Assert.True((int)answer.Json["upperBound"]! >= placed.Length);
            foreach (var one in placed)
            {
                Assert.True(Same(one.Length, one.Width, carton.Length, carton.Width) || Same(one.Width, one.Length, carton.Length, carton.Width), $"{one} is no such carton.");
                Assert.True(one.X >= -Rounding && one.Y >= -Rounding && one.X + one.Length <= deck.Length + Rounding && one.Y + one.Width <= deck.Width + Rounding, $"{one} is past the edge.");
            }

            for (var i = 0; i < placed.Length; i++)
            {
                for (var j = i + 1; j < placed.Length; j++)
                    Assert.True(Apart(placed[i], placed[j]), $"{placed[i]} and {placed[j]} overlap.");
            }
        }, iter: 150, threads: 1);
    }

    /// <summary>By hand: two rows of three along the deck (48 × 24) and one row of four across it (48 × 16) cover all of it.</summary>
    [Fact]
    public async Task Ten_cartons_of_16_by_12_stand_on_a_deck_of_48_by_40()
    {
        var answer = (await (await shared.ClerkAsync()).PostAsync("/api/v1/patterns", Body("imperial", (48, 40), (16, 12)))).Json;

        Assert.Equal(10, (int)answer["count"]!);
        Assert.Equal(10, (int)answer["upperBound"]!);
        Assert.True((bool)answer["optimal"]!);
    }

    [Fact]
    public async Task Metric_and_imperial_find_the_same_layer()
    {
        var clerk = await shared.ClerkAsync();
        var imperial = (await clerk.PostAsync("/api/v1/patterns", Body("imperial", (48, 40), (17, 11)))).Json;
        var metric = (await clerk.PostAsync("/api/v1/patterns", Body("metric", (121.92, 101.6), (43.18, 27.94)))).Json;

        Assert.Equal((int)imperial["count"]!, (int)metric["count"]!);
        foreach (var (a, b) in Placements(imperial).Zip(Placements(metric)))
        {
            Assert.Equal(a.X * 2.54, b.X, 5);
            Assert.Equal(a.Y * 2.54, b.Y, 5);
        }
    }

    [Fact]
    public async Task A_carton_larger_than_the_deck_has_no_place()
    {
        var answer = (await (await shared.ClerkAsync()).PostAsync("/api/v1/patterns", Body("imperial", (48, 40), (50, 41)))).Json;

        Assert.Equal(0, (int)answer["count"]!);
        Assert.Empty(answer["placements"]!.AsArray());
    }

    private static JsonObject Body(string units, (double Length, double Width) deck, (double Length, double Width) carton) => new()
    {
        ["units"] = units,
        ["deck"] = new JsonObject { ["length"] = deck.Length, ["width"] = deck.Width },
        ["carton"] = new JsonObject { ["length"] = carton.Length, ["width"] = carton.Width },
    };

    private static Placed[] Placements(JsonObject answer) =>
        [.. answer["placements"]!.AsArray().Select(p => new Placed((double)p!["x"]!, (double)p["y"]!, (double)p["length"]!, (double)p["width"]!))];

    private static bool Same(double length, double width, double ofLength, double ofWidth) => Math.Abs(length - ofLength) < Rounding && Math.Abs(width - ofWidth) < Rounding;

    private static bool Apart(Placed a, Placed b) =>
        a.X + a.Length <= b.X + Rounding || b.X + b.Length <= a.X + Rounding || a.Y + a.Width <= b.Y + Rounding || b.Y + b.Width <= a.Y + Rounding;

    private sealed record Placed(double X, double Y, double Length, double Width)
    {
        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Length} × {Width} at {X}, {Y}");
    }
}
