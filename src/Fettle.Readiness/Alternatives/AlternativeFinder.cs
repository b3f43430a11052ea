using System.Collections.Frozen;
using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Alternatives;

/// <summary>
/// Finds other ways to build a line. Every combination of the changes that its findings call for is built and put through
/// the whole check again; those that would still be held, or that are wrong in a way the original is not, are dropped; the
/// rest are ranked by cost and thinned to those that no cheaper one with the same kinds of change equals. Pure: the same
/// line gives the same answer. See docs/decisions/0007-alternatives.md.
/// </summary>
public static class AlternativeFinder
{
    /// <summary>How many are offered at most: more is no help to someone in a hurry.</summary>
    public const int Offered = 5;

    /// <summary>A line is spread over at most this many times its platforms.</summary>
    private const int MostTimesPlatforms = 4;

    /// <summary>Findings that fewer layers on a platform may cure.</summary>
    private static readonly FrozenSet<string> CuredByFewerLayers =
    [
        FindingCodes.Overhang, FindingCodes.GrossWeight, FindingCodes.Height, FindingCodes.DoubleStackHeight, FindingCodes.Tipping, FindingCodes.SelfCrush,
        FindingCodes.TopLoad, FindingCodes.TopSurface,
    ];

    /// <summary>Findings that another number of cartons in a layer may cure.</summary>
    private static readonly FrozenSet<string> CuredByAnotherLayer =
    [
        FindingCodes.Overhang, FindingCodes.Height, FindingCodes.DoubleStackHeight, FindingCodes.Tipping, FindingCodes.SelfCrush, FindingCodes.TopLoad, FindingCodes.TopSurface,
    ];

    /// <param name="taken">Names of the pickup's lines, which new lines may not have; none by default.</param>
    public static AlternativeSearch Find(
        HandlingUnit unit, UnitResult original, Lane lane, RuleSet rules, UnitCosts costs, IReadOnlySet<string>? taken = null)
    {
        if (original.Findings.Count == 0)
            return new([], null);
        if (original.Findings.FirstOrDefault(f => FindingCodes.IsContradiction(f.Code)) is { } contradiction)
            return new([], Phrase.Of($"The figures contradict each other: {Phrase.Word(FindingCodes.Words(contradiction.Code))}. Put them right first; what is built on a wrong figure would be wrong too."));

        var search = new Search(unit, original, lane, rules, taken ?? FrozenSet<string>.Empty);
        search.Run();
        return search.Found.Count == 0
            ? new([], search.Blocked())
            : new(Ranked(search.Found, unit, original, costs), null);
    }

    /// <summary>Cheapest first, without those that a cheaper one makes pointless.</summary>
    private static Alternative[] Ranked(List<Candidate> found, HandlingUnit unit, UnitResult original, UnitCosts costs)
    {
        var ranked = found
            // Two builds can come to the same lines; the one with the fewest changes names them.
            .OrderBy(candidate => candidate.Build.Changes)
            .ThenBy(candidate => candidate.Build.Key, StringComparer.Ordinal)
            .DistinctBy(candidate => candidate.Lines, SameLines.Comparer)
            .Select(candidate => (Candidate: candidate, Kinds: Change.Of(candidate, unit), Cost: Cost.Of(candidate, unit, original, costs)))
            .OrderBy(option => option.Cost.Total)
            .ThenBy(option => option.Candidate.Wrongs.Score)
            .ThenBy(option => option.Candidate.Lines.Count)
            .ThenBy(option => option.Candidate.Build.Key, StringComparer.Ordinal);

        var kept = new List<(Candidate Candidate, Changes Kinds, AlternativeCost Cost)>();
        foreach (var option in ranked)
        {
            if (!kept.Exists(cheaper => Beats(cheaper.Candidate, cheaper.Kinds, option.Candidate, option.Kinds)))
                kept.Add(option);
        }

        if (kept.Count > Offered)
        {
            // The one that leaves least wrong stays, however dear.
            var best = kept.MinBy(option => option.Candidate.Wrongs.Score);
            kept = [.. kept.Where(option => option != best).Take(Offered - 1).Append(best).OrderBy(option => option.Cost.Total)];
        }

        return
        [
            .. kept.Select(option => new Alternative(
                option.Candidate.Build.Key,
                Change.InWords(option.Candidate, unit),
                [.. original.Findings.Select(f => f.Code).Distinct().Where(code => !option.Candidate.Wrongs.Has(code))],
                option.Cost,
                option.Candidate.Lines,
                option.Candidate.Results)),
        ];
    }

