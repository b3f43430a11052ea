using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

/// <summary>The van is 98.5 in wide and 108 high; common beams take 6 in of the height, and a pair of them bears 4,000 lb.</summary>
public class DeckingTests
{
    private static readonly Trailer van = Trailer.Van53;

    private static DeckSplit? At(double highest, params LoadUnits[] units) => DeckSplit.At(In(highest), units, van, Decking.Common);

    private static IEnumerable<string> Piles(IEnumerable<Pile> piles) => piles.Select(p => string.Join(' ', p.Pieces.Select(piece => piece.Unit)));

    [Fact]
    public void Common_beams_are_four_inches_deep_with_two_of_air_and_a_pair_bears_twice_what_one_does()
    {
        Assert.Equal((Lb(2_000), In(4), In(2)), (Decking.Common.BeamRating, Decking.Common.BeamDepth, Decking.Common.Clearance));
        Assert.Equal((Lb(4_000), In(6)), (Decking.Common.PairRating, Decking.Common.Lost));
    }

    [Fact]
    public void A_unit_has_the_share_of_a_pair_that_its_narrower_side_has_of_the_width()
    {
        Assert.Equal(Lb(2_000), Decking.Common.MostFor(In(60), In(50), In(100)));
        Assert.Equal(Lb(2_000), Decking.Common.MostFor(In(50), In(60), In(100)));
        Assert.Equal(Lb(4_000), Decking.Common.MostFor(In(100), In(100), In(100)));
        Assert.Equal(Lb(4_000), Decking.Common.MostFor(In(120), In(110), In(100)));
    }

    [Fact]
    public void Units_stand_under_the_deck_on_it_either_or_neither()
    {
        var split = At(50,
            One(48, 40, 50, 1_000), One(48, 40, 50.1, 1_000), One(48, 40, 50, 1_625), One(48, 40, 60, 100),
            One(48, 40, 52, 1_000), One(48, 40, 52.1, 1_000))!;
        Assert.Equal([0], split.Either);
        Assert.Equal([1, 4], split.Above);
        Assert.Equal([2], split.Under);
        Assert.Equal([3, 5], split.Neither);
        Assert.Empty(split.Loose);
        Assert.Equal((In(50), In(56), Decking.Common), (split.Highest, split.DeckHeight, split.Decking));
    }

    // 40 of 100 in have 1,600 of 4,000 lb.
    [Fact]
    public void A_unit_on_the_deck_weighs_at_most_its_share()
    {
        var wide = van with { Width = In(100) };
        Assert.Equal([0], DeckSplit.At(In(50), [One(48, 40, 51, 1_600), One(48, 40, 51, 1_600.1)], wide, Decking.Common)!.Above);
    }

    [Fact]
    public void A_deck_on_which_nothing_can_stand_is_none()
    {
        Assert.Null(At(50, One(48, 40, 50, 1_625), One(48, 40, 60, 100)));
        Assert.NotNull(At(50, One(48, 40, 50, 1_000)));
        Assert.NotNull(At(50, One(48, 40, 51, 1_000)));
        Assert.NotNull(At(50, One(48, 40, 51, 1_000), One(48, 40, 50, 1_000)));
        Assert.Null(At(50));
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(3, 2)]
    [InlineData(4, 2)]
    [InlineData(7, 4)]
    public void Of_units_that_may_do_either_half_the_area_goes_up(int count, int up)
    {
        // A square metre each.
        var split = At(50, [.. Enumerable.Repeat(One(48, 40, 50, 1_000) with { Length = Length.FromMetres(1), Width = Length.FromMetres(1) }, count)])!;
        Assert.Equal((up, Math.Max(up, count - up)), (split.Up, split.Estimate));
    }

    // In units of 480 square inches: 4 below only, 4 above only, 2 of neither, and of 1 + 2 + 1 that may do either the first fit.
    [Fact]
    public void What_must_stand_below_or_above_counts_and_what_can_do_neither_is_added()
    {
        var split = At(50,
            One(48, 40, 50, 1_700), One(48, 40, 52, 500), One(24, 40, 90, 100),
            One(24, 20, 50, 300), One(24, 40, 50, 200), One(24, 20, 50, 100))!;
        Assert.Equal([5, 4, 3], split.Either);
        Assert.Equal(2, split.Up);
        Assert.Equal(480 * (2 + 7) * In(1).Metres * In(1).Metres, split.Estimate, 1e-9);
    }

    [Fact]
    public void Of_equally_heavy_units_the_smaller_goes_up_first() =>
        Assert.Equal([1, 2, 0], At(50, One(48, 48, 50, 500), One(48, 40, 50, 500), One(48, 42, 50, 500))!.Either);

    [Fact]
    public void Splits_nearby_have_one_or_two_units_less_on_the_deck()
    {
        Assert.Equal([3, 2, 1], At(50, [.. Enumerable.Repeat(One(48, 40, 50, 1_000), 6)])!.Nearby().Select(s => s.Up));
        // One must stand on it, whatever else does.
        Assert.Equal([1, 0], At(50, One(48, 40, 52, 1_000), One(48, 40, 50, 1_000), One(48, 40, 50, 1_000))!.Nearby().Select(s => s.Up));
        // Nothing on it is no deck.
        Assert.Equal([1], At(50, One(48, 40, 50, 1_000), One(48, 40, 50, 1_000))!.Nearby().Select(s => s.Up));
        Assert.Equal([2, 1], At(50, [.. Enumerable.Repeat(One(48, 40, 50, 1_000), 4)])!.Nearby().Select(s => s.Up));
    }

