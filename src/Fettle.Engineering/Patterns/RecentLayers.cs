using System.Collections.Concurrent;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// Layers found lately, so that asking again for the same one is a look-up. Holds at most <see cref="MostCartons"/> cartons
/// in all (some 16 MB) and starts afresh when full: cheaper than keeping an order of use, and the answers are the same.
/// Thread-safe.
/// </summary>
internal sealed class RecentLayers<TKey>
    where TKey : notnull
{
    private const int MostCartons = 500_000;

    private readonly ConcurrentDictionary<TKey, LayerPattern?> layers = new();
    private int cartons;

    public LayerPattern? GetOrAdd<TArgument>(TKey key, Func<TArgument, LayerPattern?> find, TArgument argument)
    {
        if (layers.TryGetValue(key, out var known))
            return known;
        var found = find(argument);
        // An entry costs something even when it holds no carton.
        var weight = 16 + (found?.Count ?? 0);
        if (Interlocked.Add(ref cartons, weight) > MostCartons)
        {
            layers.Clear();
            Interlocked.Exchange(ref cartons, weight);
        }

        layers[key] = found;
        return found;
    }
}
