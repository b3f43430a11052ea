using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>What one carton rests on.</summary>
/// <param name="Share">Share of its base on cartons of the layer below, 0 to 1.</param>
/// <param name="CartonsBelow">Cartons below that carry more than the smallest contact that counts.</param>
/// <param name="InColumn">It lies exactly on one carton of the layer below, edge on edge.</param>
public readonly record struct CartonSupport(double Share, int CartonsBelow, bool InColumn);

/// <summary>
/// How a layer rests on the one below it, after the criteria of Carpenter and Dowsland 1985 (Journal of the Operational
/// Research Society 36): cartons that each rest on at least two, and bases that are well supported.
/// </summary>
/// <param name="Cartons">One for each carton of the upper layer, in its order.</param>
public sealed record LayerSupport(IReadOnlyList<CartonSupport> Cartons)
{
    /// <summary>Contacts under this share of a base do not count as a carton below (Carpenter and Dowsland 1985, from memory).</summary>
    public const double SmallestContact = 0.05;

    /// <summary>The worst supported carton's share, 0 to 1; 1 for an empty layer.</summary>
    public double LeastShare => Cartons.Count == 0 ? 1 : Cartons.Min(c => c.Share);

    /// <summary>The mean share over all cartons, 0 to 1; 1 for an empty layer.</summary>
    public double MeanShare => Cartons.Count == 0 ? 1 : Cartons.Average(c => c.Share);

    /// <summary>Share of the cartons that stand in columns, 0 to 1; 1 for an empty layer.</summary>
    public double ColumnShare => Cartons.Count == 0 ? 1 : Cartons.Count(c => c.InColumn) / (double)Cartons.Count;

    /// <summary>Share of the cartons that tie at least two cartons below together, 0 to 1; 0 for an empty layer.</summary>
    public double TiedShare => Cartons.Count == 0 ? 0 : Cartons.Count(c => c.CartonsBelow >= 2) / (double)Cartons.Count;

    /// <summary>How <paramref name="upper"/> rests on <paramref name="lower"/>, both in the same coordinates.</summary>
    /// <param name="lower">The layer below.</param>
    /// <param name="upper">The layer that rests on it.</param>
    /// <param name="smallestContact">Share of a base, 0 to 1, below which a contact is not counted as a carton.</param>
    public static LayerSupport Of(LayerPattern lower, LayerPattern upper, double smallestContact = SmallestContact)
    {
        var cartons = new CartonSupport[upper.Count];
        for (var i = 0; i < cartons.Length; i++)
        {
            var p = upper.Placements[i];
            var (share, below, column) = (0.0, 0, false);
            foreach (var q in lower.Placements)
            {
                var contact = Overlap(p.X, p.Right, q.X, q.Right) / p.Length * (Overlap(p.Y, p.Top, q.Y, q.Top) / p.Width);
                share += contact;
                below += contact >= smallestContact ? 1 : 0;
                column |= p == q;
            }

            cartons[i] = new CartonSupport(Math.Min(1, share), below, column);
        }

        return new LayerSupport(cartons);
    }

    private static Length Overlap(Length nearA, Length farA, Length nearB, Length farB) =>
        Length.Max(Length.Zero, Length.Min(farA, farB) - Length.Max(nearA, nearB));
}
