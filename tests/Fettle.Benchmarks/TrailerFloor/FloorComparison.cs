using System.Diagnostics;
using System.Globalization;
using Fettle.Engineering.TrailerFloor;
using Fettle.Engineering.Units;
using Google.OrTools.Sat;

namespace Fettle.Benchmarks.TrailerFloor;

/// <summary>
/// Mixes of common platforms on the floor of a 53-foot trailer, and pairs two high, beside CP-SAT of Google OR-Tools in one
/// run: one worker, a minute an instance. All sides are whole inches, so CP-SAT is given the 98 in of the width's 98.5 that can be filled.
/// </summary>
internal static class FloorComparison
{
    private const int Seconds = 60;
    private const int Across = 98;

    /// <summary>Length, width in inches and number of each kind: six mixes of three platforms, two of more.</summary>
    private static readonly IReadOnlyList<(int Length, int Width, int Count)[]> mixes =
    [
        [(60, 48, 4), (48, 40, 3), (48, 48, 3)],
        [(60, 48, 3), (48, 40, 5), (48, 48, 3)],
        [(60, 48, 2), (48, 40, 7), (48, 48, 3)],
        [(60, 48, 5), (48, 40, 4), (48, 48, 4)],
        [(60, 48, 3), (48, 40, 6), (48, 48, 5)],
        [(60, 48, 4), (48, 40, 7), (48, 48, 5)],
        [(80, 40, 2), (48, 40, 4), (42, 42, 3), (36, 36, 3), (30, 30, 2)],
        [(72, 48, 1), (48, 45, 3), (48, 36, 4), (42, 42, 3), (48, 20, 5)],
    ];

    public static void Run(TextWriter output)
    {
        FloorBenchmark.WarmUp();
        Lengths(output);
        output.WriteLine();
        Pairs(output);
    }

