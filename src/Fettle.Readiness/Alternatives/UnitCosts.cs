using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Readiness.Alternatives;

/// <summary>
/// Unit costs in US dollars and minutes, for ranking, and the platforms that can be had. Invented round figures, no source:
/// a carrier or shipper sets its own.
/// </summary>
public sealed record UnitCosts
{
    public decimal Platform { get; init; } = 15;

    /// <summary>A floor position in a trailer, as far as the rate feels it.</summary>
    public decimal FloorPosition { get; init; } = 40;

    /// <summary>One turn of film round one unit; bringing it down over the platform counts as one more.</summary>
    public decimal FilmTurn { get; init; } = 0.5m;

    /// <summary>Four corner boards.</summary>
    public decimal CornerBoards { get; init; } = 4;

    public decimal Sleeve { get; init; } = 6;

    public decimal TopCap { get; init; } = 3;

    /// <summary>Slip sheets between the layers of one unit.</summary>
    public decimal SlipSheets { get; init; } = 2;

    public decimal Strap { get; init; } = 1;

    /// <summary>Partitions for one carton.</summary>
    public decimal Partitions { get; init; } = 0.75m;

    /// <summary>What the carrier asks for decking, airbags, a strap to the wall or a bulkhead, for one unit.</summary>
    public decimal Request { get; init; } = 10;

    public decimal Minute { get; init; } = 0.5m;

    /// <summary>Minutes to move one carton by hand.</summary>
    public double MinutesPerCarton { get; init; } = 0.2;

    /// <summary>Minutes to open a carton, put partitions in and close it.</summary>
    public double MinutesPerRepack { get; init; } = 1.5;

    /// <summary>Minutes to wrap one unit, or to put boards on it, or a sleeve, a cap, slip sheets, a strap.</summary>
    public double MinutesPerProtection { get; init; } = 3;

    /// <summary>Minutes to bolt, block or brace one unit, or to lift it over to another platform.</summary>
    public double MinutesPerFastening { get; init; } = 15;

    /// <summary>Platforms that can be had instead of the declared one.</summary>
    public IReadOnlyList<PlatformChoice> Platforms { get; init; } =
    [
        new("rated", Wood(48, 40, 5.5, 50, 4600), 30),
        new("48x48", Wood(48, 48, 5.5, 55, 4000), 28),
        new("60x48", Wood(60, 48, 5.5, 70, 4000), 38),
    ];

    public static readonly UnitCosts Default = new();

    /// <summary>Sizes are usual in the trade; tare and rating are invented round figures.</summary>
    private static Platform Wood(double length, double width, double height, double tare, double rating) => new(
        Length.FromInches(length), Length.FromInches(width), Length.FromInches(height), Mass.FromPounds(tare), PlatformMaterial.Wood, Mass.FromPounds(rating));
}

/// <param name="Key">A short stable name of letters and digits.</param>
/// <param name="Price">Of one, in US dollars.</param>
public sealed record PlatformChoice(string Key, Platform Platform, decimal Price);
