using CsCheck;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class SpreadTests
{
    [Fact]
    public void Nothing_has_no_spread() => Assert.Null(Spread.Of([]));

    [Fact]
    public void One_figure_is_all_of_its_own_spread() => Assert.Equal(new Spread(1, 7, 7, 7, 7, 7), Spread.Of([7]));

    /// <summary>
    /// By hand: of 1, 2, 4, 8 the places of the quartiles are 0.75, 1.5 and 2.25, counted from 0, so 1 + 0.75 × 1, 2 + 0.5 × 2
    /// and 4 + 0.25 × 4. Of five figures they are the second, third and fourth.
    /// </summary>
    [Fact]
    public void The_quartiles_lie_where_they_do_by_hand()
    {
        Assert.Equal(new Spread(4, 1, 1.75, 3, 5, 8), Spread.Of([8, 1, 4, 2]));
        Assert.Equal(new Spread(5, 10, 20, 30, 50, 90), Spread.Of([90, 50, 30, 20, 10]));
    }

    [Fact]
    public void The_five_figures_are_in_order_and_within_what_was_given() => Gen.Double[-1e6, 1e6].Array[1, 60].Sample(figures =>
    {
        var spread = Spread.Of(figures)!;
        double[] five = [spread.Least, spread.LowerQuartile, spread.Median, spread.UpperQuartile, spread.Most];
        Assert.Equal(five.Order(), five);
        Assert.Equal((figures.Min(), figures.Max(), figures.Length), (spread.Least, spread.Most, spread.Count));
        // As many lie at or under the median as at or over it.
        Assert.True(figures.Count(f => f <= spread.Median) * 2 >= figures.Length);
        Assert.True(figures.Count(f => f >= spread.Median) * 2 >= figures.Length);
    });

    [Fact]
    public void Too_few_figures_say_so()
    {
        Assert.False(Spread.Of(Enumerable.Repeat(1.0, Spread.Enough - 1))!.IsEnough);
        Assert.True(Spread.Of(Enumerable.Repeat(1.0, Spread.Enough))!.IsEnough);
    }
}
