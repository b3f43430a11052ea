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
}

public sealed record UnitForm
{
    public string? Reference { get; set; }

    public string? Quantity { get; set; }

    /// <summary>pallet, crate or loose-carton.</summary>
    public string? Kind { get; set; }

    public PlatformForm Platform { get; set; } = new();

    public OuterForm Outer { get; set; } = new();

    public string? GrossWeight { get; set; }

    public ContentsForm Contents { get; set; } = new();

    public bool Stackable { get; set; }

    public ProtectionForm Protection { get; set; } = new();

    public string? Fragile { get; set; }

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
}

public sealed record OuterForm
{
    public string? Length { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }
}

public sealed record ContentsForm
{
    /// <summary>cartons or piece.</summary>
    public string? Kind { get; set; }

    public CartonForm Carton { get; set; } = new();

    public string? PerLayer { get; set; }

    public string? Layers { get; set; }

    public string? TopLayer { get; set; }

    /// <summary>column or interlocked.</summary>
    public string? Stack { get; set; }

    public string? Description { get; set; }
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
