using System.Globalization;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;

namespace Fettle.Benchmarks.TrailerFloor;

/// <summary>How long whole trailer plans take, and how many are proved.</summary>
internal static class LoadBenchmark
{
    private const int Number = 300;
    private const int Seed = 20_251;

    public static void Run(TextWriter output)
    {
        output.WriteLine("| whole trailers, 10 to 26 units | proved shortest | length over bound | median ms | 90 % under ms | worst ms |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: |");
        foreach (var (name, stackable, decking) in ((string, double, Decking?)[])[
            ("nothing stackable", 0, null), ("half stackable", 0.5, null), ("all stackable", 1, null), ("half stackable, decks", 0.5, Decking.Common)])
        {
            var random = new Random(Seed);
            LoadPlanner.Plan(Mix(random, stackable), Trailer.Van53, decking);
            var (times, proved, over) = (new Times(), 0, 0.0);
            for (var i = 0; i < Number; i++)
            {
                var units = Mix(random, stackable);
                var time = new CoreTime();
                var plan = LoadPlanner.Plan(units, Trailer.Van53, decking);
                times.Add(time.Milliseconds);
                proved += plan.IsOptimal ? 1 : 0;
                over += plan.LengthUsed / plan.LowerBound;
            }

            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"| {name} | {100.0 * proved / Number:0} % | {over / Number:0.000} | {times.Share(0.5):0.0} | {times.Share(0.9):0} | {times.Worst:0} |"));
        }
    }

    /// <summary>One to six kinds of platforms; what is stackable may ride, too.</summary>
    private static LoadUnits[] Mix(Random random, double stackable)
    {
        var left = random.Next(10, 27);
        var units = new List<LoadUnits>();
        for (var kinds = random.Next(1, 7); kinds > 0 && left > 0; kinds--)
        {
            var count = kinds == 1 ? left : random.Next(1, left + 1);
            var (length, width) = FloorBenchmark.Platforms[random.Next(FloorBenchmark.Platforms.Count)];
            var bears = random.NextDouble() < stackable;
            units.Add(new(
                Length.FromInches(length), Length.FromInches(width), Length.FromInches(random.Next(30, 80)), Mass.FromPounds(random.Next(300, 2_000)),
                count, bears ? Mass.FromPounds(random.Next(500, 2_500)) : Mass.Zero, bears));
            left -= count;
        }

        return [.. units];
    }
}
