using Fettle.Benchmarks.Check;

// dotnet run -c Release --project tests/Fettle.Benchmarks -- <name>: writes a result table as Markdown to standard output.
switch (args.FirstOrDefault())
{
    case "check":
        CheckBenchmark.Run(Console.Out);
        break;
    case "check-means":
        CheckBenchmark.Compare();
        break;
    case "check-offers":
        CheckBenchmark.Show(Console.Out);
        break;
    default:
        Console.Error.WriteLine("Name a benchmark: check, check-means, check-offers");
        return 1;
}

return 0;
