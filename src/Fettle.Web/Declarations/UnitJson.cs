using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Declarations;

/// <summary>Body of POST /api/v1/checks.</summary>
/// <param name="Units">"imperial": inches and pounds; "metric": centimetres and kilograms.</param>
/// <param name="DriverOnDock">The driver may see the freight being loaded.</param>
public record CheckJson(string? Units, LaneJson? Lane, bool? DriverOnDock, IReadOnlyList<UnitJson?>? HandlingUnits)
{
    /// <summary>As a form, which is what is read and refused.</summary>
    public PickupForm Form() => new()
    {
        Units = Units ?? "imperial",
        DriverOnDock = DriverOnDock ?? false,
        Lane = new() { Miles = Writing.TextOf(Lane?.Miles), Transfers = Writing.TextOf(Lane?.Transfers ?? 0), CrossBorder = Lane?.CrossBorder ?? false },
        // One more than may be is enough to be told of.
        HandlingUnits = [.. (HandlingUnits ?? []).Take(PickupFormValidator.MostLines + 1).Select(unit => (unit ?? new UnitJson()).Form(Units == "metric"))],
    };
}

/// <param name="Miles">Statute miles on the road, 0 to 10,000, whatever the units.</param>
/// <param name="Transfers">Changes of trailer on the way, 0 to 20; 0 when left out.</param>
public sealed record LaneJson(double? Miles, int? Transfers, bool? CrossBorder);

/// <summary>One line of a declaration: identical handling units.</summary>
public sealed record UnitJson
{
    /// <summary>Your own name for the line, unique in the pickup.</summary>
    public string? Reference { get; init; }

    /// <summary>How many identical units, 1 to 999; 1 when left out.</summary>
    public int? Quantity { get; init; }

    /// <summary>"pallet", "crate" or "loose-carton"; "pallet" when left out.</summary>
    public string? Kind { get; init; }

    public PlatformJson? Platform { get; init; }

    /// <summary>Greatest outside dimensions, platform and everything that sticks out included.</summary>
    public OuterJson? Outer { get; init; }

    /// <summary>Scale weight, platform included.</summary>
    public double? GrossWeight { get; init; }

    public ContentsJson? Contents { get; init; }

    public bool? Stackable { get; init; }

    public ProtectionJson? Protection { get; init; }

    /// <summary>"none", "glass", "ceramics", "liquid", "eggs" or "other".</summary>
    public string? Fragile { get; init; }

    internal UnitForm Form(bool metric) => new()
    {
        Reference = Reference,
        Quantity = Writing.TextOf(Quantity ?? 1),
        Kind = Kind ?? "pallet",
        Platform = new()
        {
            Length = Writing.TextOf(Platform?.Length),
            Width = Writing.TextOf(Platform?.Width),
            Height = Writing.TextOf(Platform?.Height),
            Tare = Writing.TextOf(Platform?.Tare),
            Material = Platform?.Material,
            Rating = Writing.TextOf(Platform?.Rating),
        },
        Outer = new() { Length = Writing.TextOf(Outer?.Length), Width = Writing.TextOf(Outer?.Width), Height = Writing.TextOf(Outer?.Height) },
        GrossWeight = Writing.TextOf(GrossWeight),
        Contents = new()
        {
            Kind = Contents?.Kind,
            Carton = new()
            {
                Length = Writing.TextOf(Contents?.Carton?.Length),
                Width = Writing.TextOf(Contents?.Carton?.Width),
                Height = Writing.TextOf(Contents?.Carton?.Height),
                GrossWeight = Writing.TextOf(Contents?.Carton?.GrossWeight),
                Board = new()
                {
                    Flute = Contents?.Carton?.Board?.Flute,
                    EdgeCrush = Writing.TextOf(BoardJson.InPoundsPerInch(Contents?.Carton?.Board?.EdgeCrush, metric)),
                },
            },
            PerLayer = Writing.TextOf(Contents?.PerLayer),
            Layers = Writing.TextOf(Contents?.Layers),
            TopLayer = Writing.TextOf(Contents?.TopLayer),
            Stack = Contents?.Stack,
            Description = Contents?.Description,
        },
        Stackable = Stackable ?? false,
        Protection = new()
        {
            WrapTurns = Writing.TextOf(Protection?.WrapTurns ?? 0),
            WrapOverPlatform = Protection?.WrapOverPlatform ?? false,
            CornerBoards = Protection?.CornerBoards,
            Sleeve = Protection?.Sleeve ?? false,
            TopCap = Protection?.TopCap ?? false,
            Straps = Writing.TextOf(Protection?.Straps),
            SlipSheets = Protection?.SlipSheets ?? false,
        },
        Fragile = Fragile,
    };

