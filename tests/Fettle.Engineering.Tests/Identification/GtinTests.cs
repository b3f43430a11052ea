using Fettle.Engineering.Identification;

namespace Fettle.Engineering.Tests.Identification;

public class GtinTests
{
    [Theory]
    [InlineData("6291041500213", true)] // GS1 national offices
    [InlineData("614141210220", true)] // Uniform Code Council page
    [InlineData("12345678901231", true)] // GS1
    [InlineData("12345670", true)] // arithmetic, eight digits
    [InlineData("6291041500214", false)]
    [InlineData("629104150021", false)]
    [InlineData("", false)]
    public void A_trade_item_number_has_its_length_and_check_digit(string text, bool valid) => Assert.Equal(valid, Gtin.IsValid(text));

    [Fact]
    public void Fourteen_digits_keep_the_check_digit()
    {
        Assert.Equal("06291041500213", Gtin.ToFourteen("6291041500213"));
        Assert.True(Gtin.IsValid("06291041500213"));
        Assert.Throws<ArgumentException>(() => Gtin.ToFourteen("6291041500214"));
    }
}
