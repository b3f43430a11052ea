using System.Numerics;

namespace Fettle.Readiness.Scorecards;

/// <summary>Lines that were stopped by just these findings.</summary>
/// <param name="Stops">Codes, each once; empty for lines that nothing stopped.</param>
/// <param name="Lines">Lines, 0 or more.</param>
public sealed record StopCount(IReadOnlyList<string> Stops, long Lines);

/// <summary>What it would have done never to make one finding: the habit that avoids it.</summary>
/// <param name="Code">The finding.</param>
/// <param name="Stopped">Lines that it stopped, alone or among others.</param>
/// <param name="AloneFrees">Lines that would have passed without it and with all else as it was.</param>
/// <param name="TogetherFrees">Lines that would have passed without it and without those named before it.</param>
public sealed record Habit(string Code, long Stopped, long AloneFrees, long TogetherFrees)
{
    /// <summary>Lines that it stopped and others stop too: it alone does not cure them.</summary>
    public long NotAlone => Stopped - AloneFrees;
}

/// <summary>The few habits that together would have let most held lines pass.</summary>
/// <param name="Held">Lines that something stopped.</param>
/// <param name="Best">At most three, the one that frees most first.</param>
public sealed record Habits(long Held, IReadOnlyList<Habit> Best)
{
    /// <summary>More than these at once is advice that nobody follows.</summary>
    public const int Most = 3;

    // Findings beyond these stop so little that no three of them are the best.
    private const int MostCodes = 40;

    /// <summary>Lines that would have passed with all of them.</summary>
    public long Freed => Best.Count == 0 ? 0 : Best[^1].TogetherFrees;

    /// <summary>
    /// Every choice of up to three findings is tried: the lines whose stops all lie within it would have passed. Of equal
    /// choices that of the fewest findings, then the one whose findings stop most lines, then by letters.
    /// </summary>
    public static Habits Of(IEnumerable<StopCount> history)
    {
        var stopped = history.Where(count => count is { Stops.Count: > 0, Lines: > 0 }).ToArray();
        var held = stopped.Sum(count => count.Lines);
        var byCode = stopped.SelectMany(count => count.Stops.Select(code => (Code: code, count.Lines)))
            .GroupBy(pair => pair.Code, pair => pair.Lines)
            .Select(group => (Code: group.Key, Lines: group.Sum()))
            .OrderByDescending(pair => pair.Lines).ThenBy(pair => pair.Code, StringComparer.Ordinal)
            .Take(MostCodes)
            .ToArray();
        var bit = byCode.Select((pair, index) => (pair.Code, index)).ToDictionary(pair => pair.Code, pair => 1UL << pair.index, StringComparer.Ordinal);
        // Lines that are also stopped by something beyond those are freed by no choice.
        var sets = stopped
            .Where(count => count.Stops.Count <= Most && count.Stops.All(bit.ContainsKey))
            .GroupBy(count => count.Stops.Aggregate(0UL, (set, code) => set | bit[code]), count => count.Lines)
            .Select(group => (Set: group.Key, Lines: group.Sum()))
            .ToArray();

        var (best, freed) = (0UL, 0L);
        foreach (var chosen in Choices(byCode.Length))
        {
            var frees = Frees(chosen);
            if (frees > freed || (frees == freed && freed > 0 && BitOperations.PopCount(chosen) < BitOperations.PopCount(best)))
                (best, freed) = (chosen, frees);
        }

        // Where no three would free a line, the commonest finding is still where to begin.
        if (best == 0 && byCode.Length > 0)
            best = 1;

        var habits = new List<Habit>();
        for (var (left, done) = (best, 0UL); left != 0; left &= ~done)
        {
            // Of those chosen the next is the one that frees most with those before it; on a tie the one that stops more.
            var next = Bits(left).MaxBy(one => (Frees(done | one), byCode[BitOperations.TrailingZeroCount(one)].Lines, -BitOperations.TrailingZeroCount(one)));
            done |= next;
            var (code, lines) = byCode[BitOperations.TrailingZeroCount(next)];
            habits.Add(new(code, lines, Frees(next), Frees(done)));
        }

        return new(held, habits);

        long Frees(ulong chosen)
        {
            var sum = 0L;
            foreach (var (set, lines) in sets)
                sum += (set & ~chosen) == 0 ? lines : 0;
            return sum;
        }
    }

    private static IEnumerable<ulong> Bits(ulong set)
    {
        for (; set != 0; set &= set - 1)
            yield return set & (~set + 1);
    }

    /// <summary>All sets of one, two and three of so many, the commonest first.</summary>
    private static IEnumerable<ulong> Choices(int codes)
    {
        for (var i = 0; i < codes; i++)
        {
            yield return 1UL << i;
            for (var j = i + 1; j < codes; j++)
            {
                yield return (1UL << i) | (1UL << j);
                for (var k = j + 1; k < codes; k++)
                    yield return (1UL << i) | (1UL << j) | (1UL << k);
            }
        }
    }
}
