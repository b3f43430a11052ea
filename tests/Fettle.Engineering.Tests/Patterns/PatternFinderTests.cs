using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

public class PatternFinderTests
{
    private static Length In(double inches) => Length.FromInches(inches);

    [Fact]
    public void On_every_small_deck_the_best_layer_is_the_most_that_trying_everything_finds()
    {
        for (var length = 1; length <= 8; length++)
        {
            for (var width = 1; width <= length; width++)
            {
                for (var cartonLength = 2; cartonLength <= 5; cartonLength++)
                {
                    for (var cartonWidth = 1; cartonWidth <= cartonLength; cartonWidth++)
                    {
                        var found = PatternFinder.Best(In(length), In(width), In(cartonLength), In(cartonWidth));
                        var most = LayerCheck.MostByBruteForce(length, width, cartonLength, cartonWidth);
                        Assert.True(most == found.Count, $"{found.Count} of {cartonLength} x {cartonWidth} found on {length} x {width}, {most} fit");
                        Assert.True(found.UpperBound >= most, $"bound {found.UpperBound} for {cartonLength} x {cartonWidth} on {length} x {width}, {most} fit");
                    }
                }
            }
        }
    }

    [Theory]
    [InlineData(48, 40, 17, 13)]
    [InlineData(48, 40, 15, 12)]
    [InlineData(19, 16, 5, 2)]
    public void A_deck_lying_the_other_way_has_the_same_layer_turned(double length, double width, double cartonLength, double cartonWidth)
    {
        var (along, across) = (PatternFinder.Best(In(length), In(width), In(cartonLength), In(cartonWidth)), PatternFinder.Best(In(width), In(length), In(cartonLength), In(cartonWidth)));
        LayerCheck.IsALayer(along, In(length), In(width), In(cartonLength), In(cartonWidth));
        LayerCheck.IsALayer(across, In(width), In(length), In(cartonLength), In(cartonWidth));
        Assert.Equal(along.Placements, across.Placements.Select(p => new Placement(p.Y, p.X, p.Width, p.Length)).OrderBy(p => p.X).ThenBy(p => p.Y));
    }

    [Theory]
    // The measure allows one more; bars do not.
    [InlineData(6, 6, 4, 1, 8, 8)]
    [InlineData(42, 26, 11, 3, 32, 32)]
    [InlineData(42, 37, 11, 3, 46, 46)]
    [InlineData(40, 27, 6, 5, 35, 35)]
    // Neither bound reaches the optimum, which a linear programme proves.
    [InlineData(23, 22, 8, 3, 20, 21)]
    // Only L-shaped pieces hold so many.
    [InlineData(49, 28, 8, 3, 57, 57)]
    public void A_published_optimum_is_found_and_proved_where_a_bound_reaches_it(double length, double width, double cartonLength, double cartonWidth, int optimum, int bound)
    {
        // All but the first: Data/pallet-patterns.csv.
        var layer = PatternFinder.Best(In(length), In(width), In(cartonLength), In(cartonWidth));
        LayerCheck.IsALayer(layer, In(length), In(width), In(cartonLength), In(cartonWidth));
        Assert.Equal((optimum, bound, optimum == bound), (layer.Count, layer.UpperBound, layer.IsOptimal));
        var holding = PatternFinder.Holding(optimum, In(length), In(width), In(cartonLength), In(cartonWidth))!;
        LayerCheck.IsALayer(holding, In(length), In(width), In(cartonLength), In(cartonWidth));
        Assert.Equal(optimum, holding.Count);
        Assert.Null(PatternFinder.Holding(optimum + 1, In(length), In(width), In(cartonLength), In(cartonWidth)));
    }

    [Fact]
    public void The_largest_layer_can_be_held() =>
        Assert.Equal(PatternFinder.LargestLayer, PatternFinder.Holding(PatternFinder.LargestLayer, In(100), In(100), In(1), In(1))?.Count);

    [Fact]
    public void Units_change_no_count()
    {
        var inches = PatternFinder.Best(In(48), In(40), In(17), In(13));
        var millimetres = PatternFinder.Best(Length.FromMillimetres(1219.2), Length.FromMillimetres(1016), Length.FromMillimetres(431.8), Length.FromMillimetres(330.2));
        Assert.Equal(inches, millimetres);
        // tests/Fettle.Engineering.Tests/Data/pallet-patterns.csv: 48 × 40 with 17 × 13 holds 8.
        Assert.Equal(8, inches.Count);
    }

    [Fact]
    public void A_carton_larger_than_the_deck_makes_an_empty_layer()
    {
        var layer = PatternFinder.Best(In(48), In(40), In(49), In(10));
        Assert.Empty(layer.Placements);
        Assert.Equal(0, layer.UpperBound);
        Assert.True(layer.IsOptimal);
        Assert.Equal(Length.Zero, layer.FootprintLength);
        Assert.Equal(layer, layer.CentredOn(In(48), In(40)));
        Assert.Null(PatternFinder.Holding(1, In(48), In(40), In(49), In(10)));
    }

