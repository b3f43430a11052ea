using Fettle.Engineering.MixedCartons;
using Fettle.Engineering.Units;
using static Fettle.Engineering.Tests.MixedCartons.SmallCartons;

namespace Fettle.Engineering.Tests.MixedCartons;

public class LayerDraftTests
{
    private static (List<LayerDraft> Drafts, int[] Left) Of(PalletRoom room, double leastShare, params CartonKind[] kinds)
    {
        int[] left = [.. kinds.Select(k => k.Count)];
        return (LayerDraft.Of(kinds, room, leastShare, left), left);
    }

    [Theory]
    // Three of 3 × 1 cover nine tenths of 10 × 1.
    [InlineData(0.9, 3, 9, 1, 0)]
    [InlineData(0.91, 3, 9, 0, 3)]
    [InlineData(0.9, 2, 9, 0, 2)]
    [InlineData(0.9, 5, 9, 1, 2)]
    [InlineData(0.9, 6, 9, 2, 0)]
    [InlineData(0.9, 7, 9, 2, 1)]
    // Room for one layer of height 4, for two, for none; twice over, since what one kind leaves may be shared among kinds.
    [InlineData(0.9, 15, 4, 2, 9)]
    [InlineData(0.9, 15, 7, 2, 9)]
    [InlineData(0.9, 15, 8, 4, 3)]
    [InlineData(0.9, 15, 3, 0, 15)]
    // A share so small that less than one carton would do.
    [InlineData(0.1, 3, 9, 1, 0)]
    [InlineData(0.1, 0, 9, 0, 0)]
    // Fewer than a full layer are no layer of one kind, but may be one of kinds of equal height.
    [InlineData(0.6, 2, 9, 1, 0)]
    public void As_many_layers_as_the_cartons_make_and_the_room_takes(double leastShare, int count, long height, int layers, int rest)
    {
        var (drafts, left) = Of(Room(10, 1, height), leastShare, Kind(3, 1, 4, count: count));
        Assert.Equal((layers, rest), (drafts.Count, left[0]));
    }

    [Fact]
    public void A_layer_lies_in_the_middle_of_the_deck_with_its_mass_and_what_its_cartons_bear_for_their_size()
    {
        var (drafts, _) = Of(Room(100, 16, 9), 0.5, Kind(30, 10, 4, kilograms: 2, count: 3, bears: 6));
        var draft = Assert.Single(drafts);
        Assert.Equal([(5L, 3L), (35, 3), (65, 3)], draft.Cartons.Select(c => (c.X, c.Y)));
        Assert.All(draft.Cartons, c => Assert.Equal(new Stance(0, 30, 10, 4, CartonFace.Base, false), c.Stance));
        Assert.Equal(6.0, draft.Mass, 9);
        // Six kilograms' weight on 300 square nanometres.
        Close.To(6 * Force.StandardGravity / 300e-18, draft.Pressure, Close.Arithmetic);
    }

    [Fact]
    public void Cartons_of_a_pattern_lie_either_way_round()
    {
        // Four of 3 × 2 round a hole: 24 of 25.
        var (drafts, left) = Of(Room(5, 5, 1), 0.96, Kind(3, 2, 1, count: 4));
        var cartons = Assert.Single(drafts).Cartons;
        Assert.Equal(0, left[0]);
        Assert.Equal(2, cartons.Count(c => c.Stance is { Along: 3, Across: 2, Turned: false }));
        Assert.Equal(2, cartons.Count(c => c.Stance is { Along: 2, Across: 3, Turned: true }));
    }

    [Fact]
    public void Square_cartons_are_never_turned()
    {
        var (drafts, _) = Of(Room(4, 2, 1), 1, Kind(2, 2, 1, count: 2));
        Assert.All(Assert.Single(drafts).Cartons, c => Assert.False(c.Stance.Turned));
    }

    [Fact]
    public void Kinds_of_equal_height_share_a_layer_that_is_as_weak_as_its_weakest()
    {
        // Half the deck each.
        var (drafts, left) = Of(Room(8, 2, 9), 1, Kind(2, 2, 3, 2, count: 2, bears: 8), Kind(4, 2, 3, 5, count: 1, bears: 8));
        var draft = Assert.Single(drafts);
        Assert.Equal([0, 0], left);
        Assert.Equal(9.0, draft.Mass, 9);
        Close.To(Force.StandardGravity * 8 / 8e-18, draft.Pressure, Close.Arithmetic);
        Assert.Equal([0, 0, 1], draft.Cartons.Select(c => c.Stance.Kind).Order());
    }

    [Theory]
    [InlineData(9, 3, 0)]
    [InlineData(8, 2, 1)]
    [InlineData(3, 1, 2)]
    [InlineData(2, 0, 3)]
    public void Shared_layers_end_at_the_height_of_the_room(long height, int layers, int rest)
    {
        var (drafts, left) = Of(Room(5, 1, height), 1, Kind(2, 1, 3, count: 3), Kind(3, 1, 3, count: 3));
        Assert.Equal(layers, drafts.Count);
        Assert.All(drafts, d => Assert.Equal(2, d.Cartons.Count));
        Assert.Equal([rest, rest], left);
    }

    [Theory]
    // Five of six of the deck's length.
    [InlineData(5 / 6.0, 1)]
    [InlineData(0.84, 0)]
    public void Shared_layers_that_cover_too_little_are_not_drafted(double leastShare, int layers)
    {
        var (drafts, left) = Of(Room(6, 1, 9), leastShare, Kind(3, 1, 3), Kind(2, 1, 3));
        Assert.Equal(layers, drafts.Count);
        Assert.Equal([1 - layers, 1 - layers], left);
    }

    [Fact]
    public void Kinds_of_other_heights_and_fragile_kinds_share_no_layer()
    {
        Assert.Empty(Of(Room(4, 1, 9), 0.9, Kind(2, 1, 3), Kind(2, 1, 4)).Drafts);
        Assert.Empty(Of(Room(4, 1, 9), 0.9, Kind(2, 1, 3), Kind(2, 1, 3, bears: 0)).Drafts);
        // Fragile kinds share one among themselves.
        Assert.Equal(0, Assert.Single(Of(Room(4, 1, 9), 0.9, Kind(2, 1, 3, bears: 0), Kind(2, 1, 3, bears: 0)).Drafts).Pressure);
    }

    [Fact]
    public void Layers_of_one_kind_come_first_and_what_remains_of_kinds_shares_the_rest()
    {
        var (drafts, left) = Of(Room(4, 1, 99), 1, Kind(2, 1, 3, count: 5), Kind(1, 1, 3, count: 6));
        // 2 + 2 twice, 1 × 4 once, and 2 + 1 + 1.
        Assert.Equal([2, 2, 4, 3], drafts.Select(d => d.Cartons.Count));
        Assert.Equal([0, 0], left);
    }

    [Fact]
    public void Never_more_than_a_thousand_layers()
    {
        var (drafts, left) = Of(Room(1, 1, 5000), 1, Kind(1, 1, 1, count: 2100));
        // A thousand of one kind, and a thousand that kinds might share.
        Assert.Equal((2000, 100), (drafts.Count, left[0]));
    }
}
