using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>What is counted and measured on a layer, on layers so small that the figures can be counted by eye.</summary>
public class LayerFiguresTests
{
    private static Length In(double inches) => Length.FromInches(inches);

    private static Mass Lb(double pounds) => Mass.FromPounds(pounds);

    private static LayerPattern Layer(params (double X, double Y, double Length, double Width)[] cartons) =>
        new([.. cartons.Select(c => new Placement(In(c.X), In(c.Y), In(c.Length), In(c.Width)))], cartons.Length, true);

    /// <summary>Four cartons of 3 × 1 round a hole, the near corner at (2, 5).</summary>
    private static readonly LayerPattern moved = Layer((2, 5, 3, 1), (2, 6, 1, 3), (3, 8, 3, 1), (5, 5, 1, 3));

    /// <summary>5 × 3, with the near and far corners taken and two gaps in its outline.</summary>
    private static readonly LayerPattern ragged = Layer((1, 1, 2, 1), (1, 3, 2, 1), (4, 1, 2, 2), (3, 2, 1, 1));

    [Fact]
    public void A_placement_ends_where_it_begins_and_its_side_and_moves_as_a_whole()
    {
        var p = new Placement(In(1), In(2), In(3), In(5));
        Assert.Equal((In(4), In(7)), (p.Right, p.Top));
        Assert.Equal(new Placement(In(11), In(-18), In(3), In(5)), p.MovedBy(In(10), In(-20)));
    }

    [Fact]
    public void The_footprint_is_the_extent_of_all_cartons_gaps_included()
    {
        Assert.Equal((In(4), In(4)), (moved.FootprintLength, moved.FootprintWidth));
        Assert.Equal((In(5), In(3)), (ragged.FootprintLength, ragged.FootprintWidth));
        Assert.Equal((Length.Zero, Length.Zero, 0), (Layer().FootprintLength, Layer().FootprintWidth, Layer().Count));
    }

    [Fact]
    public void Centring_puts_the_footprint_in_the_middle_from_wherever_it_was()
    {
        var centred = ragged.CentredOn(In(9), In(8));
        Assert.Equal((In(2), In(2.5)), (centred.Placements.Min(p => p.X), centred.Placements.Min(p => p.Y)));
        Assert.Equal(Layer((2, 2.5, 2, 1), (2, 4.5, 2, 1), (5, 2.5, 2, 2), (4, 3.5, 1, 1)), centred);
        Assert.Equal(Layer(), Layer().CentredOn(In(9), In(8)));
    }

    [Fact]
    public void Layers_are_equal_when_places_bound_and_proof_are()
    {
        Assert.Equal(Layer((0, 0, 2, 1)), Layer((0, 0, 2, 1)));
        Assert.Equal(Layer((0, 0, 2, 1)).GetHashCode(), Layer((0, 0, 2, 1)).GetHashCode());
        Assert.NotEqual(Layer((0, 0, 2, 1)), Layer((0, 0, 1, 2)));
        Assert.NotEqual(Layer((0, 0, 2, 1)), Layer((0, 0, 2, 1)) with { UpperBound = 2 });
        Assert.NotEqual(Layer((0, 0, 2, 1)), Layer((0, 0, 2, 1)) with { IsOptimal = false });
        Assert.False(Layer().Equals(null));
    }

    [Theory]
    [InlineData(LayerTurn.Same, 1, 1, 1, 3, 4, 1, 3, 2)]
    [InlineData(LayerTurn.HalfTurn, 4, 3, 4, 1, 1, 2, 3, 2)]
    [InlineData(LayerTurn.MirroredAlongLength, 4, 1, 4, 3, 1, 1, 3, 2)]
    [InlineData(LayerTurn.MirroredAcrossWidth, 1, 3, 1, 1, 4, 2, 3, 2)]
    public void A_layer_turns_within_its_footprint(LayerTurn turn, double x1, double y1, double x2, double y2, double x3, double y3, double x4, double y4)
    {
        (double X, double Y, double Length, double Width)[] cartons = [(x1, y1, 2, 1), (x2, y2, 2, 1), (x3, y3, 2, 2), (x4, y4, 1, 1)];
        var expected = turn == LayerTurn.Same ? cartons : [.. cartons.OrderBy(c => c.X).ThenBy(c => c.Y)];
        Assert.Equal(Layer(expected), ragged.Turned(turn));
        Assert.Equal(Layer(), Layer().Turned(turn));
    }

    [Fact]
    public void A_quarter_turn_swaps_the_sides_of_the_footprint() =>
        Assert.Equal(Layer((1, 1, 1, 2), (2, 3, 1, 1), (2, 4, 2, 2), (3, 1, 1, 2)), ragged.Turned(LayerTurn.QuarterTurn));

