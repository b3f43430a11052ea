using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

public class LayerChoiceTests
{
    private static Length In(double inches) => Length.FromInches(inches);

    private static LayerPattern Layer(params (double X, double Y, double Length, double Width)[] cartons) =>
        new([.. cartons.Select(c => new Placement(In(c.X), In(c.Y), In(c.Length), In(c.Width)))], cartons.Length, true);

    /// <summary>Four cartons of 3 × 1 round a hole.</summary>
    private static readonly LayerPattern pinwheel = Layer((0, 0, 3, 1), (0, 1, 1, 3), (1, 3, 3, 1), (3, 0, 1, 3));

    [Fact]
    public void Columns_come_first_and_stand_edge_on_edge()
    {
        var choices = LayerChoice.All(PatternFinder.Best(In(48), In(40), In(17), In(13)), In(48), In(40));
        Assert.Equal(LayerTurn.Same, choices[0].Turn);
        Assert.True(choices[0].IsColumns);
        Assert.All(choices[0].Support.Cartons, c => Assert.Equal(new CartonSupport(1, 1, true), c));
        Assert.True(choices.Count > 1);
        Assert.All(choices.Skip(1), c => Assert.False(c.IsColumns));
    }

    [Fact]
    public void A_plain_grid_offers_columns_alone_unless_a_quarter_turn_fits()
    {
        // 12 × 10 in grids: 4 × 4 on 48 × 40 cannot be turned by 90 degrees there, and every other turn is the grid itself.
        var grid = PatternFinder.Best(In(48), In(40), In(12), In(10));
        Assert.Equal(LayerTurn.Same, Assert.Single(LayerChoice.All(grid, In(48), In(40))).Turn);
        var turned = LayerChoice.All(grid, In(48), In(48));
        Assert.Equal([LayerTurn.Same, LayerTurn.QuarterTurn], turned.Select(c => c.Turn));
    }

    [Fact]
    public void An_empty_layer_offers_no_choice() =>
        Assert.Empty(LayerChoice.All(PatternFinder.Best(In(10), In(10), In(12), In(12)), In(10), In(10)));

    [Fact]
    public void A_bridging_carton_is_supported_by_both_below()
    {
        var support = LayerSupport.Of(Layer((0, 0, 4, 10), (6, 0, 4, 10)), Layer((0, 0, 10, 10)));
        var carton = Assert.Single(support.Cartons);
        Assert.Equal(0.8, carton.Share, 12);
        Assert.Equal(2, carton.CartonsBelow);
        Assert.False(carton.InColumn);
        Assert.Equal((1.0, 0.0), (support.TiedShare, support.ColumnShare));
    }

    [Fact]
    public void A_contact_under_five_percent_does_not_count_as_a_carton_below()
    {
        // 0.4 of 10 in of the base rests on the second carton: 4 %.
        var support = LayerSupport.Of(Layer((0, 0, 9.6, 10), (9.6, 0, 9.6, 10)), Layer((0, 0, 10, 10)));
        Assert.Equal(1, support.Cartons[0].CartonsBelow);
        Assert.Equal(1.0, support.LeastShare, 12);
        Assert.Equal(2, LayerSupport.Of(Layer((0, 0, 9.6, 10), (9.6, 0, 9.6, 10)), Layer((0, 0, 10, 10)), smallestContact: 0.03).Cartons[0].CartonsBelow);
    }

    [Fact]
    public void A_mirrored_pinwheel_spans_its_hole_and_ties_every_carton()
    {
        var mirrored = LayerChoice.All(pinwheel, In(4), In(4)).Single(c => c.Turn == LayerTurn.MirroredAlongLength);
        // Counted by hand: the carton 3 × 1 at (1, 0) rests with 2 units on the one 3 × 1 at (0, 0) and with 1 on the one at (3, 0).
        Assert.All(mirrored.Support.Cartons, c => Assert.Equal(2, c.CartonsBelow));
        Assert.Equal(1.0, mirrored.Support.LeastShare, 12);
        Assert.Equal(1.0, mirrored.Support.TiedShare);
    }

    [Fact]
    public void A_cut_through_a_grid_runs_all_the_way_and_a_pinwheel_stops_it()
    {
        Assert.Equal(1.0, LayerChoice.All(Layer((0, 0, 2, 2), (2, 0, 2, 2), (0, 2, 2, 2), (2, 2, 2, 2)), In(4), In(4))[0].LongestCut);
        // At x = 1 the carton at (0, 0) blocks one unit of four.
        Assert.Equal(0.75, LayerChoice.All(pinwheel, In(4), In(4))[0].LongestCut, 12);
        // Mirrored, the carton at (1, 3) is blocked too.
        Assert.Equal(0.5, LayerChoice.All(pinwheel, In(4), In(4)).Single(c => c.Turn == LayerTurn.MirroredAlongLength).LongestCut, 12);
    }

    [Fact]
    public void Facings_of_a_grid_are_its_rim()
    {
        var facings = LayerFacings.Of(PatternFinder.Best(In(48), In(40), In(12), In(10)));
        Assert.Equal(new LayerFacings(4, 4, 4, 4, 12, 4, 1), facings);
    }

    [Fact]
    public void Facings_of_a_pinwheel_close_its_outline()
    {
        var facings = LayerFacings.Of(pinwheel);
        Assert.Equal((4, 0), (facings.Cartons, facings.Hidden));
        Assert.Equal(1.0, facings.Closed, 12);
        Assert.Equal(0, LayerFacings.Of(Layer()).Cartons);
    }

    [Fact]
    public void The_lower_limit_of_height_and_weight_ends_the_stack_and_both_are_inclusive()
    {
        var byHeight = LayersAllowed.By(In(45.5), Mass.FromPounds(2000), In(5.5), Mass.FromPounds(50), In(10), Mass.FromPounds(300));
        Assert.Equal(new LayersAllowed(4, StackLimit.Height, In(45.5), Mass.FromPounds(1250)), byHeight);
        var byWeight = LayersAllowed.By(In(96), Mass.FromPounds(1250), In(5.5), Mass.FromPounds(50), In(10), Mass.FromPounds(300));
        Assert.Equal((4, StackLimit.Weight), (byWeight.Layers, byWeight.LimitedBy));
        Assert.Equal(3, LayersAllowed.By(In(96), Mass.FromPounds(1249.9), In(5.5), Mass.FromPounds(50), In(10), Mass.FromPounds(300)).Layers);
        Assert.Equal(0, LayersAllowed.By(In(5), Mass.FromPounds(1), In(5.5), Mass.FromPounds(50), In(10), Mass.FromPounds(300)).Layers);
    }

    [Fact]
    public void A_layer_without_height_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LayersAllowed.By(In(96), Mass.FromPounds(1250), In(5.5), Mass.FromPounds(50), Length.Zero, Mass.FromPounds(300)));

    [Fact]
    public void Area_and_cube_used_are_plain_shares()
    {
        var layer = PatternFinder.Best(In(48), In(40), In(17), In(13));
        Assert.Equal(8 * 17 * 13 / (48.0 * 40), layer.AreaUsed(In(48), In(40)), 12);
        Assert.Equal(8 * 17 * 13 / (48.0 * 40) * (3 * 12 / 60.0), layer.CubeUsed(In(48), In(40), In(60), In(12), 3), 12);
    }
}
