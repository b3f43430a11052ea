using System.Globalization;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Benchmarks.Patterns;

/// <summary>
/// Every instance of pallet-patterns.csv, and random cartons on a 48 × 40 in deck. Each is solved at several scales of its
/// sizes, which is the same work and never a remembered answer; the least time counts, since the machine does other things too.
/// </summary>
internal static class PatternBenchmark
{
    private const int Runs = 3;

    public static void Run(TextWriter output)
    {
        WarmUp();
        output.WriteLine("| instances | number | optimum found | proved optimal | bound at most one above | median ms | 90 % under ms | worst ms |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var rows = BenchmarkData.Rows("pallet-patterns.csv").ToList();
        Report(output, "all", rows);
        foreach (var proof in rows.GroupBy(r => r[5]))
            Report(output, proof.Key, [.. proof]);
        foreach (var source in rows.GroupBy(r => r[6]))
            Report(output, source.Key, [.. source]);
        output.WriteLine();
        Compact(output);
    }

    private static void WarmUp()
    {
        for (var i = 0; i < 400; i++)
        {
            PatternFinder.Best(Length.FromMillimetres(1200 + i), Length.FromMillimetres(1000), Length.FromMillimetres(150), Length.FromMillimetres(110));
            PatternFinder.Holding(1 + i % 12, Length.FromMillimetres(1200 + i), Length.FromMillimetres(1000), Length.FromMillimetres(250), Length.FromMillimetres(210));
        }

        PatternFinder.Best(Length.FromMillimetres(43), Length.FromMillimetres(26), Length.FromMillimetres(7), Length.FromMillimetres(3));
    }

    private static void Report(TextWriter output, string name, List<string[]> rows)
    {
        int found = 0, proved = 0, near = 0;
        var times = new Times();
        foreach (var row in rows)
        {
            var n = row[..5].Select(c => int.Parse(c, CultureInfo.InvariantCulture)).ToArray();
            var least = double.MaxValue;
            LayerPattern? layer = null;
            for (var run = 1; run <= Runs; run++)
            {
                // A scale of its own for each run and table row.
                var scale = 1_000 + Interlocked.Increment(ref scales);
                var time = new CoreTime();
                layer = PatternFinder.Best(Of(n[0]), Of(n[1]), Of(n[2]), Of(n[3]));
                least = Math.Min(least, time.Milliseconds);
                Length Of(int side) => Length.FromNanometres((long)side * scale);
            }

            times.Add(least);
            found += layer!.Count == n[4] ? 1 : 0;
            proved += layer.IsOptimal ? 1 : 0;
            near += layer.UpperBound <= n[4] + 1 ? 1 : 0;
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| {name} | {rows.Count} | {found} | {proved} ({100.0 * proved / rows.Count:0.0} %) | {near} | {times.Share(0.5):0.000} | {times.Share(0.9):0.0} | {times.Worst:0} |"));
    }

    private static int scales;

    private static void Compact(TextWriter output)
    {
        var random = new Random(7);
        var (first, again) = (new Times(), new Times());
        var held = 0;
        const int Number = 5_000;
        for (var i = 0; i < Number; i++)
        {
            var (l, w) = (Length.FromInches(random.Next(24, 100) / 4.0), Length.FromInches(random.Next(20, 80) / 4.0));
            var count = random.Next(1, 21);
            var time = new CoreTime();
            held += PatternFinder.Holding(count, Length.FromInches(48), Length.FromInches(40), l, w) is null ? 0 : 1;
            first.Add(time.Milliseconds);
            time = new CoreTime();
            _ = PatternFinder.Holding(count, Length.FromInches(48), Length.FromInches(40), l, w);
            again.Add(time.Milliseconds);
        }

        output.WriteLine("| compact layers of 1 to 20 cartons on 48 × 40 in | number | held | median µs | 90 % under µs | 99 % under µs | worst µs |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (var (name, times) in ((string, Times)[])[("asked for the first time", first), ("asked again", again)])
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"| {name} | {Number} | {held} | {1000 * times.Share(0.5):0.0} | {1000 * times.Share(0.9):0.0} | {1000 * times.Share(0.99):0} | {1000 * times.Worst:0} |"));
        }
    }
}
