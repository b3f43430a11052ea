using Fettle.Engineering.Units;

namespace Fettle.Engineering.TrailerFloor;

/// <summary>
/// The length that units take at least, however they are stacked. Some must stand on the floor: those that nothing may carry.
/// Of those that have a carrier, one of more than half its footprint has it to itself; so at most as many of them leave the
/// floor as there are pairs in a maximum matching. Which ones stay is not known, so the smallest footprint stands for each.
/// With a second floor, one of the two holds at least half of what stands.
/// </summary>
internal static class LoadBound
{
    /// <param name="units">One by one.</param>
    /// <param name="trailer">The trailer.</param>
    /// <param name="decking">The beams, if there may be a second floor.</param>
    /// <param name="used">By the plan that is to be judged: what cannot show it to be shortest is not worth much work.</param>
    public static Length Of(IReadOnlyList<LoadUnits> units, Trailer trailer, Decking? decking, Length used)
    {
        if (units.Count == 0)
            return Length.Zero;
        var single = Singles(units, trailer.Height);
        int[] fixedOnes = [.. single.Where(s => s.Carriers.Count == 0).Select(s => s.Unit)];
        var standing = single.Count - PairsOf(single, units.Count);
        if (decking is null)
            return Length.Max(Taken(units, fixedOnes, standing - fixedOnes.Length, [.. single.Select(s => s.Unit).Except(fixedOnes)], trailer, used), Longest(units, trailer));

        var lowest = units.Min(u => u.Height);
        int[] onFloor = [.. fixedOnes.Where(i => IsTall(i) || units[i].Weight > decking.MostFor(units[i].Length, units[i].Width, trailer.Width))];
        // Nothing fits above or below these: they take their place of both floors.
        int[] tall = [.. fixedOnes.Where(IsTall)];
        var half = (standing - tall.Length + 1) / 2;
        return Length.Max(
            Length.Max(Taken(units, onFloor, 0, [], trailer, used), Longest(units, trailer)),
            Taken(units, tall, half, [.. single.Select(s => s.Unit).Except(tall)], trailer, used));

        bool IsTall(int unit) => units[unit].Height + decking.Lost + lowest > trailer.Height;
    }

    /// <summary>Units that share their carrier with none of their like, and what may carry them.</summary>
    private static List<(int Unit, List<int> Carriers)> Singles(IReadOnlyList<LoadUnits> units, Length highest)
    {
        var singles = new List<(int, List<int>)>();
        for (var i = 0; i < units.Count; i++)
        {
            var unit = units[i];
            var carriers = Enumerable.Range(0, units.Count).Where(j => j != i && unit.ForStack.MayStandOn(units[j].ForStack, highest)).ToList();
            if (carriers.All(j => unit.Area > units[j].Area / 2 + 1e-9))
                singles.Add((i, carriers));
        }

        return singles;
    }

    private static int PairsOf(List<(int Unit, List<int> Carriers)> singles, int count)
    {
        var pairs = Enumerable.Range(0, count).Select(_ => new HashSet<int>()).ToArray();
        foreach (var (unit, carriers) in singles)
        {
            foreach (var carrier in carriers)
            {
                pairs[unit].Add(carrier);
                pairs[carrier].Add(unit);
            }
        }

        return Matching.Maximum([.. pairs.Select(p => p.ToList())]).Count(partner => partner >= 0) / 2;
    }

    /// <summary>What some units take with a number of others, of which only the least sides and areas are known.</summary>
    private static Length Taken(IReadOnlyList<LoadUnits> units, int[] certain, int more, int[] others, Trailer trailer, Length used)
    {
        var floor = certain.GroupBy(i => (units[i].Length, units[i].Width, units[i].MayTurn))
            .Select(g => new FloorUnits(g.Key.Length, g.Key.Width, g.Count(), g.Key.MayTurn)).ToList();
        if (more > 0)
        {
            var mayTurn = others.Any(i => units[i].MayTurn);
            var (length, width) = mayTurn
                ? (others.Min(i => Length.Max(units[i].Length, units[i].Width)), others.Min(i => Length.Min(units[i].Length, units[i].Width)))
                : (others.Min(i => units[i].Length), others.Min(i => units[i].Width));
            floor.Add(new(length, width, more, mayTurn));
        }

        if (floor.Count == 0)
            return Length.Zero;
        var area = certain.Sum(i => units[i].Area) + others.Select(i => units[i].Area).Order().Take(more).Sum();
        // A hair less, so that rounding never makes the bound too long.
        var byArea = Length.FromMetres(area / trailer.Width.Metres * (1 - 1e-9));
        var sketch = FloorPlanner.Shortest(floor, trailer.Width, FloorEffort.Sketch);
        var plan = sketch is { IsOptimal: false } && sketch.LengthUsed >= used ? FloorPlanner.Shortest(floor, trailer.Width, FloorUnits.EffortFor(floor, trailer.Width)) : sketch;
        return Length.Max(byArea, plan?.LowerBound ?? Length.Zero);
    }

    /// <summary>Whatever stands on what: the longest of the units' least lengths.</summary>
    private static Length Longest(IReadOnlyList<LoadUnits> units, Trailer trailer) => units.Select(u =>
        u.MayTurn && u.Length <= trailer.Width ? Length.Min(u.Length, u.Width) : u.Length).Max();
}
