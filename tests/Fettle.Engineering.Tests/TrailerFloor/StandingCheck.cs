using Fettle.Engineering.TrailerFloor;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>Judges where units of a <see cref="Strip"/> stand, from that alone.</summary>
internal static class StandingCheck
{
    public static void AllStand(Strip strip, IReadOnlyList<Standing> standings, long length)
    {
        for (var kind = 0; kind < strip.Counts.Length; kind++)
            Assert.Equal(strip.Counts[kind], standings.Count(s => s.Stance.Kind == kind));
        for (var i = 0; i < standings.Count; i++)
        {
            var a = standings[i];
            Assert.Contains(a.Stance, strip.Stances);
            Assert.True(a.Along >= 0 && a.Across >= 0 && a.Along + a.Stance.Along <= length && a.Across + a.Stance.Across <= strip.Width, $"{a} leaves the floor");
            for (var j = 0; j < i; j++)
            {
                var b = standings[j];
                Assert.True(
                    a.Along + a.Stance.Along <= b.Along || b.Along + b.Stance.Along <= a.Along || a.Across + a.Stance.Across <= b.Across || b.Across + b.Stance.Across <= a.Across,
                    $"{a} and {b} overlap");
            }
        }
    }

    /// <summary>Small floors from a fixed seed, and the shortest length that each takes by trying everything.</summary>
    public static IEnumerable<(Strip Strip, int Shortest)> Small(int seed, int times, int width = 5)
    {
        var random = new Random(seed);
        for (var i = 0; i < times; i++)
        {
            (int Length, int Width, int Count, bool MayTurn)[] kinds = [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ =>
                (random.Next(1, 5), random.Next(1, 4), random.Next(1, 3), random.Next(3) > 0))];
            yield return (new Strip(width, [.. kinds.Select(k => ((long)k.Length, (long)k.Width, k.Count, k.MayTurn))]), FloorCheck.ShortestByBruteForce(kinds, width));
        }
    }

    /// <summary>Platforms as they are met on docks, in half inches on a floor of 98.5 in, from a fixed seed.</summary>
    public static IEnumerable<Strip> Mixes(int seed, int times, int kinds, int most)
    {
        (long Length, long Width)[] platforms = [(96, 80), (96, 96), (96, 90), (84, 84), (96, 72), (120, 96), (96, 84), (80, 80), (144, 96), (72, 72), (96, 40), (88, 88), (74, 74), (60, 60), (160, 80)];
        var random = new Random(seed);
        for (var i = 0; i < times; i++)
        {
            random.Shuffle(platforms);
            yield return new Strip(197, [.. platforms.Take(kinds).Select(p => (p.Length, p.Width, random.Next(1, most + 1), random.Next(5) > 0))]);
        }
    }
}
