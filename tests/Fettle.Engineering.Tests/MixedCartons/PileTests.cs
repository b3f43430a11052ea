using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.MixedCartons.SmallCartons;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>Every weight and share here is counted by hand.</summary>
public class PileTests
{
    private static Pile Empty(PalletRoom room, params CartonKind[] kinds) => new(kinds, room, new Work(long.MaxValue));

    private static Stance Box(int kind, long along, long across, long up) => new(kind, along, across, up, CartonFace.Base, false);

    private static void Put(Pile pile, Stance stance, long x, long y)
    {
        var seat = pile.SeatAt(stance, x, y);
        Assert.False(seat.IsRefused);
        Assert.Null(pile.TryPlace(stance, seat));
    }

    private static double[] Borne(Pile pile) => [.. pile.Cartons.Select((_, i) => Math.Round(pile.BorneBy(i) / Force.StandardGravity, 9))];

    [Theory]
    [InlineData(0, 0, true)]
    [InlineData(6, 7, true)]
    [InlineData(-1, 0, false)]
    [InlineData(0, -1, false)]
    [InlineData(7, 0, false)]
    [InlineData(0, 8, false)]
    public void A_carton_may_reach_the_edges_of_the_deck_and_not_past_them(long x, long y, bool rests)
    {
        var seat = Empty(Room(10, 9, 5), Kind(4, 2, 5)).SeatAt(Box(0, 4, 2, 5), x, y);
        Assert.Equal(rests ? new Seat(x, y, 0, 1) : Seat.Refused, seat);
        Assert.Equal(!rests, seat.IsRefused);
    }

    [Fact]
    public void A_carton_may_reach_the_greatest_height_and_not_past_it()
    {
        var pile = Empty(Room(4, 4, 9), Kind(4, 4, 5));
        Assert.False(pile.SeatAt(Box(0, 4, 4, 9), 0, 0).IsRefused);
        Assert.True(pile.SeatAt(Box(0, 4, 4, 10), 0, 0).IsRefused);
        Put(pile, Box(0, 4, 4, 5), 0, 0);
        Assert.Equal(new Seat(0, 0, 5, 1), pile.SeatAt(Box(0, 4, 4, 4), 0, 0));
        Assert.True(pile.SeatAt(Box(0, 4, 4, 5), 0, 0).IsRefused);
    }

    [Fact]
    public void A_carton_comes_to_rest_on_the_highest_thing_under_it_and_only_that_supports_it()
    {
        var pile = Empty(Room(10, 1, 20), Kind(1, 1, 1));
        Put(pile, Box(0, 2, 1, 2), 8, 0);
        Put(pile, Box(0, 6, 1, 3), 0, 0);
        Put(pile, Box(0, 2, 1, 3), 6, 0);
        Assert.Equal(new Seat(0, 0, 3, 0.8), pile.SeatAt(Box(0, 10, 1, 1), 0, 0));
        // The same, with the lower one put down last.
        pile = Empty(Room(10, 1, 20), Kind(1, 1, 1));
        Put(pile, Box(0, 8, 1, 3), 0, 0);
        Put(pile, Box(0, 2, 1, 2), 8, 0);
        Assert.Equal(new Seat(0, 0, 3, 0.8), pile.SeatAt(Box(0, 10, 1, 1), 0, 0));
    }

    [Theory]
    [InlineData(0.8, 8, true)]
    [InlineData(0.8, 7, false)]
    [InlineData(0.81, 8, false)]
    [InlineData(1, 10, true)]
    [InlineData(1, 9, false)]
    public void Support_on_the_limit_counts_as_within_it(double least, long below, bool rests)
    {
        var pile = Empty(Room(10, 3, 20, leastSupport: least), Kind(1, 1, 1));
        Put(pile, Box(0, below, 3, 2), 0, 0);
        var seat = pile.SeatAt(Box(0, 10, 3, 1), 0, 0);
        Assert.Equal(rests, !seat.IsRefused);
        Assert.Equal(rests ? below / 10.0 : 0, seat.Support);
    }

    [Fact]
    public void Cartons_that_only_touch_from_the_side_hold_nothing_up()
    {
        var pile = Empty(Room(4, 4, 9), Kind(1, 1, 1));
        Put(pile, Box(0, 2, 2, 3), 0, 0);
        Assert.Equal(0, pile.SeatAt(Box(0, 2, 2, 1), 2, 0).Z);
        Assert.Equal(0, pile.SeatAt(Box(0, 2, 2, 1), 0, 2).Z);
        Assert.Equal(0, pile.SeatAt(Box(0, 2, 2, 1), 2, 2).Z);
    }

