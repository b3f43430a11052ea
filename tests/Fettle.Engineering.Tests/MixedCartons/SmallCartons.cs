using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>Cartons and rooms whose sides are a few nanometres, so that places and shares can be worked out by hand.</summary>
internal static class SmallCartons
{
    public static Length Nm(long nanometres) => Length.FromNanometres(nanometres);

    public static Mass Kg(double kilograms) => Mass.FromKilograms(kilograms);

    public static Force WeightOf(double kilograms) => Force.WeightOf(Kg(kilograms));

    /// <summary>A kind that bears the weight of so many kilograms.</summary>
    public static CartonKind Kind(long length, long width, long height, double kilograms = 1, int count = 1, double bears = 1000, bool keepUpright = true) =>
        new(Nm(length), Nm(width), Nm(height), Kg(kilograms), count, WeightOf(bears), keepUpright);

    public static PalletRoom Room(long length, long width, long height, double kilograms = 1000, double leastSupport = 0.8) =>
        new(Nm(length), Nm(width), Nm(height), Kg(kilograms), leastSupport);

    /// <summary>The kind standing upright with its length along the deck.</summary>
    public static Stance Upright(IReadOnlyList<CartonKind> kinds, int kind) => kinds[kind].Stances(kind).First();
}