    [Theory]
    [InlineData(0, 40, 12, 10)]
    [InlineData(48, -1, 12, 10)]
    [InlineData(48, 40, 0, 10)]
    [InlineData(48, 40, 12, -10)]
    public void A_side_that_is_not_over_zero_is_refused(double deckLength, double deckWidth, double cartonLength, double cartonWidth)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PatternFinder.Best(In(deckLength), In(deckWidth), In(cartonLength), In(cartonWidth)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PatternFinder.Holding(1, In(deckLength), In(deckWidth), In(cartonLength), In(cartonWidth)));
    }

    [Fact]
    public void A_count_that_is_not_over_zero_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PatternFinder.Holding(0, In(48), In(40), In(12), In(10)));

    [Fact]
    public void Thousands_of_tiny_cartons_stay_within_the_largest_layer()
    {
        var layer = PatternFinder.Best(In(48), In(40), In(0.25), In(0.125));
        Assert.Equal(PatternFinder.LargestLayer, layer.Count);
        // Plain area: 48 / 0.25 × 40 / 0.125.
        Assert.Equal(192 * 320, layer.UpperBound);
        Assert.False(layer.IsOptimal);
        var grain = PatternFinder.Best(Length.FromNanometres(long.MaxValue), Length.FromNanometres(long.MaxValue), Length.FromNanometres(1), Length.FromNanometres(3));
        Assert.Equal(PatternFinder.LargestLayer, grain.Count);
        Assert.Null(PatternFinder.Holding(PatternFinder.LargestLayer + 1, In(48), In(40), In(0.25), In(0.125)));
        Assert.Equal(9_973, PatternFinder.Holding(9_973, In(48), In(40), In(0.25), In(0.125))?.Count);
    }

    [Fact]
    public void Sizes_without_a_common_measure_are_still_laid_exactly()
    {
        var (l, w) = (Length.FromNanometres(304_800_001), Length.FromNanometres(253_999_999));
        var layer = PatternFinder.Best(In(48), In(40), l, w);
        LayerCheck.IsALayer(layer, In(48), In(40), l, w);
        Assert.True(layer.Count >= 12);
    }

    [Fact]
    public void A_full_grid_is_preferred_and_lies_along_the_length()
    {
        var layer = PatternFinder.Holding(6, In(48), In(40), In(12), In(10))!;
        Assert.Equal((In(30), In(24)), (layer.FootprintLength, layer.FootprintWidth));
        Assert.All(layer.Placements, p => Assert.Equal(In(10), p.Length));
    }

    [Fact]
    public void Without_a_grid_that_fits_two_blocks_or_a_pinwheel_hold_the_count()
    {
        // Ten of 15 × 12 on 48 × 40, the optimum in tests/Fettle.Engineering.Tests/Data/pallet-patterns.csv: no grid of ten fits.
        var layer = PatternFinder.Holding(10, In(48), In(40), In(15), In(12))!;
        LayerCheck.IsALayer(layer, In(48), In(40), In(15), In(12));
        Assert.Equal(10, layer.Count);
        // Four of 3 × 1 round a hole take 4 × 4.
        Assert.Equal(4, PatternFinder.Holding(4, In(4), In(4), In(3), In(1))!.Count);
    }

    [Fact]
    public void An_odd_count_is_kept_together_rather_than_strung_out_in_a_row()
    {
        var layer = PatternFinder.Holding(7, In(48), In(40), In(8), In(6))!;
        Assert.True(layer.FootprintLength + layer.FootprintWidth <= In(40), $"{layer.FootprintLength} × {layer.FootprintWidth}");
    }

    [Fact]
    public void Centring_leaves_the_same_bare_deck_on_opposite_sides()
    {
        var layer = PatternFinder.Best(In(48), In(40), In(17), In(13)).CentredOn(In(50), In(44));
        Assert.Equal(In(50) - layer.Placements.Max(p => p.Right), layer.Placements.Min(p => p.X));
        Assert.Equal(In(44) - layer.Placements.Max(p => p.Top), layer.Placements.Min(p => p.Y));
        LayerCheck.NothingOverlaps(layer.Placements);
    }

    [Fact]
    public void Centring_on_a_smaller_deck_shows_the_overhang_as_negative_places()
    {
        var layer = PatternFinder.Best(In(48), In(40), In(12), In(10)).CentredOn(In(46), In(40));
        Assert.Equal(In(-1), layer.Placements.Min(p => p.X));
        Assert.Equal(In(47), layer.Placements.Max(p => p.Right));
    }
}
