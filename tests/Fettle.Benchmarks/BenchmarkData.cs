using System.Diagnostics;

namespace Fettle.Benchmarks;

/// <summary>The benchmark data that the tests carry, without headings.</summary>
internal static class BenchmarkData
{
    public static IEnumerable<string[]> Rows(string name)
    {
        using var stream = typeof(BenchmarkData).Assembly.GetManifestResourceStream($"Data/{name}")
            ?? throw new FileNotFoundException("Not carried by the benchmarks.", name);
        using var reader = new StreamReader(stream);
        reader.ReadLine();
        while (reader.ReadLine() is { Length: > 0 } line)
            yield return line.Split(',');
    }
}

/// <summary>Times of one thing measured many times, in milliseconds.</summary>
internal sealed class Times
{
    private readonly List<double> milliseconds = [];

    public void Add(double time) => milliseconds.Add(time);

    public double Share(double share) => milliseconds.Order().ElementAt((int)Math.Min(milliseconds.Count - 1, share * milliseconds.Count));

    public double Worst => milliseconds.Max();
}

/// <summary>
/// Time on one core, in milliseconds: the lesser of the time that passed and the processor time that this program used, since
/// other programs share the machine.
/// </summary>
internal readonly struct CoreTime
{
    private readonly long start = Stopwatch.GetTimestamp();
    private readonly TimeSpan used = Environment.CpuUsage.TotalTime;

    public CoreTime()
    {
    }

    public double Milliseconds
    {
        get
        {
            var passed = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            // Asking for processor time takes longer than short things do.
            return passed < 1 ? passed : Math.Min(passed, (Environment.CpuUsage.TotalTime - used).TotalMilliseconds);
        }
    }
}
