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
        var bare = Percentiles.Milliseconds(() => Check(declaration, rules), 50, 300);
        var full = Percentiles.Milliseconds(() => Full(declaration.HandlingUnits, declaration.Lane, rules), 20, 200);
        var one = declaration.HandlingUnits.Take(1).ToArray();
        var live = Percentiles.Milliseconds(() => Full(one, declaration.Lane, rules), 50, 300);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| what, {declaration.HandlingUnits.Count} lines | time |"));
        output.WriteLine("| --- | --- |");
        output.WriteLine($"| check alone | {bare} |");
        output.WriteLine($"| check with alternatives | {full} |");
        output.WriteLine($"| one line, check with alternatives | {live} |");
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
