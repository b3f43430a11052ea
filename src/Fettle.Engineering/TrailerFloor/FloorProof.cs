namespace Fettle.Engineering.TrailerFloor;

/// <summary>What came of asking whether all units fit in a length.</summary>
internal enum Verdict
{
    Fit,
    DoNotFit,
    Unknown,
}

/// <summary>
/// Decides whether all units fit in a length, for the few kinds of a trailer. Units are set from the nose backwards, always
/// at the lowest place of the skyline (the step nearest the nose, of equal ones the leftmost). Push every unit of an
/// arrangement towards the nose and to the left: then at that place either a unit stands at the left end; or the first unit
/// stands further right, held off by one that reaches over the edge of the left neighbour, so that a strip beside the
/// neighbour stays bare up to the neighbour's level; or none stands there and the whole place stays bare up to the lower of
/// its neighbours. All three are tried. What may still come depends on the skyline and the remaining units alone, so a skyline
/// is given up when the same units remaining were found not to fit from one that is nowhere further along, or from its mirror
/// image; and when the remaining units measure more than the bare floor holds, under any <see cref="WidthMeasure"/>.
/// </summary>
internal sealed class FloorProof
{
    /// <summary>Skylines remembered for each set of remaining units; more would take longer to look through than they save.</summary>
    private const int MostSeen = 200;

    private readonly Strip strip;
    private readonly long[] acrossSums;
    private readonly long[] alongSums;
    private readonly IReadOnlyList<WidthMeasure> measures;
    private readonly long length;
    private readonly int[] remaining;
    private readonly double[] remainingMeasure;
    private readonly Stance[] stances;
    private readonly Dictionary<Remainder, List<Step[]>> seen = [];
    private readonly Stack<Standing> standing = new();
    private long workLeft;
    private int noted;

    /// <summary>The units that remain, hashed twice in different ways: 128 bits stand for the whole.</summary>
    private readonly record struct Remainder(ulong First, ulong Second);

    /// <summary>One step of the skyline: from <paramref name="Across"/> to the next step's, the floor is taken up to <paramref name="Along"/>.</summary>
    private readonly record struct Step(long Across, long Along);

    private FloorProof(Strip strip, long[] acrossSums, long[] alongSums, IReadOnlyList<WidthMeasure> measures, long length, long work)
    {
        this.strip = strip;
        this.acrossSums = acrossSums;
        this.alongSums = alongSums;
        this.measures = measures;
        this.length = length;
        workLeft = work;
        remaining = [.. strip.Counts];
        remainingMeasure = [.. measures.Select(m => m.Total)];
        stances = [.. strip.Stances.OrderByDescending(s => s.Along * (double)s.Across).ThenByDescending(s => s.Across)];
    }

    /// <summary>
    /// Whether all units fit in a length, and how. <paramref name="alongSums"/> are the lengths that units end to end can make,
    /// up to this length at least; the work spent is taken from <paramref name="work"/>.
    /// </summary>
    public static (Verdict Verdict, Standing[] Standings) Fit(Strip strip, long[]? alongSums, IReadOnlyList<WidthMeasure> measures, long length, ref long work)
    {
        if (strip.AcrossSums is not { } acrossSums || alongSums is null)
            return (Verdict.Unknown, []);
        var search = new FloorProof(strip, acrossSums, alongSums, measures, length, work);
        var fits = search.Place([new Step(0, 0)], strip.Total);
        work = search.workLeft;
        return fits ? (Verdict.Fit, [.. search.standing]) : (work > 0 ? Verdict.DoNotFit : Verdict.Unknown, []);
    }

    private bool Place(ReadOnlySpan<Step> skyline, int left)
    {
        if (left == 0)
            return true;
        if (workLeft <= 0)
            return false;
        Span<Step> steps = stackalloc Step[skyline.Length];
        steps = steps[..Tidy(skyline, steps)];
        workLeft -= Ruggedness(steps.Length) * steps.Length * measures.Count;
        if (!HasRoom(steps))
            return false;
        var before = SeenWithRemaining();
        if (IsDominated(steps, before))
            return false;
        if (GoOn(steps, left))
            return true;
        Note(steps, before);
        return false;
    }

