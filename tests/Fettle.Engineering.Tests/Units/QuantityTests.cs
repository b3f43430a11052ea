using System.Globalization;
using System.Text.Json;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

public class QuantityTests
{
    [Theory]
    [InlineData(2.5, Unit.Inch, UnitSystem.Imperial, "2.5 in")]
    [InlineData(2.5, Unit.Inch, UnitSystem.Metric, "6.35 cm")]
    [InlineData(940, Unit.Pound, UnitSystem.Metric, "426 kg")]
    [InlineData(12345.6, Unit.Pound, UnitSystem.Imperial, "12,346 lb")]
    [InlineData(500, Unit.Mile, UnitSystem.Metric, "805 km")]
    [InlineData(12, Unit.Percent, UnitSystem.Metric, "12 %")]
    [InlineData(1234, Unit.Piece, UnitSystem.Imperial, "1,234")]
    [InlineData(0.853, Unit.One, UnitSystem.Imperial, "0.85")]
    [InlineData(12.345, Unit.One, UnitSystem.Imperial, "12.3")]
    [InlineData(1234.56, Unit.One, UnitSystem.Imperial, "1,234.6")]
    [InlineData(9.876, Unit.Inch, UnitSystem.Imperial, "9.88 in")]
    [InlineData(98.76, Unit.Inch, UnitSystem.Imperial, "98.8 in")]
    [InlineData(200, Unit.KilogramPerCubicMetre, UnitSystem.Imperial, "12.5 lb/ft³")]
    [InlineData(-0.001, Unit.Inch, UnitSystem.Imperial, "0 in")]
    public void A_figure_is_shown_in_its_readers_units(double value, Unit unit, UnitSystem units, string shown) =>
        Assert.Equal(shown.Replace(' ', '\u00a0'), new Quantity(value, unit).Show(units, CultureInfo.InvariantCulture));

    [Fact]
    public void A_figure_is_shown_in_the_culture_that_is_asked_for()
    {
        Assert.Equal("2,5\u00a0in", new Quantity(2.5, Unit.Inch).Show(UnitSystem.Imperial, CultureInfo.GetCultureInfo("de-DE")));
        Assert.Equal("2.5\u00a0in", new Quantity(2.5, Unit.Inch).Show(UnitSystem.Imperial));
        Assert.Equal("2.5 INH", new Quantity(2.5, Unit.Inch).ToString());
    }

    // UN/CEFACT Recommendation 20; SMI and KMT from memory.
    [Theory]
    [InlineData(Unit.One, "C62", "")]
    [InlineData(Unit.Piece, "H87", "")]
    [InlineData(Unit.Percent, "P1", "%")]
    [InlineData(Unit.Inch, "INH", "in")]
    [InlineData(Unit.Centimetre, "CMT", "cm")]
    [InlineData(Unit.Pound, "LBR", "lb")]
    [InlineData(Unit.Kilogram, "KGM", "kg")]
    [InlineData(Unit.PoundPerCubicFoot, "87", "lb/ft³")]
    [InlineData(Unit.KilogramPerCubicMetre, "KMQ", "kg/m³")]
    [InlineData(Unit.Mile, "SMI", "mi")]
    [InlineData(Unit.Kilometre, "KMT", "km")]
    public void A_unit_has_the_recommendations_code_and_a_short_word(Unit unit, string code, string word) =>
        Assert.Equal((code, word), (unit.Code(), unit.Word()));

    [Fact]
    public void What_is_no_unit_has_no_code() => Assert.Throws<ArgumentOutOfRangeException>(() => ((Unit)99).Code());

    [Fact]
    public void Going_to_the_other_family_and_back_changes_nothing()
    {
        foreach (var unit in Enum.GetValues<Unit>())
        {
            var figure = new Quantity(123.456, unit);
            var there = figure.In(UnitSystem.Metric);
            var back = there.In(UnitSystem.Imperial).In(UnitSystem.Metric);
            Assert.Equal(there.Unit, back.Unit);
            Close.To(there.Value, back.Value, 1e-12);
        }
    }

    [Fact]
    public void Every_unit_has_a_code_of_its_own_that_reads_back()
    {
        var units = Enum.GetValues<Unit>();
        Assert.All(units, unit => Assert.Equal(unit, UnitCodes.FromCode(unit.Code())));
        Assert.Equal(units.Length, units.Select(u => u.Code()).Distinct().Count());
        Assert.Null(UnitCodes.FromCode("XYZ"));
    }

    [Fact]
    public void Json_carries_the_code()
    {
        Quantity figure = Length.FromInches(2.5);
        Assert.Equal("""{"value":2.5,"unit":"INH"}""", JsonSerializer.Serialize(figure));
        Assert.Equal(figure, JsonSerializer.Deserialize<Quantity>("""{"value":2.5,"unit":"INH"}"""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Quantity>("""{"value":2.5,"unit":"XYZ"}"""));
    }

    /// <summary>A weight of next to nothing against cartons that add up: the share was written with one figure and read back with another.</summary>
    [Theory]
    [InlineData(3991612855900.0005)]
    [InlineData(1_234_567_890.1234567)]
    [InlineData(999_999_999.1234567)]
    [InlineData(-3991612855900.0005)]
    public void A_figure_past_all_sense_is_stored_the_same_when_it_is_stored_again(double value)
    {
        var once = System.Text.Json.JsonSerializer.Serialize(Quantity.Percent(value));
        Assert.Equal(once, System.Text.Json.JsonSerializer.Serialize(System.Text.Json.JsonSerializer.Deserialize<Quantity>(once)));
    }
}
