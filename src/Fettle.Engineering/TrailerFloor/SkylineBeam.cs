namespace Fettle.Engineering.TrailerFloor;

/// <summary>
/// Fills a strip from the nose: again and again the lowest place of the skyline is filled with a unit, or given up as waste,
/// never beyond a length to be beaten. Of all the half-filled floors that one more unit gives, the best few go on (a beam),
/// judged by how well the unit fits its place, by waste, and by how rugged the skyline is. Identical units are one kind, and
/// floors that look alike are kept once. Not thread-safe.
/// </summary>
internal sealed class SkylineBeam
{
    private readonly Strip strip;
    private readonly Stance[] stances;
    private readonly long[] shortestOf;
    private readonly long[] narrowestOf;
    private readonly ulong[] kindHash;
    private readonly double meanArea;
    private Candidate[] candidates = [];
    private double[] costs = [];
    private int count;
    private readonly HashSet<ulong> seen = [];
    private Floor[] current = [];
    private Floor[] next = [];

    public SkylineBeam(Strip strip)
    {
        this.strip = strip;
        stances = [.. strip.Stances.OrderByDescending(s => s.Along * (double)s.Across).ThenByDescending(s => s.Across)];
        shortestOf = [.. Enumerable.Range(0, strip.Counts.Length).Select(k => strip.Stances.Where(s => s.Kind == k).Select(s => s.Along).DefaultIfEmpty(0).Min())];
        narrowestOf = [.. Enumerable.Range(0, strip.Counts.Length).Select(k => strip.Stances.Where(s => s.Kind == k).Select(s => s.Across).DefaultIfEmpty(0).Min())];
        kindHash = new ulong[strip.Counts.Length];
        var random = 0x9E3779B97F4A7C15ul;
        for (var k = 0; k < kindHash.Length; k++)
            kindHash[k] = Scramble(ref random);
        meanArea = (double)strip.Area / Math.Max(1, strip.Total);
    }

    private struct Segment
    {
        public long Across;
        public long Width;
        public long Along;
    }

    /// <summary>Units set so far, newest first; floors share their beginnings.</summary>
    private sealed record Link(Link? Before, Standing Standing);

    private sealed class Floor(int kinds)
    {
        public Segment[] Skyline = new Segment[8];
        public int Segments;
        public readonly int[] Remaining = new int[kinds];
        public int Left;
        public double Waste;
        public double Filled;
        public ulong RemainingHash;
        public Link? Last;

        public void CopyFrom(Floor other)
        {
            if (Skyline.Length < other.Segments + 2)
                Skyline = new Segment[other.Segments * 2 + 2];
            Array.Copy(other.Skyline, Skyline, other.Segments);
            Segments = other.Segments;
            Array.Copy(other.Remaining, Remaining, Remaining.Length);
            (Left, Waste, Filled, RemainingHash, Last) = (other.Left, other.Waste, other.Filled, other.RemainingHash, other.Last);
        }
    }

    /// <summary>A unit for the lowest place of a floor, or (stance -1) that place given up.</summary>
    private readonly record struct Candidate(double Cost, int Floor, short Stance, bool AtFarSide);

    /// <summary>
    /// Where all units stand within a length, or null when this beam finds no way; the work spent is taken from
    /// <paramref name="work"/>, and the search ends when there is none left.
    /// </summary>
    public List<Standing>? Fit(long length, int beam, int perFloor, ref long work)
    {
        var budget = (double)strip.Width * length - (double)strip.Area;
        if (budget < 0)
            return null;
        Reserve(beam, perFloor);
        var start = current[0];
        start.Skyline[0] = new Segment { Across = 0, Width = strip.Width, Along = 0 };
        start.Segments = 1;
        Array.Copy(strip.Counts, start.Remaining, strip.Counts.Length);
        (start.Left, start.Waste, start.Filled, start.RemainingHash, start.Last) = (strip.Total, 0, 0, 0, null);
        var floors = 1;
        while (floors > 0 && work > 0)
        {
            count = 0;
            for (var f = 0; f < floors; f++)
                Branch(f, length, budget, perFloor, ref work);
            for (var c = 0; c < count; c++)
                costs[c] = candidates[c].Cost;
            Array.Sort(costs, candidates, 0, count);
            seen.Clear();
            var kept = 0;
            for (var c = 0; c < count; c++)
            {
                var candidate = candidates[c];
                var floor = next[kept];
                floor.CopyFrom(current[candidate.Floor]);
                Apply(floor, candidate);
                if (floor.Left == 0)
                    return Standings(floor);
                // What is rugged takes longer to copy and to search.
                work -= 60L * Math.Max(0, floor.Segments - 6);
                if (seen.Add(HashOf(floor)) && ++kept == beam)
                    break;
            }

            work -= kept * 120L;
            (current, next) = (next, current);
            floors = kept;
        }

        return null;
    }