    [Fact]
    public void Facings_are_counted_on_each_side()
    {
        // Near end: two of one inch. Far end: one of two. Near side: two of two. Far side: one of two. Open: 1 + 1 + 1 + 3 of 16.
        Assert.Equal(new LayerFacings(2, 1, 2, 1, 3, 1, 10 / 16.0), LayerFacings.Of(ragged));
        Assert.Equal(new LayerFacings(0, 0, 0, 0, 0, 0, 0), LayerFacings.Of(Layer()));
        // One in the middle of nine shows none.
        Assert.Equal(new LayerFacings(3, 3, 3, 3, 8, 1, 1), LayerFacings.Of(Layer([.. from x in Enumerable.Range(4, 3) from y in Enumerable.Range(7, 3) select (x, y, 1.0, 1.0)])));
    }

    [Fact]
    public void Support_is_shared_among_the_cartons_below()
    {
        // 6 × 2 on all of 2 × 2 and on half of 1 × 2; 2 × 2 on its like; and one on nothing.
        var support = LayerSupport.Of(Layer((0, 0, 2, 2), (3, 1, 1, 2), (6, 0, 2, 2)), Layer((0, 0, 6, 2), (6, 0, 2, 2), (10, 0, 2, 2)));
        Assert.Equal([(2, false), (1, true), (0, false)], support.Cartons.Select(c => (c.CartonsBelow, c.InColumn)));
        Assert.Equal([Math.Round(5 / 12.0, 12), 1, 0], support.Cartons.Select(c => Math.Round(c.Share, 12)));
        Assert.Equal(0, support.LeastShare);
        Assert.Equal(17 / 36.0, support.MeanShare, 12);
        Assert.Equal((1 / 3.0, 1 / 3.0), (support.ColumnShare, support.TiedShare));
    }

    [Fact]
    public void An_empty_layer_is_wholly_supported_and_ties_nothing()
    {
        var support = LayerSupport.Of(Layer((0, 0, 1, 1)), Layer());
        Assert.Equal((1.0, 1.0, 1.0, 0.0), (support.LeastShare, support.MeanShare, support.ColumnShare, support.TiedShare));
    }

    [Fact]
    public void A_contact_of_just_the_smallest_share_counts()
    {
        var upper = Layer((0, 0, 8, 2));
        Assert.Equal(2, LayerSupport.Of(Layer((0, 0, 4, 2), (7, 0, 4, 2)), upper, smallestContact: 0.125).Cartons[0].CartonsBelow);
        Assert.Equal(1, LayerSupport.Of(Layer((0, 0, 4, 2), (7, 0, 4, 2)), upper, smallestContact: 0.126).Cartons[0].CartonsBelow);
        Assert.Equal(0.05, LayerSupport.SmallestContact);
    }

    [Fact]
    public void The_same_place_but_another_size_is_no_column() =>
        Assert.Equal(new CartonSupport(1, 1, false), LayerSupport.Of(Layer((0, 0, 3, 3)), Layer((0, 0, 2, 2))).Cartons[0]);

    [Theory]
    // Height: 5 + 10 a layer; weight: 50 + 300 a layer.
    [InlineData(45, 9999, 4, StackLimit.Height)]
    [InlineData(44.9, 9999, 3, StackLimit.Height)]
    [InlineData(99, 1250, 4, StackLimit.Weight)]
    [InlineData(99, 1249.9, 3, StackLimit.Weight)]
    // One layer more would pass both.
    [InlineData(45, 1250, 4, StackLimit.Height)]
    [InlineData(4, 9999, 0, StackLimit.Height)]
    [InlineData(99, 49, 0, StackLimit.Weight)]
    public void The_nearer_limit_ends_the_stack(double height, double weight, int layers, StackLimit by) =>
        Assert.Equal(
            new LayersAllowed(layers, by, In(5 + 10 * layers), Lb(50 + 300 * layers)),
            LayersAllowed.By(In(height), Lb(weight), In(5), Lb(50), In(10), Lb(300)));

    [Fact]
    public void A_platform_may_be_nothing_and_a_layer_may_not()
    {
        Assert.Equal(4, LayersAllowed.By(In(45), Lb(9999), Length.Zero, Mass.Zero, In(10), Lb(300)).Layers);
        Assert.Throws<ArgumentOutOfRangeException>("platformHeight", () => LayersAllowed.By(In(45), Lb(9), In(-1), Mass.Zero, In(1), Lb(1)));
        Assert.Throws<ArgumentOutOfRangeException>("platformWeight", () => LayersAllowed.By(In(45), Lb(9), In(0), Lb(-1), In(1), Lb(1)));
        Assert.Throws<ArgumentOutOfRangeException>("layerHeight", () => LayersAllowed.By(In(45), Lb(9), In(0), Lb(0), In(0), Lb(1)));
        Assert.Throws<ArgumentOutOfRangeException>("layerWeight", () => LayersAllowed.By(In(45), Lb(9), In(0), Lb(0), In(1), Lb(0)));
    }

