namespace Fettle.Engineering.Units;

/// <summary>
/// A unit that a figure is shown in. <see cref="UnitCodes"/> gives each its UN/CEFACT Recommendation 20 code, the form it
/// has in JSON and in trade messages.
/// </summary>
public enum Unit
{
    /// <summary>A plain number or ratio (C62).</summary>
    One,

    /// <summary>Pieces (H87).</summary>
    Piece,

    /// <summary>Percent (P1).</summary>
    Percent,

    /// <summary>Inches (INH).</summary>
    Inch,

    /// <summary>Centimetres (CMT).</summary>
    Centimetre,

    /// <summary>Pounds (LBR).</summary>
    Pound,

    /// <summary>Kilograms (KGM).</summary>
    Kilogram,

    /// <summary>Pounds per cubic foot (87).</summary>
    PoundPerCubicFoot,

    /// <summary>Kilograms per cubic metre (KMQ).</summary>
    KilogramPerCubicMetre,

    /// <summary>Statute miles (SMI; the code is from memory).</summary>
    Mile,

    /// <summary>Kilometres (KMT; the code is from memory).</summary>
    Kilometre,
}

/// <summary>Units as codes, as the short words people read, and their counterpart in the other family.</summary>
public static class UnitCodes
{
    private static readonly (Unit Unit, string Code, string Word)[] All =
    [
        (Unit.One, "C62", ""),
        (Unit.Piece, "H87", ""),
        (Unit.Percent, "P1", "%"),
        (Unit.Inch, "INH", "in"),
        (Unit.Centimetre, "CMT", "cm"),
        (Unit.Pound, "LBR", "lb"),
        (Unit.Kilogram, "KGM", "kg"),
        (Unit.PoundPerCubicFoot, "87", "lb/ft³"),
        (Unit.KilogramPerCubicMetre, "KMQ", "kg/m³"),
        (Unit.Mile, "SMI", "mi"),
        (Unit.Kilometre, "KMT", "km"),
    ];

    /// <summary>The UN/CEFACT Recommendation 20 code.</summary>
    public static string Code(this Unit unit) => Find(unit).Code;

    /// <summary>The short word shown after a number; empty for plain numbers and pieces.</summary>
    public static string Word(this Unit unit) => Find(unit).Word;

    /// <summary>The unit of a Recommendation 20 code, or null when Fettle does not use it.</summary>
    public static Unit? FromCode(string code)
    {
        foreach (var row in All)
        {
            if (row.Code == code)
                return row.Unit;
        }

        return null;
    }

    private static (Unit Unit, string Code, string Word) Find(Unit unit)
    {
        foreach (var row in All)
        {
            if (row.Unit == unit)
                return row;
        }

        throw new ArgumentOutOfRangeException(nameof(unit), unit, "Not a unit.");
    }
}
