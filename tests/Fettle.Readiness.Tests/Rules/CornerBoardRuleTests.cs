using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;
using Fettle.Readiness.Tests.Declarations;

namespace Fettle.Readiness.Tests.Rules;

/// <summary>
/// Corner boards for flush loads, over some 500 miles, with two or more transfers; a sleeve where a flush load rubs for
/// long. Common practice, no source.
/// </summary>
public class CornerBoardRuleTests
{
    [Theory]
    [InlineData(499.9, false)]
    [InlineData(500, false)]
    [InlineData(500.1, true)]
    public void Over_five_hundred_miles_boards_are_wanted(double miles, bool found) =>
        Assert.Equal(found, Freight.Sound.Finds(FindingCodes.CornerBoards, new Lane(miles, 0, false)));

    [Theory]
    [InlineData(1, false)]
    [InlineData(2, true)]
    [InlineData(3, true)]
    public void Two_transfers_are_enough_to_want_them(int transfers, bool found) =>
        Assert.Equal(found, Freight.Sound.Finds(FindingCodes.CornerBoards, new Lane(100, transfers, false)));

    [Theory]
    [InlineData(0, true)]
    [InlineData(0.25, true)]
    [InlineData(0.26, false)]
    public void A_side_with_a_quarter_of_an_inch_or_less_is_flush(double bare, bool found)
    {
        foreach (var units in Typed.Both)
        {
            var deck = Freight.Deck with { Width = Typed.Long(36 + (2 * bare), units) };
            Assert.Equal(found, Freight.Pallet(Freight.Sound.Cartons(), deck).Finds(FindingCodes.CornerBoards));
        }
    }

    [Fact]
    public void Flush_and_far_is_a_stop_and_a_tip_for_a_sleeve()
    {
        var result = Flush.Check(Freight.Far);
        var boards = Assert.Single(result.Findings, f => f.Code == FindingCodes.CornerBoards);
        Assert.Equal(Severity.Stop, boards.Severity);
        Assert.Equal("protection.cornerBoards", boards.Subject);
        Assert.Equal((Quantity.Miles(820), Quantity.Miles(500)), (boards.Measured, boards.Limit));
        Assert.Equal(BasisKind.CommonPractice, boards.Basis.Kind);
        Assert.Equal("There are no corner boards. The cartons stand level with the deck's edge and travel 820 mi: they rub through on the way.", boards.Message.Said());
        var sleeve = Assert.Single(result.Findings, f => f.Code == FindingCodes.Sleeve);
        Assert.Equal((Severity.Tip, "protection.sleeve"), (sleeve.Severity, sleeve.Subject));
        Assert.Equal((Quantity.Miles(820), Quantity.Miles(500)), (sleeve.Measured, sleeve.Limit));
    }

    [Fact]
    public void Flush_alone_or_far_alone_is_a_caution()
    {
        var flush = Flush.Finding(FindingCodes.CornerBoards);
        Assert.Equal(Severity.Caution, flush.Severity);
        Assert.Equal((new Quantity(0, Unit.Inch), new Quantity(0.25, Unit.Inch)), (flush.Measured, flush.Limit));
        var far = Freight.Sound.Finding(FindingCodes.CornerBoards, Freight.Far);
        Assert.Equal(Severity.Caution, far.Severity);
        Assert.False(Freight.Sound.Finds(FindingCodes.Sleeve, Freight.Far));
        Assert.False(Flush.Finds(FindingCodes.Sleeve));
    }

    [Fact]
    public void Transfers_are_counted_in_words()
    {
        var twice = Freight.Sound.Finding(FindingCodes.CornerBoards, new Lane(100, 2, false));
        Assert.Equal((Quantity.Pieces(2), Quantity.Pieces(2)), (twice.Measured, twice.Limit));
        Assert.Contains("changes trailer twice", twice.Message.Said(), StringComparison.Ordinal);
        Assert.Contains("changes trailer 5 times", Freight.Sound.Finding(FindingCodes.CornerBoards, new Lane(100, 5, false)).Message.Said(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_hangs_over_is_not_called_level() =>
        Assert.Contains("past the deck's edge", Freight.Sound.Reaching(length: Length.FromInches(50)).Finding(FindingCodes.CornerBoards, Freight.Far).Message.Said(), StringComparison.Ordinal);

    [Fact]
    public void Boards_that_end_above_the_platform_do_not_count()
    {
        var partial = Flush with { Protection = Freight.Wrapped with { CornerBoards = CornerBoards.Partial } };
        Assert.StartsWith("The corner boards end above the pallet.", partial.Finding(FindingCodes.CornerBoards, Freight.Far).Message.Said(), StringComparison.Ordinal);
        Assert.False((Flush with { Protection = Freight.Boarded }).Finds(FindingCodes.CornerBoards, Freight.Far));
    }

    [Fact]
    public void A_sleeve_answers_the_tip_and_nothing_else()
    {
        var sleeved = Flush with { Protection = Freight.Wrapped with { Sleeve = true } };
        Assert.False(sleeved.Finds(FindingCodes.Sleeve, Freight.Far));
        Assert.Equal(Flush.Finding(FindingCodes.CornerBoards, Freight.Far), sleeved.Finding(FindingCodes.CornerBoards, Freight.Far));
    }

    [Fact]
    public void A_carrier_may_draw_the_line_elsewhere()
    {
        var tariff = Tariff.With(rules => rules with
        {
            CornerBoards = new CornerBoardLimits
            {
                Miles = 300, Transfers = 1, Severity = Severity.Tip, FlushAndFarSeverity = Severity.Caution, SleeveSeverity = Severity.Caution,
            },
        });
        var lane = new Lane(400, 0, false);
        var far = Freight.Sound.Finding(FindingCodes.CornerBoards, lane, tariff);
        Assert.Equal((Severity.Tip, Quantity.Miles(300)), (far.Severity, far.Limit));
        Tariff.IsNamedBy(far);
        Assert.Equal(Severity.Caution, Flush.Finding(FindingCodes.CornerBoards, lane, tariff).Severity);
        var sleeve = Flush.Finding(FindingCodes.Sleeve, lane, tariff);
        Assert.Equal(Severity.Caution, sleeve.Severity);
        Tariff.IsNamedBy(sleeve);
        Assert.True(Freight.Sound.Finds(FindingCodes.CornerBoards, new Lane(10, 1, false), tariff));
    }

    /// <summary>Eight cartons of 20 × 12 in cover 48 × 40 in to the edge.</summary>
    private static HandlingUnit Flush { get; } = Freight.Pallet(new CartonContents(Freight.Carton(20, 12, 10, 20, 44), 8, 4, StackKind.Column)) with { Stackable = true };
}
