using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class PilingTests
{
    private static readonly Length highest = In(108);

    private static readonly LoadUnits pallet = One(48, 40, 50, 800, bears: 1_000, rides: true);

    /// <summary>A quarter of the pallet's footprint.</summary>
    private static readonly LoadUnits carton = One(24, 20, 8, 40, rides: true);

    /// <summary>Each pile as the units in it, from below.</summary>
    private static IEnumerable<string> Piles(IEnumerable<Pile> piles) => piles.Select(p => string.Join(' ', p.Pieces.Select(piece => piece.Unit)));

    [Fact]
    public void Loose_is_what_some_other_would_carry_with_three_quarters_of_its_top_to_spare()
    {
        Assert.Equal([1], Piling.Loose([pallet, carton], highest));
        Assert.Equal([1, 3], Piling.Loose([pallet, carton, pallet, carton], highest));
        Assert.Empty(Piling.Loose([pallet, carton with { Width = In(20.1) }], highest));
        Assert.Empty(Piling.Loose([pallet with { MayBear = Mass.Zero }, carton], highest));
        Assert.Empty(Piling.Loose([pallet, carton with { MayRide = false }], highest));
        Assert.Empty(Piling.Loose([pallet, carton], In(57)));
        Assert.Equal([1], Piling.Loose([pallet, carton], In(58)));
    }

    [Fact]
    public void Alike_stand_two_high_and_the_odd_one_alone() =>
        Assert.Equal(["0 1", "2"], Piles(Piling.TwoHigh([pallet, pallet, pallet], [0, 1, 2], highest)));

    [Fact]
    public void Only_those_named_are_piled() =>
        Assert.Equal(["1 3"], Piles(Piling.TwoHigh([pallet, pallet, pallet, pallet], [1, 3], highest)));

    [Fact]
    public void What_is_left_alone_rides_on_a_stack_that_has_room()
    {
        var low = pallet with { Weight = Lb(400) };
        Assert.Equal(["0 1 2"], Piles(Piling.TwoHigh([low, low, carton with { MayBear = Mass.Zero }], [0, 1, 2], highest)));
        Assert.Equal(["0 1", "2"], Piles(Piling.TwoHigh([low, low, carton with { MayRide = false }], [0, 1, 2], highest)));
        Assert.Equal(["0 1", "2"], Piles(Piling.TwoHigh([low, low, carton with { Height = In(8.1) }], [0, 1, 2], highest)));
    }

    [Fact]
    public void Loose_pieces_ride_the_largest_first_and_the_rest_is_returned()
    {
        var bearer = pallet with { MayBear = Lb(100), MayRide = false };
        LoadUnits[] units = [bearer, carton with { Length = In(12) }, carton, carton with { Length = In(20) }];
        List<Pile> piles = [new(units, 0, null, highest)];
        Assert.Equal([1], Piling.PutOnTop(units, [1, 2, 3], piles));
        Assert.Equal(["0 2 3"], Piles(piles));
    }

    // 24 by 20 in: on a top of 24 by 30 nothing is wasted along it, on 48 by 40 the lesser of 24 and 20 in.
    [Fact]
    public void A_piece_rides_where_it_wastes_least()
    {
        LoadUnits[] units = [pallet, One(24, 30, 20, 300, bears: 500), carton];
        List<Pile> piles = [new(units, 0, null, highest), new(units, 1, null, highest)];
        Assert.Empty(Piling.PutOnTop(units, [2], piles));
        Assert.Equal(["0", "1 2"], Piles(piles));
    }

    [Fact]
    public void Of_equal_places_the_first_is_taken()
    {
        LoadUnits[] units = [pallet, pallet, carton];
        List<Pile> piles = [new(units, 0, null, highest), new(units, 1, null, highest)];
        Assert.Empty(Piling.PutOnTop(units, [2], piles));
        Assert.Equal(["0 2", "1"], Piles(piles));
    }

    [Fact]
    public void Pairs_are_made_first_and_loose_pieces_put_on_them()
    {
        var low = pallet with { Weight = Lb(400) };
        Assert.Equal(["1 3 0 2"], Piles(Piling.All([carton, low, carton, low], highest)).Order());
    }

    // What finds no room on the pallet, which bears one carton only, is piled among itself.
    [Fact]
    public void Loose_pieces_without_room_are_piled_among_themselves()
    {
        var (bearer, strong) = (pallet with { MayBear = Lb(40), MayRide = false }, carton with { MayBear = Lb(40) });
        Assert.Equal(["0 1", "2 3"], Piles(Piling.All([bearer, strong, strong, strong], highest)));
    }
}
