using System.Diagnostics;

namespace Fettle.Benchmarks;

/// <summary>Times of single runs, since a mean hides the slow ones that a person waits for.</summary>
internal static class Percentiles
{
    public static (double Median, double P99, double Worst) Milliseconds(Action work, int warmUp, int runs)
    {
        for (var i = 0; i < warmUp; i++)
            work();
        var times = new double[runs];
        for (var i = 0; i < runs; i++)
        {
            var start = Stopwatch.GetTimestamp();
            work();
            times[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        Array.Sort(times);
        return (times[runs / 2], times[(int)Math.Ceiling(runs * 0.99) - 1], times[^1]);
    }
}