    public static UnitJson Of(HandlingUnit unit, UnitSystem units)
    {
        double Long(Length length) => Math.Round(length.In(units), 6);
        double Heavy(Mass mass) => Math.Round(mass.In(units), 6);
        return new()
        {
            Reference = unit.Reference,
            Quantity = unit.Quantity,
            Kind = unit.Kind.Word(),
            Platform = unit.Platform is { } deck
                ? new(Long(deck.Length), Long(deck.Width), Long(deck.Height), Heavy(deck.Tare), deck.Material.Word(), deck.Rating is { } rating ? Heavy(rating) : null)
                : null,
            Outer = new(Long(unit.Outer.Length), Long(unit.Outer.Width), Long(unit.Outer.Height)),
            GrossWeight = Heavy(unit.GrossWeight),
            Contents = unit.Contents switch
            {
                CartonContents cartons => new()
                {
                    Kind = "cartons",
                    Carton = new(
                        Long(cartons.Carton.Length),
                        Long(cartons.Carton.Width),
                        Long(cartons.Carton.Height),
                        Heavy(cartons.Carton.GrossWeight),
                        cartons.Carton.Board is { } board ? new(board.Flute.ToString(), BoardJson.Shown(board, units)) : null),
                    PerLayer = cartons.PerLayer,
                    Layers = cartons.Layers,
                    TopLayer = cartons.TopLayer,
                    Stack = cartons.Stack.Word(),
                },
                PieceContents piece => new() { Kind = "piece", Description = piece.Description },
                _ => throw new InvalidOperationException($"There is no JSON for {unit.Contents.GetType().Name}."),
            },
            Stackable = unit.Stackable,
            Protection = new(
                unit.Protection.WrapTurns,
                unit.Protection.WrapOverPlatform,
                unit.Protection.CornerBoards.Word(),
                unit.Protection.Sleeve,
                unit.Protection.TopCap,
                unit.Protection.Straps,
                unit.Protection.SlipSheets),
            Fragile = unit.Fragile.Word(),
        };
    }
}

/// <param name="Length">Along the stringers: forks enter under the two ends of this length.</param>
/// <param name="Tare">Weight of the empty platform.</param>
/// <param name="Material">"wood", "plastic", "metal" or "paperboard".</param>
/// <param name="Rating">What its maker rates it to carry.</param>
public sealed record PlatformJson(double? Length, double? Width, double? Height, double? Tare, string? Material, double? Rating);

public sealed record OuterJson(double? Length, double? Width, double? Height);

public sealed record ContentsJson
{
    /// <summary>"cartons", or "piece" for one thing that is not made of cartons.</summary>
    public string? Kind { get; init; }

    public CartonJson? Carton { get; init; }

    /// <summary>Cartons in a full layer.</summary>
    public int? PerLayer { get; init; }

    /// <summary>Full layers.</summary>
    public int? Layers { get; init; }

    /// <summary>Cartons on a last, unfinished layer; 0 when the top is full.</summary>
    public int? TopLayer { get; init; }

    /// <summary>"column" or "interlocked".</summary>
    public string? Stack { get; init; }

    /// <summary>What a piece is.</summary>
    public string? Description { get; init; }
}

public sealed record CartonJson(double? Length, double? Width, double? Height, double? GrossWeight, BoardJson? Board);

/// <param name="Flute">"A", "B", "C", "E", "F", "BC" or "EB".</param>
/// <param name="EdgeCrush">
/// Edge crush strength: the grade printed on the carton, in lb/in (32). With metric units a number below 20 is read as
/// kN/m (5.6), since no board has a grade that low.
/// </param>
public sealed record BoardJson(string? Flute, double? EdgeCrush)
{
    private const double LowestGrade = 20;

    internal static double? InPoundsPerInch(double? edgeCrush, bool metric) => metric && edgeCrush < LowestGrade
        ? edgeCrush * Board.PoundsPerInchPerKilonewtonPerMetre
        : edgeCrush;

    internal static double Shown(Board board, UnitSystem units) => units == UnitSystem.Metric
        ? Math.Round(board.EdgeCrush / Board.PoundsPerInchPerKilonewtonPerMetre, 4)
        : Math.Round(board.EdgeCrush, 4);
}

/// <param name="WrapTurns">Full turns of film at the thinnest place.</param>
/// <param name="WrapOverPlatform">The film comes down over the platform.</param>
/// <param name="CornerBoards">"none", "partial" (end above the platform) or "to-platform".</param>
public sealed record ProtectionJson(int? WrapTurns, bool? WrapOverPlatform, string? CornerBoards, bool? Sleeve, bool? TopCap, int? Straps, bool? SlipSheets);
