using System.Globalization;
using Fettle.Readiness.Outcomes;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Tests.Outcomes;

/// <summary>
/// Worked by hand from NMFC 300135 (five business days, 18 April 2015) and 49 USC 14706(e) (nine months, two years), with
/// the day of delivery left out, weekends skipped and a day that a month does not have taken as its last.
/// </summary>
public class ClaimDeadlinesTests
{
    private static readonly ClaimTerms Least = new();

    [Theory]
    [InlineData("2025-07-18", "2025-07-25", false)]
    [InlineData("2025-06-30", "2025-07-07", false)]
    [InlineData("2025-06-30", "2025-07-08", true)]
    public void Concealed_damage_is_reported_within_five_business_days(string delivered, string by, bool independenceDayCounts)
    {
        DateOnly[] holidays = independenceDayCounts ? [new(2025, 7, 4)] : [];
        Assert.Equal(Day(by), ClaimDeadlines.Of(Day(delivered), Least, holidays).ConcealedDamageBy);
    }

    [Theory]
    [InlineData("2025-03-31", "2025-12-31")]
    [InlineData("2025-05-31", "2026-02-28")]
    public void A_claim_is_filed_within_nine_months(string delivered, string by) =>
        Assert.Equal(Day(by), ClaimDeadlines.Of(Day(delivered), Least, []).ClaimBy);

    [Theory]
    [InlineData("2025-02-28", "2027-02-28")]
    [InlineData("2024-02-29", "2026-02-28")]
    public void A_suit_is_brought_within_two_years_of_the_disallowance(string disallowed, string by) =>
        Assert.Equal(Day(by), ClaimDeadlines.SuitBy(Day(disallowed), Least));

    [Fact]
    public void A_tariff_that_leaves_more_time_is_followed()
    {
        var generous = new ClaimTerms { ConcealedDamageDays = 15, ClaimMonths = 12 };
        Assert.Equal(new(new(2025, 8, 8), new(2026, 7, 18)), ClaimDeadlines.Of(new(2025, 7, 18), generous, []));
    }

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);
}