    [Fact]
    public void The_area_shared_with_a_rectangle_is_that_seen_from_above()
    {
        var carton = new Resting(Box(0, 4, 3, 2), new Seat(10, 20, 5, 1));
        Assert.Equal(7, carton.Top);
        Assert.Equal(12, carton.Overlap(10, 20, 4, 3));
        Assert.Equal(12, carton.Overlap(0, 0, 100, 100));
        Assert.Equal(2, carton.Overlap(12, 22, 9, 9));
        Assert.Equal(2, carton.Overlap(8, 19, 4, 2));
        Assert.Equal(0, carton.Overlap(14, 20, 4, 3));
        Assert.Equal(0, carton.Overlap(10, 23, 4, 3));
        Assert.Equal(0, carton.Overlap(6, 20, 4, 3));
        // Apart both ways: the two negative extents are no area.
        Assert.Equal(0, carton.Overlap(30, 40, 4, 3));
    }

    [Fact]
    public void A_pile_may_weigh_as_much_as_the_room_takes_and_no_more()
    {
        CartonKind[] kinds = [Kind(2, 2, 2, kilograms: 3), Kind(2, 2, 2, kilograms: 5), Kind(2, 2, 2, kilograms: 2)];
        var pile = Empty(Room(6, 2, 9, kilograms: 8), kinds);
        Put(pile, Box(0, 2, 2, 2), 0, 0);
        Put(pile, Box(1, 2, 2, 2), 2, 0);
        Assert.Equal(Kg(8), pile.Mass);
        var third = Box(2, 2, 2, 2);
        Assert.Equal(LeftOutReason.Weight, pile.TryPlace(third, pile.SeatAt(third, 4, 0)));
        Assert.Equal((2, Kg(8)), (pile.Cartons.Count, pile.Mass));
    }

    [Fact]
    public void Each_carton_bears_all_that_stands_above_it()
    {
        CartonKind[] kinds = [Kind(2, 2, 2, 3), Kind(2, 2, 2, 5), Kind(2, 2, 2, 2)];
        var pile = Empty(Room(2, 2, 9), kinds);
        for (var kind = 0; kind < 3; kind++)
            Put(pile, Upright(kinds, kind), 0, 0);
        Assert.Equal([7.0, 2, 0], Borne(pile));
        Assert.Equal([0L, 2, 4], pile.Cartons.Select(c => c.Seat.Z));
    }

    [Fact]
    public void A_load_on_the_limit_of_what_a_carton_bears_is_taken_and_one_past_it_is_not()
    {
        CartonKind[] kinds = [Kind(2, 2, 2, bears: 2), Kind(2, 2, 2, 1.5), Kind(2, 2, 2, 0.5), Kind(2, 2, 2, 0.001)];
        var pile = Empty(Room(2, 2, 20), kinds);
        for (var kind = 0; kind < 3; kind++)
            Put(pile, Upright(kinds, kind), 0, 0);
        var straw = Upright(kinds, 3);
        Assert.Equal(LeftOutReason.Strength, pile.TryPlace(straw, pile.SeatAt(straw, 0, 0)));
        Assert.Equal([2, 0.5, 0], Borne(pile));
        Assert.Equal((3, Kg(3)), (pile.Cartons.Count, pile.Mass));
    }

    [Theory]
    [InlineData(CartonFace.Base, null)]
    [InlineData(CartonFace.Side, LeftOutReason.Strength)]
    [InlineData(CartonFace.End, LeftOutReason.Strength)]
    public void Only_an_upright_carton_bears_anything(CartonFace down, LeftOutReason? refusal)
    {
        CartonKind[] kinds = [Kind(2, 2, 2)];
        var pile = Empty(Room(2, 2, 20), kinds);
        Put(pile, Upright(kinds, 0) with { Down = down }, 0, 0);
        Assert.Equal(refusal, pile.TryPlace(Upright(kinds, 0), pile.SeatAt(Upright(kinds, 0), 0, 0)));
    }

    /// <summary>Two posts, a beam of 4 kg over both (three parts in four on the first), and 8 kg on the beam's far end.</summary>
    private static Pile Bridge(double secondPostBears = 1000)
    {
        CartonKind[] kinds = [Kind(6, 1, 2), Kind(2, 1, 2, bears: secondPostBears), Kind(8, 1, 1, 4), Kind(4, 1, 1, 8), Kind(1, 1, 1, 16)];
        var pile = Empty(Room(10, 1, 9), kinds);
        Put(pile, Upright(kinds, 0), 0, 0);
        Put(pile, Upright(kinds, 1), 6, 0);
        Put(pile, Upright(kinds, 2), 0, 0);
        var last = Upright(kinds, 3);
        if (pile.TryPlace(last, pile.SeatAt(last, 4, 0)) is null)
            Put(pile, Upright(kinds, 4), 9, 0);
        return pile;
    }