    /// <summary>
    /// Whether a cheaper build makes another pointless: it leaves no more wrong and asks for nothing that the other does not
    /// ask for too; or it leaves less wrong, whatever the work, and does not change what is promised about the freight.
    /// </summary>
    private static bool Beats(Candidate cheaper, Changes its, Candidate other, Changes others)
    {
        var more = its & ~others;
        return more == Changes.None
            ? cheaper.Wrongs.Score <= other.Wrongs.Score
            : (more & Changes.Promises) == Changes.None && cheaper.Wrongs.Score < other.Wrongs.Score;
    }

    private sealed class Search(HandlingUnit unit, UnitResult original, Lane lane, RuleSet rules, IReadOnlySet<string> taken)
    {
        private readonly Wrongs before = Wrongs.Of([original]);
        private readonly CartonContents? cartons = (unit.Contents as CartonContents)?.Settled;

        /// <summary>Of the builds that did not do, the one that came nearest.</summary>
        private Candidate? nearest;

        public List<Candidate> Found { get; } = [];

        public void Run()
        {
            if (before.Has(FindingCodes.FewLightCartons))
                Try(Build.AsDeclared with { Loose = true });
            foreach (var perLayer in PerLayers())
            {
                foreach (var stack in Stacks())
                {
                    foreach (var platforms in Platforms(perLayer ?? cartons?.PerLayer ?? 1))
                    {
                        // More platforms than are enough only cost more.
                        if (Protect(new Build(perLayer, platforms, stack, null, Mending.Keep, false)))
                            break;
                    }
                }
            }
        }

        /// <summary>Why nothing is offered: what is wrong with the build that came nearest, or with the unit itself.</summary>
        public Phrase Blocked()
        {
            var wrong = nearest is null || before.Score < nearest.Wrongs.Score ? null : nearest;
            string[] codes = wrong is null
                ? [.. original.Findings.Where(f => f.Severity == Severity.Stop).Select(f => f.Code).Distinct()]
                : [.. wrong.Results.SelectMany(r => r.Findings).Where(f => f.Severity == Severity.Stop).Select(f => f.Code).Concat(wrong.Wrongs.Added(before)).Distinct()];
            return codes.Length == 0
                ? Phrase.Of($"No change that was tried makes this unit better; see what each finding advises.")
                : Phrase.Of($"No change that was tried clears it; what blocks is {Phrase.Join(", ", [.. codes.Select(code => Phrase.Word(FindingCodes.Words(code)))])}.");
        }

        /// <summary>
        /// Tries a build with what may be declared about its top and with protection mended as far as each gravity asks.
        /// True when it is ready without another promise about the top.
        /// </summary>
        private bool Protect(Build build)
        {
            var ready = false;
            foreach (var stackable in Stackables())
            {
                var declared = build with { Stackable = stackable };
                var lines = declared.Lines(unit, taken);
                if (lines.Count == 0)
                    continue;
                var bare = Judge(declared, lines);
                // Film, boards and sleeve cure what they are about and nothing else.
                if (bare.Results.Any(result => result.Findings.Any(f => f.Severity == Severity.Stop && !Build.IsMendable(f.Code))))
                {
                    Note(bare);
                    continue;
                }

                Add(bare);
                var last = bare;
                var mended = 0;
                foreach (var (mending, least) in (ReadOnlySpan<(Mending, Severity)>)[(Mending.Stops, Severity.Stop), (Mending.Cautions, Severity.Caution), (Mending.Tips, Severity.Tip)])
                {
                    var codes = Mendable(bare, least);
                    // Each gravity includes the graver ones: as many are the same ones.
                    if (codes.Count == mended)
                        continue;
                    mended = codes.Count;
                    last = Judge(
                        declared with { Mending = mending },
                        [.. lines.Select(line => line with { Protection = Build.Mended(line.Protection, codes, rules) })]);
                    Add(last);
                }

                ready |= stackable is null && last.IsReady;
            }

            return ready;
        }

