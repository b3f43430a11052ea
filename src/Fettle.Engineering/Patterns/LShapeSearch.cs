using System.Numerics;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// Looks for layers beyond the reach of <see cref="FiveBlockSearch"/> by cutting a rectangle into two L-shaped pieces and
/// each of those again into two (Lins, Lins and Morabito 2003; Birgin, Morabito and Nishihara 2005). It is asked for one
/// carton more than is known; pieces whose areas cannot hold what is wanted of them are passed over, and nearly all cannot,
/// since a layer worth looking for wastes less than a carton. Areas are taken in the equivalent rectangle that wastes least.
/// Not thread-safe; the work is capped.
/// </summary>
internal sealed class LShapeSearch
{
    /// <summary>Cuts within cuts; deeper ones have not been seen to find a layer that these do not.</summary>
    private static ReadOnlySpan<int> Depths => [2, 3, 4];

    /// <summary>Areas are compared as 32-bit numbers.</summary>
    private const long GreatestArea = int.MaxValue / 4;

    /// <summary>Added to a number of cartons, so that rounding never loses one.</summary>
    private const float Slack = 1e-3f;

    /// <summary>With more cartons than this the pieces are too many for the search to come to anything.</summary>
    private const int MostCartons = 400;

    /// <summary>Pieces known before the search gives up: some 40 MB.</summary>
    private const int MostPieces = 600_000;

    private readonly CartonSums sums;
    private readonly FiveBlockSearch blocks;
    private readonly int[] sides;
    private readonly int carton;
    private readonly float perCarton;
    private readonly LMeasure measure;
    private readonly LPieces pieces = new();
    private readonly short[]?[] cuts;
    private long workLeft;

    private LShapeSearch(CartonSums sums, FiveBlockSearch blocks, int[] sides, int carton, long work)
    {
        this.sums = sums;
        this.blocks = blocks;
        this.sides = sides;
        this.carton = carton;
        perCarton = 1f / carton;
        cuts = new short[sums.Count * sums.Count][];
        measure = new LMeasure(sums);
        workLeft = work;
    }

    /// <summary>A search of a rectangle (ranks), or null when its numbers are too large for it, or its cartons too many.</summary>
    public static LShapeSearch? For(int a, int b, CartonSums sums, FiveBlockSearch blocks, long work)
    {
        var (along, across) = (sums.PartitionsOf(a), sums.PartitionsOf(b));
        Partitions.Scale best = default;
        var least = double.MaxValue;
        foreach (var scale in (IEnumerable<Partitions.Scale>)[.. along.Scales, .. across.Scales])
        {
            // Infinite, so never the least, for a scale that measures one of the carton's sides alone.
            var waste = (double)along.Side(scale.Length, scale.Width) * across.Side(scale.Length, scale.Width) / (scale.Length * scale.Width);
            if (waste < least)
                (best, least) = (scale, waste);
        }

        if (best == default || blocks.Bound(a, b) > MostCartons
            || along.Side(best.Length, best.Width) * across.Side(best.Length, best.Width) > GreatestArea)
            return null;
        var sides = new int[sums.Count];
        for (var rank = 0; rank <= Math.Max(a, b); rank++)
            sides[rank] = (int)sums.PartitionsOf(rank).Side(best.Length, best.Width);
        return new LShapeSearch(sums, blocks, sides, (int)(best.Length * best.Width), work);
    }

    /// <summary>Cartons placed in a rectangle (ranks), by this search or by the blocks it began with.</summary>
    public int Most(int a, int b, int wanted)
    {
        var whole = Known(new LPiece(a, b, a, b));
        foreach (var depth in Depths)
        {
            while (pieces[whole].Found < wanted && Reach(whole, pieces[whole].Found + 1, depth))
            {
            }
        }

        return pieces[whole].Found;
    }

    private int Difference(int a, int b) => sums.Difference(a, b);

    private int Area(LPiece p) => sides[p.X] * sides[p.InnerY] + sides[p.InnerX] * (sides[p.Y] - sides[p.InnerY]);