    [Fact]
    public void Weight_is_handed_down_by_area_of_contact_through_every_level()
    {
        var pile = Bridge();
        // The beam hands on 12 kg: 9 to the first post and 3 to the second. The last carton stands on the deck beside them.
        Assert.Equal([9.0, 3, 8, 0, 0], Borne(pile));
        Assert.Equal(0, pile.Cartons[4].Seat.Z);
        // All of the second post's top is covered and half of the beam's.
        Assert.Equal([false, false, true, true, true], Enumerable.Range(0, 5).Select(pile.IsOpen));
    }

    [Fact]
    public void What_a_carton_far_below_cannot_bear_is_refused_and_leaves_the_pile_as_it_was()
    {
        // The second post bears 1 kg of the beam, and 2 kg more of what stands on that.
        Assert.Equal([9.0, 3, 8, 0, 0], Borne(Bridge(secondPostBears: 3)));
        Assert.Equal([3.0, 1, 0], Borne(Bridge(secondPostBears: 2.99)));
    }

    [Fact]
    public void A_top_is_open_until_all_of_it_is_covered()
    {
        CartonKind[] kinds = [Kind(4, 3, 2), Kind(2, 3, 1), Kind(1, 3, 1)];
        var pile = Empty(Room(4, 3, 9), kinds);
        Put(pile, Upright(kinds, 0), 0, 0);
        Assert.True(pile.IsOpen(0));
        Put(pile, Upright(kinds, 1), 0, 0);
        Put(pile, Upright(kinds, 2), 2, 0);
        Assert.True(pile.IsOpen(0));
        Put(pile, Upright(kinds, 2), 3, 0);
        Assert.False(pile.IsOpen(0));
        Assert.True(pile.IsOpen(3));
    }

    [Fact]
    public void A_carton_that_hangs_over_covers_only_what_it_touches()
    {
        CartonKind[] kinds = [Kind(8, 1, 2), Kind(10, 1, 1), Kind(9, 1, 1)];
        var pile = Empty(Room(19, 1, 9, leastSupport: 0.7), kinds);
        Put(pile, Upright(kinds, 0), 2, 0);
        Put(pile, Upright(kinds, 2), 3, 0);
        // Seven of eight, though the carton is longer than what it stands on.
        Assert.True(pile.IsOpen(0));
        pile = Empty(Room(19, 1, 9), kinds);
        Put(pile, Upright(kinds, 0), 0, 0);
        Put(pile, Upright(kinds, 1), 0, 0);
        Assert.False(pile.IsOpen(0));
    }

    [Fact]
    public void Taking_the_last_cartons_off_restores_the_pile_that_was()
    {
        CartonKind[] kinds = [Kind(6, 1, 2), Kind(2, 1, 2), Kind(8, 1, 1, 4), Kind(4, 1, 1, 8)];
        var pile = Empty(Room(10, 1, 9, kilograms: 14), kinds);
        Put(pile, Upright(kinds, 0), 0, 0);
        Put(pile, Upright(kinds, 1), 6, 0);
        Put(pile, Upright(kinds, 2), 0, 0);
        Put(pile, Upright(kinds, 3), 4, 0);
        Assert.Equal([9.0, 3, 8, 0], Borne(pile));
        pile.TakeOffTo(3);
        Assert.Equal([3.0, 1, 0], Borne(pile));
        Assert.Equal([false, false, true], Enumerable.Range(0, 3).Select(pile.IsOpen));
        Assert.Equal(Kg(6), pile.Mass);
        // What was taken off may go on again, and hands down as before.
        Put(pile, Upright(kinds, 3), 4, 0);
        Assert.Equal([9.0, 3, 8, 0], Borne(pile));
        pile.TakeOffTo(4);
        Assert.Equal([9.0, 3, 8, 0], Borne(pile));
        pile.TakeOffTo(0);
        Assert.Equal((0, Mass.Zero), (pile.Cartons.Count, pile.Mass));
        // Another pile altogether: nothing of the old one is remembered.
        Put(pile, Upright(kinds, 0), 0, 0);
        Put(pile, Upright(kinds, 3), 0, 0);
        Put(pile, Upright(kinds, 1), 0, 0);
        Assert.Equal([9.0, 1, 0], Borne(pile));
        Assert.Equal([true, true, true], Enumerable.Range(0, 3).Select(pile.IsOpen));
    }

    [Fact]
    public void Looking_for_a_seat_costs_one_comparison_and_one_for_each_carton()
    {
        var work = new Work(5);
        var pile = new Pile([Kind(2, 2, 2)], Room(4, 2, 9), work);
        Put(pile, Box(0, 2, 2, 2), 0, 0);
        pile.SeatAt(Box(0, 2, 2, 2), 2, 0);
        Assert.False(work.IsSpent);
        // A place off the deck costs as much.
        pile.SeatAt(Box(0, 2, 2, 2), 5, 0);
        Assert.True(work.IsSpent);
    }
}
