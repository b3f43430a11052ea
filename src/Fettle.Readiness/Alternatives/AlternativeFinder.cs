using Fettle.Engineering.Patterns;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Alternatives;

/// <summary>
/// Finds other ways to build a line. Every combination of the changes that its findings call for is built and put through
/// the whole check again; those that would still be held, or that are wrong in a way the original is not, are dropped; the
/// rest are ranked by cost and thinned to those that are not beaten in everything by a cheaper one. Pure: the same line
/// gives the same answer.
/// </summary>
public static class AlternativeFinder
{
    /// <summary>How many are offered at most: more is no help to someone in a hurry.</summary>
    public const int Offered = 5;

    /// <summary>A line is spread over at most this many times its platforms.</summary>
    private const int MostTimesPlatforms = 4;

    public static AlternativeSearch Find(HandlingUnit unit, UnitResult original, Lane lane, RuleSet rules, UnitCosts costs)
    {
        if (original.Findings.Count == 0)
            return new([], null);
        if (original.Findings.FirstOrDefault(f => FindingCodes.IsContradiction(f.Code)) is { } contradiction)
            return new([], Phrase.Of($"The figures contradict each other ({contradiction.Code}). Put them right first: what is built on a wrong figure would be wrong too."));

        var before = Wrongs(original.Findings);
        var found = new List<Alternative>();
        var stillHeld = new List<UnitResult>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var build in Builds(unit, original, rules))
        {
            var lines = build.Apply(unit, ToMend(original.Findings, build.Mending), rules);
            if (lines.Count == 0)
                continue;
            UnitResult[] results = [.. lines.Select(line => ReadinessCheck.Run(line, lane, rules))];
            if (results.Any(result => result.Verdict == Verdict.Hold))
            {
                stillHeld.AddRange(results.Where(result => result.Verdict == Verdict.Hold));
                continue;
            }

            var after = Wrongs(results.SelectMany(result => result.Findings));
            if (!IsLess(after, before))
                continue;
            // Two builds can come to the same lines; the first, with fewer changes, names it.
            if (!seen.Add(System.Text.Json.JsonSerializer.Serialize(lines)))
                continue;
            found.Add(new(
                build.Key,
                Words(build, unit, lines),
                [.. original.Findings.Select(f => f.Code).Distinct().Where(code => !after.ContainsKey(code))],
                Cost(unit, original, lines, results, costs),
                lines,
                results));
        }

