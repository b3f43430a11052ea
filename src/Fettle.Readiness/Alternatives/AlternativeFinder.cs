using System.Collections.Frozen;
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

    /// <summary>
    /// Lines put through the check at most: far more than a line of freight calls for, and a bound for what nobody foresaw.
    /// Counted and not timed, so that the same line gives the same answer on a slow day.
    /// </summary>
    private const int MostChecks = 4000;

    /// <summary>Attempts told of when nothing works.</summary>
    private const int MostAttempts = 3;

    /// <param name="taken">Names of the pickup's lines, which new lines may not have; none by default.</param>
    public static AlternativeSearch Find(
        HandlingUnit unit, UnitResult original, Lane lane, RuleSet rules, UnitCosts costs, IReadOnlySet<string>? taken = null)
    {
        if (original.Findings.Count == 0)
            return new([], null, [], 0, false);
        if (original.Findings.FirstOrDefault(f => FindingCodes.IsContradiction(f.Code)) is { } contradiction)
        {
            return new(
                [],
                Phrase.Of($"The figures contradict each other: {FindingCodes.InWords(contradiction.Code)}. Put them right first; what is built on a wrong figure would be wrong too."),
                [],
                0,
                false);
        }

        var search = new Search(unit, original, lane, rules, costs, taken ?? FrozenSet<string>.Empty);
        search.Run();
        return search.Found.Count == 0
            ? new([], search.Blocked(), search.Attempts(), search.Builds, search.StoppedEarly)
            : new(Ranked(search.Found, unit, original, costs), null, [], search.Builds, search.StoppedEarly);
    }

    /// <summary>Cheapest first, without those that a cheaper one makes pointless.</summary>
    private static Alternative[] Ranked(List<Candidate> found, HandlingUnit unit, UnitResult original, UnitCosts costs)
    {
        var ranked = found
            // Two builds can come to the same lines; the one with the fewest changes names them.
            .OrderBy(candidate => candidate.Build.Changes)
            .ThenBy(candidate => candidate.Build.Key, StringComparer.Ordinal)
            .DistinctBy(candidate => candidate.Lines, SameLines.Comparer)
            .Select(candidate => new Option(candidate, Change.Of(candidate, unit), Cost.Of(candidate, unit, original, costs)))
            .OrderBy(option => option.Cost.Total)
            .ThenBy(option => option.Candidate.Wrongs.Score)
            .ThenBy(option => option.Candidate.Lines.Count)
            .ThenBy(option => option.Candidate.Build.Key, StringComparer.Ordinal);

        var kept = new List<Option>();
        foreach (var option in ranked)
        {
            if (!kept.Exists(cheaper => Beats(cheaper, option)))
                kept.Add(option);
        }

        var offered = Offer(kept);
        return
        [
            .. offered.Select(option => new Alternative(
                option.Candidate.Build.Key,
                Change.InWords(option.Candidate, unit),
                [.. original.Findings.Select(f => f.Code).Distinct().Where(code => !option.Candidate.Wrongs.Has(code))],
                option.Cost,
                MeritsOf(option, offered),
                option.Candidate.Lines,
                option.Candidate.Results)),
        ];
    }

    /// <summary>
    /// Of more than can be offered, those that differ: the cheapest, the one that leaves least wrong, and the cheapest of
    /// each merit; then the next cheapest.
    /// </summary>
    private static List<Option> Offer(List<Option> kept)
    {
        if (kept.Count <= Offered)
            return kept;
        Option?[] distinct =
        [
            kept[0],
            kept.MinBy(option => option.Candidate.Wrongs.Score),
            kept.Find(option => option.Cost.ExtraPlatforms <= 0),
            kept.Find(option => !option.Cost.LosesStackable),
            kept.Find(option => option.Cost.Material <= 0),
            kept.MinBy(option => option.Cost.Minutes),
        ];
        return [.. distinct.OfType<Option>().Distinct().Concat(kept).Distinct().Take(Offered).OrderBy(kept.IndexOf)];
    }

    private static Merits MeritsOf(Option option, List<Option> offered)
    {
        if (offered.Count == 1)
            return Merits.None;
        return (option == offered[0] ? Merits.Cheapest : 0)
            | Told(Merits.Fastest, o => o.Cost.Minutes == offered.Min(other => other.Cost.Minutes))
            | Told(Merits.NoMorePlatforms, o => o.Cost.ExtraPlatforms <= 0)
            | Told(Merits.NoMoreMaterial, o => o.Cost.Material <= 0)
            | Told(Merits.KeepsStackable, o => !o.Cost.LosesStackable && o.Candidate.Lines.All(line => line.Stackable))
            | Told(Merits.LeastWrong, o => o.Candidate.Wrongs.Score == offered.Min(other => other.Candidate.Wrongs.Score));

        Merits Told(Merits merit, Func<Option, bool> has) => has(option) && !offered.TrueForAll(other => has(other)) ? merit : Merits.None;
    }

    /// <summary>
    /// Whether a cheaper build makes another pointless: it leaves no more wrong and asks for nothing that the other does not
    /// ask for too; or it leaves less wrong, whatever the work, and does not change what is promised about the freight.
    /// In the second case it must not need more platforms, which a shipper may not have.
    /// </summary>
    private static bool Beats(Option cheaper, Option other)
    {
        var more = cheaper.Kinds & ~other.Kinds;
        if (more == Changes.None)
            return cheaper.Candidate.Wrongs.Score <= other.Candidate.Wrongs.Score;
        return (more & Changes.Promises) == Changes.None
            && cheaper.Candidate.Wrongs.Score < other.Candidate.Wrongs.Score
            && cheaper.Cost.ExtraPlatforms <= Math.Max(0, other.Cost.ExtraPlatforms);
    }

    private sealed record Option(Candidate Candidate, Changes Kinds, AlternativeCost Cost);

    private sealed class Search(HandlingUnit unit, UnitResult original, Lane lane, RuleSet rules, UnitCosts costs, IReadOnlySet<string> taken)
    {
        private readonly Wrongs before = Wrongs.Of([original]);
        private readonly CartonContents? cartons = (unit.Contents as CartonContents)?.Settled;

        private readonly EditSpace space = new(unit, original, rules, costs);

        /// <summary>Of the builds that did not do, the nearest of each kind of build.</summary>
        private readonly Dictionary<Build, Candidate> nearest = [];

        private int checks;

        public List<Candidate> Found { get; } = [];

        public int Builds { get; private set; }

        public bool StoppedEarly { get; private set; }

        public void Run()
        {
            if (before.Has(FindingCodes.FewLightCartons))
                Try(Build.AsDeclared with { Loose = true });
            foreach (var deck in space.Decks())
            {
                foreach (var perLayer in space.PerLayers(deck))
                {
                    foreach (var stack in space.Stacks())
                    {
                        var layer = perLayer ?? cartons?.PerLayer ?? 1;
                        Consolidate(new Build(perLayer, null, stack, Deck: deck), space.FewerPlatforms(layer, deck));
                        foreach (var platforms in space.Platforms(layer))
                        {
                            // More platforms than are enough only cost more.
                            if (Protect(new Build(perLayer, platforms, stack, Deck: deck)) || StoppedEarly)
                                break;
                        }
                    }
                }
            }
        }

        /// <summary>Brings what half fills several platforms together on fewer, until one number will do.</summary>
        private void Consolidate(Build build, IEnumerable<int> platforms)
        {
            foreach (var fewer in platforms)
            {
                var found = Found.Count;
                Protect(build with { Platforms = fewer });
                if (Found.Count > found || StoppedEarly)
                    return;
            }
        }

        /// <summary>Why nothing is offered: what is wrong with the build that came nearest, or with the unit itself.</summary>
        public Phrase Blocked()
        {
            var closest = nearest.Values.MinBy(candidate => candidate.Wrongs.Score);
            var wrong = closest is null || before.Score < closest.Wrongs.Score ? null : closest;
            string[] codes = wrong is null
                ? [.. original.Findings.Where(f => f.Severity == Severity.Stop).Select(f => f.Code).Distinct()]
                : Left(wrong);
            return codes.Length == 0
                ? Phrase.Of($"No change that was tried makes this unit better; see what each finding advises.")
                : Phrase.Of($"No change that was tried clears it; what blocks is {Phrase.Join(", ", [.. codes.Select(FindingCodes.InWords)])}.");
        }

        /// <summary>What came nearest, nearest first, each kind of build once.</summary>
        public Attempt[] Attempts() =>
        [
            .. nearest.Values
                .Where(candidate => candidate.Build != Build.AsDeclared)
                .Select(candidate => (Candidate: candidate, Left: Left(candidate)))
                .Where(tried => tried.Left.Length > 0)
                .OrderBy(tried => tried.Candidate.Wrongs.Score)
                .ThenBy(tried => tried.Candidate.Build.Key, StringComparer.Ordinal)
                .Take(MostAttempts)
                .Select(tried => new Attempt(Change.InWords(tried.Candidate, unit), tried.Left)),
        ];

        private string[] Left(Candidate candidate) =>
            [.. candidate.Results.SelectMany(r => r.Findings).Where(f => f.Severity == Severity.Stop).Select(f => f.Code).Concat(candidate.Wrongs.Added(before)).Distinct()];

        /// <summary>
        /// Tries a build with what may be declared about its top and with what can be mended mended, as far as each gravity
        /// asks. True when it is ready without another promise about the top.
        /// </summary>
        private bool Protect(Build build)
        {
            var ready = false;
            foreach (var stackable in space.Stackables())
            {
                var declared = build with { Stackable = stackable };
                var lines = declared.Lines(unit, taken);
                if (lines.Count == 0 || StoppedEarly)
                    continue;
                var bare = Judge(declared, lines);
                // Mending cures what it is about and nothing else.
                if (bare.Results.Any(result => result.Findings.Any(f => f.Severity == Severity.Stop && !Mend.Knows(f.Code))))
                {
                    Note(bare);
                    continue;
                }

                Add(bare);
                var last = bare;
                var mended = 0;
                foreach (var (mending, least) in (ReadOnlySpan<(Mending, Severity)>)[(Mending.Stops, Severity.Stop), (Mending.Cautions, Severity.Caution), (Mending.Tips, Severity.Tip)])
                {
                    var findings = Mendable(bare, least);
                    // Each gravity includes the graver ones: as many are the same ones.
                    if (findings.Length == mended)
                        continue;
                    mended = findings.Length;
                    foreach (var prefer in Mend.Ways(findings))
                    {
                        last = Judge(declared with { Mending = mending, Prefer = prefer }, [.. lines.Select(line => Mend.Apply(line, findings, rules, prefer))]);
                        Add(last);
                    }
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
            var bare = candidate.Build.Bare;
            if (!nearest.TryGetValue(bare, out var other) || candidate.Wrongs.Score < other.Wrongs.Score)
                nearest[bare] = candidate;
        }

        private Candidate Judge(Build build, IReadOnlyList<HandlingUnit> lines)
        {
            Builds++;
            checks += lines.Count;
            StoppedEarly |= checks >= MostChecks;
            UnitResult[] results = [.. lines.Select(line => ReadinessCheck.Run(line, lane, rules))];
            return new(build, lines, results, Wrongs.Of(results));
        }

        /// <summary>What mending would cure, down to a gravity: of each code the finding that asks for most.</summary>
        private static Finding[] Mendable(Candidate bare, Severity least) =>
        [
            .. bare.Results
                .SelectMany(result => result.Findings)
                .Where(finding => finding.Severity >= least && Mend.Knows(finding.Code))
                .GroupBy(finding => finding.Code, StringComparer.Ordinal)
                .Select(same => same.MaxBy(finding => finding.Limit.Value)!),
        ];
    }

    private sealed class SameLines : IEqualityComparer<IReadOnlyList<HandlingUnit>>
    {
        public static readonly SameLines Comparer = new();

        public bool Equals(IReadOnlyList<HandlingUnit>? x, IReadOnlyList<HandlingUnit>? y) => ReferenceEquals(x, y) || (x is not null && y is not null && x.SequenceEqual(y));

        public int GetHashCode(IReadOnlyList<HandlingUnit> lines) => HashCode.Combine(lines.Count, lines[0]);
    }
}
