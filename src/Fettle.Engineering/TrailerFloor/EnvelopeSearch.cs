namespace Fettle.Engineering.TrailerFloor;

/// <summary>What came of asking whether all units fit in a length.</summary>
internal enum Verdict
{
    Fit,
    DoNotFit,
    Unknown,
}

/// <summary>
/// Decides whether all units fit in a length, for the few units and few kinds of a trailer. Units are set one after another
/// at the corners of the staircase round what stands already (Martello and Vigo 1998); every arrangement can be built so, in
/// the order of its sequence pair (Murata et al. 1996), and pushed to the corners. What may still come depends on the
/// staircase and the remaining units alone, so each such state is looked at once. A state is given up when the measure of the
/// remaining units is more than the room beyond the staircase has, under any <see cref="WidthMeasure"/>.
/// </summary>
internal sealed class EnvelopeSearch
{
    private readonly Strip strip;
    private readonly IReadOnlyList<WidthMeasure> measures;
    private readonly long[]? alongSums;
    private readonly long length;
    private readonly int[] remaining;
    private readonly double[] remainingMeasure;
    private readonly Stance[] stances;
    private readonly HashSet<State> dead = [];
    private readonly Stack<Standing> standing = new();
    private long workLeft;

    /// <summary>A staircase and the remaining units, hashed twice with different multipliers: 128 bits stand for the whole.</summary>
    private readonly record struct State(ulong First, ulong Second);

    /// <summary>One tread: from <paramref name="Across"/> to the next tread's, the floor is taken up to <paramref name="Along"/>.</summary>
    private readonly record struct Tread(long Along, long Across);

    private EnvelopeSearch(Strip strip, IReadOnlyList<WidthMeasure> measures, long[]? alongSums, long length, long work)
    {
        this.strip = strip;
        this.measures = measures;
        this.alongSums = alongSums;
        this.length = length;
        workLeft = work;
        remaining = [.. strip.Counts];
        remainingMeasure = [.. measures.Select(m => m.Total)];
        stances = [.. strip.Stances.OrderByDescending(s => s.Along * (double)s.Across).ThenByDescending(s => s.Across)];
    }

    /// <summary>Whether all units fit in a length, and how; the work spent is taken from <paramref name="work"/>.</summary>
    public static (Verdict Verdict, Standing[] Standings) Fit(Strip strip, IReadOnlyList<WidthMeasure> measures, long[]? alongSums, long length, ref long work)
    {
        var search = new EnvelopeSearch(strip, measures, alongSums, length, work);
        var fits = search.Place([new Tread(0, 0)], strip.Total);
        work = search.workLeft;
        return fits ? (Verdict.Fit, [.. search.standing]) : (search.workLeft > 0 ? Verdict.DoNotFit : Verdict.Unknown, []);
    }

    private bool Place(ReadOnlySpan<Tread> staircase, int left)
    {
        if (left == 0)
            return true;
        if (--workLeft <= 0)
            return false;
        Span<Tread> treads = stackalloc Tread[staircase.Length];
        treads = treads[..Tidy(staircase, treads)];
        if (!HasRoom(treads) || !dead.Add(StateOf(treads)))
            return false;
        Span<Tread> next = stackalloc Tread[treads.Length + 2];
        // The corner nearest the nose first.
        for (var corner = treads.Length - 1; corner >= 0; corner--)
        {
            var at = treads[corner];
            foreach (var stance in stances)
            {
                var (along, across) = (at.Along + stance.Along, at.Across + stance.Across);
                if (remaining[stance.Kind] == 0 || along > length || across > strip.Width)
                    continue;
                var count = Raise(treads, along, across, next);
                Take(stance.Kind, 1);
                standing.Push(new Standing(stance, at.Along, at.Across));
                if (Place(next[..count], left - 1))
                    return true;
                standing.Pop();
                Take(stance.Kind, -1);
                if (workLeft <= 0)
                    return false;
            }
        }

        return false;
    }

    private void Take(int kind, int count)
    {
        remaining[kind] -= count;
        for (var m = 0; m < measures.Count; m++)
            remainingMeasure[m] -= count * measures[m].LeastOf(kind);
    }

    /// <summary>The staircase over what stands and a unit whose far corner is given; treads go outwards from the wall, towards the nose.</summary>
    private int Raise(ReadOnlySpan<Tread> treads, long along, long across, Span<Tread> raised)
    {
        var count = 0;
        while (treads[count].Along > along)
        {
            raised[count] = treads[count];
            count++;
        }

        var last = count;
        raised[count] = new Tread(along, treads[count].Across);
        count++;
        while (last + 1 < treads.Length && treads[last + 1].Across < across)
            last++;
        if (across < strip.Width && (last + 1 == treads.Length || treads[last + 1].Across > across))
            raised[count++] = new Tread(treads[last].Along, across);
        foreach (var tread in treads[(last + 1)..])
            raised[count++] = tread;
        return count;
    }

    /// <summary>
    /// The same staircase for all that may still come: a tread beyond which no remaining unit is narrow enough is closed, and
    /// the room beyond a tread and behind it is brought down to what units can fill.
    /// </summary>
    private int Tidy(ReadOnlySpan<Tread> staircase, Span<Tread> tidy)
    {
        var narrowest = long.MaxValue;
        foreach (var stance in stances)
        {
            if (remaining[stance.Kind] > 0)
                narrowest = Math.Min(narrowest, stance.Across);
        }

        var count = 0;
        foreach (var tread in staircase)
        {
            if (strip.Width - tread.Across < narrowest)
                break;
            var along = length - Floor(alongSums, length - tread.Along);
            var across = strip.Width - Floor(strip.AcrossSums, strip.Width - tread.Across);
            if (count > 0 && tidy[count - 1].Along <= along)
                continue;
            if (count > 0 && tidy[count - 1].Across >= across)
                count--;
            tidy[count++] = new Tread(along, across);
        }

        return count;
    }

    private static long Floor(long[]? sums, long side)
    {
        if (sums is null)
            return side;
        var at = Array.BinarySearch(sums, side);
        return sums[at >= 0 ? at : ~at - 1];
    }

    private bool HasRoom(ReadOnlySpan<Tread> treads)
    {
        for (var m = 0; m < measures.Count; m++)
        {
            var room = 0.0;
            var behind = length;
            foreach (var tread in treads)
            {
                room += (behind - tread.Along) * measures[m].Room(strip.Width - tread.Across);
                behind = tread.Along;
            }

            if (remainingMeasure[m] > room * (1 + 1e-9) + 1e-9)
                return false;
        }

        return true;
    }

    private State StateOf(ReadOnlySpan<Tread> treads)
    {
        var (first, second) = (0x9E3779B97F4A7C15ul, 0xC2B2AE3D27D4EB4Ful);
        foreach (var tread in treads)
        {
            Mix((ulong)tread.Along);
            Mix((ulong)tread.Across);
        }

        foreach (var count in remaining)
            Mix((ulong)count);
        return new State(first, second);

        void Mix(ulong value)
        {
            unchecked
            {
                first = (first ^ value) * 0xFF51AFD7ED558CCD;
                first ^= first >> 32;
                second = (second + value) * 0xC4CEB9FE1A85EC53;
                second ^= second >> 29;
            }
        }
    }
}
