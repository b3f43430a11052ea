using Fettle.Engineering.Patterns;

namespace Fettle.Engineering.Tests.Patterns;

public class LMeasureTests
{
    /// <summary>Ranks of an L whose sides are sums of the carton's.</summary>
    private static LPiece Piece(CartonSums sums, long x, long y, long innerX, long innerY) =>
        new(sums.RankOf(x), sums.RankOf(y), sums.RankOf(innerX), sums.RankOf(innerY));

    [Fact]
    public void A_rectangle_is_bounded_as_by_the_measure_of_layers()
    {
        var sums = CartonSums.UpTo(30, 7, 4, 400)!;
        var measure = new LMeasure(sums);
        for (var a = 1; a < sums.Count; a++)
        {
            for (var b = 1; b <= a; b++)
            {
                var (along, across) = (sums.PartitionsOf(a), sums.PartitionsOf(b));
                // Where all cartons lie one way no scales are compared, and the area is all that is known.
                if (along.MostLengths > 0 && across.MostLengths > 0)
                    Assert.Equal(LayerBound.ByMeasure(along, across), measure.Bound(new LPiece(a, b, a, b), 99));
            }
        }
    }

    [Theory]
    // A carton of 5 × 3. An L of 10 × 6 without 5 × 3 holds three by area, and three fit; 8 × 8 without 5 × 5 holds two of two and a half.
    [InlineData(10, 6, 5, 3, 3)]
    [InlineData(8, 8, 3, 3, 2)]
    [InlineData(15, 8, 10, 5, 7)]
    [InlineData(13, 11, 8, 6, 7)]
    public void An_L_holds_no_more_than_its_two_rectangles_measure(long x, long y, long innerX, long innerY, int bound)
    {
        var sums = CartonSums.UpTo(20, 5, 3, 400)!;
        Assert.Equal(bound, new LMeasure(sums).Bound(Piece(sums, x, y, innerX, innerY), 99));
        Assert.Equal(1, new LMeasure(sums).Bound(Piece(sums, x, y, innerX, innerY), 1));
        Assert.Equal(0, new LMeasure(sums).Bound(Piece(sums, x, y, innerX, innerY), 0));
    }
}
