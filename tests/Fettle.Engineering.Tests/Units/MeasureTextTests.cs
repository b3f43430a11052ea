using System.Globalization;
using CsCheck;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Units;

public class MeasureTextTests
{
    [Theory]
    [InlineData("48", 48)]
    [InlineData("  48  ", 48)]
    [InlineData("+48", 48)]
    [InlineData("48.5", 48.5)]
    [InlineData(".5", 0.5)]
    [InlineData("48 1/2", 48.5)]
    [InlineData("48-1/2", 48.5)]
    [InlineData("48 - 1/2", 48.5)]
    [InlineData("48½", 48.5)]
    [InlineData("48 ½", 48.5)]
    [InlineData("48-½", 48.5)]
    [InlineData("½", 0.5)]
    [InlineData("3/4", 0.75)]
    [InlineData("48 13/64\"", 48.203125)]
    [InlineData("48⅞ in", 48.875)]
    [InlineData("4'2\"", 50)]
    [InlineData("4'2", 50)]
    [InlineData("4' 2 1/2\"", 50.5)]
    [InlineData("4'-2½\"", 50.5)]
    [InlineData("4’2”", 50)]
    [InlineData("4′2″", 50)]
    [InlineData("4'2''", 50)]
    [InlineData("4 ft 2 in", 50)]
    [InlineData("4 FT. 2 IN.", 50)]
    [InlineData("4 feet 2 inches", 50)]
    [InlineData("4ft", 48)]
    [InlineData("4.5 ft", 54)]
    [InlineData("1 1/2 foot", 18)]
    [InlineData("53.5in", 53.5)]
    [InlineData("48,5", 48.5)]
    [InlineData("48,50", 48.5)]
    [InlineData("48,1250", 48.125)]
    [InlineData("0,125", 0.125)]
    [InlineData("1,250", 1250)]
    [InlineData("1,250.5", 1250.5)]
    [InlineData("1,250 1/2", 1250.5)]
    [InlineData("12,345,678", 12345678)]
    [InlineData("-48.5", -48.5)]
    [InlineData("−48 1/2", -48.5)]
    [InlineData("-4'2\"", -50)]
    [InlineData("1219.2mm", 48)]
    [InlineData("121.92 cm", 48)]
    [InlineData("1.2192 m", 48)]
    [InlineData("1 m 21,92 cm", 48)]
    [InlineData("12 centimetres", 12 / 2.54)]
    [InlineData("4' - 2\"", 50)]
    [InlineData("- 48", -48)]
    [InlineData("123455/123456", 123455 / 123456.0)]
    [InlineData("0.123456789012 m", 0.123456789012 / 0.0254)]
    [InlineData("48                                      ", 48)]
    public void A_length_is_read_as_a_dock_clerk_writes_it(string text, double inches)
    {
        Assert.True(MeasureText.TryLength(text, UnitSystem.Imperial, out var length), text);
        Assert.Equal(Length.FromInches(inches), length);
    }

    [Theory]
    [InlineData("in inch inches ins \" ''", 25.4)]
    [InlineData("ft foot feet '", 304.8)]
    [InlineData("mm millimetre millimetres millimeter millimeters", 1)]
    [InlineData("cm centimetre centimetres centimeter centimeters", 10)]
    [InlineData("m metre metres meter meters", 1000)]
    public void Every_word_for_a_unit_of_length_is_known(string words, double millimetres)
    {
        foreach (var word in words.Split(' '))
        {
            Assert.True(MeasureText.TryLength("3 " + word, UnitSystem.Metric, out var length), word);
            Assert.Equal(Length.FromMillimetres(3 * millimetres), length);
        }
    }

