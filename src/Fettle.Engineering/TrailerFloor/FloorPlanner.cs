using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>Arranges handling units on a trailer's floor so that they take little of its length.</summary>
public static class FloorPlanner
{
    /// <summary>More units than this are refused.</summary>
    public const int MostUnits = 5_000;

    /// <summary>With more units than this no exact proof is sought.</summary>
    private const int MostForProof = 64;

    /// <summary>Ways to go on that the beam takes from any one floor.</summary>
    private const int PerFloor = 6;

    /// <summary>No trailer is this long, and five thousand such units in a line can still be added up.</summary>
    private static readonly Length longest = Length.FromMetres(1_000);

    /// <summary>Nor with more kinds: the states of a proof are too many then.</summary>
    private const int MostKindsForProof = 8;

    /// <summary>
    /// The shortest arrangement found, units turned where they may be, and a bound. Real mixes of up to some thirty units of a few
    /// kinds are as a rule proved; see docs/engineering/floor-use.md.
    /// </summary>
    /// <param name="units">Kinds of units, in any order.</param>
    /// <param name="width">The floor's width between the walls; over zero.</param>
    /// <param name="effort">How much may be spent.</param>
    /// <returns>The plan, or null when some unit is too wide for the floor in every stance it may take, or over a kilometre long.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A side that is not over zero, a negative count, or more than <see cref="MostUnits"/>.</exception>
    public static FloorPlan? Shortest(IReadOnlyList<FloorUnits> units, Length width, FloorEffort effort = FloorEffort.Quick)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(width, Length.Zero);
        foreach (var unit in units)
        {
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unit.Length, Length.Zero);
            ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(unit.Width, Length.Zero);
            ArgumentOutOfRangeException.ThrowIfNegative(unit.Count);
        }

        ArgumentOutOfRangeException.ThrowIfGreaterThan(units.Sum(u => (long)u.Count), MostUnits);
        if (units.All(u => u.Count == 0))
            return new FloorPlan([], Length.Zero, Length.Zero);
        if (units.Any(u => u.Count > 0 && !(Fits(u.Length, u.Width) || (u.MayTurn && Fits(u.Width, u.Length)))))
            return null;

        // Units entered one by one are as identical as those entered as a number.
        var kinds = units.Select((unit, index) => (Unit: unit, Index: index)).Where(u => u.Unit.Count > 0).GroupBy(u => Footprint(u.Unit)).ToList();
        var scale = kinds.SelectMany(k => (long[])[k.Key.Length.Nanometres, k.Key.Width.Nanometres]).Aggregate(GreatestCommonDivisor);
        var strip = new Strip(width.Nanometres / scale,
            [.. kinds.Select(k => (k.Key.Length.Nanometres / scale, k.Key.Width.Nanometres / scale, k.Sum(u => u.Unit.Count), k.Key.MayTurn))]);
        var (standings, used, bound) = Shortest(strip, effort);
        var indices = kinds.Select(k => new Queue<int>(k.SelectMany(u => Enumerable.Repeat(u.Index, u.Unit.Count)))).ToList();
        return new FloorPlan(
            [.. standings.OrderBy(s => s.Along).ThenBy(s => s.Across).Select(s => new FloorPosition(indices[s.Stance.Kind].Dequeue(), new Placement(
                Length.FromNanometres(s.Along * scale),
                Length.FromNanometres(s.Across * scale),
                Length.FromNanometres(s.Stance.Along * scale),
                Length.FromNanometres(s.Stance.Across * scale))))],
            Length.FromNanometres(used * scale),
            Length.FromNanometres(bound * scale));

        bool Fits(Length along, Length across) => across <= width && along <= longest;
    }

    /// <summary>What makes two units one kind.</summary>
    private static (Length Length, Length Width, bool MayTurn) Footprint(FloorUnits unit) => unit.MayTurn
        ? (Length.Max(unit.Length, unit.Width), Length.Min(unit.Length, unit.Width), true)
        : (unit.Length, unit.Width, false);

    private static (IReadOnlyList<Standing> Standings, long Used, long Bound) Shortest(Strip strip, FloorEffort effort)
    {
        var measures = WidthMeasure.All(strip);
        var bound = (long)Math.Ceiling(measures.Max(m => m.Total) * (1 - 1e-9));
        bound = Math.Max(bound, strip.Stances.GroupBy(s => s.Kind).Max(k => k.Min(s => s.Along)));
        var beam = new SkylineBeam(strip);
        var work = effort switch
        {
            FloorEffort.Sketch => 300_000L,
            FloorEffort.Quick => 16_000_000L,
            FloorEffort.Thorough => 140_000_000L,
        };
        IReadOnlyList<Standing> best = First(strip, beam);
        var used = best.Max(s => s.Along + s.Stance.Along);
        var sums = strip.AlongSums(used);
        if (sums is not null)
            bound = sums.First(s => s >= bound);
        var proof = strip.Total > MostForProof || strip.Counts.Length > MostKindsForProof ? 0 : effort switch
        {
            FloorEffort.Sketch => 0,
            FloorEffort.Quick => 2_500_000L,
            FloorEffort.Thorough => 8_000_000L,
        };
        for (var size = 1; size <= 1 << 14 && used > bound && work > 0; size *= 2)
        {
            Improve(size, ref work);
            while (used > bound && proof > 0 && size >= 16)
            {
                var (verdict, standings) = FloorProof.Fit(strip, sums, measures, used - 1, ref proof);
                if (verdict == Verdict.DoNotFit)
                    return (best, used, used);
                if (verdict == Verdict.Unknown)
                    break;
                Take(standings);
            }
        }

        return (best, used, bound);

        // Halves the gap between what is found and the bound again and again.
        void Improve(int size, ref long work)
        {
            var (low, high) = (bound, used);
            while (low < high && work > 0)
            {
                var target = low + (high - low) / 2;
                if (beam.Fit(target, size, PerFloor, ref work) is { } better)
                {
                    Take(better);
                    high = used;
                }
                else
                {
                    low = target + 1;
                }
            }
        }

        void Take(IReadOnlyList<Standing> standings) => (best, used) = (standings, standings.Max(s => s.Along + s.Stance.Along));
    }

    /// <summary>Some arrangement: one step after the other with as much length as all units in a line would take.</summary>
    private static List<Standing> First(Strip strip, SkylineBeam beam)
    {
        var inLine = new List<Standing>();
        var along = 0L;
        for (var kind = 0; kind < strip.Counts.Length; kind++)
        {
            for (var unit = 0; unit < strip.Counts[kind]; unit++)
            {
                var stance = strip.Stances.Where(s => s.Kind == kind).MinBy(s => s.Along);
                inLine.Add(new Standing(stance, along, 0));
                along += stance.Along;
            }
        }

        // However much work this one pass is, there must be a plan.
        var work = long.MaxValue;
        return beam.Fit(along, 1, PerFloor, ref work) ?? inLine;
    }

    private static long GreatestCommonDivisor(long a, long b)
    {
        while (b != 0)
            (a, b) = (b, a % b);
        return a;
    }
}
