using CsCheck;
using Fettle.Engineering.Identification;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Identification;

/// <summary>After GS1's published syntax dictionary.</summary>
public class ElementStringTests
{
    private static readonly Sscc Code = Sscc.Create(3, "7610425", 2123456);

    [Fact]
    public void Only_predefined_lengths_go_without_a_separator()
    {
        var joined = ElementString.Join(
        [
            ElementString.Of(Code),
            ElementString.GrossPounds(Mass.FromPounds(1200.5), 1),
            new(ApplicationIdentifier.Count, "12"),
            new(ApplicationIdentifier.Shipment, "12345678901234560"),
            new(ApplicationIdentifier.ShipToPost, "12345"),
        ]);
        Assert.Equal("00376104250021234569" + "3401012005" + "3712\u001D" + "40212345678901234560\u001D" + "42012345", joined);
    }

    [Fact]
    public void People_read_identifiers_in_brackets() =>
        Assert.Equal("(00)376104250021234569(37)12", ElementString.Readable([ElementString.Of(Code), new(ApplicationIdentifier.Count, "12")]));

    [Fact]
    public void Weights_carry_their_decimals_in_the_identifier()
    {
        // (3302)001250 is 12.50 kg; (3401)012005 is 1200.5 lb.
        Assert.Equal("(3302)001250", ElementString.GrossKilograms(Mass.FromKilograms(12.5)).ToString());
        Assert.Equal("(3401)012005", ElementString.GrossPounds(Mass.FromPounds(1200.5), 1).ToString());
        Assert.Equal("(3401)123456", ElementString.GrossPounds(Mass.FromPounds(12345.6)).ToString());
        Assert.Equal("(3400)999999", ElementString.GrossPounds(Mass.FromPounds(999_999)).ToString());
        Assert.Throws<ArgumentOutOfRangeException>(() => ElementString.GrossPounds(Mass.FromPounds(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ElementString.GrossPounds(Mass.FromPounds(1_000_000)));
    }

    [Fact]
    public void A_weight_reads_back_within_its_last_place() =>
        Gen.Select(Gen.Double[0, 900_000], Gen.Int[0, 5]).Sample((kilograms, decimals) =>
        {
            var element = ElementString.GrossKilograms(Mass.FromKilograms(kilograms), decimals);
            var places = element.Identifier.Code[3] - '0';
            Assert.InRange(places, 0, decimals);
            var unit = Math.Pow(10, -places);
            Assert.InRange(int.Parse(element.Data, System.Globalization.CultureInfo.InvariantCulture) * unit, kilograms - (unit * 0.5001), kilograms + (unit * 0.5001));
        });

    [Fact]
    public void Data_that_do_not_fit_are_refused_with_the_reason()
    {
        Assert.Equal("has 18 characters.", ElementString.Problem(ApplicationIdentifier.Sscc, "1234"));
        Assert.Equal("has a wrong check digit.", ElementString.Problem(ApplicationIdentifier.Sscc, "123456789012345670"));
        Assert.Equal("has 1 to 8 characters.", ElementString.Problem(ApplicationIdentifier.Count, "123456789"));
        Assert.Equal("has digits only.", ElementString.Problem(ApplicationIdentifier.Count, "12a"));
        Assert.Equal("has a character that GS1 bar codes do not carry.", ElementString.Problem(ApplicationIdentifier.Order, "PO 7"));
        Assert.Equal("has a character that GS1 bar codes do not carry.", ElementString.Problem(ApplicationIdentifier.Order, "PO\u001D7"));
        Assert.Null(ElementString.Problem(ApplicationIdentifier.Consignment, "0614141ABC/7"));
        Assert.Throws<ArgumentException>(() => new ElementString(ApplicationIdentifier.Count, ""));
    }

    [Fact]
    public void Each_identifier_is_the_dictionarys()
    {
        (ApplicationIdentifier, string, string, int, int, bool, bool, bool)[] expected =
        [
            (ApplicationIdentifier.Sscc, "00", "SSCC", 18, 18, true, true, true),
            (ApplicationIdentifier.Content, "02", "CONTENT", 14, 14, true, true, true),
            (ApplicationIdentifier.Count, "37", "COUNT", 1, 8, true, false, false),
            (ApplicationIdentifier.Order, "400", "ORDER NUMBER", 1, 30, false, false, false),
            (ApplicationIdentifier.Consignment, "401", "GINC", 1, 30, false, false, false),
            (ApplicationIdentifier.Shipment, "402", "GSIN", 17, 17, true, false, true),
            (ApplicationIdentifier.Route, "403", "ROUTE", 1, 30, false, false, false),
            (ApplicationIdentifier.ShipTo, "410", "SHIP TO LOC", 13, 13, true, true, true),
            (ApplicationIdentifier.ShipFor, "413", "SHIP FOR LOC", 13, 13, true, true, true),
            (ApplicationIdentifier.ShipToPost, "420", "SHIP TO POST", 1, 20, false, false, false),
            (ApplicationIdentifier.DangerousGoods, "4321", "DANGEROUS GOODS", 1, 1, true, false, false),
            (ApplicationIdentifier.GrossKilograms(0), "3300", "GROSS WEIGHT (kg)", 6, 6, true, true, false),
            (ApplicationIdentifier.GrossKilograms(5), "3305", "GROSS WEIGHT (kg)", 6, 6, true, true, false),
            (ApplicationIdentifier.GrossPounds(3), "3403", "GROSS WEIGHT (lb)", 6, 6, true, true, false),
        ];
        Assert.All(expected, e =>
        {
            var (ai, code, title, least, most, numeric, predefined, check) = e;
            Assert.Equal(new ApplicationIdentifier(code, title, least, most, numeric, predefined, check), ai);
        });
        Assert.Throws<ArgumentOutOfRangeException>(() => ApplicationIdentifier.GrossKilograms(6));
        Assert.Throws<ArgumentOutOfRangeException>(() => ApplicationIdentifier.GrossPounds(-1));
    }

    [Fact]
    public void The_longest_and_shortest_data_fit()
    {
        Assert.Null(ElementString.Problem(ApplicationIdentifier.Count, "12345678"));
        Assert.Null(ElementString.Problem(ApplicationIdentifier.Count, "1"));
        Assert.Equal("has 1 to 8 characters.", ElementString.Problem(ApplicationIdentifier.Count, ""));
        Assert.Equal("(3400)999999", ElementString.GrossPounds(Mass.FromPounds(999_999.4), 0).ToString());
        Assert.Throws<ArgumentOutOfRangeException>(() => ElementString.GrossPounds(Mass.FromPounds(999_999.5)));
        Assert.Equal("(37) has digits only. (Parameter 'data')", Assert.Throws<ArgumentException>(() => new ElementString(ApplicationIdentifier.Count, "x")).Message);
    }

    [Fact]
    public void The_consignment_number_has_no_check_digit_and_the_shipment_number_has_one()
    {
        Assert.False(ApplicationIdentifier.Consignment.CheckDigit);
        Assert.True(ApplicationIdentifier.Shipment.CheckDigit);
    }
}
