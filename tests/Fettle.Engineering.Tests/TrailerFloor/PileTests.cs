using Fettle.Engineering.Patterns;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.TrailerFloor.InInches;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class PileTests
{
    private static readonly Length highest = In(100);

    /// <summary>A pallet of 48 by 40 in, 50 high, that bears 1,000 lb, alone; what may ride on it follows.</summary>
    private static Pile OnPallet(params LoadUnits[] riders) => new([One(48, 40, 50, 800, bears: 1_000), .. riders], 0, null, highest);

    private static LoadUnits Rider(double length, double width, double height = 10, double weight = 50, bool turns = true) =>
        One(length, width, height, weight, rides: true, turns: turns);

    [Fact]
    public void A_unit_alone_is_a_pile()
    {
        var pile = new Pile([One(1, 1, 1, 1), One(48, 40, 50, 800, turns: false)], 1, null, highest);
        Assert.Equal((1, true, Lb(800), false), (pile.Lowest, pile.IsAlone, pile.Weight, pile.MayTurn));
        Assert.Equal(Place(0, 0, 48, 40), pile.Place);
        Assert.Equal([new(1, Place(0, 0, 48, 40), Length.Zero, null)], pile.Pieces);
    }

    [Theory]
    [InlineData(40, 36, 4, 2, 40, 36)]
    [InlineData(36, 44, 2, 2, 44, 36)]
    [InlineData(40, 40, 4, 0, 40, 40)]
    [InlineData(40, 48, 0, 0, 48, 40)]
    public void A_second_one_stands_in_the_middle_turned_if_it_must_be(double length, double width, double x, double y, double along, double across)
    {
        var pile = new Pile([One(48, 40, 50, 800, bears: 1_000), Rider(length, width, 30, 300)], 0, 1, highest);
        Assert.Equal(new(1, Place(x, y, along, across), In(50), 0), pile.Pieces[1]);
        Assert.Equal((0, false, Lb(1_100), true), (pile.Lowest, pile.IsAlone, pile.Weight, pile.MayTurn));
    }

    [Fact]
    public void A_pile_may_be_turned_only_when_all_of_it_may()
    {
        Assert.False(new Pile([One(48, 40, 50, 800, 1_000), Rider(48, 40, turns: false)], 0, 1, highest).MayTurn);
        Assert.False(new Pile([One(48, 40, 50, 800, 1_000, turns: false), Rider(48, 40)], 0, 1, highest).MayTurn);
        var pile = OnPallet(Rider(20, 10, turns: false));
        Assert.True(pile.MayTurn);
        pile.Put(1, Place(0, 0, 20, 10));
        Assert.False(pile.MayTurn);
    }

    [Fact]
    public void Room_is_where_least_of_a_bare_rectangle_is_wasted()
    {
        // Straight, the lesser of 32 and 28 in is wasted; turned, of 36 and 24.
        var pile = OnPallet(Rider(16, 12), Rider(16, 12));
        var first = pile.RoomFor(1)!.Value;
        Assert.Equal(Place(0, 0, 12, 16), first.Place);
        Assert.Equal(In(24).Metres, first.Waste, 1e-12);
        pile.Put(1, first.Place);
        // Beside it 36 by 40 are bare (20 wasted straight), and behind it 48 by 24 (8 wasted turned).
        var second = pile.RoomFor(2)!.Value;
        Assert.Equal(Place(0, 16, 12, 16), second.Place);
        Assert.Equal(In(8).Metres, second.Waste, 1e-12);
    }

    [Fact]
    public void What_may_not_turn_takes_the_room_there_is_straight()
    {
        var pile = OnPallet(Rider(16, 12, turns: false), Rider(40, 48, turns: false), Rider(40, 48), Rider(40, 40));
        Assert.Equal(Place(0, 0, 16, 12), pile.RoomFor(1)!.Value.Place);
        Assert.Null(pile.RoomFor(2));
        Assert.Equal(new(Place(0, 0, 48, 40), 0), pile.RoomFor(3));
        Assert.Equal(new(Place(0, 0, 40, 40), 0), pile.RoomFor(4));
    }

    [Fact]
    public void Waste_is_the_lesser_of_what_stays_bare_along_and_across()
    {
        var pile = OnPallet(Rider(46, 10, turns: false), Rider(10, 39, turns: false));
        Assert.Equal(In(2).Metres, pile.RoomFor(1)!.Value.Waste, 1e-12);
        Assert.Equal(In(1).Metres, pile.RoomFor(2)!.Value.Waste, 1e-12);
    }

    // By hand: 12 by 16 in the corner and 28 by 10 further in leave 8 by 40 between them along and 4 across.
    [Fact]
    public void What_is_cut_from_a_rest_ends_where_it_begins()
    {
        var pile = OnPallet(Rider(12, 16), Rider(28, 10), Straight(8, 40), Straight(8.1, 40), Straight(48, 10), Straight(48, 10.1), Straight(36, 20), Straight(20, 24));
        pile.Put(1, Place(0, 0, 12, 16));
        pile.Put(2, Place(20, 20, 28, 10));
        Assert.Equal(Place(12, 0, 8, 40), pile.RoomFor(3)!.Value.Place);
        Assert.Null(pile.RoomFor(4));
        Assert.Equal(Place(0, 30, 48, 10), pile.RoomFor(5)!.Value.Place);
        Assert.Null(pile.RoomFor(6));
        Assert.Equal(Place(12, 0, 36, 20), pile.RoomFor(7)!.Value.Place);
        Assert.Equal(Place(0, 16, 20, 24), pile.RoomFor(8)!.Value.Place);

        static LoadUnits Straight(double length, double width) => Rider(length, width, turns: false);
    }

    [Fact]
    public void Room_is_only_for_what_may_ride_is_light_enough_and_low_enough()
    {
        var pile = OnPallet(Rider(20, 20, 50, 1_000), Rider(20, 20, 50.1, 1_000), Rider(20, 20, 50, 1_000.1), One(20, 20, 50, 1_000), Rider(48.1, 10), Rider(40.1, 40.1));
        Assert.NotNull(pile.RoomFor(1));
        Assert.All(Enumerable.Range(2, 5), rider => Assert.Null(pile.RoomFor(rider)));
        Assert.Null(new Pile([One(48, 40, 50, 800, bears: 0), Rider(20, 20, 10, 0)], 0, null, highest).RoomFor(1));
    }

    [Fact]
    public void What_was_put_counts_against_what_may_be_borne()
    {
        var pile = OnPallet(Rider(10, 10, 10, 600), Rider(10, 10, 10, 400), Rider(10, 10, 10, 400.1), Rider(10, 10, 10, 0));
        pile.Put(1, pile.RoomFor(1)!.Value.Place);
        Assert.NotNull(pile.RoomFor(2));
        Assert.Null(pile.RoomFor(3));
        pile.Put(2, pile.RoomFor(2)!.Value.Place);
        Assert.Null(pile.RoomFor(4));
        Assert.Equal(Lb(1_800), pile.Weight);
        Assert.Equal([(0, (int?)null), (1, 0), (2, 0)], pile.Pieces.Select(p => (p.Unit, p.On)));
    }

    [Fact]
    public void On_a_stack_of_two_only_loose_pieces_ride_on_the_upper_by_what_both_bear()
    {
        LoadUnits[] units = [One(48, 40, 40, 800, bears: 700), One(40, 40, 30, 500, bears: 150, rides: true), Rider(20, 20, 30, 150), Rider(20, 20.1, 30, 150), Rider(20, 20, 30.1, 150), Rider(20, 20, 30, 150.1)];
        var pile = new Pile(units, 0, 1, highest);
        // In the corner of the upper one, which begins 4 in along; a quarter of its top is 400 square inches.
        Assert.Equal(Place(4, 0, 20, 20), pile.RoomFor(2)!.Value.Place);
        Assert.All(Enumerable.Range(3, 3), rider => Assert.Null(pile.RoomFor(rider)));
        pile.Put(2, pile.RoomFor(2)!.Value.Place);
        Assert.Equal(new(2, Place(4, 0, 20, 20), In(70), 1), pile.Pieces[2]);

        // 700 less 500 are 200, whatever the upper one bears.
        units[1] = units[1] with { MayBear = Lb(1_000) };
        units[5] = Rider(20, 20, 30, 200);
        units[4] = Rider(20, 20, 30, 200.1);
        Assert.NotNull(new Pile(units, 0, 1, highest).RoomFor(5));
        Assert.Null(new Pile(units, 0, 1, highest).RoomFor(4));
    }

    [Fact]
    public void On_a_deck_only_loose_pieces_ride_up_to_what_the_beams_bear()
    {
        LoadUnits[] units = [One(48, 40, 50, 800, bears: 1_000), Rider(24, 20, 10, 200), Rider(24, 20, 10, 200.1), Rider(24, 20.1, 10, 200)];
        var pile = new Pile(units, 0, null, highest, Lb(1_000));
        Assert.NotNull(pile.RoomFor(1));
        Assert.Null(pile.RoomFor(2));
        Assert.Null(pile.RoomFor(3));
        Assert.NotNull(new Pile(units, 0, null, highest, Lb(5_000)).RoomFor(2));
        units[2] = Rider(24, 20, 10, 1_000.1);
        Assert.Null(new Pile(units, 0, null, highest, Lb(5_000)).RoomFor(2));
        // On the floor nothing is too large.
        Assert.NotNull(new Pile(units, 0, null, highest).RoomFor(3));
    }

    [Fact]
    public void On_all_four_sides_of_what_was_put_the_top_stays_bare()
    {
        // Before it 8 in are bare, behind it 10, left of it 6 and right of it 14.
        var pile = OnPallet(Rider(30, 20), Straight(8, 40), Straight(10, 40), Straight(48, 6), Straight(48, 14), Straight(10.1, 40), Straight(48, 14.1), Straight(10, 14));
        pile.Put(1, Place(8, 6, 30, 20));
        Assert.Equal(Place(0, 0, 8, 40), pile.RoomFor(2)!.Value.Place);
        Assert.Equal(Place(38, 0, 10, 40), pile.RoomFor(3)!.Value.Place);
        Assert.Equal(Place(0, 0, 48, 6), pile.RoomFor(4)!.Value.Place);
        Assert.Equal(Place(0, 26, 48, 14), pile.RoomFor(5)!.Value.Place);
        Assert.Null(pile.RoomFor(6));
        Assert.Null(pile.RoomFor(7));

        // What is put behind it at the right takes of two of them; the other two are as they were.
        pile.Put(8, Place(38, 26, 10, 14));
        Assert.Equal(Place(0, 0, 8, 40), pile.RoomFor(2)!.Value.Place);
        Assert.Equal(Place(0, 0, 48, 6), pile.RoomFor(4)!.Value.Place);
        Assert.Null(pile.RoomFor(3));
        Assert.Null(pile.RoomFor(5));

        static LoadUnits Straight(double length, double width) => Rider(length, width, turns: false);
    }

    [Fact]
    public void A_full_top_has_room_for_nothing()
    {
        var pile = OnPallet(Rider(48, 20), Rider(48, 20), Rider(1, 1));
        pile.Put(1, Place(0, 0, 48, 20));
        pile.Put(2, Place(0, 20, 48, 20));
        Assert.Null(pile.RoomFor(3));
    }

    /// <summary>What is a third as long as the pallet and as wide goes nine times, whatever the order; nothing overlaps.</summary>
    [Fact]
    public void A_top_is_filled_without_overlap()
    {
        var pile = OnPallet([.. Enumerable.Repeat(Rider(16, 13, turns: false), 10)]);
        for (var rider = 1; rider <= 9; rider++)
            pile.Put(rider, pile.RoomFor(rider)!.Value.Place);
        Assert.Null(pile.RoomFor(10));
        Placement[] places = [.. pile.Pieces.Skip(1).Select(p => p.Place)];
        Assert.All(places, a => Assert.Equal(1, places.Count(b => a.X < b.Right && b.X < a.Right && a.Y < b.Top && b.Y < a.Top)));
        Assert.All(places, a => Assert.True(a.Right <= In(48) && a.Top <= In(40)));
    }
}