    [Fact]
    public void Piles_stand_before_the_deck_under_it_and_on_it()
    {
        LoadUnits[] units =
        [
            One(48, 40, 50, 1_700), One(48, 40, 52, 500), One(48, 40, 60, 1_700, bears: 0), One(48, 40, 50, 300), One(48, 40, 50, 200),
        ];
        var (before, under, above) = At(50, units)!.Piles(units, van);
        Assert.Equal(["2"], Piles(before));
        Assert.Equal(["0", "3"], Piles(under));
        Assert.Equal(["1", "4"], Piles(above));
    }

    // 25 + 25 in fit under a deck at 50; 26 + 25 do not. On the deck nothing large is stacked.
    [Fact]
    public void Under_the_deck_two_stand_as_high_as_it_allows_and_on_it_one()
    {
        var strong = One(48, 40, 25, 1_700, bears: 5_000, rides: true);
        LoadUnits[] units = [strong, strong, strong with { Height = In(26) }, One(48, 40, 50, 1_700), One(48, 40, 52, 100)];
        var (before, under, above) = At(50, units)!.Piles(units, van);
        Assert.Empty(before);
        Assert.Equal(["0 1", "2", "3"], Piles(under).Order());
        Assert.Equal(["4"], Piles(above));
    }

    [Fact]
    public void Before_the_deck_two_stand_as_high_as_the_trailer()
    {
        var tall = One(48, 40, 54, 1_700, bears: 5_000, rides: true);
        LoadUnits[] units = [tall, tall, One(48, 40, 30, 100)];
        Assert.Equal(["0 1"], Piles(At(30, units)!.Piles(units, van).Before));
    }

    private static readonly LoadUnits carton = One(24, 20, 10, 100, rides: true);

    [Fact]
    public void Loose_pieces_ride_on_what_bears_them_above_or_below()
    {
        LoadUnits[] units = [One(48, 40, 40, 1_700, bears: 100), One(48, 40, 52, 500, bears: 100), carton, carton];
        var split = At(50, units)!;
        Assert.Equal([2, 3], split.Loose);
        // On the deck 52 in are left, and the unit there is 52 high.
        var (_, under, above) = split.Piles(units, van);
        Assert.Equal(["0 2", "3"], Piles(under));
        Assert.Equal(["1"], Piles(above));
        units[1] = units[1] with { Height = In(42) };
        units[0] = units[0] with { Height = In(40.1) };
        (_, under, above) = DeckSplit.At(In(50), units, van, Decking.Common)!.Piles(units, van);
        Assert.Equal(["0", "3"], Piles(under));
        Assert.Equal(["1 2"], Piles(above));
    }

    [Fact]
    public void On_the_deck_pieces_ride_only_up_to_what_the_beams_bear()
    {
        // A unit 40 in wide may weigh 1,624 lb with what rides on it.
        LoadUnits[] units = [One(48, 40, 42, 1_520, bears: 5_000), carton, carton, One(48, 40, 50, 1_700)];
        Assert.Equal(["0 1"], Piles(DeckSplit.At(In(41), units[..3], van, Decking.Common)!.Piles(units, van).Above));
        units[0] = units[0] with { Weight = Lb(1_530) };
        var (_, under, above) = At(50, units)!.Piles(units, van);
        Assert.DoesNotContain("0 1", Piles(above).Concat(Piles(under)));
    }

    // Nothing bears the pieces in these splits any more, so that each stands: where less stands, and below when that is equal.
    [Fact]
    public void Pieces_without_room_stand_where_there_is_less()
    {
        LoadUnits[] units = [One(48, 40, 50, 1_700), One(48, 40, 50, 1_700), One(48, 40, 52, 500), carton, carton];
        var split = At(50, units)! with { Under = [0, 1], Either = [], Up = 0, Loose = [3, 4] };
        var (_, under, above) = split.Piles(units, van);
        Assert.Equal(["0", "1"], Piles(under));
        Assert.Equal(["2", "3", "4"], Piles(above));

        (_, under, above) = (split with { Under = [0] }).Piles(units, van);
        Assert.Equal(["0", "3"], Piles(under));
        Assert.Equal(["2", "4"], Piles(above));
    }

    [Fact]
    public void A_piece_too_tall_to_stand_below_stands_above_and_one_that_may_do_neither_before()
    {
        LoadUnits[] units = [One(48, 40, 30, 1_700), One(48, 40, 60, 500), carton with { Height = In(31) }, carton with { Height = In(80) }, carton with { Height = In(30), Weight = Lb(900) }];
        var split = At(30, units)! with { Under = [], Above = [1], Either = [], Neither = [], Loose = [2, 3, 4], Up = 0 };
        var (before, under, above) = split.Piles(units, van);
        Assert.Equal(["3"], Piles(before));
        Assert.Equal(["4"], Piles(under));
        Assert.Equal(["1", "2"], Piles(above));
    }

    [Fact]
    public void A_piece_left_standing_bears_what_fits_between_floor_and_deck_or_roof()
    {
        LoadUnits[] units = [One(48, 40, 52, 500), carton with { MayBear = Lb(500) }, One(24, 20, 40, 1, rides: true), One(24, 20, 40.1, 1, rides: true), carton with { Height = In(68), MayBear = Lb(500) }];
        var split = At(50, units)! with { Under = [], Loose = [1, 4], Either = [], Above = [0], Neither = [], Up = 0 };
        var (before, under, _) = split.Piles(units, van);
        Assert.NotNull(under.Single().RoomFor(2));
        Assert.Null(under.Single().RoomFor(3));
        Assert.NotNull(before.Single().RoomFor(2));
        Assert.Null(before.Single().RoomFor(3));
    }
}
