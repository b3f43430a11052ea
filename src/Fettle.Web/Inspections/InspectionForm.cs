namespace Fettle.Web.Inspections;

/// <summary>An inspection as typed. What is left empty was not looked at.</summary>
public sealed record InspectionForm
{
    /// <summary>Made on the device: the form sent twice is one inspection.</summary>
    public string? Id { get; set; }

    /// <summary>Name of the declared line.</summary>
    public string? Reference { get; set; }

    /// <summary>Which of the line's units, from 1.</summary>
    public string? Index { get; set; }

    /// <summary>What was scanned from it.</summary>
    public string? Sscc { get; set; }

    public MeasuredForm Measured { get; set; } = new();

    public List<DamageForm> Damage { get; set; } = [];

    public string? StackTest { get; set; }

    public string? Alike { get; set; }

    public string? Note { get; set; }

    /// <summary>By the device's clock, with its offset from UTC.</summary>
    public string? TakenAt { get; set; }
}

public sealed record MeasuredForm
{
    public string? Length { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }

    public string? GrossWeight { get; set; }

    public string? OverhangAtEnds { get; set; }

    public string? OverhangAtSides { get; set; }

    public string? WrapTurns { get; set; }

    /// <summary>"yes" or "no".</summary>
    public string? WrapOverPlatform { get; set; }

    public string? CornerBoards { get; set; }
}

public sealed record DamageForm
{
    public string? Kind { get; set; }

    public string? Where { get; set; }

    public string? Note { get; set; }

    public bool IsEmpty => string.IsNullOrWhiteSpace(Kind) && string.IsNullOrWhiteSpace(Where) && string.IsNullOrWhiteSpace(Note);
}
