using System.Text.Json;
using CsCheck;
using Fettle.Engineering.Identification;

namespace Fettle.Engineering.Tests.Identification;

public class SsccTests
{
    [Fact]
    public void Is_made_of_extension_prefix_serial_and_check_digit() =>
        // GS1 General Specifications' example, from memory: 3 7610425 002123456 9.
        Assert.Equal("376104250021234569", Sscc.Create(3, "7610425", 2123456).Value);

    [Theory]
    [InlineData("376104250021234569")]
    [InlineData("(00)376104250021234569")]
    [InlineData("(00) 3 7610425 002123456 9")]
    public void Is_read_as_people_write_it(string text)
    {
        Assert.True(Sscc.TryParse(text, out var code));
        Assert.Equal("376104250021234569", code.Value);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("123456789012345670")]
    [InlineData("37610425002123456")]
    [InlineData("3761042500212345690")]
    [InlineData("37610425002123456X")]
    public void Refuses_what_is_not_one(string? text) => Assert.False(Sscc.TryParse(text, out _));

    [Fact]
    public void As_a_product_code_the_extension_digit_moves_and_the_check_digit_goes()
    {
        // EPCIS reference material: key 106141412345678908.
        Assert.True(Sscc.TryParse("106141412345678908", out var code));
        Assert.Equal("urn:epc:id:sscc:0614141.1234567890", code.ToUrn(7));
        Assert.True(Sscc.TryParseUrn("urn:epc:id:sscc:0614141.1234567890", out var back));
        Assert.Equal(code, back);
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sscc:0614141.123456789", out _));
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sscc:0614141", out _));
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sgtin:0614141.1234567890", out _));
        Assert.False(Sscc.TryParseUrn(null, out _));
    }

    [Fact]
    public void Whatever_is_made_can_be_read_again() =>
        Gen.Int[4, 12].SelectMany(n => Gen.Select(Gen.Int[0, 9], Gen.Char['0', '9'].Array[n], Gen.Long[0, (long)Math.Pow(10, 16 - n) - 1])).Sample((extension, digits, serial) =>
        {
            var prefix = new string(digits);
            var code = Sscc.Create(extension, prefix, serial);
            Assert.True(Sscc.TryParse(code.Value, out var read));
            Assert.Equal(code, read);
            Assert.True(Sscc.TryParseUrn(code.ToUrn(prefix.Length), out var fromUrn));
            Assert.Equal(code, fromUrn);
            Assert.Equal(code, JsonSerializer.Deserialize<Sscc>(JsonSerializer.Serialize(code)));
        });

    [Fact]
    public void Parts_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.Create(10, "7610425", 1));
        Assert.Throws<ArgumentException>(() => Sscc.Create(0, "761", 1));
        Assert.Throws<ArgumentException>(() => Sscc.Create(0, "76104a5", 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.Create(0, "7610425", -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.Create(0, "7610425", 1_000_000_000));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.Create(0, "7610425", 1).ToUrn(3));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Sscc>("\"123\""));
        Assert.Throws<JsonException>(() => JsonSerializer.Deserialize<Sscc>("376104250021234569"));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.Create(-1, "7610425", 1));
        Assert.Throws<ArgumentException>(() => Sscc.Create(0, "1234567890123", 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.Create(0, "7610425", 1).ToUrn(13));
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sscc:061.12345678901234", out _));
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sscc:0614141234567.1234", out _));
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sscc:06141a1.1234567890", out _));
        Assert.False(Sscc.TryParseUrn("urn:epc:id:sscc:0614141.12345678x0", out _));
    }

    [Fact]
    public void The_shortest_and_longest_prefix_and_the_last_serial_are_good()
    {
        Assert.True(Sscc.TryParse(Sscc.Create(9, "1234", 999_999_999_999).Value, out _));
        Assert.True(Sscc.TryParse(Sscc.Create(0, "123456789012", 9_999).Value, out var code));
        Assert.Equal(code.Value, code.ToString());
        Assert.Equal("urn:epc:id:sscc:0123.4567890120999"[..20], Sscc.Create(0, "0123", 1).ToUrn(4)[..20]);
        // Up to 60 characters are read, spaces and all.
        Assert.True(Sscc.TryParse("376104250021234569" + new string(' ', 42), out _));
        Assert.False(Sscc.TryParse("376104250021234569" + new string(' ', 43), out _));
    }

    [Theory]
    [InlineData("9521101", 0, "095211010000000009")]
    [InlineData("9521101", 999_999_999, "095211019999999998")]
    [InlineData("9521101", 1_000_000_000, "195211010000000006")]
    [InlineData("9521101", 9_999_999_999, "995211019999999991")]
    [InlineData("9521101", 10_000_000_000, null)]
    [InlineData("952110112345", 99_999, "995211011234599997")]
    [InlineData("952110112345", 100_000, null)]
    public void A_running_number_fills_the_serial_and_then_the_extension_digit(string prefix, long number, string? code)
    {
        var made = Sscc.OfNumber(prefix, number);
        Assert.Equal(code, made?.Value);
        Assert.True(made is null || CheckDigit.Matches(made.Value));
    }

    [Fact]
    public void Different_running_numbers_never_give_the_same_code() =>
        Assert.Equal(100_000, Enumerable.Range(0, 100_000).Select(number => Sscc.OfNumber("952110112345", number)).Distinct().Count());

    [Fact]
    public void A_running_number_is_not_negative_and_a_prefix_has_its_digits()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Sscc.OfNumber("9521101", -1));
        Assert.Throws<ArgumentException>(() => Sscc.OfNumber("952", 1));
    }
}