    [Fact]
    public void Use_is_a_share_of_a_deck_or_room_that_is_there()
    {
        // Nine square inches of 20; three layers of 2 in a room of 10.
        Assert.Equal(9 / 20.0, ragged.AreaUsed(In(5), In(4)), 12);
        Assert.Equal(0.27, ragged.CubeUsed(In(5), In(4), In(10), In(2), 3), 12);
        Assert.Equal(0.0, ragged.CubeUsed(In(5), In(4), In(10), In(2), 0));
        Assert.Throws<ArgumentOutOfRangeException>("deckLength", () => ragged.AreaUsed(In(0), In(4)));
        Assert.Throws<ArgumentOutOfRangeException>("deckWidth", () => ragged.AreaUsed(In(5), In(0)));
        Assert.Throws<ArgumentOutOfRangeException>("room", () => ragged.CubeUsed(In(5), In(4), In(0), In(2), 3));
        Assert.Throws<ArgumentOutOfRangeException>("cartonHeight", () => ragged.CubeUsed(In(5), In(4), In(9), In(0), 3));
        Assert.Throws<ArgumentOutOfRangeException>("layers", () => ragged.CubeUsed(In(5), In(4), In(9), In(2), -1));
    }

    [Fact]
    public void Ways_to_stack_are_ordered_by_how_much_they_tie_and_then_by_their_longest_cut()
    {
        var choices = LayerChoice.All(moved, In(4), In(4));
        // A half turn of the pinwheel is itself, a quarter turn too; both mirrors are one and the same.
        Assert.Equal([LayerTurn.Same, LayerTurn.MirroredAlongLength], choices.Select(c => c.Turn));
        Assert.Equal((true, false), (choices[0].IsColumns, choices[1].IsColumns));
        Assert.All(choices, c => Assert.Equal(moved.CentredOn(In(4), In(4)), c.First));
        Assert.Equal([0.75, 0.5], choices.Select(c => Math.Round(c.LongestCut, 12)));
        // Of the rest the ones that tie more come first, those alike by the shorter cut.
        var many = LayerChoice.All(PatternFinder.Best(In(48), In(40), In(15), In(12)), In(48), In(48));
        Assert.Equal(LayerTurn.Same, many[0].Turn);
        Assert.Equal(many.Skip(1).OrderByDescending(c => c.Support.TiedShare).ThenBy(c => c.LongestCut).Select(c => c.Turn), many.Skip(1).Select(c => c.Turn));
        Assert.True(many.Skip(1).Select(c => c.Support.TiedShare).Distinct().Count() > 1);
    }

    [Theory]
    [InlineData(6, 4, true)]
    [InlineData(6, 3.9, false)]
    [InlineData(2, 6, true)]
    [InlineData(1.9, 6, false)]
    public void A_quarter_turn_is_offered_where_the_footprint_allows_it(double deckLength, double deckWidth, bool offered) =>
        Assert.Equal(offered, LayerChoice.All(Layer((0, 0, 4, 1), (0, 1, 4, 1)), In(deckLength), In(deckWidth)).Any(c => c.Turn == LayerTurn.QuarterTurn));

    [Fact]
    public void The_worse_supported_of_the_two_layers_is_shown()
    {
        // A corner of 3 × 3 and the same turned: one stands wholly, or a third of its long carton does; of the other a carton stands on nothing.
        var corner = Layer((0, 0, 3, 1), (0, 1, 1, 2));
        var other = Layer((0, 0, 3, 1), (2, 1, 1, 2));
        foreach (var (layer, upperIsWorse) in ((LayerPattern, bool)[])[(corner, false), (other, true)])
        {
            var choice = LayerChoice.All(layer, In(3), In(3)).Single(c => c.Turn == LayerTurn.QuarterTurn);
            var (up, down) = (LayerSupport.Of(choice.First, choice.Second).LeastShare, LayerSupport.Of(choice.Second, choice.First).LeastShare);
            Assert.Equal(upperIsWorse, up < down);
            Assert.Equal(0, Math.Min(up, down));
            Assert.Equal(0, choice.Support.LeastShare);
        }
    }

    [Fact]
    public void A_cut_is_a_share_of_the_stack_wherever_it_stands() =>
        Assert.Equal([0.75, 0.5], LayerChoice.All(moved, In(16), In(20)).Select(c => Math.Round(c.LongestCut, 12)));
}
