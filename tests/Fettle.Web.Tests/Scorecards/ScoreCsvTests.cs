using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Scorecards;

namespace Fettle.Web.Tests.Scorecards;

public sealed class ScoreCsvTests
{
    private static readonly ShipperScore Score = ShipperScore.Of([new(12, false, true, true), new(1, true, true, false), new(7, false, false, false), new(1_200, false, true, true)]);

    /// <summary>Names that a spreadsheet might run, and names that break careless writers of CSV.</summary>
    public static TheoryData<string> Names =>
    [
        "Finch & Barrow Pantry Goods", "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1", "＋1", "－1", "＠1", "=HYPERLINK(\"http://example\",\"x\")", "Comma, Inc.", "Quote \" Co", "Two\r\nlines",
        "Ümläut und 箱 🪵", " leading", "0012", "",
    ];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_name_comes_back_whole_and_no_spreadsheet_runs_it(string name)
    {
        var row = Assert.Single(Read(ScoreCsv.Write([new(name, Score)])));

        Assert.Equal(name, row["shipper"] is ['\'', .. var inert] && inert == name ? inert : row["shipper"]);
        Assert.True(row["shipper"].Length == 0 || row["shipper"][0] is not ('=' or '+' or '-' or '@' or '\t' or '\r' or '\n' or '＝' or '＋' or '－' or '＠'), row["shipper"]);
    }

    [Fact]
    public void Figures_are_plain_numbers_in_any_culture()
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
        try
        {
            var row = Assert.Single(Read(ScoreCsv.Write([new("A", Score)])));

            Assert.Equal("1220", row["units"]);
            Assert.Equal("1", row["units held"]);
            Assert.Equal("1213", row["units declared stackable"]);
            Assert.Equal("1212", row["units that stack well"]);
            Assert.Equal(("4", "3", "2"), (row["lines"], row["lines declared stackable"], row["lines that stack well"]));
            Assert.Equal("0.6667", row["share that stacks well"]);
            foreach (var (title, text) in row.Where(cell => cell.Key != "shipper"))
                Assert.True(double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _), $"{title} is {text}.");
            // The 95 % Wilson interval of 2 in 3, from the formula: (p + z²/2n ± z √(p(1−p)/n + z²/4n²)) / (1 + z²/n).
            Assert.Equal(0.2077, double.Parse(row["range low"], CultureInfo.InvariantCulture), 3);
            Assert.Equal(0.9385, double.Parse(row["range high"], CultureInfo.InvariantCulture), 3);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void A_shipper_without_stackable_lines_has_empty_cells_and_not_noughts()
    {
        var row = Assert.Single(Read(ScoreCsv.Write([new("A", ShipperScore.Of([new(3, false, false, false)]))])));

        Assert.Equal(("3", "0", "", "", ""), (row["units"], row["lines declared stackable"], row["share that stacks well"], row["range low"], row["range high"]));
    }

    [Fact]
    public void Nobody_to_show_is_a_head_alone() => Assert.Empty(Read(ScoreCsv.Write([])));

    [Fact]
    public void It_begins_with_the_mark_by_which_spreadsheets_know_UTF_8() => Assert.Equal(Encoding.UTF8.GetPreamble(), ScoreCsv.Write([])[..3]);

    [Theory]
    [InlineData("range", false, "Sure", "Hopeful", "New")]
    [InlineData("range", true, "New", "Hopeful", "Sure")]
    [InlineData("units", false, "New", "Sure", "Hopeful")]
    [InlineData("units", true, "Hopeful", "Sure", "New")]
    [InlineData("held", true, "Sure", "Hopeful", "New")]
    [InlineData("stackwell", false, "Hopeful", "Sure", "New")]
    [InlineData("shipper", true, "Hopeful", "New", "Sure")]
    [InlineData("shipper", false, "Sure", "New", "Hopeful")]
    [InlineData("lines", false, "Sure", "Hopeful", "New")]
    public void Columns_sort_by_their_figure_and_not_by_its_text(string key, bool up, params string[] order)
    {
        // 90 of 100 is surer than 2 of 2, though the share is less; of nothing nothing is known.
        ShipperRow[] rows =
        [
            new("Hopeful", Of(2, 2, units: 9)),
            new("New", ShipperScore.Of([new(1_000, true, false, false)])),
            new("Sure", Of(90, 100, units: 1)),
        ];

        Assert.Equal(order, ScoreColumn.Find(key).Sort(rows, up).Select(row => row.Name));

        static ShipperScore Of(int well, int lines, int units) => ShipperScore.Of([.. Enumerable.Range(0, lines).Select(i => new ScoredUnit(units, i == 0 && units == 9, true, i < well))]);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("colour")]
    [InlineData("UNITS")]
    public void A_column_that_does_not_exist_is_the_one_that_says_how_sure_we_are(string? key) => Assert.Equal("range", ScoreColumn.Find(key).Key);

    private static List<Dictionary<string, string>> Read(byte[] csv)
    {
        using var reader = new CsvReader(new StreamReader(new MemoryStream(csv), Encoding.UTF8), new CsvConfiguration(CultureInfo.InvariantCulture));
        reader.Read();
        reader.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (reader.Read())
            rows.Add(reader.HeaderRecord!.ToDictionary(title => title, title => reader.GetField(title)!));
        return rows;
    }
}
