using Fettle.Engineering.Units;

namespace Fettle.Engineering.Axles;

/// <summary>What each group of axles of a five-axle tractor and semitrailer carries.</summary>
/// <param name="Steer">Steering axle.</param>
/// <param name="Drive">Drive tandem.</param>
/// <param name="Trailer">Trailer tandem.</param>
public readonly record struct AxleLoads(Mass Steer, Mass Drive, Mass Trailer)
{
    /// <summary>The whole combination.</summary>
    public Mass Gross => Steer + Drive + Trailer;
}

/// <summary>
/// The most that each may carry. <see cref="Interstate"/> holds the United States federal figures: 23 USC 127, 23 CFR 658.17.
/// </summary>
/// <param name="Steer">Steering axle: its rating, commonly 12,000 to 13,200 lb; no federal limit of its own (from memory).</param>
/// <param name="Drive">Drive tandem.</param>
/// <param name="Trailer">Trailer tandem.</param>
/// <param name="Gross">The whole combination.</param>
public sealed record AxleLimits(Mass Steer, Mass Drive, Mass Trailer, Mass Gross)
{
    /// <summary>Two axles more than 40 and at most 96 in apart: 34,000 lb.</summary>
    public static readonly Mass Tandem = Mass.FromPounds(34_000);

    /// <summary>12,000 lb steering, 34,000 lb a tandem, 80,000 lb in all.</summary>
    public static readonly AxleLimits Interstate = new(Mass.FromPounds(12_000), Tandem, Tandem, Mass.FromPounds(80_000));

    /// <summary>How far each group is past its limit; zero where it is within.</summary>
    public (AxleLoads Groups, Mass Gross) Excess(AxleLoads loads) => (
        new AxleLoads(Over(loads.Steer, Steer), Over(loads.Drive, Drive), Over(loads.Trailer, Trailer)),
        Over(loads.Gross, Gross));

    /// <summary>Whether every group and the whole are within their limits; on the limit is within.</summary>
    public bool Allow(AxleLoads loads) => Excess(loads) == default;

    private static Mass Over(Mass load, Mass limit) => Mass.Max(load - limit, Mass.Zero);
}
