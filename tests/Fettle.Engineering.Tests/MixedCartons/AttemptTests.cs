using Fettle.Engineering.MixedCartons;
using static Fettle.Engineering.Tests.MixedCartons.SmallCartons;

namespace Fettle.Engineering.Tests.MixedCartons;

/// <summary>One way of building at a time, in the order in which it puts cartons down.</summary>
public class AttemptTests
{
    /// <summary>More than the whole deck: no layers, each carton alone.</summary>
    private const double Alone = 2;

    private static Attempt Built(PalletRoom room, double leastShare, Order order, params CartonKind[] kinds)
    {
        var attempt = new Attempt(kinds, room, new Work(1_000_000));
        Assert.Equal(leastShare < 1, attempt.Build(leastShare, order));
        return attempt;
    }

    private static MixedLoad Load(PalletRoom room, double leastShare, Order order, params CartonKind[] kinds)
    {
        var load = Built(room, leastShare, order, kinds).Load();
        MixedLoadCheck.IsSound(load, kinds, room);
        return load;
    }

    private static IEnumerable<(long X, long Y, long Z)> Places(MixedLoad load) =>
        load.Cartons.Select(c => (c.X.Nanometres, c.Y.Nanometres, c.Z.Nanometres));

    [Theory]
    // By strength for their size: the broad one, which bears a little more than the heavy one, comes last.
    [InlineData(nameof(Order.Strong), new[] { 0, 3, 1, 2 })]
    // By mass; of equal ones the broadest first, then in the order asked for.
    [InlineData(nameof(Order.Heavy), new[] { 1, 2, 0, 3 })]
    [InlineData(nameof(Order.Broad), new[] { 2, 0, 1, 3 })]
    [InlineData(nameof(Order.Tall), new[] { 3, 2, 0, 1 })]
    public void Each_order_puts_its_own_first(string order, int[] kinds)
    {
        var load = Load(
            Room(6, 6, 99, leastSupport: 0.51), Alone, Enum.Parse<Order>(order),
            Kind(5, 5, 1, bears: 900), Kind(5, 5, 1, 9, bears: 100), Kind(6, 6, 1, bears: 101), Kind(5, 5, 7, bears: 102));
        Assert.Equal(kinds, load.Cartons.Select(c => c.Kind));
    }

    [Fact]
    public void Layers_go_down_strong_first_or_heavy_first()
    {
        CartonKind[] kinds = [Kind(2, 1, 1, 9, count: 2, bears: 100), Kind(2, 1, 1, 1, count: 2, bears: 900)];
        Assert.Equal([1, 1, 0, 0], Load(Room(4, 1, 9), 0.9, Order.Strong, kinds).Cartons.Select(c => c.Kind));
        Assert.Equal([0, 0, 1, 1], Load(Room(4, 1, 9), 0.9, Order.Heavy, kinds).Cartons.Select(c => c.Kind));
        Assert.Equal([0, 0, 1, 1], Load(Room(4, 1, 9), 0.9, Order.Tall, kinds).Cartons.Select(c => c.Kind));
    }

    [Theory]
    [InlineData(Alone, 1)]
    [InlineData(0.9, 2)]
    public void What_is_fragile_comes_last_however_heavy(double leastShare, int count)
    {
        CartonKind[] kinds = [Kind(2, 1, 1, 9, count, bears: 0), Kind(2, 1, 1, 1, count)];
        var load = Load(Room(2 * count, 1, 2), leastShare, Order.Heavy, kinds);
        Assert.True(load.IsWhole);
        Assert.Equal([.. Enumerable.Repeat(1, count), .. Enumerable.Repeat(0, count)], load.Cartons.Select(c => c.Kind));
    }

    [Fact]
    public void A_layer_that_would_lie_at_two_levels_is_taken_apart_and_its_cartons_placed_alone()
    {
        // A carton in the middle of the deck, and five over all its length: two on the deck and three on top. Alone they begin at the near end.
        var load = Load(Room(10, 1, 9), 0.6, Order.Heavy, Kind(6, 1, 1, 50), Kind(2, 1, 1, count: 5));
        Assert.Equal([(2, 0, 0), (0, 0, 0), (8, 0, 0), (0, 0, 1), (2, 0, 1), (4, 0, 1)], Places(load));
    }

