using System.Globalization;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Benchmarks;

/// <summary>The check of a 26-line pickup in which every line has trouble: without alternatives, with them, and one unit alone.</summary>
public static class CheckBenchmark
{
    public static void Run(TextWriter output)
    {
        var declaration = TroubledPickup.Declared;
        var rules = RuleSet.BuiltIn;
        static string Shown((double Median, double P99, double Worst) times) =>
            string.Create(CultureInfo.InvariantCulture, $"{times.Median:0.00} ms | {times.P99:0.00} ms");
        var bare = Percentiles.Milliseconds(() => Check(declaration, rules), 50, 300);
        var full = Percentiles.Milliseconds(() => Full(declaration.HandlingUnits, declaration.Lane, rules), 20, 200);
        var one = declaration.HandlingUnits.Take(1).ToArray();
        var live = Percentiles.Milliseconds(() => Full(one, declaration.Lane, rules), 50, 300);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| what, {declaration.HandlingUnits.Count} lines | median | 99th percentile |"));
        output.WriteLine("| --- | --- | --- |");
        output.WriteLine($"| check alone | {Shown(bare)} |");
        output.WriteLine($"| check with alternatives | {Shown(full)} |");
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| with alternatives / alone | {full.Median / bare.Median:0.0} × | {full.P99 / bare.P99:0.0} × |"));
        output.WriteLine($"| one line, check with alternatives | {Shown(live)} |");
    }

    private static void Check(Declaration declaration, RuleSet rules)
    {
        foreach (var unit in declaration.HandlingUnits)
            ReadinessCheck.Run(unit, declaration.Lane, rules);
    }

    private static void Full(IEnumerable<HandlingUnit> units, Lane lane, RuleSet rules)
    {
        foreach (var unit in units)
            AlternativeFinder.Find(unit, ReadinessCheck.Run(unit, lane, rules), lane, rules, UnitCosts.Default);
    }
}
