using System.Globalization;
using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Benchmarks.Check;

/// <summary>A whole pickup and one line of it: checked alone, which is the baseline, and with alternatives.</summary>
[MemoryDiagnoser]
public class CheckBenchmark
{
    private static readonly Declaration Pickup = TroubledPickup.Declared;

    // Hangs over, rubs, tips: an ordinary bad pallet, and the one that a clerk is typing.
    private static readonly Declaration Line = Only(Pickup);

#pragma warning disable CA1822 // BenchmarkDotNet calls methods of an instance.
    [Benchmark(Baseline = true)]
    public int Pickup_checked() => Checked(Pickup);

    [Benchmark]
    public int Pickup_checked_with_alternatives() => CheckedWithAlternatives(Pickup);

    [Benchmark]
    public int Line_checked() => Checked(Line);

    [Benchmark]
    public int Line_checked_with_alternatives() => CheckedWithAlternatives(Line);
#pragma warning restore CA1822

    /// <summary>Means and memory, by BenchmarkDotNet.</summary>
    public static void Compare() => BenchmarkRunner.Run<CheckBenchmark>(
        ManualConfig.Create(DefaultConfig.Instance).AddJob(Job.Default.WithToolchain(InProcessEmitToolchain.Instance)));

    /// <summary>Percentiles of single runs, as a Markdown table.</summary>
    public static void Run(TextWriter output)
    {
        Declaration[] others = [.. Enumerable.Range(0, TroubledPickup.Others).Select(TroubledPickup.WithOtherCartons)];
        Declaration[] otherLines = [.. others.Select(Only)];
        var lines = Pickup.HandlingUnits.Count;

        // Cartons that nobody asked about before have to come before the others: what is found is kept.
        var news = Percentiles.Of(i => CheckedWithAlternatives(others[i]), 25, TroubledPickup.Others - 25);
        var check = Percentiles.Of(_ => Checked(Pickup), 500, 1000);
        var full = Percentiles.Of(_ => CheckedWithAlternatives(Pickup), 100, 1000);
        output.WriteLine("| what | runs | median ms | 99 % under ms | worst ms | processor, median ms | 99 % under ms | times the check alone |");
        output.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
        Row($"{lines} lines, check alone", 1000, check, check);
        Row($"{lines} lines, check with alternatives", 1000, full, check);
        Row($"{lines} lines, check with alternatives, all carton sizes new", TroubledPickup.Others - 25, news, check);

        var oneCheck = Percentiles.Of(_ => Checked(Line), 500, 5000);
        Row("one line, check alone", 5000, oneCheck, oneCheck);
        Row("one line, check with alternatives", 2000, Percentiles.Of(_ => CheckedWithAlternatives(Line), 500, 2000), oneCheck);
        Row("one line, the next of 225 carton sizes each time", 2000, Percentiles.Of(i => CheckedWithAlternatives(otherLines[i % otherLines.Length]), 500, 2000), oneCheck);

        void Row(string what, int runs, Percentiles times, Percentiles baseline) => output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"| {what} | {runs} | {times.Median:0.000} | {times.P99:0.000} | {times.Worst:0.000} | {times.ProcessorMedian:0.000} | {times.ProcessorP99:0.000} | {times.ProcessorMedian / baseline.ProcessorMedian:0.0} |"));
    }

    /// <summary>What is offered for each line, to see with one's own eyes whether it is sensible.</summary>
    public static void Show(TextWriter output)
    {
        foreach (var unit in Pickup.HandlingUnits)
        {
            var result = ReadinessCheck.Run(unit, Pickup.Lane, RuleSet.BuiltIn);
            var search = AlternativeFinder.Find(unit, result, Pickup.Lane, RuleSet.BuiltIn, UnitCosts.Default);
            output.WriteLine($"{unit.Reference}, {result.Verdict}: {string.Join(", ", result.Findings.Select(f => $"{f.Code} ({f.Severity})"))}");
            foreach (var offered in search.Alternatives)
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"    ${offered.Cost.Total:0.00}, {offered.Verdict}: {offered.Summary}"));
            if (search.Blocked is { } blocked)
                output.WriteLine($"    {blocked}");
        }
    }

    private static Declaration Only(Declaration pickup) => pickup with { HandlingUnits = [pickup.HandlingUnits[1]] };

    private static int Checked(Declaration declaration) => ReadinessCheck.Run(declaration, RuleSet.BuiltIn).HandlingUnits.Count;

    private static int CheckedWithAlternatives(Declaration declaration)
    {
        var offered = 0;
        foreach (var (unit, result) in declaration.HandlingUnits.Zip(ReadinessCheck.Run(declaration, RuleSet.BuiltIn).HandlingUnits))
            offered += AlternativeFinder.Find(unit, result, declaration.Lane, RuleSet.BuiltIn, UnitCosts.Default).Alternatives.Count;
        return offered;
    }
}
