namespace Fettle.Web.Declarations;

/// <summary>
/// A pickup as it was typed. Text stays text, so that nothing is lost when it cannot be read yet. Names are those of the
/// API's JSON, so that a finding's subject, a field of the page and a field of the API are one word.
/// </summary>
public sealed record PickupForm
{
    /// <summary>imperial or metric: how bare numbers are read. A number with its unit written behind it is read as written.</summary>
    public string? Units { get; set; }

    public string? Site { get; set; }

    public string? Terminal { get; set; }

    public string? Destination { get; set; }

    /// <summary>Street, town and postal code; may be left open.</summary>
    public string? ConsigneeAddress { get; set; }

    public WindowForm Window { get; set; } = new();

    public string? Equipment { get; set; }

    public bool DriverOnDock { get; set; }

    public LaneForm Lane { get; set; } = new();

    public List<UnitForm> HandlingUnits { get; set; } = [];
}

/// <summary>Date as yyyy-MM-dd and clock times as HH:mm, meant at the site.</summary>
public sealed record WindowForm
{
    public string? Date { get; set; }

    public string? From { get; set; }

    public string? To { get; set; }
}

public sealed record LaneForm
{
    public string? Miles { get; set; }

    public string? Transfers { get; set; }

    public bool CrossBorder { get; set; }

    public bool Liftgate { get; set; }

    public bool NoDock { get; set; }
}

public sealed record UnitForm
{
    public string? Reference { get; set; }

    public string? Quantity { get; set; }

    /// <summary>pallet, crate, loose-carton, drum or piece.</summary>
    public string? Kind { get; set; }

    public PlatformForm Platform { get; set; } = new();

    public OuterForm Outer { get; set; } = new();

    public string? GrossWeight { get; set; }

    public ContentsForm Contents { get; set; } = new();

    public bool Stackable { get; set; }

    public ProtectionForm Protection { get; set; } = new();

    public string? Fragile { get; set; }

    public bool Partitions { get; set; }

    /// <summary>flat, uneven or pyramid.</summary>
    public string? TopSurface { get; set; }

    /// <summary>Words: decking, airbags, no-top-load, strap, bulkhead.</summary>
    public List<string?> Requests { get; set; } = [];

    public bool Hazardous { get; set; }

    public bool TemperatureControlled { get; set; }

    public string? ConfirmedBy { get; set; }

    public string? DeclaredClass { get; set; }

    public string? BuiltBy { get; set; }

    /// <summary>An ordinary pallet of cartons, with the figures that differ every time left open.</summary>
    public static UnitForm Ordinary(string reference) => new()
    {
        Reference = reference,
        Quantity = "1",
        Kind = "pallet",
        Platform = new() { Length = "48 in", Width = "40 in", Height = "5 1/2 in", Tare = "40 lb", Material = "wood" },
        Contents = new() { Kind = "cartons", Stack = "column", Carton = new() { Board = new() { Flute = "C", EdgeCrush = "32" } } },
        Protection = new() { CornerBoards = "none" },
        Fragile = "none",
    };
}

public sealed record PlatformForm
{
    public string? Length { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }

    public string? Tare { get; set; }

    public string? Material { get; set; }

    public string? Rating { get; set; }

    /// <summary>four-way or two-way.</summary>
    public string? Entry { get; set; }

    /// <summary>sound, worn or damaged.</summary>
    public string? Condition { get; set; }

    /// <summary>none, ht, mb, dh or sf.</summary>
    public string? TreatmentMark { get; set; }
}

public sealed record OuterForm
{
    public string? Length { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }
}

public sealed record ContentsForm
{
    /// <summary>cartons, mixed-cartons, loose-cartons, crate, drum, bags, rolls, furniture, machinery or piece.</summary>
    public string? Kind { get; set; }

    public CartonForm Carton { get; set; } = new();

    public string? PerLayer { get; set; }

    public string? Layers { get; set; }

    public string? TopLayer { get; set; }

    /// <summary>column or interlocked.</summary>
    public string? Stack { get; set; }

    public string? Description { get; set; }

    /// <summary>Kinds of carton on a mixed pallet.</summary>
    public List<CartonLineForm> Lines { get; set; } = [];

    /// <summary>Drums or rolls on the unit.</summary>
    public string? Count { get; set; }

    /// <summary>Drums above one another.</summary>
    public string? Tiers { get; set; }

    /// <summary>Of a drum or roll.</summary>
    public string? Diameter { get; set; }

    /// <summary>Of a drum; of a roll the length of its axis.</summary>
    public string? Height { get; set; }

    /// <summary>Of one drum, bag or roll.</summary>
    public string? WeightEach { get; set; }

    /// <summary>Of a drum: steel, plastic or fibre.</summary>
    public string? Material { get; set; }

    /// <summary>Of rolls: on-end or on-side.</summary>
    public string? Standing { get; set; }

    /// <summary>What is in a crate cannot move.</summary>
    public bool Braced { get; set; }

    /// <summary>Furniture in a carton of its own.</summary>
    public bool Boxed { get; set; }

    /// <summary>Machinery bolted or strapped to what it stands on.</summary>
    public bool Fastened { get; set; }

    /// <summary>Height of a machine's centre of gravity over the floor.</summary>
    public string? CentreOfGravity { get; set; }
}

public sealed record CartonLineForm
{
    public CartonForm Carton { get; set; } = new();

    public string? Count { get; set; }
}

public sealed record CartonForm
{
    public string? Length { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }

    public string? GrossWeight { get; set; }

    public BoardForm Board { get; set; } = new();
}

public sealed record BoardForm
{
    public string? Flute { get; set; }

    /// <summary>Edge crush in lb/in, whatever the units of the rest: it is printed so on the carton.</summary>
    public string? EdgeCrush { get; set; }
}

public sealed record ProtectionForm
{
    public string? WrapTurns { get; set; }

    public bool WrapOverPlatform { get; set; }

    public string? CornerBoards { get; set; }

    public bool Sleeve { get; set; }

    public bool TopCap { get; set; }

    public string? Straps { get; set; }

    public bool SlipSheets { get; set; }
}
