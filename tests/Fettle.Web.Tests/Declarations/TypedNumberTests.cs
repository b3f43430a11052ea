using System.Globalization;
using Fettle.Web.Declarations;

namespace Fettle.Web.Tests.Declarations;

/// <summary>A comma is a decimal comma or groups thousands, never dropped: that would make a hundred dollars of one.</summary>
public sealed class TypedNumberTests
{
    [Theory]
    [InlineData("85", "85")]
    [InlineData("85.50", "85.5")]
    [InlineData("85,50", "85.5")]
    [InlineData("$1,200.50", "1200.5")]
    [InlineData("1200,50", "1200.5")]
    [InlineData("1,200", "1200")]
    [InlineData("1.200,50", null)]
    [InlineData("85.505", null)]
    [InlineData("-1", null)]
    [InlineData("10,000.01", null)]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void Dollars_are_read_to_the_cent(string? text, string? dollars) =>
        Assert.Equal(dollars is null ? null : decimal.Parse(dollars, CultureInfo.InvariantCulture), Dollars.Parse(text, 10_000));

    [Theory]
    [InlineData("512,5", 512.5)]
    [InlineData("1,200", 1200.0)]
    [InlineData(" 420 ", 420.0)]
    [InlineData("5,12", 5.12)]
    [InlineData("NaN", null)]
    [InlineData("1e3", null)]
    public void Miles_have_a_decimal_comma_too(string text, double? miles) => Assert.Equal(miles, PickupFormValidator.Miles(text));

    [Fact]
    public void So_have_a_boards_strength_and_a_freight_class()
    {
        Assert.Equal(5.5, UnitFormValidator.EdgeCrush("5,5"));
        Assert.Equal(92.5m, UnitFormValidator.FreightClass("92,5"));
        Assert.Null(UnitFormValidator.FreightClass("92,6"));
    }
}
