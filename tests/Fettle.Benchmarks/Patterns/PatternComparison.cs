using System.Diagnostics;
using System.Globalization;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Google.OrTools.Sat;

namespace Fettle.Benchmarks.Patterns;

/// <summary>
/// A sample of pallet-patterns.csv beside CP-SAT of Google OR-Tools in one run: one worker, twenty seconds an instance. Its model
/// has a choice for every carton position, either way, at sums of carton sides (Beasley 1985; Herz 1972), and lets every
/// point be covered once.
/// </summary>
internal static class PatternComparison
{
    private const int Seconds = 20;
    private const int ForEachSource = 2;

    public static void Run(TextWriter output)
    {
        for (var i = 0; i < 300; i++)
            PatternFinder.Best(Length.FromMillimetres(1200 + i), Length.FromMillimetres(1000), Length.FromMillimetres(150), Length.FromMillimetres(110));
        output.WriteLine("| deck, carton | source | optimum | here: found, bound | ms | CP-SAT: found, bound | ms | times as long |");
        output.WriteLine("| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (var row in Sample())
        {
            var n = row[..5].Select(c => int.Parse(c, CultureInfo.InvariantCulture)).ToArray();
            var start = Stopwatch.GetTimestamp();
            var layer = PatternFinder.Best(Length.FromMillimetres(n[0]), Length.FromMillimetres(n[1]), Length.FromMillimetres(n[2]), Length.FromMillimetres(n[3]));
            var ours = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            start = Stopwatch.GetTimestamp();
            var (found, bound, ended) = Solve(n[0], n[1], n[2], n[3]);
            var theirs = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"| {n[0]} × {n[1]}, {n[2]} × {n[3]} | {row[6]} | {n[4]} | {layer.Count}, {layer.UpperBound} | {ours:0.00} | {found}, {bound} | {theirs:0}{(ended ? "" : " (stopped)")} | {theirs / ours:#,0} |"));
        }
    }

    /// <summary>From the beginning and the middle of each source, whatever is there.</summary>
    private static IEnumerable<string[]> Sample() => BenchmarkData.Rows("pallet-patterns.csv").GroupBy(r => r[6])
        .SelectMany(g => Enumerable.Range(0, ForEachSource).Select(i => g.ElementAt(i * g.Count() / ForEachSource)));

    private static (long Found, long Bound, bool Ended) Solve(int length, int width, int cartonLength, int cartonWidth)
    {
        var model = new CpModel();
        var (xs, ys) = (Sums(length, cartonLength, cartonWidth), Sums(width, cartonLength, cartonWidth));
        var cartons = new List<(int X, int Y, int L, int W, BoolVar Lies)>();
        foreach (var (l, w) in ((int, int)[])[(cartonLength, cartonWidth), (cartonWidth, cartonLength)])
        {
            foreach (var x in xs.Where(x => x + l <= length))
            {
                foreach (var y in ys.Where(y => y + w <= width))
                    cartons.Add((x, y, l, w, model.NewBoolVar("")));
            }
        }

        foreach (var x in xs)
        {
            foreach (var y in ys)
                model.AddAtMostOne(cartons.Where(c => c.X <= x && x < c.X + c.L && c.Y <= y && y < c.Y + c.W).Select(c => c.Lies));
        }

        model.Maximize(LinearExpr.Sum(cartons.Select(c => c.Lies)));
        var solver = new CpSolver { StringParameters = string.Create(CultureInfo.InvariantCulture, $"num_workers:1,max_time_in_seconds:{Seconds}") };
        var status = solver.Solve(model);
        return ((long)Math.Round(solver.ObjectiveValue), (long)Math.Floor(solver.BestObjectiveBound + 1e-6), status == CpSolverStatus.Optimal);
    }

    private static int[] Sums(int most, int a, int b) => [.. Enumerable.Range(0, most + 1)
        .Where(sum => Enumerable.Range(0, sum / a + 1).Any(i => (sum - i * a) % b == 0))];
}
