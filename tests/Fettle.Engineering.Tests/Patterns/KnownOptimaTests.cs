using System.Globalization;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>
/// Instances of the manufacturer's pallet loading problem whose optimum is proved: classes of Cover I and Cover II (Dowsland
/// 1987; Nelissen 1993; attributions from memory), hard instances of the literature (Letchford and Amaral 2001;
/// Alvarez-Valdes, Parreño and Tamarit 2005; Ribeiro and Lorena 2007; Birgin, Lobato and Morabito 2010), and common pallets and cartons.
/// Every optimum in Data/pallet-patterns.csv was recomputed by a placement that meets an upper bound.
/// </summary>
public class KnownOptimaTests
{
    private sealed record Instance(int DeckLength, int DeckWidth, int CartonLength, int CartonWidth, int Optimum, string Proof, string Source);

    private static readonly IReadOnlyList<Instance> instances = [.. DataFile.Rows("pallet-patterns.csv").Select(c => new Instance(
        int.Parse(c[0], CultureInfo.InvariantCulture),
        int.Parse(c[1], CultureInfo.InvariantCulture),
        int.Parse(c[2], CultureInfo.InvariantCulture),
        int.Parse(c[3], CultureInfo.InvariantCulture),
        int.Parse(c[4], CultureInfo.InvariantCulture),
        c[5],
        c[6]))];

    [Fact]
    public void Every_optimum_that_a_bound_proves_is_found_and_nearly_all_are_proved()
    {
        Instance[] bounded = [.. instances.Where(i => i.Proof != "placement meets LP bound")];
        Assert.Equal(294, bounded.Length);
        Assert.True(bounded.Count(IsProved) >= 0.95 * bounded.Length);
    }

    /// <summary>
    /// These take longest, since the search goes on for a better layer that does not exist: every eighth here, all 90 in
    /// docs/benchmarks/patterns.md.
    /// </summary>
    [Fact]
    public void Optima_that_only_a_linear_programme_proves_are_found_with_a_bound_at_most_one_above()
    {
        Instance[] others = [.. instances.Where(i => i.Proof == "placement meets LP bound").Where((_, n) => n % 8 == 0)];
        Assert.Equal(12, others.Length);
        foreach (var instance in others)
            IsProved(instance);
    }

    private static bool IsProved(Instance instance)
    {
        var (deckLength, deckWidth) = (Length.FromMillimetres(instance.DeckLength), Length.FromMillimetres(instance.DeckWidth));
        var (cartonLength, cartonWidth) = (Length.FromMillimetres(instance.CartonLength), Length.FromMillimetres(instance.CartonWidth));
        var layer = PatternFinder.Best(deckLength, deckWidth, cartonLength, cartonWidth);
        LayerCheck.IsALayer(layer, deckLength, deckWidth, cartonLength, cartonWidth);
        Assert.True(layer.Count == instance.Optimum, $"{layer.Count} found for {instance}");
        Assert.InRange(layer.UpperBound, instance.Optimum, instance.Optimum + 1);
        return layer.IsOptimal;
    }
}
