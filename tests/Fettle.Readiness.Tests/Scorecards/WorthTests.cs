using CsCheck;
using Fettle.Engineering.Units;
using Fettle.Readiness.Scorecards;

namespace Fettle.Readiness.Tests.Scorecards;

public class WorthTests
{
    private static readonly WorthTerms Terms = new(2.5m, .3);
    private static readonly Lane Lane = new(Guid.Empty, "Harbour Stores, Saltgrass", MileBand.Medium);
    private static readonly Period Autumn = new(new(2026, 9, 1), new(2026, 12, 1));

    /// <summary>The last day that is not over.</summary>
    private static readonly DateOnly Today = new(2026, 11, 29);

    /// <summary>
    /// By hand. Week of 5 October: 80 − 60 and 40 − 20 in of feet: 20 + 20 = 40 ft saved over 530 and 1,060 miles:
    /// 20 / 53 × 530 × 2.5 = 500 and 20 / 53 × 1,060 × 2.5 = 1,000 dollars. Week of 12 October: nothing. Week of 19 October:
    /// 10.6 ft over 100 miles: 10.6 / 53 × 100 × 2.5 = 50 dollars. Then four weeks without freight.
    /// </summary>
    [Fact]
    public void Three_pickups_are_worth_what_they_are_by_hand()
    {
        var worth = Worth.Of(
            [
                Pickup(new(2026, 10, 6), 530, 80, 60, 60),
                Pickup(new(2026, 10, 11), 1060, 40, 20, 9.4),
                Pickup(new(2026, 10, 19), 100, 20.6, 10, 10),
            ],
            Autumn,
            Today,
            Terms);

        Assert.Equal([new(2026, 10, 5), new(2026, 10, 12), new(2026, 10, 19), new(2026, 10, 26), new(2026, 11, 2), new(2026, 11, 9), new(2026, 11, 16)], worth.Weeks.Select(week => week.Monday));
        Assert.Equal([40, 0, 10.6, 0, 0, 0, 0], worth.Weeks.Select(week => Math.Round(week.Saved, 6)));
        Assert.Equal([1500m, 0, 50, 0, 0, 0, 0], worth.Weeks.Select(week => Math.Round(week.Money, 4)));
        Assert.Equal([530m, 0, 0, 0, 0, 0, 0], worth.Weeks.Select(week => Math.Round(week.DeckMoney, 4)));
        Assert.Equal((0, 0, 0, 5.3, 40), Rounded(worth.SavedAWeek!));
        // 50.6 ft in 7 weeks, 52.1775 weeks a year, 53 ft a trailer.
        Assert.Equal(50.6 / 7 * 52.1775 / 53, worth.TrailersAYear, 6);
        Assert.Equal(1550 / 7.0 * 52.1775, (double)worth.MoneyAYear, 4);
        Assert.Equal(.3m * worth.MoneyAYear, worth.OfferedAYear);
        Assert.False(worth.SavedAWeek!.IsEnough);
    }

    [Fact]
    public void A_week_counts_when_it_is_over_and_begins_in_the_period()
    {
        // 31 August is the Monday of 1 September's week, which began before; 23 November's is not over on the Sunday.
        var worth = Worth.Of([Pickup(new(2026, 9, 3), 100, 20, 10, 10), Pickup(new(2026, 9, 7), 100, 20, 10, 10), Pickup(new(2026, 11, 24), 100, 20, 10, 10)], Autumn, Today, Terms);

        Assert.Equal(1, worth.Pickups);
        Assert.Equal(new DateOnly(2026, 9, 7), worth.Weeks[0].Monday);
        Assert.Equal(new DateOnly(2026, 11, 16), worth.Weeks[^1].Monday);
        Assert.Equal(2, Worth.Of([Pickup(new(2026, 9, 7), 100, 20, 10, 10), Pickup(new(2026, 11, 24), 100, 20, 10, 10)], Autumn, Today.AddDays(1), Terms).Pickups);
    }

    [Fact]
    public void What_could_not_be_planned_is_told_and_counts_nowhere()
    {
        var worth = Worth.Of([Pickup(new(2026, 10, 6), 100, 20, 10, 10), new(Guid.NewGuid(), new(2026, 10, 7), Lane, 100, 250, null)], Autumn, Today, Terms);

        Assert.Equal((1, 1, 10.0), (worth.Pickups, worth.NotPlanned, Math.Round(worth.Saved, 6)));
    }

    [Fact]
    public void Without_freight_there_is_nothing_and_no_division_by_it()
    {
        var worth = Worth.Of([], Autumn, Today, Terms);

        Assert.Empty(worth.Weeks);
        Assert.Null(worth.SavedAWeek);
        Assert.Equal((0.0, 0m, 0m), (worth.TrailersAYear, worth.MoneyAYear, worth.OfferedAYear));
        Assert.Equal((0, 0, 0), worth.Filled);
    }

    [Fact]
    public void The_weeks_add_up_to_the_pickups_in_any_order() => Gen.Select(Gen.Int[0, 120], Gen.Int[1, 53], Gen.Int[0, 53], Gen.Int[0, 53], Gen.Int[0, 3000]).Array[0, 40].Sample(drawn =>
    {
        PickupFloor[] pickups = [.. drawn.Select(d => Pickup(Autumn.From.AddDays(d.Item1), d.Item5, d.Item2, Math.Min(d.Item2, d.Item3), Math.Min(Math.Min(d.Item2, d.Item3), d.Item4)))];
        var worth = Worth.Of(pickups, Autumn, Today, Terms);
        var counted = pickups.Where(pickup => worth.Weeks.Any(week => week.Monday <= pickup.On && pickup.On < week.Monday.AddDays(7))).ToArray();

        Assert.Equal(counted.Length, worth.Pickups);
        Assert.Equal(counted.Sum(pickup => pickup.Taken!.SavedByStacking.Feet), worth.Saved, 6);
        Assert.Equal(counted.Sum(pickup => pickup.Taken!.SavedByDecking.Feet), worth.SavedByDecking, 6);
        Assert.Equal(counted.Sum(pickup => pickup.Taken!.SavedByStacking.Feet / 53 * pickup.Miles * 2.5), (double)worth.Weeks.Sum(week => week.Money), 3);
        Assert.All(worth.Weeks, week => Assert.True(week.Saved >= 0 && week.SavedByDecking >= 0));
        // Mondays in a row.
        Assert.All(worth.Weeks.Zip(worth.Weeks.Skip(1)), pair => Assert.Equal(pair.First.Monday.AddDays(7), pair.Second.Monday));
        var turned = Worth.Of([.. pickups.Reverse()], Autumn, Today, Terms);
        Assert.Equal(worth.Saved, turned.Saved, 6);
    });

    private static (double, double, double, double, double) Rounded(Spread spread) =>
        (Math.Round(spread.Least, 6), Math.Round(spread.LowerQuartile, 6), Math.Round(spread.Median, 6), Math.Round(spread.UpperQuartile, 6), Math.Round(spread.Most, 6));

    private static PickupFloor Pickup(DateOnly on, double miles, double flat, double stacked, double decked) => new(
        Guid.NewGuid(), on, Lane, miles, 4, new(Length.FromFeet(flat), Length.FromFeet(stacked), Length.FromFeet(decked), 100, 73.875));
}
