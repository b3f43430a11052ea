using Fettle.Engineering.Identification;
using Fettle.Readiness.Scans;

namespace Fettle.Readiness.Tests.Scans;

public class ScannedTests
{
    private const string Separator = "\u001d";

    private static readonly Sscc Code = Sscc.Create(3, "0614141", 123456789);

    [Theory]
    [InlineData("{0}")]
    [InlineData(" {0}\t")]
    [InlineData("(00){0}")]
    [InlineData("(00) {0}")]
    [InlineData("00{0}")]
    [InlineData("]C100{0}")]
    [InlineData("]C1" + Separator + "00{0}")]
    [InlineData(Separator + "00{0}")]
    [InlineData("]C100{0}" + Separator + "3401012005")]
    [InlineData("]C100{0}3401012005")]
    [InlineData("(00){0}(3401)012005")]
    [InlineData("]d200{0}")]
    public void A_code_is_read_however_it_comes(string scanned) =>
        Assert.Equal(new ScannedSscc(Code), Scanned.Read(scanned.Replace("{0}", Code.Value, StringComparison.Ordinal)));

    [Fact]
    public void Spaces_between_its_digits_do_no_harm() =>
        Assert.Equal(new ScannedSscc(Code), Scanned.Read($"(00) {Code.Value[..1]} {Code.Value[1..8]} {Code.Value[8..17]} {Code.Value[17..]}"));

    [Fact]
    public void A_wrong_check_digit_is_told_with_the_one_that_fits()
    {
        var right = Code.Value[^1] - '0';
        foreach (var wrong in Enumerable.Range(0, 10).Where(digit => digit != right))
        {
            var scanned = Assert.IsType<WrongCheckDigit>(Scanned.Read("(00)" + Code.Value[..17] + wrong));
            Assert.Equal((right, $"{wrong}"), (scanned.Fits, scanned.Last));
        }
    }

    [Theory]
    [InlineData(17)]
    [InlineData(16)]
    [InlineData(19)]
    public void Digits_short_or_over_are_told_by_their_number(int digits) =>
        Assert.Equal(digits, Assert.IsType<WrongLength>(Scanned.Read(new string('3', digits))).Digits.Length);

    [Theory]
    [InlineData("P-4K7Q2M")]
    [InlineData("p-4k7q2m")]
    [InlineData(" P4K7Q2M ")]
    public void A_pickup_number_is_read_in_any_case(string typed) => Assert.Equal(new ScannedPickup("P-4K7Q2M"), Scanned.Read(typed));

    [Theory]
    [InlineData("P-4K7Q2M/A1", "P-4K7Q2M/A1")]
    [InlineData("p-4k7q2m/a1", "P-4K7Q2M/a1")]
    [InlineData("P-4K7Q2M/A1-2", "P-4K7Q2M/A1-2")]
    [InlineData("P-4K7Q2M#12", "P-4K7Q2M#12")]
    [InlineData("P-4K7Q2M/A1/2", "P-4K7Q2M/A1/2")]
    public void A_number_with_something_after_it_keeps_the_lines_own_name(string typed, string number) =>
        Assert.Equal(new ScannedNumber("P-4K7Q2M", number), Scanned.Read(typed));

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("]C1")]
    [InlineData(Separator)]
    public void Nothing_is_nothing(string? typed) => Assert.Equal(new NothingScanned(), Scanned.Read(typed));

    [Theory]
    [InlineData("Harbour Stores")]
    [InlineData("4711")]
    [InlineData("(01)09521234543213")]
    [InlineData("<script>")]
    public void Anything_else_is_words(string typed) => Assert.Equal(new ScannedWords(typed), Scanned.Read(typed));

    [Fact]
    public void Endless_words_are_cut() => Assert.Equal(60, Assert.IsType<ScannedWords>(Scanned.Read(new string('x', 100_000))).Words.Length);
}