    [Theory]
    [InlineData("lb lbs pound pounds #", 0.45359237)]
    [InlineData("oz ounce ounces", 0.45359237 / 16)]
    [InlineData("kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes", 1)]
    [InlineData("g gram grams gramme grammes", 0.001)]
    [InlineData("tonne tonnes", 1000)]
    public void Every_word_for_a_unit_of_mass_is_known(string words, double kilograms)
    {
        foreach (var word in words.Split(' '))
        {
            Assert.True(MeasureText.TryMass("3 " + word, UnitSystem.Metric, out var mass), word);
            Close.To(3 * kilograms, mass.Kilograms, 1e-12);
        }
    }

    [Theory]
    [InlineData('¼', 1, 4)]
    [InlineData('½', 1, 2)]
    [InlineData('¾', 3, 4)]
    [InlineData('⅓', 1, 3)]
    [InlineData('⅔', 2, 3)]
    [InlineData('⅛', 1, 8)]
    [InlineData('⅜', 3, 8)]
    [InlineData('⅝', 5, 8)]
    [InlineData('⅞', 7, 8)]
    public void Every_written_out_fraction_is_known(char fraction, int over, int under)
    {
        Assert.True(MeasureText.TryLength("2" + fraction, UnitSystem.Imperial, out var length));
        Assert.Equal(Length.FromInches(2 + over / (double)under), length);
    }

    [Fact]
    public void What_can_just_be_held_is_read_and_a_nanometre_more_is_not()
    {
        Assert.True(MeasureText.TryLength("9223372036.854775807 m", UnitSystem.Metric, out var most));
        Assert.Equal(long.MaxValue, most.Nanometres);
        Assert.False(MeasureText.TryLength("9223372036.854775808 m", UnitSystem.Metric, out _));
        Assert.True(MeasureText.TryLength("-9223372036.854775808 m", UnitSystem.Metric, out var least));
        Assert.Equal(long.MinValue, least.Nanometres);
        Assert.False(MeasureText.TryLength("-9223372036.854775809 m", UnitSystem.Metric, out _));
        Assert.True(MeasureText.TryLength("123456789012 mm", UnitSystem.Metric, out var digits));
        Assert.Equal(123_456_789_012_000_000, digits.Nanometres);
    }

    [Theory]
    [InlineData("120", 120)]
    [InlineData("120 cm", 120)]
    [InlineData("1.2 m", 120)]
    [InlineData("1,2 m", 120)]
    [InlineData("1219mm", 121.9)]
    [InlineData("48 in", 121.92)]
    public void A_bare_length_is_in_centimetres_for_those_who_work_metric(string text, double centimetres)
    {
        Assert.True(MeasureText.TryLength(text, UnitSystem.Metric, out var length), text);
        Assert.Equal(Length.FromCentimetres(centimetres), length);
    }

    [Theory]
    [InlineData("940", 940)]
    [InlineData("940 lb", 940)]
    [InlineData("940LBS.", 940)]
    [InlineData("940#", 940)]
    [InlineData("1,250 lb", 1250)]
    [InlineData("12 lb 4 oz", 12.25)]
    [InlineData("12 1/4 pounds", 12.25)]
    [InlineData("4 oz", 0.25)]
    [InlineData("426 kg", 426 / 0.45359237)]
    [InlineData("426,5 kilos", 426.5 / 0.45359237)]
    [InlineData("1.2 tonnes", 1200 / 0.45359237)]
    [InlineData("500 g", 0.5 / 0.45359237)]
    [InlineData("-5", -5)]
    public void A_mass_is_read_as_a_dock_clerk_writes_it(string text, double pounds)
    {
        Assert.True(MeasureText.TryMass(text, UnitSystem.Imperial, out var mass), text);
        Close.To(pounds, mass.Pounds, 1e-14);
    }

