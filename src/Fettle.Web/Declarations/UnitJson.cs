using Fettle.Engineering.Cartons;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;

namespace Fettle.Web.Declarations;

/// <summary>Freight as it is sent to be checked or declared.</summary>
/// <param name="Units">"imperial": inches and pounds; "metric": centimetres and kilograms.</param>
/// <param name="DriverOnDock">The driver may see the freight being loaded.</param>
public record CheckJson(string? Units, LaneJson? Lane, bool? DriverOnDock, IReadOnlyList<UnitJson?>? HandlingUnits)
{
    /// <summary>As a form, which is what is read and refused.</summary>
    public PickupForm Form() => new()
    {
        Units = Units ?? "imperial",
        DriverOnDock = DriverOnDock ?? false,
        Lane = new() { Miles = Writing.TextOf(Lane?.Miles), Transfers = Writing.TextOf(Lane?.Transfers ?? 0), CrossBorder = Lane?.CrossBorder ?? false, Liftgate = Lane?.Liftgate ?? false, NoDock = Lane?.NoDock ?? false },
        // One more than may be is enough to be told of.
        HandlingUnits = [.. (HandlingUnits ?? []).Take(PickupFormValidator.MostLines + 1).Select(unit => (unit ?? new UnitJson()).Form(Units == "metric"))],
    };
}

/// <param name="Miles">Statute miles on the road, 0 to 10,000, whatever the units.</param>
/// <param name="Transfers">Changes of trailer on the way, 0 to 20; 0 when left out.</param>
/// <param name="Liftgate">The consignee is served by a truck with a liftgate.</param>
/// <param name="NoDock">There is no dock at the consignee.</param>
public sealed record LaneJson(double? Miles, int? Transfers, bool? CrossBorder, bool? Liftgate = null, bool? NoDock = null);

/// <summary>One line of a declaration: identical handling units.</summary>
public sealed record UnitJson
{
    /// <summary>Your own name for the line, unique in the pickup.</summary>
    public string? Reference { get; init; }

    /// <summary>How many identical units, 1 to 999; 1 when left out.</summary>
    public int? Quantity { get; init; }

    /// <summary>"pallet", "crate", "loose-carton", "drum" or "piece"; "pallet" when left out, or what the contents say.</summary>
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

    /// <summary>What is fragile is kept apart inside its carton.</summary>
    public bool? Partitions { get; init; }

    /// <summary>"flat", "uneven" or "pyramid"; "flat" when left out.</summary>
    public string? TopSurface { get; init; }

    /// <summary>What is asked of the carrier: "decking", "airbags", "no-top-load", "strap", "bulkhead".</summary>
    public IReadOnlyList<string?>? Requests { get; init; }

    /// <summary>Hazardous material, as the shipper has classified it.</summary>
    public bool? Hazardous { get; init; }

    public bool? TemperatureControlled { get; init; }

    /// <summary>The trained person who confirmed packing, marks and papers of regulated goods.</summary>
    public string? ConfirmedBy { get; init; }

    /// <summary>Freight class on your papers, 50 to 500.</summary>
    public double? DeclaredClass { get; init; }

    /// <summary>Who built the unit.</summary>
    public string? BuiltBy { get; init; }

    /// <summary>Loose cartons are one carton each, however their count is given.</summary>
    private bool AreLooseCartons => Contents?.Kind == "loose-cartons";

