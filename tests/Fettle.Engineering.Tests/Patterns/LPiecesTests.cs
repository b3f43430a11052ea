using Fettle.Engineering.Patterns;

namespace Fettle.Engineering.Tests.Patterns;

public class LPiecesTests
{
    [Fact]
    public void A_piece_comes_back_from_its_key()
    {
        foreach (var piece in (LPiece[])[new(1, 2, 3, 4), new(400, 300, 200, 100), new(0, 0, 0, 0), new(32_767, 65_535, 65_535, 65_535)])
        {
            Assert.NotEqual(0ul, piece.Key);
            Assert.Equal(piece, LPiece.Of(piece.Key));
        }

        Assert.Equal(4, ((LPiece[])[new(1, 0, 0, 0), new(0, 1, 0, 0), new(0, 0, 1, 0), new(0, 0, 0, 1)]).Select(p => p.Key).Distinct().Count());
    }

    [Theory]
    // Without an upper arm, without a lower arm, without a missing corner along either side, and as it is.
    [InlineData(9, 7, 0, 4, 9, 4, 9, 4)]
    [InlineData(9, 7, 5, 0, 5, 7, 5, 7)]
    [InlineData(9, 7, 9, 4, 9, 7, 9, 7)]
    [InlineData(9, 7, 10, 4, 9, 7, 9, 7)]
    [InlineData(9, 7, 5, 7, 9, 7, 9, 7)]
    [InlineData(9, 7, 5, 8, 9, 7, 9, 7)]
    [InlineData(9, 7, 5, 4, 9, 7, 5, 4)]
    [InlineData(9, 7, 8, 6, 9, 7, 8, 6)]
    [InlineData(9, 7, 1, 1, 9, 7, 1, 1)]
    public void Empty_arms_are_trimmed(int x, int y, int innerX, int innerY, int toX, int toY, int toInnerX, int toInnerY) =>
        Assert.Equal(new LPiece(toX, toY, toInnerX, toInnerY), new LPiece(x, y, innerX, innerY).Trimmed);

    [Theory]
    [InlineData(9, 7, 5, 4, false)]
    [InlineData(7, 9, 5, 4, true)]
    [InlineData(7, 7, 5, 4, false)]
    [InlineData(7, 7, 4, 5, true)]
    [InlineData(7, 7, 4, 4, false)]
    [InlineData(9, 7, 4, 5, false)]
    public void The_longer_side_comes_first(int x, int y, int innerX, int innerY, bool across)
    {
        var piece = new LPiece(x, y, innerX, innerY);
        Assert.Equal(across, piece.LiesAcross);
        Assert.Equal(new LPiece(y, x, innerY, innerX), piece.Swapped);
        Assert.False(piece.IsRectangle);
        Assert.True(new LPiece(x, y, x, y).IsRectangle);
    }

    [Fact]
    public void Thousands_of_pieces_are_found_again_and_others_are_not()
    {
        var pieces = new LPieces();
        Assert.Equal(-1, pieces.Find(new LPiece(1, 1, 1, 1).Key));
        LPiece[] all = [.. from x in Enumerable.Range(1, 12) from y in Enumerable.Range(1, 12) from i in Enumerable.Range(1, 5) from j in Enumerable.Range(1, 5) select new LPiece(x, y, i, j)];
        for (var k = 0; k < all.Length; k++)
        {
            Assert.Equal(k, pieces.Count);
            Assert.Equal(k, pieces.Add(new LPieces.Fact { Key = all[k].Key, Found = (short)k }));
            Assert.Equal(k, pieces.Find(all[k].Key));
        }

        for (var k = 0; k < all.Length; k++)
        {
            Assert.Equal(k, pieces.Find(all[k].Key));
            Assert.Equal((all[k].Key, (short)k), (pieces[k].Key, pieces[k].Found));
            Assert.Equal(-1, pieces.Find((all[k] with { InnerX = 6 }).Key));
        }

        pieces[7].Found = 99;
        Assert.Equal(99, pieces[7].Found);
    }
}