    [Fact]
    public void A_bare_mass_is_in_kilograms_for_those_who_work_metric()
    {
        Assert.True(MeasureText.TryMass("426", UnitSystem.Metric, out var mass));
        Assert.Equal(Mass.FromKilograms(426), mass);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("   ")]
    [InlineData("-")]
    [InlineData("abc")]
    [InlineData("in")]
    [InlineData("48 x 40")]
    [InlineData("48in 40in")]
    [InlineData("48 kg")]
    [InlineData("48 48")]
    [InlineData("1 250")]
    [InlineData("48.")]
    [InlineData("48,")]
    [InlineData("48.5.1")]
    [InlineData("48.5 1/2")]
    [InlineData("481/2")]
    [InlineData("48 3/2")]
    [InlineData("48 1/0")]
    [InlineData("1/2/3")]
    [InlineData("4'14\"")]
    [InlineData("4'12\"")]
    [InlineData("1/2 ft 3 in")]
    [InlineData("48,5 1/2")]
    [InlineData("48,5.1")]
    [InlineData("48,5 ft 2 in")]
    [InlineData("1/1234567")]
    [InlineData("1234567/12345678")]
    [InlineData("1234567890123 mm")]
    [InlineData("0.1234567890123 mm")]
    [InlineData("48                                       ")]
    [InlineData("4.5' 2\"")]
    [InlineData("4' 2\" 3")]
    [InlineData("2 in 4 ft")]
    [InlineData("4' 2 cm")]
    [InlineData("1,25,000")]
    [InlineData("1,250,5")]
    [InlineData("0,125,000")]
    [InlineData("1.250,5")]
    [InlineData("--48")]
    [InlineData("4' --2\"")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("∞")]
    [InlineData("1e3")]
    [InlineData("1e308")]
    [InlineData("0x30")]
    [InlineData("٤٨")]
    [InlineData("9223372036854775807")]
    [InlineData("999999999999 ft")]
    [InlineData("0000000000000000000000000000000000000000000048")]
    public void What_is_not_clearly_a_length_is_refused(string? text)
    {
        Assert.False(MeasureText.TryLength(text, UnitSystem.Imperial, out var length));
        Assert.Equal(Length.Zero, length);
    }

    [Theory]
    [InlineData("2 tons")]
    [InlineData("2 t")]
    [InlineData("12 lb 17 oz")]
    [InlineData("48 in")]
    [InlineData("1e308")]
    [InlineData("999999999999")]
    public void What_is_not_clearly_a_mass_is_refused(string text) =>
        Assert.False(MeasureText.TryMass(text, UnitSystem.Imperial, out _));

    [Fact]
    public void Half_an_inch_is_exactly_half_an_inch()
    {
        Assert.True(MeasureText.TryLength("48 1/2", UnitSystem.Imperial, out var length));
        Assert.Equal(1_231_900_000, length.Nanometres);
    }

    [Fact]
    public void Every_sixty_fourth_of_an_inch_is_exact() =>
        Gen.Select(Gen.Int[0, 999], Gen.Int[0, 63], Gen.OneOf(" ", "-", "  ")).Sample((whole, parts, between) =>
        {
            Assert.True(MeasureText.TryLength($"{whole}{between}{parts}/64", UnitSystem.Imperial, out var length));
            Assert.Equal(((whole * 64L) + parts) * 396_875, length.Nanometres);
        });

    [Fact]
    public void Every_decimal_is_exact_with_point_or_comma() =>
        Gen.Select(Gen.Int[0, 9999], Gen.Int[0, 99]).Sample((whole, hundredths) =>
        {
            Assert.True(MeasureText.TryLength($"{whole}.{hundredths:00} cm", UnitSystem.Imperial, out var point));
            Assert.True(MeasureText.TryLength($"{whole},{hundredths:00} cm", UnitSystem.Imperial, out var comma));
            Assert.Equal(((whole * 100L) + hundredths) * 100_000, point.Nanometres);
            Assert.Equal(point, comma);
        });

    [Fact]
    public void Grouped_thousands_read_the_same_as_plain_ones() =>
        Gen.Int[1, 9_999_999].Sample(pounds =>
        {
            Assert.True(MeasureText.TryMass(pounds.ToString("#,0", CultureInfo.InvariantCulture), UnitSystem.Imperial, out var grouped));
            Assert.True(MeasureText.TryMass(pounds.ToString(CultureInfo.InvariantCulture), UnitSystem.Imperial, out var plain));
            Assert.Equal(plain, grouped);
            Assert.Equal(pounds * Mass.NanogramsPerPound, plain.Nanograms);
        });