    private void Reserve(int beam, int perFloor)
    {
        if (candidates.Length < beam * perFloor)
            (candidates, costs) = (new Candidate[beam * perFloor], new double[beam * perFloor]);
        if (current.Length >= beam)
            return;
        current = [.. current, .. New(beam - current.Length)];
        next = [.. next, .. New(beam - next.Length)];

        IEnumerable<Floor> New(int count) => Enumerable.Range(0, count).Select(_ => new Floor(strip.Counts.Length));
    }

    private static int Lowest(Floor floor)
    {
        var lowest = 0;
        for (var s = 1; s < floor.Segments; s++)
        {
            if (floor.Skyline[s].Along < floor.Skyline[lowest].Along)
                lowest = s;
        }

        return lowest;
    }

    /// <summary>Adds the best ways to go on from a floor.</summary>
    private void Branch(int index, long length, double budget, int perFloor, ref long work)
    {
        var floor = current[index];
        var lowest = Lowest(floor);
        var place = floor.Skyline[lowest];
        var left = lowest == 0 ? length - place.Along : floor.Skyline[lowest - 1].Along - place.Along;
        var right = lowest == floor.Segments - 1 ? length - place.Along : floor.Skyline[lowest + 1].Along - place.Along;
        var from = count;
        work -= stances.Length;
        // The unit that needs most length must still find it at the lowest place; the next one when that is set now.
        var (longestKind, longest, nextLongest) = (-1, 0L, 0L);
        var narrowest = long.MaxValue;
        for (var kind = 0; kind < shortestOf.Length; kind++)
        {
            if (floor.Remaining[kind] == 0)
                continue;
            narrowest = Math.Min(narrowest, narrowestOf[kind]);
            if (shortestOf[kind] > longest)
                (longestKind, longest, nextLongest) = (kind, shortestOf[kind], longest);
            else
                nextLongest = Math.Max(nextLongest, shortestOf[kind]);
        }

        var secondLowest = long.MaxValue;
        for (var s = 0; s < floor.Segments; s++)
        {
            if (s != lowest)
                secondLowest = Math.Min(secondLowest, floor.Skyline[s].Along);
        }

        for (var s = 0; s < stances.Length; s++)
        {
            var stance = stances[s];
            if (floor.Remaining[stance.Kind] == 0 || stance.Across > place.Width || place.Along + stance.Along > length)
                continue;
            var gap = place.Width - stance.Across;
            var fitsLeft = stance.Along == left;
            var fitsRight = stance.Along == right;
            bool atFarSide;
            double waste = 0;
            int fits;
            if (gap == 0)
            {
                atFarSide = false;
                fits = 2 + (fitsLeft ? 1 : 0) + (fitsRight ? 1 : 0);
            }
            else
            {
                atFarSide = !fitsLeft && (fitsRight || right > left);
                fits = fitsLeft || fitsRight ? 1 : 0;
                // Beside the unit, nothing fits in what is narrower than the narrowest unit left.
                if (gap < narrowest)
                    waste = (double)gap * Math.Min(stance.Along, atFarSide ? left : right);
            }

            var total = floor.Waste + waste;
            if (total > budget)
                continue;
            var low = gap >= narrowest ? place.Along : Math.Min(secondLowest, place.Along + stance.Along);
            if (low + (stance.Kind == longestKind && floor.Remaining[longestKind] == 1 ? nextLongest : longest) > length)
                continue;
            var area = (double)stance.Across * stance.Along;
            var segments = floor.Segments + 1 - fits;
            Offer(new Candidate(Cost(total, floor.Filled + area, segments), index, (short)s, atFarSide), from, perFloor);
        }

        // The place may also be given up, which raises it to its lower neighbour.
        var raise = Math.Min(left, right);
        var given = floor.Waste + (double)raise * place.Width;
        if (given <= budget && floor.Segments > 1 && Math.Min(secondLowest, place.Along + raise) + longest <= length)
            Offer(new Candidate(Cost(given, floor.Filled, floor.Segments - (left == right ? 2 : 1)), index, -1, false), from, perFloor);
    }

    /// <summary>Keeps the cheapest few candidates of one floor, which start at <paramref name="from"/>, in order.</summary>
    private void Offer(Candidate candidate, int from, int perFloor)
    {
        if (count - from == perFloor)
        {
            if (candidates[count - 1].Cost <= candidate.Cost)
                return;
            count--;
        }

        var at = count++;
        while (at > from && candidates[at - 1].Cost > candidate.Cost)
        {
            candidates[at] = candidates[at - 1];
            at--;
        }

        candidates[at] = candidate;
    }

