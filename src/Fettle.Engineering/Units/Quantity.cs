using System.Globalization;
using System.Text.Json.Serialization;

namespace Fettle.Engineering.Units;

/// <summary>A number with its unit: the form in which a measured figure or a limit is stored with a finding and shown.</summary>
/// <param name="Value">The number, finite.</param>
/// <param name="Unit">Its unit.</param>
[JsonConverter(typeof(QuantityJsonConverter))]
public readonly record struct Quantity(double Value, Unit Unit)
{
    private const double CubicMetresPerCubicFoot = 0.028316846592;
    private const double KilogramsPerPound = 0.45359237;
    private const double KilometresPerMile = 1.609344;

    /// <summary>A length as a figure, in inches.</summary>
    public static implicit operator Quantity(Length length) => new(length.Inches, Unit.Inch);

    /// <summary>A mass as a figure, in pounds.</summary>
    public static implicit operator Quantity(Mass mass) => new(mass.Pounds, Unit.Pound);

    /// <summary>A count of pieces.</summary>
    public static Quantity Pieces(int count) => new(count, Unit.Piece);

    /// <summary>A plain ratio.</summary>
    public static Quantity Ratio(double value) => new(value, Unit.One);

    /// <summary>A percentage: 3 means 3 %.</summary>
    public static Quantity Percent(double value) => new(value, Unit.Percent);

    /// <summary>A distance in statute miles.</summary>
    public static Quantity Miles(double value) => new(value, Unit.Mile);

    /// <summary>The same physical quantity in the units of a family; plain numbers stay as they are.</summary>
    public Quantity In(UnitSystem units) => (units, Unit) switch
    {
        (UnitSystem.Metric, Unit.Inch) => new(Value * 2.54, Unit.Centimetre),
        (UnitSystem.Metric, Unit.Pound) => new(Value * KilogramsPerPound, Unit.Kilogram),
        (UnitSystem.Metric, Unit.PoundPerCubicFoot) => new(Value * KilogramsPerPound / CubicMetresPerCubicFoot, Unit.KilogramPerCubicMetre),
        (UnitSystem.Metric, Unit.Mile) => new(Value * KilometresPerMile, Unit.Kilometre),
        (UnitSystem.Imperial, Unit.Centimetre) => new(Value / 2.54, Unit.Inch),
        (UnitSystem.Imperial, Unit.Kilogram) => new(Value / KilogramsPerPound, Unit.Pound),
        (UnitSystem.Imperial, Unit.KilogramPerCubicMetre) => new(Value / KilogramsPerPound * CubicMetresPerCubicFoot, Unit.PoundPerCubicFoot),
        (UnitSystem.Imperial, Unit.Kilometre) => new(Value / KilometresPerMile, Unit.Mile),
        _ => this,
    };

    /// <summary>As people read it in their units: "2.5 in", "426 kg", "3", "12 %". Digits shrink as the number grows.</summary>
    public string Show(UnitSystem units, CultureInfo? culture = null)
    {
        var shown = In(units);
        var magnitude = Math.Abs(shown.Value);
        var format = shown.Unit switch
        {
            Unit.Piece => "#,0",
            Unit.One => magnitude < 10 ? "0.##" : "#,0.#",
            _ => magnitude switch { < 10 => "0.##", < 200 => "0.#", _ => "#,0" },
        };
        var number = shown.Value.ToString(format, culture ?? CultureInfo.InvariantCulture);
        // What rounds to nothing is nothing, from either side.
        if (number == "-0")
            number = "0";
        var word = shown.Unit.Word();
        return word.Length == 0 ? number : number + "\u00a0" + word;
    }

    /// <summary>For logs and failing tests.</summary>
    public override string ToString() => Value.ToString("0.####", CultureInfo.InvariantCulture) + " " + Unit.Code();
}
