using CsCheck;
using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Identification;

public class Gs1128Tests
{
    // Arithmetic with start C = 105 and FNC1 = 102; the codes are GS1's own examples.
    [Theory]
    [InlineData("376104250021234569", 50)]
    [InlineData("123456789012345675", 42)]
    public void The_check_value_of_a_logistic_label(string digits, int check)
    {
        Assert.True(Sscc.TryParse(digits, out var code));
        var values = Gs1128.Encode([ElementString.Of(code)]);
        Assert.Equal([105, 102, 0], values.Take(3));
        Assert.Equal([check, 106], values.TakeLast(2));
        Assert.Equal(1 + 1 + 10 + 1 + 1, values.Count);
        Assert.Equal(check, Gs1128.CheckValue([.. values.SkipLast(2)]));
    }

    [Fact]
    public void Letters_move_the_symbol_to_set_B_and_long_runs_of_digits_back()
    {
        var values = Gs1128.Encode(
        [
            new(ApplicationIdentifier.Order, "A1234567"),
            new(ApplicationIdentifier.Count, "7"),
        ]);
        // Start B, FNC1, "400A1" in set B, set C: 23 45 67, FNC1, 37, set B: "7".
        Assert.Equal([104, 102, 20, 16, 16, 33, 17, 99, 23, 45, 67, 102, 37, 100, 23], values.SkipLast(2));
    }

    [Fact]
    public void Four_digits_start_in_set_C_and_three_in_set_B()
    {
        Assert.Equal([105, 102, 37, 12], Gs1128.Encode([new(ApplicationIdentifier.Count, "12")]).SkipLast(2));
        Assert.Equal([104, 102, 19, 23, 17], Gs1128.Encode([new(ApplicationIdentifier.Count, "1")]).SkipLast(2));
        // "403A", then six digits: an even run goes to set C at once; two digits stay in set B.
        Assert.Equal([104, 102, 20, 16, 19, 33, 99, 12, 34, 56], Gs1128.Encode([new(ApplicationIdentifier.Route, "A123456")]).SkipLast(2));
        Assert.Equal([104, 102, 20, 16, 19, 33, 99, 12, 34], Gs1128.Encode([new(ApplicationIdentifier.Route, "A1234")]).SkipLast(2));
        Assert.Equal([104, 102, 20, 16, 19, 33, 17, 18], Gs1128.Encode([new(ApplicationIdentifier.Route, "A12")]).SkipLast(2));
    }

    [Fact]
    public void A_symbol_holds_forty_eight_characters_and_not_one_more()
    {
        ElementString Order(int length) => new(ApplicationIdentifier.Order, new string('A', length));
        // 400 and 30 characters, a separator, 403 and 11: 48.
        Assert.Equal(48 + 4, Gs1128.Encode([Order(30), new(ApplicationIdentifier.Route, new string('B', 11))]).Count);
        Assert.Throws<ArgumentException>(() => Gs1128.Encode([Order(30), new(ApplicationIdentifier.Route, new string('B', 12))]));
    }

    [Fact]
    public void Decoding_the_values_gives_the_data_back()
    {
        var text = Gen.OneOf(Gen.Char['0', '9'], Gen.Char['A', 'Z'], Gen.Char['a', 'z']).Array[1, 18].Select(c => new string(c));
        Gen.Select(text, text, Gen.Int[1, 99_999_999]).Sample((order, route, count) =>
        {
            ElementString[] elements =
            [
                new(ApplicationIdentifier.Order, order),
                new(ApplicationIdentifier.Count, count.ToString(System.Globalization.CultureInfo.InvariantCulture)),
                new(ApplicationIdentifier.Route, route),
            ];
            if (ElementString.Join(elements).Length <= Gs1128.MostCharacters)
                Assert.Equal(ElementString.Join(elements), Decode(Gs1128.Encode(elements)));
        });
    }

