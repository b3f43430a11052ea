using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Fettle.Readiness.Scorecards;
using Fettle.Web.Scorecards;

namespace Fettle.Web.Tests.Scorecards;

public sealed class ScoreCsvTests
{
    private static readonly Tally Counts = Tally.From((Tallied.Lines, 4), (Tallied.Units, 1_220), (Tallied.Stackable, 3), (Tallied.Carries, 2), (Tallied.Ready, 4));

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
        var row = Assert.Single(Read(ScoreCsv.Write([Row(name, Counts)])));

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
            var row = Assert.Single(Read(ScoreCsv.Write([Row("A", Counts)])));

            Assert.Equal(("1220", "4", "3", "2"), (row["units"], row["lines"], row["stackable"], row["carries"]));
            foreach (var (title, text) in row.Where(cell => cell.Key != "shipper" && cell.Value.Length > 0))
                Assert.True(double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _), $"{title} is {text}.");
            // Two of three with nobody to compare with: Jeffreys' belief (2 + ½) / (3 + 1).
            Assert.Equal(("0.625", "3"), (row["carry a like unit: estimate"], row["carry a like unit: of lines"]));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Where_nothing_was_seen_cells_are_empty_and_not_noughts()
    {
        var row = Assert.Single(Read(ScoreCsv.Write([Row("A", Counts)])));

        Assert.Equal(("", "", "", "0"), (row["carried on trial: estimate"], row["carried on trial: low"], row["carried on trial: high"], row["carried on trial: of lines"]));
    }

    [Fact]
    public void Nobody_to_show_is_a_head_alone() => Assert.Empty(Read(ScoreCsv.Write([])));

    [Fact]
    public void It_begins_with_the_mark_by_which_spreadsheets_know_UTF_8() => Assert.Equal(Encoding.UTF8.GetPreamble(), ScoreCsv.Write([])[..3]);

    [Theory]
    [InlineData("stack", false, "Sure", "Hopeful", "New")]
    [InlineData("stack", true, "New", "Hopeful", "Sure")]
    [InlineData("units", false, "New", "Sure", "Hopeful")]
    [InlineData("units", true, "Hopeful", "Sure", "New")]
    [InlineData("shipper", true, "Hopeful", "New", "Sure")]
    [InlineData("shipper", false, "Sure", "New", "Hopeful")]
    [InlineData("lines", false, "Sure", "Hopeful", "New")]
    public void Columns_sort_by_their_figure_and_not_by_its_text(string key, bool up, params string[] order)
    {
        // 90 of 100 is surer than 9 of 9, though the share is less; of nothing nothing is known.
        AccountRow[] rows =
        [
            Row("Hopeful", Of(9, 9, units: 9)),
            Row("New", Tally.From((Tallied.Lines, 1), (Tallied.Units, 1_000))),
            Row("Sure", Of(90, 100, units: 100)),
        ];

        Assert.Equal(order, AccountColumn.Find(key).Order(rows, up).Select(row => row.Name));

        static Tally Of(int carries, int lines, int units) => Tally.From((Tallied.Lines, lines), (Tallied.Stackable, lines), (Tallied.Carries, carries), (Tallied.Units, units));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("colour")]
    [InlineData("UNITS")]
    public void A_column_that_does_not_exist_is_the_one_that_says_how_sure_we_are(string? key) => Assert.Equal("stack", AccountColumn.Find(key).Key);

    private static AccountRow Row(string name, Tally tally) => new(
        Guid.Empty, name, tally, StackEvidence.Of(tally, AccountBook.None), Share.Of(tally[Tallied.Ready], tally[Tallied.Lines], AccountBook.None.Ready), Share.Of(0, 0, AccountBook.None.Damaged), []);

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
