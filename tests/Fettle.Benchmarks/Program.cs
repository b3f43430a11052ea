using Fettle.Benchmarks;
using Fettle.Benchmarks.Board;
using Fettle.Benchmarks.Check;
using Fettle.Benchmarks.MixedCartons;
using Fettle.Benchmarks.Patterns;
using Fettle.Benchmarks.RuleSets;
using Fettle.Benchmarks.Scorecards;
using Fettle.Benchmarks.TrailerFloor;

// dotnet run -c Release --project tests/Fettle.Benchmarks -- <name>: writes a result table as Markdown to standard output.
switch (args.FirstOrDefault())
{
    case "board":
        await BoardBenchmark.RunAsync();
        break;
    case "check":
        CheckBenchmark.Run(Console.Out);
        break;
    case "check-means":
        CheckBenchmark.Compare();
        break;
    case "check-offers":
        CheckBenchmark.Show(Console.Out);
        break;
    case "http":
        await HttpTimes.RunAsync();
        break;
    case "mixed":
        MixedLoadBenchmark.Run(Console.Out);
        break;
    case "patterns":
        PatternBenchmark.Run(Console.Out);
        break;
    case "patterns-beside":
        PatternComparison.Run(Console.Out);
        break;
    case "floor":
        FloorBenchmark.Run(Console.Out);
        break;
    case "floor-beside":
        FloorComparison.Run(Console.Out);
        break;
    case "load":
        LoadBenchmark.Run(Console.Out);
        break;
    case "preview":
        await PreviewBenchmark.RunAsync();
        break;
    case "scorecards":
        await ScorecardBenchmark.RunAsync([.. args.Skip(1).Select(int.Parse)]);
        break;
    default:
        Console.Error.WriteLine("Name a benchmark: board, check, check-means, check-offers, http, mixed, patterns, patterns-beside, floor, floor-beside, load, preview, scorecards");
        return 1;
}

return 0;
