using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>
/// The carton at the bottom of a column: it bears every carton above it. Columns share nothing with their neighbours here,
/// which is exact for straight columns of equal cartons and the usual reckoning for the rest.
/// </summary>
public static class BottomCarton
{
    /// <summary>Weight of the cartons above the lowest of a column, with its share of what stands on top of the load.</summary>
    /// <param name="cartonMass">Gross mass of one carton.</param>
    /// <param name="layers">Layers in the load, one or more.</param>
    /// <param name="topLoad">What one column bears of a second load on top; nothing by default.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one layer, or a negative mass.</exception>
    public static Force LoadOnBottom(Mass cartonMass, int layers, Force topLoad = default)
    {
        Require.NotNegative(cartonMass.Kilograms, nameof(cartonMass));
        return (Force.WeightOf(cartonMass) * (Require.AtLeast(1, layers) - 1)) + topLoad;
    }

    /// <summary>
    /// How many times the load the carton can bear: below 1 it gives way. Positive infinity when nothing rests on it.
    /// </summary>
    /// <param name="usable">Strength left after derating.</param>
    /// <param name="load">What it bears.</param>
    public static double Safety(Force usable, Force load) => load <= Force.Zero ? double.PositiveInfinity : usable / load;

    /// <summary>
    /// The most layers that leave the bottom carton at least <paramref name="safety"/> times what it bears. Always at least
    /// one, since a carton alone bears nothing. On the limit counts as within it (a billionth part either way).
    /// </summary>
    /// <param name="usable">Strength left after derating, zero or more.</param>
    /// <param name="cartonMass">Gross mass of one carton, above zero.</param>
    /// <param name="safety">Wanted ratio of strength to load, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static int SafeLayers(Force usable, Mass cartonMass, double safety = 1)
    {
        Require.NotNegative(usable.Newtons, nameof(usable));
        Require.Positive(cartonMass.Kilograms, nameof(cartonMass));
        var above = usable / (Force.WeightOf(cartonMass) * Require.Positive(safety));
        return (int)Math.Min(int.MaxValue, 1 + Math.Floor(above * (1 + Boundary)));
    }

    private const double Boundary = 1e-9;
}