    /// <summary>The index of a piece, with its bound and its best layer of two blocks worked out.</summary>
    private int Known(LPiece piece)
    {
        piece = piece.Trimmed;
        if (piece.LiesAcross)
            piece = piece.Swapped;
        var key = piece.Key;
        var index = pieces.Find(key);
        if (index >= 0)
            return index;
        var (x, y, innerX, innerY) = piece;
        if (piece.IsRectangle)
            return pieces.Add(new LPieces.Fact { Key = key, AtMost = (short)Math.Min(Area(piece) / carton, blocks.Bound(x, y)), Found = (short)blocks.Most(x, y, depths: 0) });
        var beside = blocks.Most(innerX, y, depths: 0) + blocks.Most(Difference(x, innerX), innerY, depths: 0);
        var above = blocks.Most(x, innerY, depths: 0) + blocks.Most(innerX, Difference(y, innerY), depths: 0);
        return pieces.Add(new LPieces.Fact
        {
            Key = key,
            AtMost = (short)measure.Bound(piece, Area(piece) / carton),
            Found = (short)Math.Max(beside, above),
            Split = beside >= above ? new LSplit(LCut.Corner, (short)innerX, 0, 0) : new LSplit(LCut.Corner, 0, (short)innerY, 0),
        });
    }

    /// <summary>Whether a piece holds <paramref name="target"/> cartons, as far as cuts within cuts to a depth show.</summary>
    private bool Reach(int index, int target, int depth)
    {
        ref var fact = ref pieces[index];
        if (fact.Found >= target)
            return true;
        if (fact.AtMost < target)
            return false;
        var piece = LPiece.Of(fact.Key);
        if (piece.IsRectangle)
        {
            var found = blocks.Most(piece.X, piece.Y, target, depths: 2);
            if (found > fact.Found)
                (fact.Found, fact.Split) = ((short)found, default);
            if (found >= target)
                return true;
        }

        if (depth == 0 || (fact.SearchedDepth >= depth && fact.Missed <= target) || workLeft <= 0 || pieces.Count > MostPieces)
            return false;
        var reached = piece.IsRectangle
            ? Zigzags(index, piece, target, depth, LCut.Zigzag) || Zigzags(index, piece.Swapped, target, depth, LCut.ZigzagSwapped) || Cuts(index, piece, target, depth)
            : Cuts(index, piece, target, depth);
        if (!reached && workLeft > 0)
            (pieces[index].SearchedDepth, pieces[index].Missed) = ((byte)depth, (short)target);
        return reached;
    }

    /// <summary>Where to cut a side from which an inner side also starts.</summary>
    private short[] CutsOf(int side, int inner)
    {
        ref var known = ref cuts[side * sums.Count + inner];
        return known ??= [.. new SortedSet<short>([.. sums.CutsOf(side), .. sums.CutsOf(inner)])];
    }

    /// <summary>For each cut V of a side: its place, and what remains of the side and of the inner side beyond it.</summary>
    private readonly ref struct Row(Span<float> place, Span<float> rest, Span<float> innerRest)
    {
        public readonly Span<float> Place = place;
        public readonly Span<float> Rest = rest;
        public readonly Span<float> InnerRest = innerRest;

        /// <summary>
        /// The next cut from <paramref name="from"/> on at which both pieces have area enough for <paramref name="target"/>
        /// cartons between them, each counted whole; the end when there is none. Errs on the side of a cut too many.
        /// </summary>
        public int Next(int from, int end, float target, in Cartons one, in Cartons two)
        {
            var k = from;
            for (; k + Vector<float>.Count <= end; k += Vector<float>.Count)
            {
                var (place, rest, inner) = (new Vector<float>(Place[k..]), new Vector<float>(Rest[k..]), new Vector<float>(InnerRest[k..]));
                var both = Vector.Floor(new Vector<float>(one.Fixed) + one.Place * place + one.Rest * rest + one.InnerRest * inner)
                    + Vector.Floor(new Vector<float>(two.Fixed) + two.Place * place + two.Rest * rest + two.InnerRest * inner);
                if (Vector.GreaterThanOrEqualAny(both, new Vector<float>(target)))
                    break;
            }

            for (; k < end; k++)
            {
                if (MathF.Floor(one.Fixed + one.Place * Place[k] + one.Rest * Rest[k] + one.InnerRest * InnerRest[k])
                    + MathF.Floor(two.Fixed + two.Place * Place[k] + two.Rest * Rest[k] + two.InnerRest * InnerRest[k]) >= target)
                    return k;
            }

            return end;
        }
    }

