using CsCheck;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>What holds of every deck and carton.</summary>
public class PatternFinderProperties
{
    private static Length In(double inches) => Length.FromInches(inches);

    /// <summary>Sides as people type them: whole inches, sixteenths, or millimetres, sometimes mixed.</summary>
    private static readonly Gen<Length> Side = Gen.OneOf(
        Gen.Int[1, 60].Select(n => In(n)),
        Gen.Int[16, 960].Select(n => In(n / 16.0)),
        Gen.Int[100, 1300].Select(n => Length.FromMillimetres(n)));

    private static readonly Gen<Length> CartonSide = Gen.OneOf(
        Gen.Int[5, 30].Select(n => In(n)),
        Gen.Int[80, 400].Select(n => In(n / 16.0)),
        Gen.Int[130, 700].Select(n => Length.FromMillimetres(n)));

    [Fact]
    public void The_best_layer_never_overlaps_never_leaves_the_deck_and_never_beats_its_bound() =>
        Gen.Select(Side, Side, CartonSide, CartonSide).Sample(t =>
        {
            var (deckLength, deckWidth, cartonLength, cartonWidth) = t;
            LayerCheck.IsALayer(PatternFinder.Best(deckLength, deckWidth, cartonLength, cartonWidth), deckLength, deckWidth, cartonLength, cartonWidth);
        }, iter: 200);

    [Fact]
    public void A_layer_of_a_given_count_holds_it_exactly_inside_the_rectangle() =>
        Gen.Select(Gen.Int[1, 40], Side, Side, CartonSide, CartonSide).Sample(t =>
        {
            var (count, maxLength, maxWidth, cartonLength, cartonWidth) = t;
            if (PatternFinder.Holding(count, maxLength, maxWidth, cartonLength, cartonWidth) is not { } layer)
            {
                Assert.True(PatternFinder.Best(maxLength, maxWidth, cartonLength, cartonWidth).Count < count);
                return;
            }

            Assert.Equal(count, layer.Count);
            LayerCheck.IsALayer(layer, maxLength, maxWidth, cartonLength, cartonWidth);
        }, iter: 200);

    [Fact]
    public void Any_count_up_to_the_best_can_be_held() =>
        Gen.Select(Side, Side, CartonSide, CartonSide).Sample(t =>
        {
            var (length, width, cartonLength, cartonWidth) = t;
            var most = Math.Min(60, PatternFinder.Best(length, width, cartonLength, cartonWidth).Count);
            for (var count = 1; count <= most; count++)
                Assert.Equal(count, PatternFinder.Holding(count, length, width, cartonLength, cartonWidth)?.Count);
        }, iter: 100);

    [Fact]
    public void Turning_the_deck_or_the_carton_changes_no_count() =>
        Gen.Select(Side, Side, CartonSide, CartonSide).Sample(t =>
        {
            var (deckLength, deckWidth, cartonLength, cartonWidth) = t;
            var count = PatternFinder.Best(deckLength, deckWidth, cartonLength, cartonWidth).Count;
            Assert.Equal(count, PatternFinder.Best(deckWidth, deckLength, cartonLength, cartonWidth).Count);
            Assert.Equal(count, PatternFinder.Best(deckLength, deckWidth, cartonWidth, cartonLength).Count);
        }, iter: 200);
}
