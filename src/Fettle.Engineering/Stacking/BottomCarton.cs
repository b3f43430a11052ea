using Fettle.Engineering.Units;

namespace Fettle.Engineering.Stacking;

/// <summary>
/// The carton at the bottom of a column: it bears every carton above it. Columns share nothing with their neighbours here,
/// which is exact for straight columns of equal cartons and the usual reckoning for the rest.
/// </summary>
public static class BottomCarton
{
    /// <summary>Weight of the cartons above the lowest of a column.</summary>
    /// <param name="cartonMass">Gross mass of one carton.</param>
    /// <param name="layers">Layers in the load, one or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one layer, or a negative mass.</exception>
    public static Force LoadOnBottom(Mass cartonMass, int layers)
    {
        Require.NotNegative(cartonMass.Kilograms, nameof(cartonMass));
        return Force.WeightOf(cartonMass) * (Require.AtLeast(1, layers) - 1);
    }

    /// <summary>
    /// How many times the load the carton can bear: below 1 it gives way. Positive infinity when nothing rests on it.
    /// </summary>
    /// <param name="usable">Strength left after derating.</param>
    /// <param name="load">What it bears.</param>
    public static double Safety(Force usable, Force load) => load <= Force.Zero ? double.PositiveInfinity : usable / load;

    /// <summary>
    /// What one column may bear besides, on top of the load, so that its bottom carton keeps at least <paramref name="safety"/>
    /// times all that it then bears. Zero when it does not keep that much as it is.
    /// </summary>
    /// <param name="usable">Strength left after derating.</param>
    /// <param name="load">What it bears already.</param>
    /// <param name="safety">Wanted ratio of strength to load, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is not above zero.</exception>
    public static Force Spare(Force usable, Force load, double safety) =>
        Force.Max(Force.Zero, (usable / Require.Positive(safety)) - load);
}