    [Fact]
    public void A_layer_that_still_covers_enough_stays_without_what_is_refused()
    {
        // Four of 3 × 2 round a hole; the fourth would be too heavy. Three of them cover 0.72 of the deck.
        var load = Load(Room(5, 5, 9, kilograms: 3), 0.72, Order.Heavy, Kind(3, 2, 1, count: 4));
        Assert.Equal([(0, 0, 0), (0, 2, 0), (2, 3, 0)], Places(load).Order());
        Assert.Equal([new LeftOut(0, 1, LeftOutReason.Weight)], load.LeftOut);
        // Asked for more, the layer is taken apart, and what is placed alone lies otherwise.
        Assert.NotEqual(Places(load), Places(Load(Room(5, 5, 9, kilograms: 3), 0.73, Order.Heavy, Kind(3, 2, 1, count: 4))));
    }

    [Fact]
    public void A_carton_alone_goes_as_low_as_it_may_then_where_it_is_held_best_then_to_the_near_corner()
    {
        Assert.Equal([(0, 0, 0), (2, 0, 0)], Places(Load(Room(4, 1, 9), Alone, Order.Heavy, Kind(2, 1, 2, count: 2))));
        Assert.Equal([(0, 0, 0), (0, 2, 0)], Places(Load(Room(2, 4, 9), Alone, Order.Heavy, Kind(2, 2, 2, count: 2))));
        // On 8 of 10 the upper one is held wholly from the near end; from the far end three parts in five hold it.
        Assert.Equal([(1, 0, 0), (1, 0, 2)], Places(Load(Room(10, 1, 4, leastSupport: 0.51), Alone, Order.Heavy, Kind(8, 1, 2, 9), Kind(5, 1, 2))));
    }

    [Fact]
    public void Where_one_carton_is_too_weak_the_next_higher_one_is_tried()
    {
        var load = Load(Room(4, 1, 9), Alone, Order.Heavy, Kind(2, 1, 1, 3, bears: 0.5), Kind(2, 1, 2, 2), Kind(2, 1, 1));
        Assert.Equal([(0, 0, 0), (2, 0, 0), (2, 0, 2)], Places(load));
    }

    [Fact]
    public void What_was_not_tried_any_more_says_so()
    {
        var attempt = new Attempt([Kind(2, 1, 1)], Room(4, 1, 9), new Work(0));
        attempt.Build(Alone, Order.Heavy);
        Assert.Equal([new LeftOut(0, 1, LeftOutReason.NotTried)], attempt.Load().LeftOut);
    }

    [Fact]
    public void More_volume_is_better_then_a_flatter_top_then_a_lower_centre()
    {
        var room = Room(4, 2, 9);
        var high = Built(room, Alone, Order.Heavy, Kind(2, 2, 4));
        var flat = Built(room, Alone, Order.Heavy, Kind(2, 2, 2, count: 2));
        var little = Built(room, Alone, Order.Heavy, Kind(4, 2, 1));
        // 16, 16 and 8 by volume; tops of a half, one and one.
        Assert.True(high.CompareTo(little) > 0 && little.CompareTo(high) < 0);
        Assert.True(flat.CompareTo(high) > 0 && high.CompareTo(flat) < 0);
        CartonKind[] kinds = [Kind(2, 2, 2), Kind(2, 2, 2, 5)];
        var heavyLow = Built(Room(2, 2, 4), Alone, Order.Heavy, kinds);
        var lightLow = Built(Room(2, 2, 4), Alone, Order.Broad, kinds);
        Assert.True(heavyLow.CompareTo(lightLow) > 0 && lightLow.CompareTo(heavyLow) < 0);
        Assert.Equal(0, heavyLow.CompareTo(heavyLow));
        Assert.True(little.CompareTo(null) > 0);
        Assert.Equal(0, new Attempt([], room, new Work(9)).CompareTo(new Attempt([], room, new Work(9))));
    }
}
