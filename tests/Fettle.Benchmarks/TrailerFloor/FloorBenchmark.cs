using System.Globalization;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Benchmarks.TrailerFloor;

/// <summary>Published strips without waste, units turned as they like, and random mixes of real platforms in a 53-foot trailer.</summary>
internal static class FloorBenchmark
{
    internal static readonly IReadOnlyList<(double Length, double Width)> Platforms =
    [
        (48, 40), (48, 48), (48, 45), (42, 42), (48, 36), (60, 48), (48, 42), (40, 40), (72, 48), (96, 48),
        (36, 36), (48, 20), (44, 44), (45, 45), (37, 37), (30, 30), (80, 40), (47.25, 31.5), (47.25, 39.375),
    ];

    public static void Run(TextWriter output)
    {
        WarmUp();
        Mixes(output);
        output.WriteLine();
        Strips(output);
    }

    internal static void WarmUp()
    {
        var random = new Random(1);
        for (var i = 0; i < 100; i++)
            FloorPlanner.Shortest(Mix(random), Trailer.Van53.Width);
    }

    private static FloorUnits[] Mix(Random random)
    {
        var left = random.Next(10, 27);
        var units = new List<FloorUnits>();
        for (var kinds = random.Next(1, 7); kinds > 0 && left > 0; kinds--)
        {
            var (length, width) = Platforms[random.Next(Platforms.Count)];
            var count = kinds == 1 ? left : random.Next(1, left + 1);
            units.Add(new FloorUnits(Length.FromInches(length), Length.FromInches(width), count));
            left -= count;
        }

        return [.. units];
    }

    private static void Mixes(TextWriter output)
    {
        const int Number = 1_000;
        var random = new Random(3);
        var times = new Times();
        var proved = 0;
        for (var i = 0; i < Number; i++)
        {
            var units = Mix(random);
            var time = new CoreTime();
            proved += FloorPlanner.Shortest(units, Trailer.Van53.Width)!.IsOptimal ? 1 : 0;
            times.Add(time.Milliseconds);
        }

        output.WriteLine("| mixes of 10 to 26 units, 1 to 6 kinds | proved shortest | median ms | 90 % under ms | 99 % under ms | worst ms |");
        output.WriteLine("| ---: | ---: | ---: | ---: | ---: | ---: |");
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| {Number} | {proved} ({100.0 * proved / Number:0.0} %) | {times.Share(0.5):0.00} | {times.Share(0.9):0.0} | {times.Share(0.99):0} | {times.Worst:0} |"));
    }

    private static void Strips(TextWriter output)
    {
        output.WriteLine("| strip | units | optimum | quick | excess % | ms | thorough | excess % | ms |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var (excess, times) = (new double[2], new Times[] { new(), new() });
        var strips = BenchmarkData.Rows("hopper-turton-c.csv").Concat(BenchmarkData.Rows("burke-n.csv")).GroupBy(r => r[0]).ToList();
        foreach (var strip in strips)
        {
            var rows = strip.Select(r => r[1..].Select(c => int.Parse(c, CultureInfo.InvariantCulture)).ToArray()).ToList();
            FloorUnits[] units = [.. rows.Select(r => new FloorUnits(Length.FromMillimetres(r[2]), Length.FromMillimetres(r[3]), r[4]))];
            var line = $"| {strip.Key} | {units.Sum(u => u.Count)} | {rows[0][1]} |";
            foreach (var effort in (FloorEffort[])[FloorEffort.Quick, FloorEffort.Thorough])
            {
                var time = new CoreTime();
                var used = FloorPlanner.Shortest(units, Length.FromMillimetres(rows[0][0]), effort)!.LengthUsed.Millimetres;
                var spent = time.Milliseconds;
                times[effort - FloorEffort.Quick].Add(spent);
                excess[effort - FloorEffort.Quick] += 100 * (used / rows[0][1] - 1);
                line += string.Create(CultureInfo.InvariantCulture, $" {used:0} | {100 * (used / rows[0][1] - 1):0.00} | {spent:0} |");
            }

            output.WriteLine(line);
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| mean (worst time) | | | | {excess[0] / strips.Count:0.000} | {times[0].Worst:0} | | {excess[1] / strips.Count:0.000} | {times[1].Worst:0} |"));
    }
}