    /// <summary>How many cartons' area a piece has, as a linear function of a <see cref="Row"/>'s lengths.</summary>
    private readonly record struct Cartons(float Fixed, float Place, float Rest, float InnerRest);

    private Cartons CartonsIn(int fixedArea, int place, int rest, int innerRest) =>
        new(fixedArea * perCarton + Slack, place * perCarton, rest * perCarton, innerRest * perCarton);

    private Row RowOf(ReadOnlySpan<short> vs, int side, int inner, Span<float> space)
    {
        var n = vs.Length;
        var row = new Row(space[..n], space.Slice(n, n), space.Slice(2 * n, n));
        for (var k = 0; k < n; k++)
        {
            row.Place[k] = sides[vs[k]];
            row.Rest[k] = sides[Difference(side, vs[k])];
            row.InnerRest[k] = vs[k] <= inner ? sides[Difference(inner, vs[k])] : 0;
        }

        return row;
    }

    /// <summary>
    /// A rectangle cut from its lower edge at U up to V, across to Top, and up to its upper edge: two Ls. Half of the cuts
    /// are the other half turned round.
    /// </summary>
    private bool Zigzags(int index, LPiece piece, int target, int depth, LCut cut)
    {
        var (x, y) = (piece.X, piece.Y);
        var us = CutsOf(x, x);
        var vs = CutsOf(y, y);
        var row = RowOf(vs, y, y, stackalloc float[3 * vs.Length]);
        foreach (int u in us)
        {
            if (2 * sums[u] > sums[x])
                break;
            foreach (int top in us)
            {
                if (top < u)
                    continue;
                if (sums[u] + sums[top] > sums[x])
                    break;
                var (xu, xt) = (Difference(x, u), Difference(x, top));
                var right = CartonsIn(sides[xt] * sides[y], sides[xu] - sides[xt], 0, 0);
                var left = CartonsIn(sides[u] * sides[y], 0, sides[top] - sides[u], 0);
                workLeft -= vs.Length;
                for (var k = 0; (k = row.Next(k, vs.Length, target, right, left)) < vs.Length; k++)
                {
                    var (v, yv) = (vs[k], Difference(y, vs[k]));
                    if (Try(index, target, depth, new LPiece(xu, y, xt, v), new LPiece(top, y, u, yv), new LSplit(cut, (short)u, v, (short)top)))
                        return true;
                }
            }

            if (workLeft <= 0)
                return false;
        }

        return false;
    }

