namespace Fettle.Engineering.TrailerFloor;

/// <summary>The most pairs in which nothing is paired twice (Edmonds 1965, "Paths, trees, and flowers"): odd cycles met on the way are shrunk.</summary>
internal static class Matching
{
    private const int None = -1;

    /// <summary>Each vertex's partner, or -1. <paramref name="neighbours"/> lists each edge at both ends.</summary>
    public static int[] Maximum(IReadOnlyList<IReadOnlyList<int>> neighbours)
    {
        var n = neighbours.Count;
        var partner = new int[n];
        Array.Fill(partner, None);
        // A greedy start leaves few paths to be found.
        for (var v = 0; v < n; v++)
        {
            if (partner[v] != None)
                continue;
            foreach (var w in neighbours[v])
            {
                if (partner[w] != None)
                    continue;
                (partner[v], partner[w]) = (w, v);
                break;
            }
        }

        for (var root = 0; root < n; root++)
        {
            if (partner[root] == None)
                new Tree(neighbours, partner).Grow(root);
        }

        return partner;
    }

    /// <summary>Alternating paths from one unpaired vertex.</summary>
    private sealed class Tree(IReadOnlyList<IReadOnlyList<int>> neighbours, int[] partner)
    {
        private readonly int[] parent = Filled(partner.Length, None);
        private readonly int[] stem = [.. Enumerable.Range(0, partner.Length)];
        private readonly bool[] reached = new bool[partner.Length];
        private readonly Queue<int> open = new();

        /// <summary>Pairs one vertex more when a path to another unpaired one exists.</summary>
        public void Grow(int root)
        {
            Reach(root);
            while (open.TryDequeue(out var v))
            {
                foreach (var w in neighbours[v])
                {
                    if (stem[v] == stem[w])
                        continue;
                    if (w == root || (partner[w] != None && parent[partner[w]] != None))
                    {
                        Shrink(v, w);
                    }
                    else if (parent[w] == None)
                    {
                        parent[w] = v;
                        if (partner[w] == None)
                        {
                            Flip(w);
                            return;
                        }

                        Reach(partner[w]);
                    }
                }
            }
        }

        /// <summary>Swaps paired and unpaired edges on the path from a vertex back to the root.</summary>
        private void Flip(int vertex)
        {
            while (vertex != None)
            {
                var before = parent[vertex];
                var next = partner[before];
                (partner[vertex], partner[before]) = (before, vertex);
                vertex = next;
            }
        }

        /// <summary>An edge between two reached vertices closes an odd cycle: from now on it counts as one vertex, its stem.</summary>
        private void Shrink(int v, int w)
        {
            var common = Meeting(v, w);
            var inCycle = new bool[partner.Length];
            Mark(v, common, w, inCycle);
            Mark(w, common, v, inCycle);
            for (var u = 0; u < stem.Length; u++)
            {
                if (!inCycle[stem[u]])
                    continue;
                stem[u] = common;
                Reach(u);
            }
        }

        private void Reach(int vertex)
        {
            if (reached[vertex])
                return;
            reached[vertex] = true;
            open.Enqueue(vertex);
        }

        private int Meeting(int v, int w)
        {
            var passed = new bool[partner.Length];
            for (var u = stem[v]; ; u = stem[parent[partner[u]]])
            {
                passed[u] = true;
                if (partner[u] == None)
                    break;
            }

            var other = stem[w];
            while (!passed[other])
                other = stem[parent[partner[other]]];
            return other;
        }

        private void Mark(int from, int to, int child, bool[] inCycle)
        {
            while (stem[from] != to)
            {
                inCycle[stem[from]] = inCycle[stem[partner[from]]] = true;
                parent[from] = child;
                child = partner[from];
                from = parent[partner[from]];
            }
        }

        private static int[] Filled(int count, int value)
        {
            var all = new int[count];
            Array.Fill(all, value);
            return all;
        }
    }
}
