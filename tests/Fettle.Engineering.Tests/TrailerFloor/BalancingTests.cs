using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class BalancingTests
{
    private static PlacedPile Pile(double x, double y, double length, double width, double weight) =>
        new(new([One(length, width, 50, weight)], 0, null, In(108)), Place(x, y, length, width), Length.Zero);

    /// <summary>From the nose backwards, where each stands across.</summary>
    private static IEnumerable<double> Across(params PlacedPile[] piles) =>
        Balancing.Across(piles, In(100)).OrderBy(p => p.Place.X).ThenBy(p => p.Pile.Weight).Select(p => p.Place.Y.Inches);

    [Fact]
    public void Nothing_stays_nothing() => Assert.Empty(Across());

    [Fact]
    public void Of_two_equal_piles_on_one_side_the_second_changes_sides() =>
        Assert.Equal([0, 60], Across(Pile(0, 0, 40, 40, 500), Pile(40, 0, 40, 40, 500)));

    [Fact]
    public void What_leans_to_the_other_side_already_stays() =>
        Assert.Equal([0, 60], Across(Pile(0, 0, 40, 40, 500), Pile(40, 60, 40, 40, 500)));

    // Moments about the middle: 300 × 30 = 9,000 each, 1,000 × 20 = 20,000; the one that leans most is taken first and stays.
    [Fact]
    public void Against_the_one_that_leans_most_the_others_lean() =>
        Assert.Equal([60, 60, 0], Across(Pile(0, 0, 40, 40, 300), Pile(40, 0, 40, 40, 300), Pile(80, 0, 40, 60, 1_000)));

    // 1,000 lb 10 in off the middle lean less than 500 lb 30 in off it.
    [Fact]
    public void Weight_counts_by_how_far_from_the_middle_it_is() =>
        Assert.Equal([40, 0], Across(Pile(0, 20, 40, 40, 1_000), Pile(40, 0, 40, 40, 500)));

    [Fact]
    public void What_is_even_stays_as_it_is() =>
        Assert.Equal([0, 0, 60], Across(Pile(0, 0, 40, 40, 900), Pile(40, 0, 40, 40, 500), Pile(41, 60, 30, 40, 500)));

    // 20,000 left; 15,000 turned right; 9,000 turned right; then 4,000 more to the right; the last of 1,000 goes back left.
    [Fact]
    public void Each_is_turned_away_from_where_all_before_it_lean() =>
        Assert.Equal([0, 60, 60, 0, 60], Across(
            Pile(0, 0, 40, 40, 2_000 / 3.0), Pile(40, 0, 40, 40, 500), Pile(80, 0, 40, 40, 300), Pile(120, 0, 40, 40, 400 / 3.0), Pile(160, 60, 40, 40, 100 / 3.0)));

    // The long pile beside two short ones is one part with them: its 0 to 80 in cannot be cut at 40.
    [Fact]
    public void Piles_that_no_cut_across_parts_change_sides_together()
    {
        var long80 = Pile(0, 60, 80, 40, 100);
        var even = Balancing.Across([long80, Pile(0, 0, 40, 40, 600), Pile(40, 0, 40, 40, 600), Pile(80, 0, 40, 40, 2_000)], In(100));
        Assert.Equal(Length.Zero, even.Single(p => p.Place.Length == In(80)).Place.Y);
        Assert.Equal(3, even.Count(p => p.Place.X < In(80)));
        Assert.All(even.Where(p => p.Place.X < In(80) && p.Place.Length == In(40)), p => Assert.Equal(In(60), p.Place.Y));
    }

    // 0 to 90 first, then 10 to 20 within it, then 50 to 60: the short one must not end the part.
    [Fact]
    public void A_short_pile_beside_a_long_one_does_not_end_its_part()
    {
        var even = Balancing.Across([Pile(0, 0, 90, 40, 900), Pile(10, 40, 10, 40, 1), Pile(50, 40, 10, 40, 1), Pile(90, 0, 40, 40, 2_000)], In(100));
        Assert.Equal([60, 20, 20, 0], even.OrderBy(p => p.Place.X).Select(p => p.Place.Y.Inches));
    }

    [Fact]
    public void The_order_in_which_piles_are_given_does_not_matter()
    {
        PlacedPile[] piles = [Pile(80, 0, 40, 40, 2_000), Pile(0, 0, 40, 40, 600), Pile(40, 0, 40, 40, 500)];
        Assert.Equal([60, 60, 0], Across(piles));
        Assert.Equal([60, 60, 0], Across([.. piles.Reverse()]));
    }
}
