using System.Globalization;
using CsCheck;
using Fettle.Engineering.Identification;

namespace Fettle.Engineering.Tests.Identification;

public class CheckDigitTests
{
    [Theory]
    [InlineData("12345678901234567", 5)] // GS1 syntax engine, unit test
    [InlineData("00614141123456789", 0)] // GS1 syntax engine
    [InlineData("95201234567891234", 5)] // GS1 syntax engine
    [InlineData("37610425002123456", 9)] // GS1 General Specifications' example, from memory
    [InlineData("629104150021", 3)] // GS1 national offices, GTIN-13
    [InlineData("61414121022", 0)] // Uniform Code Council page, GTIN-12
    [InlineData("101454121022", 3)] // arithmetic
    [InlineData("890400021003", 7)] // GS1 India
    [InlineData("1234567890123", 1)] // GS1, GTIN-14
    [InlineData("1234567890123456", 0)] // arithmetic, GSIN
    public void Agrees_with_published_numbers(string body, int digit)
    {
        Assert.Equal(digit, CheckDigit.Of(body));
        Assert.True(CheckDigit.Matches(body + digit.ToString(CultureInfo.InvariantCulture)));
    }

    [Theory]
    [InlineData("123456789012345670")] // GS1 syntax engine: must fail
    [InlineData("")]
    [InlineData("5")]
    [InlineData("12a4")]
    [InlineData("١٢٣٤")]
    [InlineData("12 4")]
    public void Refuses_what_is_wrong(string text) => Assert.False(CheckDigit.Matches(text));

    [Fact]
    public void Notices_every_single_wrong_digit() =>
        Gen.Select(Gen.Char['0', '9'].Array[17], Gen.Int[0, 17], Gen.Int[1, 9]).Sample((digits, place, change) =>
        {
            var body = new string(digits);
            var whole = (body + CheckDigit.Of(body).ToString(CultureInfo.InvariantCulture)).ToCharArray();
            Assert.True(CheckDigit.Matches(whole));
            whole[place] = (char)('0' + ((whole[place] - '0' + change) % 10));
            Assert.False(CheckDigit.Matches(whole));
        });
}