        private void Try(Build build)
        {
            var lines = build.Lines(unit, taken);
            if (lines.Count > 0)
                Add(Judge(build, lines));
        }

        private void Add(Candidate candidate)
        {
            if (candidate.Build == Build.AsDeclared)
                return;
            if (!candidate.IsHeld && candidate.Wrongs.IsLessThan(before))
                Found.Add(candidate);
            else
                Note(candidate);
        }

        private void Note(Candidate candidate)
        {
            if (nearest is null || candidate.Wrongs.Score < nearest.Wrongs.Score)
                nearest = candidate;
        }

        private Candidate Judge(Build build, IReadOnlyList<HandlingUnit> lines)
        {
            UnitResult[] results = [.. lines.Select(line => ReadinessCheck.Run(line, lane, rules))];
            return new(build, lines, results, Wrongs.Of(results));
        }

        /// <summary>What film, boards and sleeve would cure, down to a gravity.</summary>
        private static HashSet<string> Mendable(Candidate bare, Severity least) => bare.Results
            .SelectMany(result => result.Findings)
            .Where(finding => finding.Severity >= least && Build.IsMendable(finding.Code))
            .Select(finding => finding.Code)
            .ToHashSet(StringComparer.Ordinal);

        /// <summary>
        /// Cartons in a layer to try: as declared; the most that fit on the deck; and the next lower number that shares
        /// the cartons out in whole layers, so that the top is full.
        /// </summary>
        private List<int?> PerLayers()
        {
            List<int?> counts = [null];
            if (cartons is null || unit.Platform is not { } deck || !original.Findings.Any(f => CuredByAnotherLayer.Contains(f.Code)))
                return counts;
            var all = cartons.Count * unit.Quantity;
            var most = Math.Min(cartons.Count, PatternFinder.Best(deck.Length, deck.Width, cartons.Carton.Length, cartons.Carton.Width).Count);
            if (most == 0)
                return counts;
            counts.Add(most);
            // The declared number, when it fits on the deck in another pattern.
            if (cartons.PerLayer < most && before.Has(FindingCodes.Overhang))
                counts.Add(cartons.PerLayer);
            for (var n = most - 1; n > most / 2; n--)
            {
                if (all % n != 0)
                    continue;
                if (!counts.Contains(n))
                    counts.Add(n);
                break;
            }

            return counts;
        }

        /// <summary>Platforms to try: as many as are needed when each carries so and so many layers, fewer and fewer.</summary>
        private IEnumerable<int?> Platforms(int perLayer)
        {
            yield return null;
            if (cartons is null || unit.Platform is null || !original.Findings.Any(f => CuredByFewerLayers.Contains(f.Code)))
                yield break;
            var layers = ((cartons.Count * unit.Quantity) + perLayer - 1) / perLayer;
            var last = unit.Quantity;
            for (var high = ((layers + unit.Quantity - 1) / unit.Quantity) - 1; high > 0; high--)
            {
                var platforms = (layers + high - 1) / high;
                if (platforms > unit.Quantity * MostTimesPlatforms)
                    yield break;
                if (platforms > last)
                    yield return last = platforms;
            }
        }

        private StackKind?[] Stacks() => cartons is { Stack: StackKind.Interlocked } && unit.Platform is not null && (before.Has(FindingCodes.SelfCrush) || before.Has(FindingCodes.TopLoad))
            ? [null, StackKind.Column]
            : [null];

        private bool?[] Stackables()
        {
            if (unit.Stackable)
                return before.Has(FindingCodes.TopLoad) || before.Has(FindingCodes.TopSurface) || before.Has(FindingCodes.DoubleStackHeight) ? [null, false] : [null];
            return before.Has(FindingCodes.StackableUnclaimed) ? [null, true] : [null];
        }
    }

    private sealed class SameLines : IEqualityComparer<IReadOnlyList<HandlingUnit>>
    {
        public static readonly SameLines Comparer = new();

        public bool Equals(IReadOnlyList<HandlingUnit>? x, IReadOnlyList<HandlingUnit>? y) => ReferenceEquals(x, y) || (x is not null && y is not null && x.SequenceEqual(y));

        public int GetHashCode(IReadOnlyList<HandlingUnit> lines) => HashCode.Combine(lines.Count, lines[0]);
    }
}