    [Fact]
    public void A_mixed_label_says_what_was_meant()
    {
        ElementString[] elements =
        [
            ElementString.Of(Sscc.Create(0, "7610425", 1)),
            ElementString.GrossKilograms(Mass.FromKilograms(426.5)),
            new(ApplicationIdentifier.Count, "144"),
        ];
        Assert.Equal("007610425000000001" + CheckDigit.Of("07610425000000001"), "00" + elements[0].Data[1..^1] + elements[0].Data[^1]);
        Assert.Equal(ElementString.Join(elements), Decode(Gs1128.Encode(elements)));
    }

    [Fact]
    public void Every_pattern_obeys_the_rules_of_the_symbology()
    {
        var patterns = Enumerable.Range(0, 106).Select(value => Gs1128.Widths([value])).ToArray();
        Assert.All(patterns, widths =>
        {
            Assert.Equal(6, widths.Count);
            Assert.Equal(11, widths.Sum());
            Assert.All(widths, w => Assert.InRange(w, 1, 4));
            Assert.Equal(0, (widths[0] + widths[2] + widths[4]) % 2);
        });
        Assert.Equal(106, patterns.Select(widths => string.Concat(widths)).Distinct().Count());
        Assert.Equal([2, 3, 3, 1, 1, 1, 2], Gs1128.Widths([106]));
    }

    [Fact]
    public void A_symbol_is_eleven_modules_a_value_and_two_more_for_the_last_bar()
    {
        var values = Gs1128.Encode([ElementString.Of(Sscc.Create(3, "7610425", 2123456))]);
        Assert.Equal((11 * values.Count) + 2, Gs1128.Widths(values).Sum());
    }

    [Fact]
    public void Too_much_for_one_symbol_is_refused()
    {
        Assert.Throws<ArgumentException>(() => Gs1128.Encode([]));
        Assert.Throws<ArgumentException>(() => Gs1128.Encode(
        [
            new(ApplicationIdentifier.Order, new string('A', 30)),
            new(ApplicationIdentifier.Route, new string('B', 30)),
        ]));
    }

    /// <summary>A reader of its own, written from the rules of sets B and C.</summary>
    private static string Decode(IReadOnlyList<int> values)
    {
        Assert.Equal(106, values[^1]);
        Assert.Equal(Gs1128.CheckValue([.. values.SkipLast(2)]), values[^2]);
        var inC = values[0] == 105;
        Assert.Equal(102, values[1]);
        var text = new System.Text.StringBuilder();
        foreach (var value in values.Skip(2).SkipLast(2))
        {
            switch (value)
            {
                case 102:
                    text.Append(ElementString.Separator);
                    break;
                case 99 when !inC:
                    inC = true;
                    break;
                case 100 when inC:
                    inC = false;
                    break;
                default:
                    text.Append(inC ? value.ToString("00", System.Globalization.CultureInfo.InvariantCulture) : ((char)(value + ' ')).ToString());
                    break;
            }
        }

        return text.ToString();
    }

    [Fact]
    public void A_number_of_one_s_own_is_plain_Code_128_without_FNC1()
    {
        // Start B, "P-4K7Q2M/A1-2" as value less 32.
        Assert.Equal([104, 48, 13, 20, 43, 23, 49, 18, 45, 15, 33, 17, 13, 18], Gs1128.EncodePlain("P-4K7Q2M/A1-2").SkipLast(2));
        Assert.Equal([105, 12, 34], Gs1128.EncodePlain("1234").SkipLast(2));
        Assert.DoesNotContain(102, Gs1128.EncodePlain("P-4K7Q2M/A1-2").SkipLast(2));
    }

    [Theory]
    [InlineData("")]
    [InlineData("棚 7")]
    [InlineData("a\tb")]
    [InlineData("é")]
    public void What_plain_Code_128_cannot_say_is_refused(string text)
    {
        Assert.False(Gs1128.CanEncodePlain(text));
        Assert.Throws<ArgumentException>(() => Gs1128.EncodePlain(text));
        Assert.False(Gs1128.CanEncodePlain(new string('A', 49)));
        Assert.True(Gs1128.CanEncodePlain(new string('~', 48)));
    }
}
