using CsCheck;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>What holds of every layer and turn.</summary>
public class LayerChoiceProperties
{
    private static Length In(double inches) => Length.FromInches(inches);

    private static readonly Gen<LayerPattern> found = Gen.Select(Gen.Int[30, 60], Gen.Int[30, 60], Gen.Int[6, 20], Gen.Int[5, 16])
        .Select((l, w, cl, cw) => PatternFinder.Best(In(l), In(w), In(cl), In(cw)));

    [Fact]
    public void A_turned_layer_keeps_its_footprint_and_overlaps_nothing() =>
        Gen.Select(found, Gen.Enum<LayerTurn>()).Sample((layer, turn) =>
        {
            var turned = layer.Turned(turn);
            LayerCheck.NothingOverlaps(turned.Placements);
            Assert.Equal(layer.Count, turned.Count);
            var (length, width) = turn == LayerTurn.QuarterTurn ? (layer.FootprintWidth, layer.FootprintLength) : (layer.FootprintLength, layer.FootprintWidth);
            Assert.Equal((length, width), (turned.FootprintLength, turned.FootprintWidth));
        }, iter: 200);

    [Fact]
    public void Turning_back_gives_the_same_layer() =>
        Gen.Select(found, Gen.Enum<LayerTurn>()).Sample((layer, turn) =>
        {
            var twice = layer.Turned(turn).Turned(turn);
            Assert.Equal(layer, turn == LayerTurn.QuarterTurn ? twice.Turned(turn).Turned(turn) : twice);
        }, iter: 200);

    [Fact]
    public void Every_choice_lies_inside_the_deck_and_no_two_are_alike() =>
        Gen.Select(Gen.Int[6, 20], Gen.Int[5, 16]).Sample((l, w) =>
        {
            var choices = LayerChoice.All(PatternFinder.Best(In(48), In(40), In(l), In(w)), In(48), In(40));
            Assert.Equal(choices.Count, choices.Select(c => c.Second).Distinct().Count());
            foreach (var p in choices.SelectMany(c => c.Second.Placements))
                Assert.True(p.X >= Length.Zero && p.Y >= Length.Zero && p.Right <= In(48) && p.Top <= In(40), $"{p}");
        }, iter: 100);
}