        if (found.Count == 0)
            return new([], Blocked(original, stillHeld));
        return new(Thinned(found), null);
    }

    /// <summary>The builds worth trying for these findings: every combination of the changes that one of them calls for.</summary>
    private static IEnumerable<Build> Builds(HandlingUnit unit, UnitResult original, RuleSet rules)
    {
        var codes = original.Findings.Select(f => f.Code).ToHashSet(StringComparer.Ordinal);
        bool Has(params ReadOnlySpan<string> any)
        {
            foreach (var code in any)
            {
                if (codes.Contains(code))
                    return true;
            }

            return false;
        }

        if (Has(FindingCodes.FewLightCartons))
            yield return Build.AsDeclared with { Loose = true };

        var cartons = unit.Contents as CartonContents;
        var restackable = cartons is not null && unit.Platform is not null;
        List<int?> layers = [null];
        if (restackable && Has(FindingCodes.Overhang))
            layers.AddRange(LayersOnDeck(unit, cartons!).Select(n => (int?)n));
        List<int?> platforms = [null];
        if (restackable && Has(FindingCodes.Overhang, FindingCodes.GrossWeight, FindingCodes.Height, FindingCodes.DoubleStackHeight, FindingCodes.Tipping, FindingCodes.SelfCrush, FindingCodes.TopLoad, FindingCodes.TopSurface))
        {
            for (var n = unit.Quantity + 1; n <= unit.Quantity * MostTimesPlatforms && platforms.Count <= 8; n += Math.Max(1, unit.Quantity / 4))
                platforms.Add(n);
        }

        List<StackKind?> stacks = [null];
        if (restackable && cartons!.Stack == StackKind.Interlocked && Has(FindingCodes.SelfCrush, FindingCodes.TopLoad))
            stacks.Add(StackKind.Column);
        List<bool?> stackables = [null];
        if (unit.Stackable && Has(FindingCodes.TopLoad, FindingCodes.TopSurface, FindingCodes.DoubleStackHeight))
            stackables.Add(false);
        if (!unit.Stackable && Has(FindingCodes.StackableUnclaimed))
            stackables.Add(true);
        // Mending adds cheap things; what is heaviest wrong decides how far it has to go at least.
        Mending[] mendings = ToMend(original.Findings, Mending.Tips).Count == 0
            ? [Mending.Keep]
            : original.Verdict == Verdict.Hold
                ? [Mending.Stops, Mending.Cautions, Mending.Tips]
                : [Mending.Keep, Mending.Cautions, Mending.Tips];

        foreach (var mending in mendings)
        {
            foreach (var stackable in stackables)
            {
                foreach (var stack in stacks)
                {
                    foreach (var layer in layers)
                    {
                        foreach (var platform in platforms)
                        {
                            var build = new Build(layer, platform, stack, stackable, mending, false);
                            if (build != Build.AsDeclared)
                                yield return build;
                        }
                    }
                }
            }
        }
    }

    /// <summary>
    /// Counts for a layer that stays on the deck: the most that fit, and the nearest lower count that shares the cartons
    /// out in whole layers, so that the top is full.
    /// </summary>
    private static IEnumerable<int> LayersOnDeck(HandlingUnit unit, CartonContents cartons)
    {
        var deck = unit.Platform!;
        var most = Math.Min(cartons.PerLayer, PatternFinder.Best(deck.Length, deck.Width, cartons.Carton.Length, cartons.Carton.Width).Count);
        if (most == 0)
            yield break;
        yield return most;
        for (var n = most - 1; n > most / 2; n--)
        {
            if (cartons.Count * unit.Quantity % n != 0)
                continue;
            yield return n;
            yield break;
        }
    }

    private static HashSet<string> ToMend(IReadOnlyList<Finding> findings, Mending mending)
    {
        Severity? least = mending switch
        {
            Mending.Keep => null,
            Mending.Stops => Severity.Stop,
            Mending.Cautions => Severity.Caution,
            Mending.Tips => Severity.Tip,
        };
        return [.. findings
            .Where(f => f.Severity >= least)
            .Where(f => f.Code is FindingCodes.WrapTurns or FindingCodes.WrapAnchor or FindingCodes.CornerBoards or FindingCodes.Clearance or FindingCodes.Sleeve)
            .Select(f => f.Code)];
    }

    /// <summary>The worst severity of each code.</summary>
    private static Dictionary<string, Severity> Wrongs(IEnumerable<Finding> findings)
    {
        var wrongs = new Dictionary<string, Severity>(StringComparer.Ordinal);
        foreach (var finding in findings)
        {
            if (!wrongs.TryGetValue(finding.Code, out var worst) || finding.Severity > worst)
                wrongs[finding.Code] = finding.Severity;
        }

        return wrongs;
    }

    /// <summary>Nothing graver than before, no stop or caution that was not there, and something gone.</summary>
    private static bool IsLess(Dictionary<string, Severity> after, Dictionary<string, Severity> before) =>
        after.All(wrong => before.TryGetValue(wrong.Key, out var had) ? wrong.Value <= had : wrong.Value == Severity.Tip)
        && before.Any(wrong => !after.TryGetValue(wrong.Key, out var left) || left < wrong.Value)
        && Score(after) < Score(before);

    private static int Score(Dictionary<string, Severity> wrongs) =>
        wrongs.Values.Sum(severity => severity switch { Severity.Stop => 100, Severity.Caution => 10, Severity.Tip => 1 });

    /// <summary>Cheapest first, without those that a cheaper one equals or betters in what is left wrong.</summary>
    private static Alternative[] Thinned(List<Alternative> found)
    {
        var kept = new List<(Alternative Alternative, Dictionary<string, Severity> Wrongs)>();
        foreach (var alternative in found.OrderBy(a => a.Cost.Total).ThenBy(a => a.HandlingUnits.Count).ThenBy(a => a.Key, StringComparer.Ordinal))
        {
            var wrongs = Wrongs(alternative.Results.SelectMany(r => r.Findings));
            var beaten = kept.Any(better => (!better.Alternative.Cost.LosesStackable || alternative.Cost.LosesStackable)
                && better.Wrongs.All(w => wrongs.TryGetValue(w.Key, out var mine) && mine >= w.Value));
            if (!beaten)
                kept.Add((alternative, wrongs));
        }

        return [.. kept.Take(Offered).Select(k => k.Alternative)];
    }

    private static AlternativeCost Cost(HandlingUnit unit, UnitResult original, IReadOnlyList<HandlingUnit> lines, UnitResult[] results, UnitCosts costs)
    {
        static int Platforms(HandlingUnit line) => line.Platform is null ? 0 : line.Quantity;
        static int Floor(HandlingUnit line, UnitResult result) => line.Kind == HandlingUnitKind.LooseCarton
            ? 0
            : line.Stackable && result.Measures.CarriesLikeUnit ? (line.Quantity + 1) / 2 : line.Quantity;

        var platforms = lines.Sum(Platforms) - Platforms(unit);
        var floor = lines.Zip(results).Sum(pair => Floor(pair.First, pair.Second)) - Floor(unit, original);
        decimal material = platforms * costs.Platform;
        double minutes = 0;
        foreach (var line in lines)
        {
            // Material is counted against what the declared units already carried.
            var had = unit.Protection;
            var now = line.Protection;
            if (line.Kind == HandlingUnitKind.LooseCarton)
            {
                minutes += costs.MinutesPerCarton * line.Quantity;
                continue;
            }

            var turns = Math.Max(0, now.WrapTurns - had.WrapTurns) + (now.WrapOverPlatform && !had.WrapOverPlatform ? 1 : 0);
            var boards = now.CornerBoards == CornerBoards.ToPlatform && had.CornerBoards != CornerBoards.ToPlatform;
            var sleeve = now.Sleeve && !had.Sleeve;
            material += line.Quantity * ((turns * costs.FilmTurn) + (boards ? costs.CornerBoards : 0) + (sleeve ? costs.Sleeve : 0));
            minutes += line.Quantity * costs.MinutesPerProtection * ((turns > 0 ? 1 : 0) + (boards ? 1 : 0) + (sleeve ? 1 : 0));
        }

        if (unit.Contents is CartonContents before)
            minutes += costs.MinutesPerCarton * CartonsMoved(unit, before, lines);
        var loses = unit.Stackable && lines.Any(line => !line.Stackable && line.Kind == HandlingUnitKind.Pallet);
        minutes = Math.Round(minutes, 1);
        return new(platforms, floor, material, minutes, loses, material + (floor * costs.FloorPosition) + ((decimal)minutes * costs.Minute));
    }

    /// <summary>A changed layer or stack is built again from the deck up; moved layers are lifted once.</summary>
    private static int CartonsMoved(HandlingUnit unit, CartonContents before, IReadOnlyList<HandlingUnit> lines)
    {
        var all = before.Count * unit.Quantity;
        if (lines.Any(line => line.Contents is CartonContents now && (now.PerLayer != before.PerLayer || now.Stack != before.Stack)))
            return all;
        var stays = lines.Where(line => line.Kind == unit.Kind).Select(line => line.Contents).OfType<CartonContents>();
        var kept = lines.Count == 1 && lines[0].Quantity == unit.Quantity
            ? all
            : stays.Take(1).Sum(line => Math.Min(line.Count, before.Count)) * unit.Quantity;
        return Math.Max(0, all - kept);
    }

    private static Phrase Words(Build build, HandlingUnit unit, IReadOnlyList<HandlingUnit> lines)
    {
        var parts = new List<Phrase>();
        if (build.Loose)
            parts.Add(Phrase.Of($"Ship the {lines[0].Quantity} cartons loose, without a pallet"));
        if (build.PerLayer is { } perLayer)
            parts.Add(Phrase.Of($"Stack {perLayer} cartons a layer, all on the deck"));
        if (build.PerLayer is not null || build.Platforms is not null)
        {
            var pallets = lines.Sum(line => line.Quantity);
            if (pallets != unit.Quantity)
                parts.Add(Phrase.Of($"Spread the load over {pallets} pallets instead of {unit.Quantity} ({Layers(lines)})"));
            else
                parts.Add(Phrase.Of($"Keep {pallets} pallets ({Layers(lines)})"));
        }

        if (build.Stack == StackKind.Column)
            parts.Add(Phrase.Of($"Stack straight columns instead of interlocked layers"));
        var had = unit.Protection;
        var now = lines[0].Protection;
        if (!build.Loose)
        {
            if (now.WrapTurns > had.WrapTurns)
                parts.Add(now.WrapOverPlatform && !had.WrapOverPlatform
                    ? Phrase.Of($"Wrap {now.WrapTurns} full turns, down over the pallet")
                    : Phrase.Of($"Wrap {now.WrapTurns} full turns"));
            else if (now.WrapOverPlatform && !had.WrapOverPlatform)
                parts.Add(Phrase.Of($"Bring the film down over the pallet"));
            if (now.CornerBoards != had.CornerBoards)
                parts.Add(Phrase.Of($"Put corner boards down to the pallet"));
            if (now.Sleeve && !had.Sleeve)
                parts.Add(Phrase.Of($"Put a corrugated sleeve round the load"));
        }

        if (build.Stackable == true)
            parts.Add(Phrase.Of($"Declare it stackable"));
        else if (unit.Stackable && !build.Loose && lines.All(line => !line.Stackable))
            parts.Add(Phrase.Of($"Declare it not stackable"));
        else if (unit.Stackable && !build.Loose && lines.Any(line => !line.Stackable))
            parts.Add(Phrase.Of($"Nothing on top of the one with an unfinished layer"));
        return Phrase.Join("; ", parts);
    }

    private static Phrase Layers(IReadOnlyList<HandlingUnit> lines) => Phrase.Join(" + ", [.. lines.Select(line => line.Contents is CartonContents c
        ? c.TopLayer > 0
            ? Phrase.Of($"{line.Quantity} × {c.Layers} layers and {c.TopLayer} cartons on top")
            : Phrase.Of($"{line.Quantity} × {c.Layers} layers")
        : Phrase.Of($"{line.Quantity}"))]);

    private static Phrase Blocked(UnitResult original, List<UnitResult> stillHeld)
    {
        var codes = (stillHeld.Count > 0 ? stillHeld.SelectMany(r => r.Findings) : original.Findings)
            .Where(f => f.Severity == Severity.Stop)
            .GroupBy(f => f.Code)
            .OrderByDescending(g => g.Count())
            .Select(g => g.Key)
            .ToArray();
        return codes.Length == 0
            ? Phrase.Of($"No change that was tried makes this unit better.")
            : Phrase.Of($"No change that was tried clears it; what blocks is {string.Join(", ", codes)}.");
    }
}