    private bool GoOn(ReadOnlySpan<Step> steps, int left)
    {
        var lowest = 0;
        for (var s = 1; s < steps.Length; s++)
        {
            if (steps[s].Along < steps[lowest].Along)
                lowest = s;
        }

        var (at, end) = (steps[lowest], End(steps, lowest));
        // What holds a unit off to the right stands at the left neighbour's level or beyond, and the unit reaches past where it begins.
        var beyond = lowest == 0 ? long.MaxValue : steps[lowest - 1].Along;
        Span<Step> beside = stackalloc Step[steps.Length];
        Span<Step> next = stackalloc Step[steps.Length + 1];
        steps.CopyTo(beside);
        var tried = true;
        for (var from = at.Across; tried && from < end; from = NextSum(from))
        {
            workLeft -= stances.Length;
            beside[lowest] = at with { Across = from };
            if (from > at.Across && !HasRoom(beside))
                break;
            tried = false;
            foreach (var stance in stances)
            {
                var reach = at.Along + stance.Along;
                if (remaining[stance.Kind] == 0 || reach > length || stance.Across > end - from || (from > at.Across && reach <= beyond))
                    continue;
                tried = true;
                Take(stance.Kind, 1);
                standing.Push(new Standing(stance, at.Along, from));
                if (Place(next[..Raise(beside, lowest, from + stance.Across, reach, next)], left - 1))
                    return true;
                standing.Pop();
                Take(stance.Kind, -1);
                if (workLeft <= 0)
                    return false;
            }
        }

        if (steps.Length == 1)
            return false;
        var neighbour = Math.Min(lowest == 0 ? long.MaxValue : steps[lowest - 1].Along, lowest + 1 == steps.Length ? long.MaxValue : steps[lowest + 1].Along);
        return Place(next[..Raise(steps, lowest, end, neighbour, next)], left);
    }

    /// <summary>Platforms seldom make more than six steps; thin things make many, which are more to look through.</summary>
    private static int Ruggedness(int steps) => Math.Max(0, steps - 6);

    private void Take(int kind, int count)
    {
        remaining[kind] -= count;
        for (var m = 0; m < measures.Count; m++)
            remainingMeasure[m] -= count * measures[m].LeastOf(kind);
    }

    private long End(ReadOnlySpan<Step> steps, int step) => step + 1 < steps.Length ? steps[step + 1].Across : strip.Width;

    private long NextSum(long across)
    {
        var at = Array.BinarySearch(acrossSums, across);
        at = at >= 0 ? at + 1 : ~at;
        return at < acrossSums.Length ? acrossSums[at] : long.MaxValue;
    }

    /// <summary>The skyline with one step raised from its left end up to <paramref name="across"/>; levels that are then equal become one.</summary>
    private int Raise(ReadOnlySpan<Step> steps, int step, long across, long along, Span<Step> raised)
    {
        var count = 0;
        for (var s = 0; s < step; s++)
            count = Add(raised, count, steps[s]);
        count = Add(raised, count, steps[step] with { Along = along });
        if (across < End(steps, step))
            count = Add(raised, count, new Step(across, steps[step].Along));
        for (var s = step + 1; s < steps.Length; s++)
            count = Add(raised, count, steps[s]);
        return count;
    }

    private static int Add(Span<Step> steps, int count, Step step)
    {
        if (count > 0 && steps[count - 1].Along == step.Along)
            return count;
        steps[count] = step;
        return count + 1;
    }

    /// <summary>
    /// The same skyline for all that may still come: what is left behind a step is brought down to what units end to end can
    /// fill, and places too narrow for any remaining unit are raised to their lower neighbour.
    /// </summary>
    private int Tidy(ReadOnlySpan<Step> skyline, Span<Step> tidy)
    {
        var narrowest = long.MaxValue;
        foreach (var stance in stances)
        {
            if (remaining[stance.Kind] > 0)
                narrowest = Math.Min(narrowest, stance.Across);
        }

        var count = 0;
        foreach (var step in skyline)
        {
            var at = Array.BinarySearch(alongSums, length - step.Along);
            count = Add(tidy, count, step with { Along = length - alongSums[at >= 0 ? at : ~at - 1] });
        }

        for (var again = true; again && count > 1;)
        {
            again = false;
            for (var s = 0; s < count && count > 1; s++)
            {
                var width = (s + 1 < count ? tidy[s + 1].Across : strip.Width) - tidy[s].Across;
                var (before, after) = (s == 0 ? long.MaxValue : tidy[s - 1].Along, s + 1 == count ? long.MaxValue : tidy[s + 1].Along);
                if (width >= narrowest || tidy[s].Along > Math.Min(before, after))
                    continue;
                // Joined to the lower neighbour: the step goes, and a neighbour on its right begins where it began.
                if (after <= before)
                    tidy[s + 1] = tidy[s + 1] with { Across = tidy[s].Across };
                tidy[(s + 1)..count].CopyTo(tidy[s..]);
                count--;
                if (after == before)
                {
                    tidy[(s + 1)..count].CopyTo(tidy[s..]);
                    count--;
                }

                again = true;
            }
        }

        return count;
    }