    /// <summary>The seven ways in which one bent cut makes two Ls of an L.</summary>
    private bool Cuts(int index, LPiece piece, int target, int depth)
    {
        var (x, y, innerX, innerY) = piece;
        var us = CutsOf(x, innerX);
        var vs = CutsOf(y, innerY);
        var row = RowOf(vs, y, innerY, stackalloc float[3 * vs.Length]);
        int low = 0, high = vs.Length;
        while (low < vs.Length && vs[low] <= innerY)
            low++;
        while (high > 0 && vs[high - 1] >= innerY)
            high--;
        var (xi, yi) = (Difference(x, innerX), Difference(y, innerY));
        var (sx, sy, six, siy, sxi, syi) = (sides[x], sides[y], sides[innerX], sides[innerY], sides[xi], sides[yi]);
        foreach (int u in us)
        {
            if (workLeft <= 0)
                return false;
            var xu = Difference(x, u);
            var (su, sxu) = (sides[u], sides[xu]);
            if (u <= innerX)
            {
                var iu = Difference(innerX, u);
                var siu = sides[iu];
                workLeft -= 3 * low + 2 * (vs.Length - high);
                // An L along the near sides, and what it leaves.
                var (one, two) = (CartonsIn(su * sy, sx - su, 0, 0), CartonsIn(0, 0, siu, sxu - siu));
                for (var k = 0; (k = row.Next(k, low, target, one, two)) < low; k++)
                {
                    if (Try(index, target, depth, new LPiece(x, y, u, vs[k]), new LPiece(xu, Difference(y, vs[k]), iu, Difference(innerY, vs[k])), new LSplit(LCut.Corner, (short)u, vs[k], 0)))
                        return true;
                }

                if (piece.IsRectangle)
                    continue;
                // From the inner corner back to U, down to V, back to the near side.
                var inLowerArm = CartonsIn(sxu * siy, sx - sxu, 0, 0);
                one = CartonsIn((six - su) * syi, 0, su, 0);
                for (var k = 0; (k = row.Next(k, low, target, one, inLowerArm)) < low; k++)
                {
                    if (Try(index, target, depth, new LPiece(innerX, Difference(y, vs[k]), u, yi), new LPiece(x, innerY, xu, vs[k]), new LSplit(LCut.StepAcross, (short)u, vs[k], 0)))
                        return true;
                }

                // From the inner corner down to V, back to U, down to the near side.
                var inUpperArm = CartonsIn(su * sy, 0, six - su, 0);
                one = CartonsIn(sxi * siy, sxu - sxi, 0, 0);
                for (var k = 0; (k = row.Next(k, low, target, one, inUpperArm)) < low; k++)
                {
                    if (Try(index, target, depth, new LPiece(xu, innerY, xi, vs[k]), new LPiece(innerX, y, u, Difference(y, vs[k])), new LSplit(LCut.StepAlong, (short)u, vs[k], 0)))
                        return true;
                }

                // From the inner corner back to U, up to V, back to the near side.
                (one, two) = (CartonsIn(siu * syi, 0, six - siu, 0), CartonsIn((sx - su) * siy, su, 0, 0));
                for (var k = high; (k = row.Next(k, vs.Length, target, one, two)) < vs.Length; k++)
                {
                    if (Try(index, target, depth, new LPiece(innerX, yi, iu, Difference(y, vs[k])), new LPiece(x, vs[k], u, innerY), new LSplit(LCut.UnderArm, (short)u, vs[k], 0)))
                        return true;
                }

                // An L along the near and far sides, left of and above the inner corner, and what it leaves.
                one = CartonsIn((sxu - siu) * siy, siu, 0, 0);
                for (var k = high; (k = row.Next(k, vs.Length, target, one, inUpperArm)) < vs.Length; k++)
                {
                    if (Try(index, target, depth, new LPiece(xu, vs[k], iu, innerY), new LPiece(innerX, y, u, Difference(y, vs[k])), new LSplit(LCut.LeftOfInner, (short)u, vs[k], 0)))
                        return true;
                }
            }

            if (u >= innerX && !piece.IsRectangle)
            {
                workLeft -= 2 * low;
                // From the inner corner down to V, on to U, down to the near side.
                var (one, two) = (CartonsIn(sxu * siy, 0, 0, sxi - sxu), CartonsIn(six * sy, su - six, 0, 0));
                for (var k = 0; (k = row.Next(k, low, target, one, two)) < low; k++)
                {
                    if (Try(index, target, depth, new LPiece(xi, innerY, xu, Difference(innerY, vs[k])), new LPiece(u, y, innerX, vs[k]), new LSplit(LCut.BesideArm, (short)u, vs[k], 0)))
                        return true;
                }

                // An L along the near and far sides, below and right of the inner corner, and what it leaves.
                (one, two) = (CartonsIn(0, 0, six, su - six), CartonsIn(sxu * siy, sx - sxu, 0, 0));
                for (var k = 0; (k = row.Next(k, low, target, one, two)) < low; k++)
                {
                    if (Try(index, target, depth, new LPiece(u, Difference(y, vs[k]), innerX, Difference(innerY, vs[k])), new LPiece(x, innerY, xu, vs[k]), new LSplit(LCut.BelowInner, (short)u, vs[k], 0)))
                        return true;
                }
            }
        }

        return false;
    }

    /// <summary>Whether the two pieces of a cut can be made to hold the target between them.</summary>
    private bool Try(int index, int target, int depth, LPiece firstPiece, LPiece secondPiece, LSplit split)
    {
        workLeft -= 10;
        var first = Known(firstPiece);
        if (first == index || pieces[first].AtMost + Area(secondPiece) / carton < target)
            return false;
        var second = Known(secondPiece);
        if (second == index)
            return false;
        while (pieces[first].Found + pieces[second].Found < target)
        {
            var (atMost, other) = (pieces[first].AtMost, pieces[second].AtMost);
            if (atMost + other < target || workLeft <= 0)
                return false;
            if (pieces[first].Found + other < target)
            {
                if (!Reach(first, target - other, depth - 1))
                    return false;
            }
            else if (pieces[second].Found + atMost < target)
            {
                if (!Reach(second, target - atMost, depth - 1))
                    return false;
            }
            else if (!Reach(first, pieces[first].Found + 1, depth - 1) && !Reach(second, target - pieces[first].Found, depth - 1))
            {
                return false;
            }
        }

        pieces[index].Found = (short)(pieces[first].Found + pieces[second].Found);
        pieces[index].Split = split;
        return true;
    }