    [Fact]
    public void Feet_and_inches_read_the_same_as_inches() =>
        Gen.Select(Gen.Int[0, 60], Gen.Int[0, 11]).Sample((feet, inches) =>
        {
            Assert.True(MeasureText.TryLength($"{feet}'{inches}\"", UnitSystem.Metric, out var marks));
            Assert.True(MeasureText.TryLength($"{feet} ft {inches} in", UnitSystem.Metric, out var words));
            Assert.Equal(((feet * 12) + inches) * Length.NanometresPerInch, marks.Nanometres);
            Assert.Equal(marks, words);
        });

    [Fact]
    public void A_minus_sign_only_changes_the_sign() =>
        Gen.OneOf("48", "48 1/2", "4'2\"", "1,250", "48,5 cm").Sample(text =>
        {
            Assert.True(MeasureText.TryLength(text, UnitSystem.Imperial, out var plus));
            Assert.True(MeasureText.TryLength("-" + text, UnitSystem.Imperial, out var minus));
            Assert.Equal(-plus, minus);
        });

    [Theory]
    [InlineData("85", "85")]
    [InlineData(" 85.50 ", "85.5")]
    [InlineData("85,50", "85.5")]
    [InlineData("1,200", "1200")]
    [InlineData("1,200.50", "1200.5")]
    [InlineData("1200,50", "1200.5")]
    [InlineData("1,250,000", "1250000")]
    [InlineData("0,125", "0.125")]
    [InlineData(".5", "0.5")]
    [InlineData("-2,5", "-2.5")]
    [InlineData("+3", "3")]
    [InlineData("1200,500", null)]
    [InlineData("1,20,000", null)]
    [InlineData("1.200,50", null)]
    [InlineData("2 1/2", null)]
    [InlineData("2½", null)]
    [InlineData("1e3", null)]
    [InlineData("NaN", null)]
    [InlineData("48 in", null)]
    [InlineData("", null)]
    [InlineData("-", null)]
    [InlineData(null, null)]
    [InlineData("1234567890123", null)]
    public void A_number_is_read_as_in_a_measure_and_without_fractions(string? text, string? number)
    {
        Assert.Equal(number is not null, MeasureText.TryNumber(text, out var read));
        Assert.Equal(number is null ? 0 : decimal.Parse(number, CultureInfo.InvariantCulture), read);
    }

    [Fact]
    public void No_text_whatever_makes_it_throw()
    {
        Gen.String.Sample(text =>
        {
            MeasureText.TryNumber(text, out _);
            MeasureText.TryLength(text, UnitSystem.Imperial, out _);
            MeasureText.TryMass(text, UnitSystem.Metric, out _);
        });
        // Closer to the grammar, so that every branch is walked into from odd sides.
        Gen.OneOf("1", "9", "000", "999999", ",", ".", "/", "-", " ", "'", "\"", "½", "ft", "in", "m", "cm", "lb", "oz", "tonne", "e", "+").Array[0, 20]
            .Select(string.Concat)
            .Sample(
                text =>
                {
                    MeasureText.TryLength(text, UnitSystem.Imperial, out _);
                    MeasureText.TryMass(text, UnitSystem.Metric, out _);
                },
                iter: 20_000);
    }

    [Fact]
    public void The_culture_of_the_machine_plays_no_part()
    {
        var culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.True(MeasureText.TryLength("1,250.5", UnitSystem.Imperial, out var length));
            Assert.Equal(Length.FromInches(1250.5), length);
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("tr-TR");
            Assert.True(MeasureText.TryLength("4 FT 2 IN", UnitSystem.Imperial, out length));
            Assert.Equal(Length.FromInches(50), length);
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }
}
