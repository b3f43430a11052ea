using Fettle.Engineering.Identification;

namespace Fettle.Engineering.Tests.Identification;

public class GsinTests
{
    [Fact]
    public void A_shipment_number_has_seventeen_digits_with_a_check_digit()
    {
        Assert.Equal("12345678901234560", Gsin.Create("1234567", 890123456));
        Assert.True(Gsin.IsValid("12345678901234560"));
        Assert.False(Gsin.IsValid("12345678901234561"));
        Assert.False(Gsin.IsValid("376104250021234569"));
        Assert.Throws<ArgumentOutOfRangeException>(() => Gsin.Create("1234567", 1_000_000_000));
        Assert.Throws<ArgumentException>(() => Gsin.Create("123", 1));
        Assert.Throws<ArgumentException>(() => Gsin.Create("1234567890123", 1));
        Assert.Throws<ArgumentException>(() => Gsin.Create("12345a7", 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Gsin.Create("1234567", -1));
        Assert.True(Gsin.IsValid(Gsin.Create("1234", 999_999_999_999)));
        Assert.True(Gsin.IsValid(Gsin.Create("123456789012", 9_999)));
        Assert.Equal("1234567000000000", Gsin.Create("1234567", 0)[..16]);
    }
}
