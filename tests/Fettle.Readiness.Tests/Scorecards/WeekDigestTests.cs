using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class WeekDigestTests
{
    private static readonly DateOnly Monday = new(2026, 11, 16);

    [Fact]
    public void A_week_stands_beside_the_twelve_before_and_weeks_without_freight_are_noughts()
    {
        var account = Account("Aspen Crates", [new(Monday, 12, 10), new(Monday.AddDays(-7), 5, 5)]);

        Assert.Equal(13, account.Weeks.Count);
        Assert.Equal(Monday.AddDays(-84), account.Weeks[0].Monday);
        Assert.Equal(new WeekCount(Monday, 12, 10), account.Now);
        Assert.Equal(5, account.Weeks.SkipLast(1).Sum(week => week.Lines));
    }

    [Fact]
    public void The_digest_leaves_out_who_had_no_freight_and_puts_most_held_first()
    {
        var digest = WeekDigest.Of(Monday, [Account("Quiet", [new(Monday.AddDays(-7), 9, 9)]), Account("Good", [new(Monday, 20, 20)]), Account("Held", [new(Monday, 8, 3)])]);

        Assert.Equal(["Held", "Good"], digest.Accounts.Select(account => account.Name));
        Assert.Equal((28, 23, 5, 4.0), (digest.Lines, digest.Ready, digest.Held, digest.FeetSaved));
        Assert.Equal(new WeekCount(Monday, 28, 23), digest.Weeks[^1]);
    }

    /// <summary>
    /// By Wilson's formula, z = 1.96: of 20 ready of 20 the interval is 0.839 to 1; of 10 of 20 it is 0.299 to 0.701. A usual
    /// share of 0.8 lies below the first, above the second, and within that of 17 of 20, 0.640 to 0.948.
    /// </summary>
    [Theory]
    [InlineData(20, 20, WeekTrend.Better)]
    [InlineData(20, 17, WeekTrend.AsUsual)]
    [InlineData(20, 10, WeekTrend.Worse)]
    [InlineData(9, 0, WeekTrend.TooFew)]
    public void A_week_is_unusual_only_when_chance_would_seldom_make_it_so(long lines, long ready, WeekTrend trend) =>
        Assert.Equal(trend, Account("A", [new(Monday, lines, ready), new(Monday.AddDays(-7), 50, 40), new(Monday.AddDays(-14), 50, 40)]).Trend);

    [Fact]
    public void Without_a_past_there_is_nothing_to_compare_with() => Assert.Equal(WeekTrend.TooFew, Account("A", [new(Monday, 50, 0)]).Trend);

    private static AccountWeek Account(string name, WeekCount[] weeks) => AccountWeek.Of(Guid.CreateVersion7(), name, Monday, weeks, Habits.Of([]), 2);
}
