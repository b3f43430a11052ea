using System.Numerics;
using Fettle.Engineering.TrailerFloor;

namespace Fettle.Engineering.Tests.TrailerFloor;

public class MatchingTests
{
    [Fact]
    public void Nothing_pairs_with_nothing()
    {
        Assert.Empty(Matching.Maximum([]));
        Assert.Equal([-1, -1], Matching.Maximum([[], []]));
    }

    [Fact]
    public void An_edge_is_a_pair_and_a_triangle_leaves_one_over()
    {
        Assert.Equal([1, 0], Matching.Maximum([[1], [0]]));
        Assert.Equal(1, Checked(Graph(3, (0, 1), (1, 2), (2, 0))));
    }

    // By hand: 0-1 and 2-3 are paired first come first served; 4 and 5 hang on the two ends of what is then the path 4-0-1-5.
    [Fact]
    public void A_pair_is_parted_when_both_find_others() =>
        Assert.Equal(3, Checked(Graph(6, (0, 1), (0, 4), (1, 5), (2, 3))));

    // By hand: a stem 0-1-2, a cycle 2-3-4-5-6, and a way out at 7 from any one vertex of the cycle but the stem's.
    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void An_odd_cycle_is_left_at_any_of_its_vertices(int exit) =>
        Assert.Equal(4, Checked(Graph(8, (1, 2), (3, 4), (5, 6), (0, 1), (2, 3), (4, 5), (6, 2), (exit, 7))));

    // By hand, twice the same and joined at one vertex: from 12 a way 0=1, 2=3 and a way 8=9, 10=11; on 3 a cycle with 4=5 and 6=7,
    // and 11 beside 4, of which it learns too late that it is of the cycle. All but 12 are paired already, and all are once an odd
    // cycle as a whole is found to be one, so that it may be left anywhere.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    [InlineData(10)]
    [InlineData(11)]
    public void A_cycle_that_closes_late_is_marked_on_both_sides(int exit)
    {
        (int A, int B)[] half = [(0, 1), (2, 3), (4, 5), (6, 7), (8, 9), (10, 11), (12, 0), (12, 8), (1, 2), (3, 4), (3, 6), (5, 7), (9, 10), (11, 4)];
        Assert.Equal(13, Checked(Graph(26, [.. half, .. half.Select(e => (e.A + 13, e.B + 13)), (exit, exit + 13)])));
    }

    [Fact]
    public void All_graphs_of_five_vertices_are_paired_as_trying_all_pairs_finds()
    {
        (int, int)[] edges = [.. Enumerable.Range(0, 5).SelectMany(a => Enumerable.Range(a + 1, 4 - a).Select(b => (a, b)))];
        for (var graph = 0; graph < 1 << edges.Length; graph++)
            IsMost(Graph(5, [.. edges.Where((_, e) => (graph >> e & 1) == 1)]));
    }

    // From a fixed seed. Few edges make long paths, and cycles within cycles; the order of neighbours is shuffled, so that a
    // cycle is met from either side.
    [Theory]
    [InlineData(7, 8, 400)]
    [InlineData(9, 11, 400)]
    [InlineData(11, 14, 150)]
    [InlineData(13, 16, 40)]
    public void Arbitrary_graphs_are_paired_as_trying_all_pairs_finds(int vertices, int edges, int times)
    {
        var random = new Random(vertices);
        for (var i = 0; i < times; i++)
        {
            var some = new HashSet<(int, int)>();
            while (some.Count < edges)
            {
                var (a, b) = (random.Next(vertices), random.Next(vertices));
                if (a < b)
                    some.Add((a, b));
            }

            var order = some.ToArray();
            random.Shuffle(order);
            IsMost(Graph(vertices, order));
        }
    }

    // Odd cycles strung on a line and each shared by two: every way of parting pairs runs through cycles within cycles.
    [Fact]
    public void Strings_of_odd_cycles_are_paired_as_trying_all_pairs_finds()
    {
        var random = new Random(3);
        for (var i = 0; i < 400; i++)
        {
            var edges = new List<(int, int)>();
            var vertices = 1;
            while (vertices < 10)
            {
                // A cycle of 3 or 5 through some vertex there is, or one edge more from it.
                var (from, more) = (random.Next(vertices), (int[])[1, 2, 2, 4]);
                var length = more[random.Next(4)];
                for (var v = 0; v < length; v++)
                    edges.Add((v == 0 ? from : vertices + v - 1, vertices + v));
                if (length > 1)
                    edges.Add((vertices + length - 1, from));
                vertices += length;
            }

            int[] names = [.. Enumerable.Range(0, vertices)];
            random.Shuffle(names);
            (int, int)[] order = [.. edges.Select(e => (names[e.Item1], names[e.Item2]))];
            random.Shuffle(order);
            IsMost(Graph(vertices, order));
        }
    }

    private static List<int>[] Graph(int vertices, params (int A, int B)[] edges)
    {
        List<int>[] neighbours = [.. Enumerable.Range(0, vertices).Select(_ => new List<int>())];
        foreach (var (a, b) in edges)
        {
            neighbours[a].Add(b);
            neighbours[b].Add(a);
        }

        return neighbours;
    }

    private static void IsMost(List<int>[] neighbours) => Assert.Equal(MostPairs(neighbours), Checked(neighbours));

    /// <summary>How many pairs, each an edge and nothing in two.</summary>
    private static int Checked(List<int>[] neighbours)
    {
        var partner = Matching.Maximum(neighbours);
        Assert.Equal(neighbours.Length, partner.Length);
        for (var v = 0; v < partner.Length; v++)
        {
            if (partner[v] != -1 && (!neighbours[v].Contains(partner[v]) || partner[partner[v]] != v))
                Assert.Fail($"{v} with {partner[v]}");
        }

        return partner.Count(p => p >= 0) / 2;
    }

    /// <summary>Of every subset: its first vertex is left alone or paired with another of it.</summary>
    private static int MostPairs(List<int>[] neighbours)
    {
        int[] bits = [.. neighbours.Select(n => n.Sum(w => 1 << w))];
        var most = new int[1 << neighbours.Length];
        for (var set = 1; set < most.Length; set++)
        {
            var (first, rest) = (BitOperations.TrailingZeroCount(set), set & (set - 1));
            most[set] = most[rest];
            for (var others = rest & bits[first]; others != 0; others &= others - 1)
                most[set] = Math.Max(most[set], 1 + most[rest & ~(others & -others)]);
        }

        return most[^1];
    }
}
