using Fettle.Web.Store;

namespace Fettle.Web.Demo;

/// <summary>Chance that falls the same way every time for the same thing: a year made twice is the same year.</summary>
public sealed class Dice(params IReadOnlyList<object> about)
{
    // Seeded, System.Random keeps its sequence from release to release. Nothing here is secret.
    private readonly Random random = new(BitConverter.ToInt32(StableId.From(["demo", "dice", .. about]).ToByteArray()));

    /// <summary>A whole number from <paramref name="least"/> to <paramref name="most"/>, both included.</summary>
    public int Between(int least, int most) => random.Next(least, most + 1);

    /// <summary>A number from 0 up to, and without, 1.</summary>
    public double Share() => random.NextDouble();

    public T One<T>(IReadOnlyList<T> all) => all[random.Next(all.Count)];

    /// <summary>One of them, more often the more it weighs.</summary>
    public T OneByWeight<T>(IReadOnlyList<T> all, Func<T, double> weight)
    {
        var left = random.NextDouble() * all.Sum(weight);
        foreach (var one in all)
        {
            left -= weight(one);
            if (left < 0)
                return one;
        }

        return all[^1];
    }
}