    internal UnitForm Form(bool metric) => new()
    {
        Reference = Reference,
        Quantity = Writing.TextOf(Quantity ?? 1),
        Kind = AreLooseCartons ? "loose-carton" : Kind ?? (Platform is null ? Contents?.Kind switch { "crate" => "crate", "drum" when Contents.Count is null or 1 => "drum", _ => "pallet" } : "pallet"),
        Platform = new()
        {
            Length = Writing.TextOf(Platform?.Length),
            Width = Writing.TextOf(Platform?.Width),
            Height = Writing.TextOf(Platform?.Height),
            Tare = Writing.TextOf(Platform?.Tare),
            Material = Platform?.Material,
            Rating = Writing.TextOf(Platform?.Rating),
            Entry = Platform?.Entry,
            Condition = Platform?.Condition,
            TreatmentMark = Platform?.TreatmentMark,
        },
        Outer = new() { Length = Writing.TextOf(Outer?.Length), Width = Writing.TextOf(Outer?.Width), Height = Writing.TextOf(Outer?.Height) },
        GrossWeight = Writing.TextOf(GrossWeight),
        Contents = new()
        {
            Kind = AreLooseCartons ? "cartons" : Contents?.Kind,
            Carton = CartonJson.Form(Contents?.Carton, metric),
            PerLayer = Writing.TextOf(AreLooseCartons ? Contents?.PerLayer ?? 1 : Contents?.PerLayer),
            Layers = Writing.TextOf(AreLooseCartons ? Contents?.Layers ?? 1 : Contents?.Layers),
            TopLayer = Writing.TextOf(Contents?.TopLayer),
            Stack = Contents?.Stack,
            Description = Contents?.Description,
            // One more than may be is enough to be told of.
            Lines = [.. (Contents?.Lines ?? []).Take(MixedCartonContents.MostLines + 1).Select(line => new CartonLineForm { Carton = CartonJson.Form(line?.Carton, metric), Count = Writing.TextOf(line?.Count) })],
            Count = Writing.TextOf(Contents is { Kind: "drum" or "rolls" } ? Contents.Count ?? 1 : Contents?.Count),
            Tiers = Writing.TextOf(Contents is { Kind: "drum" } ? Contents.Tiers ?? 1 : Contents?.Tiers),
            Diameter = Writing.TextOf(Contents?.Diameter),
            Height = Writing.TextOf(Contents?.Height),
            WeightEach = Writing.TextOf(Contents?.WeightEach),
            Material = Contents?.Material,
            Standing = Contents?.Standing,
            Braced = Contents?.Braced ?? false,
            Boxed = Contents?.Boxed ?? false,
            Fastened = Contents?.Fastened ?? false,
            CentreOfGravity = Writing.TextOf(Contents?.CentreOfGravity),
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
        Partitions = Partitions ?? false,
        TopSurface = TopSurface,
        Requests = [.. Requests ?? []],
        Hazardous = Hazardous ?? false,
        TemperatureControlled = TemperatureControlled ?? false,
        ConfirmedBy = ConfirmedBy,
        DeclaredClass = Writing.TextOf(DeclaredClass),
        BuiltBy = BuiltBy,
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
            Platform = unit.Platform is { } deck ? PlatformJson.Of(deck, units) : null,
            Outer = new(Long(unit.Outer.Length), Long(unit.Outer.Width), Long(unit.Outer.Height)),
            GrossWeight = Heavy(unit.GrossWeight),
            Contents = unit.Contents switch
            {
                CartonContents cartons => new()
                {
                    Kind = "cartons",
                    Carton = CartonJson.Of(cartons.Carton, units),
                    PerLayer = cartons.PerLayer,
                    Layers = cartons.Layers,
                    TopLayer = cartons.TopLayer,
                    Stack = cartons.Stack.Word(),
                },
                MixedCartonContents mixed => new() { Kind = "mixed-cartons", Lines = [.. mixed.Lines.Select(line => new CartonLineJson(CartonJson.Of(line.Carton, units), line.Count))] },
                CrateContents crate => new() { Kind = "crate", Description = crate.Description, Braced = crate.Braced },
                DrumContents drums => new()
                {
                    Kind = "drum",
                    Diameter = Long(drums.Diameter),
                    Height = Long(drums.Height),
                    WeightEach = Heavy(drums.WeightEach),
                    Count = drums.Count,
                    Tiers = drums.Tiers,
                    Material = drums.Material.Word(),
                },
                BagContents bags => new() { Kind = "bags", WeightEach = Heavy(bags.WeightEach), PerLayer = bags.PerLayer, Layers = bags.Layers, Stack = bags.Stack.Word() },
                RollContents rolls => new()
                {
                    Kind = "rolls",
                    Diameter = Long(rolls.Diameter),
                    Height = Long(rolls.Width),
                    WeightEach = Heavy(rolls.WeightEach),
                    Count = rolls.Count,
                    Standing = rolls.Standing.Word(),
                },
                FurnitureContents furniture => new() { Kind = "furniture", Description = furniture.Description, Boxed = furniture.Boxed },
                MachineryContents machinery => new()
                {
                    Kind = "machinery",
                    Description = machinery.Description,
                    Fastened = machinery.Fastened,
                    CentreOfGravity = machinery.CentreOfGravity is { } centre ? Long(centre) : null,
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
            Partitions = unit.Partitions,
            TopSurface = unit.TopSurface.Word(),
            Requests = [.. unit.Requests.Words()],
            Hazardous = unit.Hazardous,
            TemperatureControlled = unit.TemperatureControlled,
            ConfirmedBy = unit.ConfirmedBy,
            DeclaredClass = (double?)unit.DeclaredClass,
            BuiltBy = unit.BuiltBy,
        };
    }
}

/// <param name="Length">Along the stringers: forks enter under the two ends of this length.</param>
/// <param name="Tare">Weight of the empty platform.</param>
/// <param name="Material">"wood", "plastic", "metal" or "paperboard".</param>
/// <param name="Rating">What its maker rates it to carry.</param>
public sealed record PlatformJson(double? Length, double? Width, double? Height, double? Tare, string? Material, double? Rating)
{
    /// <summary>"four-way" or "two-way"; "four-way" when left out.</summary>
    public string? Entry { get; init; }

    /// <summary>"sound", "worn" or "damaged"; "sound" when left out.</summary>
    public string? Condition { get; init; }

    /// <summary>ISPM 15 mark on the wood: "none", "ht", "mb", "dh" or "sf"; "none" when left out.</summary>
    public string? TreatmentMark { get; init; }

    internal static PlatformJson Of(Platform deck, UnitSystem units) => new(
        Math.Round(deck.Length.In(units), 6),
        Math.Round(deck.Width.In(units), 6),
        Math.Round(deck.Height.In(units), 6),
        Math.Round(deck.Tare.In(units), 6),
        deck.Material.Word(),
        deck.Rating is { } rating ? Math.Round(rating.In(units), 6) : null)
    {
        Entry = deck.Entry.Word(),
        Condition = deck.Condition.Word(),
        TreatmentMark = deck.TreatmentMark.Word(),
    };
}

public sealed record OuterJson(double? Length, double? Width, double? Height);

public sealed record ContentsJson
{
    /// <summary>
    /// "cartons" (alike, in layers), "mixed-cartons", "loose-cartons", "crate", "drum", "bags", "rolls", "furniture",
    /// "machinery" or "piece" for one thing that is none of these.
    /// </summary>
    public string? Kind { get; init; }

    public CartonJson? Carton { get; init; }

    /// <summary>Cartons or bags in a full layer.</summary>
    public int? PerLayer { get; init; }

    /// <summary>Full layers.</summary>
    public int? Layers { get; init; }

    /// <summary>Cartons on a last, unfinished layer; 0 when the top is full.</summary>
    public int? TopLayer { get; init; }

    /// <summary>"column" or "interlocked".</summary>
    public string? Stack { get; init; }

    /// <summary>What a crate, a machine, a piece of furniture or another piece is.</summary>
    public string? Description { get; init; }

    /// <summary>Kinds of carton on a mixed pallet, at most 30.</summary>
    public IReadOnlyList<CartonLineJson?>? Lines { get; init; }

    /// <summary>Drums or rolls on the unit; 1 when left out.</summary>
    public int? Count { get; init; }

    /// <summary>Drums above one another; 1 when left out.</summary>
    public int? Tiers { get; init; }

    /// <summary>Of a drum or roll.</summary>
    public double? Diameter { get; init; }

    /// <summary>Of a drum; of a roll the length of its axis.</summary>
    public double? Height { get; init; }

    /// <summary>Weight of one drum, bag or roll.</summary>
    public double? WeightEach { get; init; }

    /// <summary>Of drums: "steel", "plastic" or "fibre".</summary>
    public string? Material { get; init; }

    /// <summary>Of rolls: "on-end" or "on-side".</summary>
    public string? Standing { get; init; }

    /// <summary>What is in the crate cannot move.</summary>
    public bool? Braced { get; init; }

    /// <summary>Furniture in a carton of its own.</summary>
    public bool? Boxed { get; init; }

    /// <summary>Machinery bolted or strapped to what it stands on.</summary>
    public bool? Fastened { get; init; }

    /// <summary>Height of a machine's centre of gravity over the floor.</summary>
    public double? CentreOfGravity { get; init; }
}

/// <param name="Count">How many of this carton, 1 or more.</param>
public sealed record CartonLineJson(CartonJson? Carton, int? Count);

public sealed record CartonJson(double? Length, double? Width, double? Height, double? GrossWeight, BoardJson? Board)
{
    internal static CartonForm Form(CartonJson? carton, bool metric) => new()
    {
        Length = Writing.TextOf(carton?.Length),
        Width = Writing.TextOf(carton?.Width),
        Height = Writing.TextOf(carton?.Height),
        GrossWeight = Writing.TextOf(carton?.GrossWeight),
        Board = new() { Flute = carton?.Board?.Flute, EdgeCrush = Writing.TextOf(BoardJson.InPoundsPerInch(carton?.Board?.EdgeCrush, metric)) },
    };

    internal static CartonJson Of(Carton carton, UnitSystem units) => new(
        Math.Round(carton.Length.In(units), 6),
        Math.Round(carton.Width.In(units), 6),
        Math.Round(carton.Height.In(units), 6),
        Math.Round(carton.GrossWeight.In(units), 6),
        carton.Board is { } board ? new(board.Flute.ToString(), BoardJson.Shown(board, units)) : null);
}

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
