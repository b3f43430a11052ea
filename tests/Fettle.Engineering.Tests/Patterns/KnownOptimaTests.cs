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

    /// <summary>
    /// The bound may be one above the optimum where only a linear programme proves it; such instances take longest, since the
    /// search goes on for a better layer that does not exist.
    /// </summary>
    [Fact]
    public void Every_optimum_is_found_three_quarters_are_proved_and_no_bound_is_more_than_one_above()
    {
        Assert.Equal(384, instances.Count);
        Assert.True(instances.Count(IsProved) >= 0.75 * instances.Count);
    }

    [Fact]
    public void Nearly_all_optima_that_a_simple_bound_proves_are_proved()
    {
        Instance[] bounded = [.. instances.Where(i => i.Proof != "placement meets LP bound")];
        Assert.Equal(294, bounded.Length);
        Assert.True(bounded.Count(IsProved) >= 0.95 * bounded.Length);
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
