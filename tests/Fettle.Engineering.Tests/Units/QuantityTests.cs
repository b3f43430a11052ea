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
    [InlineData(200, Unit.KilogramPerCubicMetre, UnitSystem.Imperial, "12.5 lb/ft³")]
    public void A_figure_is_shown_in_its_readers_units(double value, Unit unit, UnitSystem units, string shown) =>
        Assert.Equal(shown.Replace(' ', '\u00a0'), new Quantity(value, unit).Show(units, CultureInfo.InvariantCulture));

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
}
