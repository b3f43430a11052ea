using System.Diagnostics;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Fettle.Testing;

namespace Fettle.Web.Tests.Api;

/// <summary>Two thousand bodies made by damaging good ones: none may be a failure of ours, and none may take long.</summary>
public sealed class MutatedBodyTests(SharedPortal shared)
{
    private const int Bodies = 2_000;
    private const int AtOnce = 4;

    // No measure of speed: far beyond what any body may take, and far below what a search without a bound would.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(10);

    /// <summary>JSON text that has broken programs.</summary>
    private static readonly string[] Odd =
    [
        "null", "true", "false", "0", "-1", "1", "2", "4.5", "1e308", "-1e308", "1e-308", "1e999", "2147483647", "2147483648", "-2147483649", "9007199254740993", "0.1", "1e1", "\"\"", "\"0\"",
        "\"NaN\"", "\"Infinity\"", "\"\\u0000\"", "\"\\ud800\"", "\"\\udc00x\"", "\"\u202e\u200f\"", "\"🪵\"", "\"imperial\"", "\"metric\"", "\"pallet\"", "\"loose-carton\"", "\"piece\"", "[]", "{}",
        "[[]]", "[null]", "{\"length\":1}", "NaN", "-", "1.", "\"", "[", "}", "'a'",
    ];

    [Fact]
    public async Task Damaged_bodies_are_answered_in_time_and_never_with_a_failure()
    {
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var bodies = Enumerable.Range(0, Bodies).Select(_ => Damage(random)).ToArray();
        var clerk = await shared.ClerkAsync();

        await Parallel.ForEachAsync(bodies, new ParallelOptions { MaxDegreeOfParallelism = AtOnce }, async (body, _) =>
        {
            var (answer, took) = await TimeAsync(clerk, body);
            // A busy machine may be slow once; a body that is slow is slow again.
            for (var again = 0; took > Longest && again < 3; again++)
                (answer, took) = await TimeAsync(clerk, body);
            Assert.True((int)answer.Status is 200 or 201 or 400 or 413, $"Seed {seed}: {body.Path} {body.Text} was answered with {answer}");
            Assert.True(took <= Longest, $"Seed {seed}: {body.Path} {body.Text} took {took}.");
        });
    }

    private static async Task<(ApiAnswer Answer, TimeSpan Took)> TimeAsync(HttpClient clerk, (string Path, string Text) body)
    {
        var started = Stopwatch.GetTimestamp();
        var answer = await clerk.PostRawAsync(body.Path, body.Text);
        return (answer, Stopwatch.GetElapsedTime(started));
    }

    private static (string Path, string Text) Damage(Random random)
    {
        var (path, body) = random.Next(4) switch
        {
            0 => ("/api/v1/checks", random.Next(2) == 0 ? Freight.Sound() : Freight.Troubled()),
            1 => ("/api/v1/floor-plans", Freight.ForFloor()),
            2 => ("/api/v1/pickups", Freight.Troubled().AsPickup(DateTimeOffset.UtcNow)),
            _ => ("/api/v1/patterns", (JsonObject)JsonNode.Parse("""{"units":"imperial","deck":{"length":48,"width":40},"carton":{"length":16,"width":12}}""")!),
        };
        var marks = new List<string>();
        for (var times = random.Next(1, 4); times > 0; times--)
            Change(body, random, marks);
        var text = body.ToJsonString();
        foreach (var mark in marks)
            text = text.Replace(JsonSerializer.Serialize(mark), Odd[random.Next(Odd.Length)], StringComparison.Ordinal);
        return (path, random.Next(5) == 0 ? Cut(text, random) : text);
    }

    /// <summary>Somewhere in the tree: another value, nothing, twice the same, or another figure of the same size.</summary>
    private static void Change(JsonObject body, Random random, List<string> marks)
    {
        var places = Places(body).ToArray();
        if (places.Length == 0)
            return;
        var (parent, key) = places[random.Next(places.Length)];
        switch (random.Next(6))
        {
            case 0:
                parent.AsObject().Remove(key);
                break;
            case 1 when parent[key] is JsonArray { Count: > 0 } list:
                for (var copies = random.Next(1, 120); copies > 0; copies--)
                    list.Add(list[0]?.DeepClone());
                break;
            case 2 or 3 when parent[key] is JsonValue value && value.GetValueKind() == JsonValueKind.Number:
                parent[key] = Math.Round(double.Parse(value.ToJsonString(), System.Globalization.CultureInfo.InvariantCulture) * Math.Pow(10, (random.NextDouble() * 4) - 2), random.Next(7));
                break;
            default:
                var mark = $"«{marks.Count}»";
                marks.Add(mark);
                parent[key] = mark;
                break;
        }
    }

    private static IEnumerable<(JsonNode Parent, string Key)> Places(JsonNode? node) => node switch
    {
        JsonObject thing => thing.SelectMany(property => Places(property.Value).Prepend((thing, property.Key))),
        JsonArray list => list.Take(3).SelectMany(Places),
        _ => [],
    };

    /// <summary>Bytes left out, doubled or changed.</summary>
    private static string Cut(string text, Random random)
    {
        var damaged = new StringBuilder(text);
        for (var times = random.Next(1, 6); times > 0 && damaged.Length > 1; times--)
        {
            var at = random.Next(damaged.Length);
            switch (random.Next(4))
            {
                case 0:
                    damaged.Remove(at, Math.Min(random.Next(1, 40), damaged.Length - at));
                    break;
                case 1:
                    damaged.Length = at;
                    break;
                case 2:
                    damaged.Insert(at, text.AsSpan(0, Math.Min(random.Next(60), text.Length)));
                    break;
                default:
                    damaged[at] = (char)random.Next(1, 128);
                    break;
            }
        }

        return damaged.ToString();
    }
}