    private static void Lengths(TextWriter output)
    {
        output.WriteLine("| mix: number of length × width, in | units | here: length in, bound | ms | CP-SAT: length in, bound | ms | times as long |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (var mix in mixes)
        {
            FloorUnits[] units = [.. mix.Select(u => new FloorUnits(Length.FromInches(u.Length), Length.FromInches(u.Width), u.Count))];
            var start = Stopwatch.GetTimestamp();
            var plan = FloorPlanner.Shortest(units, Trailer.Van53.Width)!;
            var ours = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            start = Stopwatch.GetTimestamp();
            var theirs = Shortest(mix);
            var name = string.Join(", ", mix.Select(u => $"{u.Count} of {u.Length} × {u.Width}"));
            Report(output, $"{name} | {units.Sum(u => u.Count)}", $"{plan.LengthUsed.Inches:0}, {plan.LowerBound.Inches:0}", ours,
                theirs, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
    }

    /// <summary>
    /// A place and a turn for each unit, none over another. That identical units stand in order, that no cross-section is wider than the
    /// floor, and that the length holds the area is said for CP-SAT's sake.
    /// </summary>
    private static Answer Shortest((int Length, int Width, int Count)[] mix)
    {
        var model = new CpModel();
        var inLine = mix.Sum(u => u.Count * Math.Max(u.Length, u.Width));
        var area = mix.Sum(u => u.Count * u.Length * u.Width);
        var used = model.NewIntVar((area + Across - 1) / Across, inLine, "");
        var floor = model.AddNoOverlap2D();
        var sections = model.AddCumulative(Across);
        foreach (var (length, width, count) in mix)
        {
            IntVar? before = null;
            for (var unit = 0; unit < count; unit++)
            {
                var (x, y, turned) = (model.NewIntVar(0, inLine, ""), model.NewIntVar(0, Across, ""), model.NewBoolVar(""));
                Stand(x, y, length, width, turned.Not());
                if (length == width)
                    model.Add(turned == 0);
                else
                    Stand(x, y, width, length, turned);
                if (before is not null)
                    model.Add(before <= x);
                before = x;
            }
        }

        model.Minimize(used);
        return Solve(model);

        void Stand(IntVar x, IntVar y, int along, int across, ILiteral so)
        {
            var alongIt = model.NewOptionalFixedSizeIntervalVar(x, along, so, "");
            floor.AddRectangle(alongIt, model.NewOptionalFixedSizeIntervalVar(y, across, so, ""));
            sections.AddDemand(alongIt, across);
            model.Add(x + along <= used).OnlyEnforceIf(so);
            model.Add(y + across <= Across).OnlyEnforceIf(so);
        }
    }

    private static void Pairs(TextWriter output)
    {
        output.WriteLine("| units to stack two high | units | pairs that may stand | here: pairs | ms | CP-SAT: pairs, bound | ms | times as long |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        var limit = Length.FromInches(105);
        for (var i = 0; i < 300; i++)
            TwoHigh.Stack(Mixed(new Random(i), 30), limit);
        var random = new Random(11);
        foreach (var (name, units) in ((string, StackUnit[])[])[
            ("drawn", Mixed(random, 20)), ("drawn", Mixed(random, 40)), ("drawn", Mixed(random, 60)), ("drawn", Mixed(random, 60)),
            ("three kinds, each only on its like", [.. Alike(60, 30, 21), .. Alike(48, 36, 19), .. Alike(42, 42, 17)])])
        {
            var start = Stopwatch.GetTimestamp();
            var stacks = TwoHigh.Stack(units, limit);
            var ours = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            var pairs = (from a in Enumerable.Range(0, units.Length)
                         from b in Enumerable.Range(a + 1, units.Length - a - 1)
                         where units[a].MayStandOn(units[b], limit) || units[b].MayStandOn(units[a], limit)
                         select (a, b)).ToList();
            start = Stopwatch.GetTimestamp();
            var theirs = MostPairs(units.Length, pairs);
            Report(output, $"{name} | {units.Length} | {pairs.Count}", $"{stacks.Count(s => s.Upper is not null)}", ours,
                theirs, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
    }

    private static StackUnit[] Mixed(Random random, int count) => [.. Enumerable.Range(0, count).Select(_ =>
    {
        var (length, width) = FloorBenchmark.Platforms[random.Next(FloorBenchmark.Platforms.Count)];
        return new StackUnit(Length.FromInches(length), Length.FromInches(width), Length.FromInches(random.Next(30, 80)),
            Mass.FromPounds(random.Next(300, 2_000)), random.NextDouble() < 0.5 ? Mass.FromPounds(random.Next(500, 2_500)) : Mass.Zero);
    })];

    private static IEnumerable<StackUnit> Alike(int length, int width, int count) => Enumerable.Repeat(
        new StackUnit(Length.FromInches(length), Length.FromInches(width), Length.FromInches(50), Mass.FromPounds(900), Mass.FromPounds(1_000)), count);

    /// <summary>A choice for each pair; no unit is in two.</summary>
    private static Answer MostPairs(int units, List<(int A, int B)> pairs)
    {
        var model = new CpModel();
        var stand = pairs.Select(_ => model.NewBoolVar("")).ToList();
        for (var unit = 0; unit < units; unit++)
            model.AddAtMostOne(stand.Where((_, i) => pairs[i].A == unit || pairs[i].B == unit));
        model.Maximize(LinearExpr.Sum(stand));
        return Solve(model);
    }

    private static Answer Solve(CpModel model)
    {
        var solver = new CpSolver { StringParameters = string.Create(CultureInfo.InvariantCulture, $"num_workers:1,max_time_in_seconds:{Seconds}") };
        var status = solver.Solve(model);
        var found = status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? solver.ObjectiveValue : double.NaN;
        return new Answer(found, solver.BestObjectiveBound, status == CpSolverStatus.Optimal);
    }

    private static void Report(TextWriter output, string name, string here, double ours, Answer theirs, double took) =>
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"| {name} | {here} | {ours:0.00} | {theirs.Found:0}, {theirs.Bound:0} | {took:0}{(theirs.Ended ? "" : " (stopped)")} | {took / ours:#,0} |"));

    /// <summary>What CP-SAT found; not a number when it found nothing.</summary>
    private readonly record struct Answer(double Found, double Bound, bool Ended);
}
