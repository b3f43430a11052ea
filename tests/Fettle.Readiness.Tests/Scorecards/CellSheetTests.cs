using CsCheck;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class CellSheetTests
{
    [Fact]
    public void Counted_fact_by_fact_it_is_the_sheet_that_counting_all_at_once_gives() => Line.History.Sample(history =>
    {
        var lines = new Dictionary<LineKey, ScoredLine>();
        var sheet = CellSheet.Empty;
        foreach (var fact in history)
        {
            var before = lines.GetValueOrDefault(fact.Line);
            if (ScoredLine.Evolve(before, fact) is not { } after)
                continue;
            sheet = sheet.Change([(before, after)]);
            lines[fact.Line] = after;
        }

        Same(CellSheet.Of(lines.Values), sheet);
    });

    [Fact]
    public void Sheets_of_parts_add_up_to_that_of_the_whole() => Gen.Select(Line.History, Gen.Int[0, 12]).Sample((history, cut) =>
    {
        var lines = history.GroupBy(fact => fact.Line).Select(facts => facts.Aggregate(default(ScoredLine), ScoredLine.Evolve)!).ToArray();
        var parts = CellSheet.Of(lines.Take(cut)).Change(lines.Skip(cut).Select(line => (default(ScoredLine), line)));
        Same(CellSheet.Of(lines), parts);
    });

    [Fact]
    public void Every_way_of_dividing_counts_every_line_once() => Line.History.Sample(history =>
    {
        var lines = history.GroupBy(fact => fact.Line).Select(facts => facts.Aggregate(default(ScoredLine), ScoredLine.Evolve)!).ToArray();
        var all = Tally.Sum(lines.Select(Tally.Of));
        var cells = CellSheet.Of(lines).Cells;
        foreach (var facet in Enum.GetValues<Facet>())
        {
            var own = cells.Where(cell => cell.Key.Facet == facet && (facet != Facet.Finding || CellKeys.ReadFinding(cell.Key.Key).Code.Length == 0));
            Assert.Equal(all, Tally.Sum(own.Select(cell => cell.Value)));
        }
    });

    [Fact]
    public void What_is_taken_out_again_leaves_nothing()
    {
        var line = Line.Of(Line.Declared("overhang"));
        var moved = line with { Declared = line.Declared with { ShipperId = Line.Carrier } };
        var sheet = CellSheet.Of([line]).Change([(line, moved)]);
        Assert.DoesNotContain(sheet.Cells, cell => cell.Key.ShipperId == Line.Shipper);
        Same(CellSheet.Of([moved]), sheet);
    }

    [Fact]
    public void A_line_is_in_the_cell_of_each_of_its_findings()
    {
        var cells = Line.Cells(Line.Of(Line.Declared("height", "overhang")));
        Assert.Equal(["", "height", "overhang"], cells.Where(cell => cell.Facet == Facet.Finding).Select(cell => CellKeys.ReadFinding(cell.Key).Code).Order());
        Assert.Equal(["height", "overhang"], CellKeys.ReadStops(Assert.Single(cells, cell => cell.Facet == Facet.Stops).Key));
    }

    [Fact]
    public void Keys_are_read_as_they_were_made()
    {
        var lane = Lane.Of(Line.Terminal, "  Two,\nlines; and a\ttab | \r\n ", 500);
        Assert.Equal("Two, lines; and a tab |", lane.Destination);
        Assert.Equal((lane, new Product("bags")), CellKeys.ReadFreight(CellKeys.Freight(lane, new("bags"))));
        Assert.Empty(CellKeys.ReadStops(CellKeys.Stops([])));
        Assert.Equal(["height", "overhang"], CellKeys.ReadStops(CellKeys.Stops(["height", "overhang"])));
        var (builder, codes) = CellKeys.ReadBuilder(CellKeys.Builder("", ["height", "overhang"]));
        Assert.Equal("", builder);
        Assert.Equal(["height", "overhang"], codes);
        Assert.Equal((new Commodity("cartons fragile"), MileBand.VeryLong, ""), CellKeys.ReadFinding(CellKeys.Finding(new("cartons fragile"), MileBand.VeryLong, "")));
    }

    [Theory]
    [InlineData(0, MileBand.Short)]
    [InlineData(250, MileBand.Short)]
    [InlineData(250.1, MileBand.Medium)]
    [InlineData(500, MileBand.Medium)]
    [InlineData(500.1, MileBand.Long)]
    [InlineData(1000, MileBand.Long)]
    [InlineData(1000.1, MileBand.VeryLong)]
    public void A_distance_on_a_bound_is_in_the_shorter_band(double miles, MileBand band) => Assert.Equal(band, Lane.BandOf(miles));

    [Fact]
    public void Weeks_begin_on_Monday_and_months_on_the_first()
    {
        Assert.Equal(new DateOnly(2026, 11, 16), Weeks.Of(new(2026, 11, 22)));
        Assert.Equal(new DateOnly(2026, 11, 23), Weeks.Of(new(2026, 11, 23)));
        Assert.Equal(new DateOnly(2026, 12, 28), Weeks.Of(new(2027, 1, 1)));
        Assert.Equal(new DateOnly(2027, 1, 1), Months.Of(new(2027, 1, 31)));
        // Monday 28 December to Sunday 3 January: two parts.
        Assert.Equal((new DateOnly(2026, 12, 28), new DateOnly(2027, 1, 1)), (Weeks.WithinMonth(new(2026, 12, 31)), Weeks.WithinMonth(new(2027, 1, 3))));
    }

    [Fact]
    public void A_period_is_of_whole_months_up_to_that_of_today()
    {
        var period = Period.Last(12, new(2026, 11, 29));
        Assert.Equal((new DateOnly(2025, 12, 1), new DateOnly(2026, 12, 1), new DateOnly(2026, 11, 30), 12), (period.From, period.Until, period.Last(), period.Length));
        Assert.Equal(new DateOnly(2025, 12, 1), period.WeeksWithin().First());
        Assert.Equal(new DateOnly(2026, 11, 30), period.WeeksWithin().Last());
        Assert.Equal(53, period.WeeksWithin().Count());
        Assert.Equal(new DateOnly(2026, 2, 2), Period.Last(1, new(2026, 2, 10)).WeeksWithin().First());
        Assert.Equal([new(2026, 1, 26), new(2026, 2, 2), new(2026, 2, 9), new(2026, 2, 16), new DateOnly(2026, 2, 23)], Period.Last(1, new(2026, 2, 10)).WeeksTouched());
    }

    [Fact]
    public void The_weeks_of_whole_months_add_up_to_them() =>
        Gen.Select(Line.History, Gen.Int[-40, 40].Array[12], Gen.Int[1, 3]).Sample((facts, days, months) =>
        {
            // The same lines, handed in on days about two ends of months.
            var lines = facts.GroupBy(fact => fact.Line).Select(own => own.Aggregate(default(ScoredLine), ScoredLine.Evolve)!)
                .Select((line, index) => line with { Declared = line.Declared with { At = Line.At.AddDays(days[index % days.Length]) } }).ToArray();
            var period = Period.Last(months, DateOnly.FromDateTime(Line.At.UtcDateTime));
            var within = lines.Where(line => DateOnly.FromDateTime(line.Declared.At.UtcDateTime) is var day && day >= period.From && day < period.Until);
            AccountCell[] cells = [.. Line.Cells(lines).Where(cell => cell.Since >= period.From && cell.Since < period.Until)];

            var figures = AccountFigures.Of(period, cells, AccountBook.None);

            Assert.Equal(Tally.Sum(within.Select(Tally.Of)), figures.Tally);
            Assert.Equal(figures.Tally, Tally.Sum(figures.Weeks.Select(week => week.Tally)));
        });

    private static void Same(CellSheet expected, CellSheet actual)
    {
        Assert.Equal(expected.Cells.Count, actual.Cells.Count);
        foreach (var (cell, tally) in expected.Cells)
            Assert.Equal(tally, actual.Cells.GetValueOrDefault(cell));
    }
}
