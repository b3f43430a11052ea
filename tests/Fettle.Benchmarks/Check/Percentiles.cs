using System.Diagnostics;

namespace Fettle.Benchmarks.Check;

/// <summary>Times of single runs in milliseconds, since a mean hides the slow ones that a person waits for.</summary>
/// <param name="Median">Half of the runs took no longer, by the clock.</param>
/// <param name="P99">99 of 100 runs took no longer, by the clock.</param>
/// <param name="Worst">By the clock.</param>
/// <param name="ProcessorMedian">Half of the runs took no more of the processor: what the clock would say on an idle machine.</param>
/// <param name="ProcessorP99">99 of 100 runs took no more of it.</param>
internal readonly record struct Percentiles(double Median, double P99, double Worst, double ProcessorMedian, double ProcessorP99)
{
    /// <param name="work">Given the number of the run, from zero; warming up counts on from where it starts.</param>
    public static Percentiles Of(Action<int> work, int warmUp, int runs)
    {
        for (var i = 0; i < warmUp; i++)
            work(i);
        var (clock, processor) = (new double[runs], new double[runs]);
        for (var i = 0; i < runs; i++)
        {
            var (start, used) = (Stopwatch.GetTimestamp(), Environment.CpuUsage.TotalTime);
            work(warmUp + i);
            (clock[i], processor[i]) = (Stopwatch.GetElapsedTime(start).TotalMilliseconds, (Environment.CpuUsage.TotalTime - used).TotalMilliseconds);
        }

        Array.Sort(clock);
        Array.Sort(processor);
        return new(At(clock, .5), At(clock, .99), clock[^1], At(processor, .5), At(processor, .99));
    }

    private static double At(double[] sorted, double share) => sorted[(int)Math.Ceiling(sorted.Length * share) - 1];
}