    private bool HasRoom(ReadOnlySpan<Step> steps)
    {
        // Between one level and the next, the bare floor is made of the runs of steps that are not beyond the level.
        Span<long> levels = stackalloc long[steps.Length + 1];
        for (var s = 0; s < steps.Length; s++)
            levels[s] = steps[s].Along;
        levels[steps.Length] = length;
        levels.Sort();
        for (var m = 0; m < measures.Count; m++)
        {
            var room = 0.0;
            for (var k = 0; k < steps.Length; k++)
            {
                if (levels[k] == levels[k + 1])
                    continue;
                var across = 0.0;
                for (var s = 0; s < steps.Length; s++)
                {
                    if (steps[s].Along > levels[k])
                        continue;
                    var from = steps[s].Across;
                    while (s + 1 < steps.Length && steps[s + 1].Along <= levels[k])
                        s++;
                    across += measures[m].Room(End(steps, s) - from);
                }

                room += (levels[k + 1] - levels[k]) * across;
            }

            if (remainingMeasure[m] > room * (1 + 1e-9) + 1e-9)
                return false;
        }

        return true;
    }

    /// <summary>The skylines from which the units that remain were found not to fit.</summary>
    private List<Step[]> SeenWithRemaining()
    {
        var key = new Remainder(1, 2);
        foreach (var count in remaining)
            key = Mix(key, (ulong)count);
        if (!seen.TryGetValue(key, out var before))
            seen[key] = before = [];
        return before;
    }

    /// <summary>Whether the units that remain were found not to fit from a skyline nowhere further along, or from its mirror image.</summary>
    private bool IsDominated(ReadOnlySpan<Step> steps, List<Step[]> before)
    {
        Span<Step> mirrored = stackalloc Step[steps.Length];
        for (var s = 0; s < steps.Length; s++)
            mirrored[steps.Length - 1 - s] = new Step(strip.Width - End(steps, s), steps[s].Along);
        workLeft -= before.Count / 6;
        for (var k = before.Count - 1; k >= 0; k--)
        {
            if (IsNowhereFurther(before[k], steps) || IsNowhereFurther(before[k], mirrored))
                return true;
        }

        return false;
    }

    /// <summary>
    /// Remembers a skyline once all ways to go on from it were tried, and no sooner: where a place stays bare it comes to one
    /// further along with the same units remaining, which it must not rule out.
    /// </summary>
    private void Note(ReadOnlySpan<Step> steps, List<Step[]> before)
    {
        if (before.Count < MostSeen)
            before.Add(steps.ToArray());
        else
            before[noted++ % MostSeen] = steps.ToArray();
    }

    /// <summary>Whether <paramref name="a"/> is nowhere further along than <paramref name="b"/>.</summary>
    private bool IsNowhereFurther(ReadOnlySpan<Step> a, ReadOnlySpan<Step> b)
    {
        int i = 0, j = 0;
        while (i < a.Length && j < b.Length)
        {
            if (a[i].Along > b[j].Along)
                return false;
            var (endA, endB) = (End(a, i), End(b, j));
            if (endA <= endB)
                i++;
            if (endB <= endA)
                j++;
        }

        return true;
    }

    private static Remainder Mix(Remainder state, ulong value)
    {
        unchecked
        {
            var first = (state.First ^ value) * 0xFF51AFD7ED558CCD;
            var second = (state.Second + value) * 0xC4CEB9FE1A85EC53;
            return new Remainder(first ^ (first >> 32), second ^ (second >> 29));
        }
    }
}