    /// <summary>The cartons of the best layer found for a rectangle, from its corner.</summary>
    public List<Box> Layout(int a, int b)
    {
        var cartons = new List<Box>();
        Lay(new LPiece(a, b, a, b), cartons);
        return cartons;
    }

    private void Lay(LPiece piece, List<Box> cartons)
    {
        piece = piece.Trimmed;
        var from = cartons.Count;
        if (piece.LiesAcross)
        {
            Lay(piece.Swapped, cartons);
            Swap(cartons, from);
            return;
        }

        var split = pieces[Known(piece)].Split;
        if (split.Cut == LCut.None)
        {
            cartons.AddRange(blocks.Layout(piece.X, piece.Y));
            return;
        }

        if (split.Cut == LCut.ZigzagSwapped)
        {
            Lay(piece.Swapped, split with { Cut = LCut.Zigzag }, cartons);
            Swap(cartons, from);
            return;
        }

        Lay(piece, split, cartons);
    }

    private void Lay(LPiece piece, LSplit split, List<Box> cartons)
    {
        var (x, y, innerX, innerY) = piece;
        var (u, v) = ((int)split.U, (int)split.V);
        var (xu, yv) = (Difference(x, u), Difference(y, v));
        var (toX, toY, atU, atV) = (sums[x], sums[y], sums[u], sums[v]);
        switch (split.Cut)
        {
            case LCut.Corner:
                Place(new LPiece(x, y, u, v));
                Place(new LPiece(xu, yv, Difference(innerX, u), Difference(innerY, v)), atU, atV);
                break;
            case LCut.StepAcross:
                Place(new LPiece(innerX, yv, u, Difference(y, innerY)), mirrorY: toY);
                Place(new LPiece(x, innerY, xu, v), mirrorX: toX);
                break;
            case LCut.StepAlong:
                Place(new LPiece(xu, innerY, Difference(x, innerX), v), mirrorX: toX);
                Place(new LPiece(innerX, y, u, yv), mirrorY: toY);
                break;
            case LCut.UnderArm:
                Place(new LPiece(innerX, Difference(y, innerY), Difference(innerX, u), yv), mirrorX: sums[innerX], mirrorY: toY);
                Place(new LPiece(x, v, u, innerY));
                break;
            case LCut.BesideArm:
                Place(new LPiece(Difference(x, innerX), innerY, xu, Difference(innerY, v)), mirrorX: toX, mirrorY: sums[innerY]);
                Place(new LPiece(u, y, innerX, v));
                break;
            case LCut.BelowInner:
                Place(new LPiece(u, yv, innerX, Difference(innerY, v)), atY: atV);
                Place(new LPiece(x, innerY, xu, v), mirrorX: toX);
                break;
            case LCut.LeftOfInner:
                Place(new LPiece(xu, v, Difference(innerX, u), innerY), atX: atU);
                Place(new LPiece(innerX, y, u, yv), mirrorY: toY);
                break;
            case LCut.Zigzag:
                Place(new LPiece(xu, y, Difference(x, split.Top), v), mirrorX: toX);
                Place(new LPiece(split.Top, y, u, yv), mirrorY: toY);
                break;
            case LCut.None:
            case LCut.ZigzagSwapped:
                throw new ArgumentOutOfRangeException(nameof(split), split, "Laid elsewhere.");
        }

        void Place(LPiece part, long atX = 0, long atY = 0, long? mirrorX = null, long? mirrorY = null)
        {
            var from = cartons.Count;
            Lay(part, cartons);
            for (var i = from; i < cartons.Count; i++)
            {
                var c = cartons[i];
                cartons[i] = c with
                {
                    X = mirrorX is { } right ? right - c.X - c.Length : atX + c.X,
                    Y = mirrorY is { } top ? top - c.Y - c.Width : atY + c.Y,
                };
            }
        }
    }

    private static void Swap(List<Box> cartons, int from)
    {
        for (var i = from; i < cartons.Count; i++)
            cartons[i] = cartons[i].Swapped;
    }
}
