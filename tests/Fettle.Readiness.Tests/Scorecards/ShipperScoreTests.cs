using Fettle.Engineering.Statistics;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

/// <summary>Wilson's interval at 95 %: R's binom package through statsmodels' tests for 18 of 20 and 4 of 20; 0 of 10 by the formula.</summary>
public class ShipperScoreTests
{
    private const double Statistics = 1e-7;

    [Fact]
    public void Eighteen_of_twenty_that_stack_well()
    {
        var score = ShipperScore.Of([.. Lines(18, held: false, stackable: true, carries: true), .. Lines(2, held: false, stackable: true, carries: false)]);
        Assert.Equal((20, 18), (score.StackableLines, score.StackWellLines));
        Near(new(.6989663547715128, .972133518786232), score.StackWellInterval);
    }

    [Fact]
    public void Four_of_twenty_that_were_held()
    {
        var score = ShipperScore.Of([.. Lines(4, held: true, stackable: false, carries: false), .. Lines(16, held: false, stackable: false, carries: false)]);
        Near(new(.0806576625797981, .4160174322518935), score.HeldInterval);
        Assert.Equal((20, 4), (score.Units, score.Held));
    }

    [Fact]
    public void None_of_ten_is_not_never()
    {
        var score = ShipperScore.Of([.. Lines(10, held: false, stackable: true, carries: false)]);
        Near(new(0, .2775327998628892), score.HeldInterval);
        Near(new(0, .2775327998628892), score.StackWellInterval);
    }

    [Fact]
    public void Identical_units_are_one_observation_and_many_units()
    {
        // Twelve pallets alike are built by one habit: their line counts once for how sure we are.
        var score = ShipperScore.Of([new(12, true, true, true), new(3, false, true, false), new(5, false, false, true)]);
        Assert.Equal(
            new(20, 12, 15, 12, 3, 2, 1, Wilson.Interval(1, 3), Wilson.Interval(1, 2)),
            score);
    }

    [Fact]
    public void What_was_not_declared_stackable_is_no_evidence_either_way()
    {
        var score = ShipperScore.Of([new(4, false, false, true)]);
        Assert.Equal((0, 0, 0), (score.StackableLines, score.StackWellLines, score.StackWell));
        Assert.Equal(Interval.Anything, score.StackWellInterval);
    }

    [Fact]
    public void Without_freight_nothing_is_known()
    {
        var score = ShipperScore.Of([]);
        Assert.Equal((0, 0, 0), (score.Units, score.Lines, score.Held));
        Assert.Equal(Interval.Anything, score.HeldInterval);
    }

    private static IEnumerable<ScoredUnit> Lines(int count, bool held, bool stackable, bool carries) => Enumerable.Repeat(new ScoredUnit(1, held, stackable, carries), count);

    private static void Near(Interval expected, Interval actual)
    {
        Assert.InRange(Math.Abs(expected.Low - actual.Low), 0, Statistics);
        Assert.InRange(Math.Abs(expected.High - actual.High), 0, Statistics);
    }
}
