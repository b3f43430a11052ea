using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

public class RecentLayersTests
{
    private static LayerPattern Layer(int cartons) =>
        new([.. Enumerable.Repeat(new Placement(Length.Zero, Length.Zero, Length.FromInches(1), Length.FromInches(1)), cartons)], cartons, true);

    [Fact]
    public void A_layer_is_looked_for_once()
    {
        var (recent, looked) = (new RecentLayers<int>(), 0);
        LayerPattern? Find(int cartons)
        {
            looked++;
            return cartons == 0 ? null : Layer(cartons);
        }

        var first = recent.GetOrAdd(1, Find, 5);
        Assert.Same(first, recent.GetOrAdd(1, Find, 7));
        // That none was found is known too.
        Assert.Null(recent.GetOrAdd(2, Find, 0));
        Assert.Null(recent.GetOrAdd(2, Find, 7));
        Assert.Equal(2, looked);
    }

    [Theory]
    // Each layer weighs its cartons and sixteen more; half a million in all are kept.
    [InlineData(9_984, 50, 1)]
    [InlineData(9_984, 51, 2)]
    [InlineData(9_984, 100, 2)]
    [InlineData(9_985, 50, 2)]
    public void When_full_it_starts_afresh(int cartons, int layers, int timesTheFirstIsFound)
    {
        var (recent, layer, found) = (new RecentLayers<int>(), Layer(cartons), 0);
        for (var key = 0; key < layers; key++)
            recent.GetOrAdd(key, _ => layer, 0);
        recent.GetOrAdd(0, _ => { found++; return layer; }, 0);
        Assert.Equal(timesTheFirstIsFound, found + 1);
    }

    [Fact]
    public void Afresh_it_holds_as_much_again()
    {
        var (recent, layer, found) = (new RecentLayers<int>(), Layer(9_984), 0);
        for (var key = 0; key < 55; key++)
            recent.GetOrAdd(key, _ => layer, 0);
        // 51 to 55 came after it was emptied, and are still known.
        for (var key = 51; key < 55; key++)
            recent.GetOrAdd(key, _ => { found++; return layer; }, 0);
        Assert.Equal(0, found);
    }
}