    private double Cost(double waste, double filled, int segments) =>
        (waste + 0.02 * segments * meanArea) / (filled + meanArea);

    private void Apply(Floor floor, Candidate candidate)
    {
        var lowest = Lowest(floor);
        ref var place = ref floor.Skyline[lowest];
        if (candidate.Stance < 0)
        {
            var left = lowest == 0 ? long.MaxValue : floor.Skyline[lowest - 1].Along;
            var right = lowest == floor.Segments - 1 ? long.MaxValue : floor.Skyline[lowest + 1].Along;
            floor.Waste += (double)(Math.Min(left, right) - place.Along) * place.Width;
            place.Along = Math.Min(left, right);
        }
        else
        {
            var stance = stances[candidate.Stance];
            var gap = place.Width - stance.Across;
            var at = place.Across + (candidate.AtFarSide ? gap : 0);
            floor.Last = new Link(floor.Last, new Standing(stance, place.Along, at));
            floor.Remaining[stance.Kind]--;
            floor.RemainingHash = unchecked(floor.RemainingHash + kindHash[stance.Kind]);
            floor.Left--;
            floor.Filled += (double)stance.Across * stance.Along;
            if (gap == 0)
            {
                place.Along += stance.Along;
            }
            else
            {
                // Room for one segment more.
                var after = candidate.AtFarSide ? lowest + 1 : lowest;
                var (across, along) = (place.Across, place.Along);
                Array.Copy(floor.Skyline, lowest, floor.Skyline, lowest + 1, floor.Segments - lowest);
                floor.Segments++;
                floor.Skyline[after] = new Segment { Across = at, Width = stance.Across, Along = along + stance.Along };
                floor.Skyline[candidate.AtFarSide ? lowest : lowest + 1] = new Segment { Across = candidate.AtFarSide ? across : across + stance.Across, Width = gap, Along = along };
                lowest = after;
            }
        }

        Merge(floor, lowest);
        CloseNarrow(floor);
    }

    /// <summary>Joins a segment with neighbours that are as far along.</summary>
    private static void Merge(Floor floor, int segment)
    {
        if (segment + 1 < floor.Segments && floor.Skyline[segment + 1].Along == floor.Skyline[segment].Along)
            Join(floor, segment);
        if (segment > 0 && floor.Skyline[segment - 1].Along == floor.Skyline[segment].Along)
            Join(floor, segment - 1);
    }

    private static void Join(Floor floor, int segment)
    {
        floor.Skyline[segment].Width += floor.Skyline[segment + 1].Width;
        floor.Segments--;
        Array.Copy(floor.Skyline, segment + 2, floor.Skyline, segment + 1, floor.Segments - segment - 1);
    }

    /// <summary>While the lowest place is too narrow for any unit left, raises it.</summary>
    private void CloseNarrow(Floor floor)
    {
        var narrowest = long.MaxValue;
        for (var kind = 0; kind < narrowestOf.Length; kind++)
        {
            if (floor.Remaining[kind] > 0)
                narrowest = Math.Min(narrowest, narrowestOf[kind]);
        }

        while (floor.Segments > 1)
        {
            var lowest = Lowest(floor);
            ref var place = ref floor.Skyline[lowest];
            if (place.Width >= narrowest)
                return;
            var left = lowest == 0 ? long.MaxValue : floor.Skyline[lowest - 1].Along;
            var right = lowest == floor.Segments - 1 ? long.MaxValue : floor.Skyline[lowest + 1].Along;
            floor.Waste += (double)(Math.Min(left, right) - place.Along) * place.Width;
            place.Along = Math.Min(left, right);
            Merge(floor, lowest);
        }
    }

    private static ulong HashOf(Floor floor)
    {
        var hash = floor.RemainingHash;
        for (var s = 0; s < floor.Segments; s++)
        {
            unchecked
            {
                hash = (hash ^ (ulong)floor.Skyline[s].Across) * 0xFF51AFD7ED558CCD;
                hash ^= hash >> 32;
                hash = (hash ^ (ulong)floor.Skyline[s].Along) * 0xC4CEB9FE1A85EC53;
                hash ^= hash >> 29;
            }
        }

        return hash;
    }

    private static ulong Scramble(ref ulong state)
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }

    private static List<Standing> Standings(Floor floor)
    {
        var standings = new List<Standing>();
        for (var link = floor.Last; link is not null; link = link.Before)
            standings.Add(link.Standing);
        return standings;
    }
}
