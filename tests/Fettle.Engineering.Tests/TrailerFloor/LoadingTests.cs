using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class LoadingTests
{
    private static readonly Trailer van = Trailer.Van53;

    private static Pile PileOf(LoadUnits lower, LoadUnits? upper = null) => new(upper is { } second ? [lower, second] : [lower], 0, upper is null ? null : 1, In(108));

    [Fact]
    public void What_rides_turns_with_its_pile()
    {
        var pile = PileOf(One(48, 40, 50, 800, bears: 500), One(40, 36, 30, 100, rides: true));
        var straight = new PlacedPile(pile, Place(100, 10, 48, 40), Length.Zero);
        Assert.Equal(Place(100, 10, 48, 40), straight.PlaceOf(pile.Pieces[0]));
        Assert.Equal(Place(104, 12, 40, 36), straight.PlaceOf(pile.Pieces[1]));
        var turned = new PlacedPile(pile, Place(100, 10, 40, 48), In(1));
        Assert.Equal(Place(100, 10, 40, 48), turned.PlaceOf(pile.Pieces[0]));
        Assert.Equal(Place(102, 14, 36, 40), turned.PlaceOf(pile.Pieces[1]));
        Assert.Equal((false, true), (straight.IsOnDeck, turned.IsOnDeck));
    }

    // Three of 48 by 40: turned, two abreast take 40 in and the third 40 more. Of equal footprints the heavier stand nearer the nose.
    [Fact]
    public void On_the_floor_the_heavier_of_equal_footprints_stand_nearer_the_nose()
    {
        var loading = Loading.OnTheFloor([One(48, 40, 50, 100), One(48, 40, 50, 900), One(48, 40, 50, 500)], van);
        Assert.Equal((In(80), In(80), true, (Length?)null), (loading.Used, loading.FloorBound, loading.IsFlat, loading.DeckHeight));
        Assert.Equal([1, 2, 0], loading.Piles.OrderBy(p => p.Place.X).ThenBy(p => p.Place.Y).Select(p => p.Pile.Lowest));
        Assert.All(loading.Piles, p => Assert.Equal(Length.Zero, p.Base));
    }

    [Fact]
    public void A_loading_is_flat_when_nothing_may_stand_on_anything()
    {
        Assert.False(Loading.OnTheFloor([One(48, 40, 50, 100, bears: 100, rides: true)], van).IsFlat);
        Assert.True(Loading.OnTheFloor([One(48, 40, 50, 100, bears: 99, rides: true)], van).IsFlat);
        Assert.False(Loading.OnTheFloor([One(48, 40, 50, 900, bears: 100), One(20, 20, 50, 100, rides: true)], van).IsFlat);
        Assert.True(Loading.OnTheFloor([One(48, 40, 58.1, 900, bears: 100), One(20, 20, 50, 100, rides: true)], van).IsFlat);
        Assert.True(Loading.OnTheFloor([], van).IsFlat);
    }

    [Fact]
    public void What_may_not_turn_stands_as_it_is()
    {
        var loading = Loading.OnTheFloor([One(48, 40, 50, 100, turns: false), One(48, 40, 50, 100, turns: false), One(48, 40, 50, 100, turns: false)], van);
        Assert.Equal((In(96), In(96)), (loading.Used, loading.FloorBound));
    }

    // Two tall ones abreast take 40 in, turned; behind them four under the deck take 80 and two on it 40.
    [Fact]
    public void Behind_what_can_do_neither_the_two_floors_stand_above_one_another()
    {
        LoadUnits[] units = [.. Enumerable.Repeat(One(48, 40, 90, 500), 2), .. Enumerable.Repeat(One(48, 40, 50, 1_700), 4), .. Enumerable.Repeat(One(48, 40, 52, 500), 2)];
        var split = DeckSplit.At(In(50), units, van, Decking.Common)!;
        foreach (var effort in (FloorEffort[])[FloorEffort.Sketch, FloorEffort.Quick])
        {
            var loading = Loading.Decked(split, units, van, effort);
            Assert.Equal((In(120), Length.Zero, false, In(56)), (loading.Used, loading.FloorBound, loading.IsFlat, loading.DeckHeight));
            Assert.All(loading.Piles.Where(p => p.Pile.Lowest < 2), p => Assert.Equal((Length.Zero, Length.Zero), (p.Place.X, p.Base)));
            Assert.Equal([40, 40, 80, 80], loading.Piles.Where(p => p.Pile.Lowest is >= 2 and < 6).Select(p => p.Place.X.Inches).Order());
            Assert.All(loading.Piles.Where(p => p.Pile.Lowest is >= 2 and < 6), p => Assert.Equal(Length.Zero, p.Base));
            Assert.All(loading.Piles.Where(p => p.Pile.Lowest >= 6), p => Assert.Equal((In(40), In(56)), (p.Place.X, p.Base)));
        }

        // And the other way round, the deck the longer.
        units = [.. Enumerable.Repeat(One(48, 40, 50, 1_700), 2), .. Enumerable.Repeat(One(48, 40, 52, 500), 4)];
        Assert.Equal(In(80), Loading.Decked(DeckSplit.At(In(50), units, van, Decking.Common)!, units, van, FloorEffort.Sketch).Used);
    }

    // A sketch of this mix takes 254 in, and 248 are enough; with one small thing more than twelve go abreast, and 192 are not 186.
    [Fact]
    public void As_much_is_spent_as_was_asked_for_and_little_on_small_things()
    {
        LoadUnits[] mix = [.. Many(2, 44, 44), .. Many(3, 40, 40), .. Many(4, 48, 48), .. Many(2, 42, 42)];
        Assert.Equal(In(248), Loading.OnTheFloor(mix, van).Used);
        Assert.Equal(In(192), Loading.OnTheFloor([.. Many(3, 48, 48), .. Many(2, 48, 42), .. Many(4, 36, 36), One(8, 8, 50, 1)], van).Used);
        // All under a deck, and one that stands on it.
        LoadUnits[] decked = [.. mix, One(48, 40, 52, 1)];
        var split = DeckSplit.At(In(50), decked, van, Decking.Common)! with { Up = 0 };
        Assert.Equal(In(254), Loading.Decked(split, decked, van, FloorEffort.Sketch).Used);
        Assert.Equal(In(248), Loading.Decked(split, decked, van, FloorEffort.Quick).Used);

        static IEnumerable<LoadUnits> Many(int count, double length, double width) => Enumerable.Repeat(One(length, width, 50, 1), count);
    }

    [Fact]
    public void A_pile_wider_than_the_trailer_is_a_mistake_of_the_caller() =>
        Assert.Throws<InvalidOperationException>(() => Loading.OnTheFloor([One(120, 110, 50, 100)], van));

    [Fact]
    public void Better_is_what_leaves_fewer_units_out_then_what_is_shorter()
    {
        var (one, two) = (PileOf(One(48, 40, 50, 800)), PileOf(One(48, 40, 50, 800, 500), One(40, 36, 30, 100, rides: true)));
        Loading Ends(double used, params (Pile Pile, double End)[] piles) =>
            new([.. piles.Select(p => new PlacedPile(p.Pile, Place(p.End - 48, 0, 48, 40), Length.Zero))], In(used), Length.Zero, false, null);

        var inside = Ends(630, (one, 630), (two, 48));
        Assert.True(inside.IsBetterThan(Ends(600, (one, 630.1), (two, 48)), van));
        Assert.False(Ends(600, (one, 630.1), (two, 48)).IsBetterThan(inside, van));
        // Two units past the door are more than one.
        Assert.True(Ends(700, (one, 650), (two, 48)).IsBetterThan(Ends(700, (one, 48), (two, 650)), van));
        Assert.False(Ends(700, (one, 48), (two, 650)).IsBetterThan(Ends(800, (one, 650), (two, 48)), van));
        Assert.True(Ends(600, (one, 600)).IsBetterThan(Ends(601, (one, 601)), van));
        Assert.False(Ends(600, (one, 600)).IsBetterThan(Ends(600, (one, 600)), van));
        Assert.False(Ends(601, (one, 601)).IsBetterThan(Ends(600, (one, 600)), van));
    }
}
