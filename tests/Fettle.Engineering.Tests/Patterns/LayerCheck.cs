using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.Tests.Patterns;

/// <summary>Judges a layer from its placements alone, with nothing shared with the search: every pair, every edge, every size.</summary>
internal static class LayerCheck
{
    public static void IsALayer(LayerPattern layer, Length deckLength, Length deckWidth, Length cartonLength, Length cartonWidth)
    {
        foreach (var p in layer.Placements)
        {
            Assert.True((p.Length == cartonLength && p.Width == cartonWidth) || (p.Length == cartonWidth && p.Width == cartonLength), $"{p} is not the carton");
            Assert.True(p.X >= Length.Zero && p.Y >= Length.Zero && p.X + p.Length <= deckLength && p.Y + p.Width <= deckWidth, $"{p} leaves the deck");
        }

        NothingOverlaps(layer.Placements);
        Assert.Equal(layer.Placements.Count, layer.Count);
        Assert.True(layer.Count <= layer.UpperBound, $"{layer.Count} cartons over the bound {layer.UpperBound}");
        Assert.Equal(layer.Count == layer.UpperBound, layer.IsOptimal);
    }

    public static void NothingOverlaps(IReadOnlyList<Placement> placements)
    {
        for (var i = 0; i < placements.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                var (a, b) = (placements[i], placements[j]);
                var apart = a.X + a.Length <= b.X || b.X + b.Length <= a.X || a.Y + a.Width <= b.Y || b.Y + b.Width <= a.Y;
                Assert.True(apart, $"{a} and {b} overlap");
            }
        }
    }

    /// <summary>The most cartons by trying everything: each free cell, in order, is a corner of a carton or left bare. For small whole sides only.</summary>
    public static int MostByBruteForce(int length, int width, int cartonLength, int cartonWidth)
    {
        var taken = new bool[length, width];
        var best = 0;
        Try(0, 0, length * width);
        return best;

        void Try(int cell, int count, int free)
        {
            best = Math.Max(best, count);
            if (count + free / (cartonLength * cartonWidth) <= best)
                return;
            while (cell < length * width && taken[cell / width, cell % width])
                cell++;
            if (cell == length * width)
                return;
            var (x, y) = (cell / width, cell % width);
            foreach (var (l, w) in ((int, int)[])[(cartonLength, cartonWidth), (cartonWidth, cartonLength)])
            {
                if (!Free(x, y, l, w))
                    continue;
                Mark(x, y, l, w, true);
                Try(cell + 1, count + 1, free - l * w);
                Mark(x, y, l, w, false);
            }

            taken[x, y] = true;
            Try(cell + 1, count, free - 1);
            taken[x, y] = false;
        }

        bool Free(int x, int y, int l, int w)
        {
            if (x + l > length || y + w > width)
                return false;
            for (var i = x; i < x + l; i++)
            {
                for (var j = y; j < y + w; j++)
                {
                    if (taken[i, j])
                        return false;
                }
            }

            return true;
        }

        void Mark(int x, int y, int l, int w, bool value)
        {
            for (var i = x; i < x + l; i++)
            {
                for (var j = y; j < y + w; j++)
                    taken[i, j] = value;
            }
        }
    }
}
