using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

public class LengthTests
{
    [Fact]
    public void Units_convert_by_the_agreement_of_1959()
    {
        // International yard and pound agreement: one inch is 25.4 mm exactly.
        Assert.Equal(Length.FromMillimetres(25.4), Length.FromInches(1));
        Assert.Equal(Length.FromMetres(0.3048), Length.FromFeet(1));
        Assert.Equal(Length.FromCentimetres(2.54), Length.FromInches(1));
        Assert.Equal(1, Length.FromMillimetres(304.8).Feet);
    }

    [Fact]
    public void Thirty_second_parts_of_an_inch_and_tenths_of_a_millimetre_come_back_as_typed() =>
        Gen.Int[0, 100_000].Sample(n =>
        {
            Assert.Equal(n / 32.0, Length.FromInches(n / 32.0).Inches);
            Assert.Equal(n / 10.0, Length.FromMillimetres(n / 10.0).Millimetres);
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(1e12)]
    public void What_cannot_be_held_is_refused(double inches) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Length.FromInches(inches));

    [Fact]
    public void Running_over_is_an_error_and_not_a_negative_length()
    {
        var far = Length.FromNanometres(long.MaxValue);
        Assert.Throws<OverflowException>(() => far + Length.FromNanometres(1));
        Assert.Throws<OverflowException>(() => far * 2);
        Assert.Throws<ArgumentOutOfRangeException>(() => far * 1.5);
        Assert.Throws<ArgumentOutOfRangeException>(() => Length.FromInches(1) / 0);
    }

    [Fact]
    public void Lengths_are_told_in_every_unit_and_family()
    {
        var length = Length.FromInches(100);
        Assert.Equal((100, 254, 2540, 2.54), (length.Inches, length.Centimetres, length.Millimetres, length.Metres));
        Assert.Equal((254, 100), (length.In(UnitSystem.Metric), length.In(UnitSystem.Imperial)));
        Assert.Equal((length, length), (Length.From(254, UnitSystem.Metric), Length.From(100, UnitSystem.Imperial)));
        Assert.Equal(2.5, length / Length.FromInches(40));
        Assert.Equal((Length.FromInches(40), Length.FromInches(250)), (length / 2.5, length * 2.5));
        Assert.Equal("100 in", length.ToString());
        // 2^63 nanometres are one too many.
        Assert.Throws<ArgumentOutOfRangeException>(() => Length.FromMetres(9_223_372_036.854775807));
    }

    [Fact]
    public void Adding_and_taking_away_undo_each_other() =>
        Gen.Select(Gen.Long[-1_000_000_000_000, 1_000_000_000_000], Gen.Long[-1_000_000_000_000, 1_000_000_000_000]).Sample((x, y) =>
        {
            var (a, b) = (Length.FromNanometres(x), Length.FromNanometres(y));
            Assert.Equal(a, a + b - b);
            Assert.Equal(a - b, -(b - a));
            Assert.Equal((a - b).Abs(), (b - a).Abs());
            Assert.Equal(a + a + a, 3 * a);
        });

    [Fact]
    public void Json_carries_millimetres_and_reads_five_units()
    {
        Assert.Equal("""{"value":1219.2,"unit":"MMT"}""", JsonSerializer.Serialize(Length.FromInches(48)));
        Assert.Equal(Length.FromInches(48), JsonSerializer.Deserialize<Length>("""{"unit":"INH","value":48}"""));
        Assert.Equal(Length.FromInches(48), JsonSerializer.Deserialize<Length>("""{"value":4,"unit":"FOT"}"""));
        Assert.Equal(Length.FromInches(48), JsonSerializer.Deserialize<Length>("""{"value":121.92,"unit":"CMT"}"""));
        Assert.Equal(Length.FromInches(48), JsonSerializer.Deserialize<Length>("""{"value":1.2192,"unit":"MTR","note":"ignored"}"""));
        Assert.Equal(Length.FromInches(48), JsonSerializer.Deserialize<Length>("""{"note":{"value":1},"value":48,"unit":"INH"}"""));
    }

    [Theory]
    [InlineData("48")]
    [InlineData("\"48\"")]
    [InlineData("null")]
    [InlineData("""{"value":48}""")]
    [InlineData("""{"unit":"INH"}""")]
    [InlineData("""{"value":"48","unit":"INH"}""")]
    [InlineData("""{"value":48,"unit":"KGM"}""")]
    [InlineData("""{"value":1e25,"unit":"MTR"}""")]
    [InlineData("""{"value":1e20,"unit":"MTR"}""")]
    public void Json_that_is_no_length_is_refused(string json) =>
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Length>(json));
}
