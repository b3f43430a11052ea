using System.Collections.Concurrent;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.RuleSets;

/// <summary>
/// Judges declarations by two rule sets and counts what differs. Lines that are alike on lanes that are alike are judged
/// once: the check is a function of their values. Safe to ask from several threads.
/// </summary>
public sealed class RuleComparison(RuleSet before, RuleSet after)
{
    /// <summary>Remembered lines at most: some 50 MB. Beyond that they are judged again.</summary>
    private const int MostRemembered = 50_000;

    private readonly ConcurrentDictionary<Declaration, Outcome> known = new(Alike.Instance);

    /// <summary>What the second rule set does to these declarations that the first does not.</summary>
    public RuleEffect Of(IEnumerable<(Guid ShipperId, Declaration Declaration)> declared) =>
        RuleEffect.Sum([.. declared.Select(one => Of(one.ShipperId, one.Declaration))]);

    private RuleEffect Of(Guid shipperId, Declaration declaration)
    {
        (Outcome Outcome, int Quantity)[] lines = [.. declaration.HandlingUnits.Select(unit => (OutcomeOf(declaration, unit), unit.Quantity))];
        var units = HeldCount.Sum(lines.Select(line => HeldCount.Of(line.Quantity, line.Outcome.HeldBefore, line.Outcome.HeldAfter)));
        var pickup = HeldCount.Of(1, lines.Any(line => line.Outcome.HeldBefore), lines.Any(line => line.Outcome.HeldAfter));
        return new(pickup, units, [new(shipperId, pickup, units)], FindingEffect.Merge(lines.SelectMany(line => line.Outcome.Findings.Select(found => found * line.Quantity))));
    }

    private Outcome OutcomeOf(Declaration declaration, HandlingUnit unit)
    {
        // Name, number and builder say nothing about the freight.
        var alone = declaration with { HandlingUnits = [unit with { Reference = "", Quantity = 1, BuiltBy = null }] };
        if (known.TryGetValue(alone, out var outcome))
            return outcome;
        outcome = Outcome.Of(ReadinessCheck.Run(alone, before), ReadinessCheck.Run(alone, after));
        if (known.Count < MostRemembered)
            known.TryAdd(alone, outcome);
        return outcome;
    }

    private sealed record Outcome(bool HeldBefore, bool HeldAfter, IReadOnlyList<FindingEffect> Findings)
    {
        public static Outcome Of(CheckResult before, CheckResult after)
        {
            var (was, now) = (Found(before), Found(after));
            return new(
                before.Verdict == Verdict.Hold,
                after.Verdict == Verdict.Hold,
                [.. was.Union(now).Select(found => new FindingEffect(
                    found.Code, found.Severity, was.Contains(found) ? 1 : 0, was.Contains(found) ? 0 : 1, now.Contains(found) ? 0 : 1))]);
        }

        private static HashSet<(string Code, Severity Severity)> Found(CheckResult result) =>
            [.. result.HandlingUnits.SelectMany(unit => unit.Findings).Select(finding => (finding.Code, finding.Severity))];
    }

    /// <summary>By the values of one line; a list of them would be compared by reference.</summary>
    private sealed class Alike : IEqualityComparer<Declaration>
    {
        public static readonly Alike Instance = new();

        public bool Equals(Declaration? a, Declaration? b) =>
            a!.DriverOnDock == b!.DriverOnDock && a.Units == b.Units && a.Lane == b.Lane && a.HandlingUnits[0] == b.HandlingUnits[0];

        public int GetHashCode(Declaration declaration) => HashCode.Combine(declaration.HandlingUnits[0], declaration.Lane, declaration.DriverOnDock);
    }
}

/// <summary>What another rule set would have done to freight that was declared.</summary>
/// <param name="Shippers">Those with any freight, in no particular order.</param>
/// <param name="Findings">Those of either rule set, in no particular order.</param>
public sealed record RuleEffect(HeldCount Pickups, HeldCount Units, IReadOnlyList<ShipperEffect> Shippers, IReadOnlyList<FindingEffect> Findings)
{
    public static readonly RuleEffect None = new(HeldCount.None, HeldCount.None, [], []);

    public static RuleEffect Sum(IReadOnlyCollection<RuleEffect> effects) => new(
        HeldCount.Sum(effects.Select(effect => effect.Pickups)),
        HeldCount.Sum(effects.Select(effect => effect.Units)),
        [.. effects.SelectMany(effect => effect.Shippers).GroupBy(shipper => shipper.ShipperId).Select(same => new ShipperEffect(
            same.Key, HeldCount.Sum(same.Select(shipper => shipper.Pickups)), HeldCount.Sum(same.Select(shipper => shipper.Units))))],
        FindingEffect.Merge(effects.SelectMany(effect => effect.Findings)));
}

/// <summary>How many of something are held.</summary>
/// <param name="All">Held or not.</param>
/// <param name="Before">Held by the first rule set.</param>
/// <param name="Caught">Held by the second only.</param>
/// <param name="Freed">Held by the first only.</param>
public sealed record HeldCount(int All, int Before, int Caught, int Freed)
{
    public static readonly HeldCount None = new(0, 0, 0, 0);

    /// <summary>Held by the second rule set.</summary>
    public int After => Before + Caught - Freed;

    public static HeldCount Of(int count, bool before, bool after) =>
        new(count, before ? count : 0, after && !before ? count : 0, before && !after ? count : 0);

    public static HeldCount Sum(IEnumerable<HeldCount> counts) =>
        counts.Aggregate(None, (sum, next) => new(sum.All + next.All, sum.Before + next.Before, sum.Caught + next.Caught, sum.Freed + next.Freed));
}

public sealed record ShipperEffect(Guid ShipperId, HeldCount Pickups, HeldCount Units);

/// <summary>Handling units with a finding of one gravity; what becomes graver is gone as one and new as another.</summary>
/// <param name="Before">By the first rule set.</param>
/// <param name="New">By the second only.</param>
/// <param name="Gone">By the first only.</param>
public sealed record FindingEffect(string Code, Severity Severity, int Before, int New, int Gone)
{
    public int After => Before + New - Gone;

    public static FindingEffect operator *(FindingEffect one, int times) =>
        one with { Before = one.Before * times, New = one.New * times, Gone = one.Gone * times };

    internal static IReadOnlyList<FindingEffect> Merge(IEnumerable<FindingEffect> effects) =>
    [
        .. effects.GroupBy(effect => (effect.Code, effect.Severity)).Select(same => new FindingEffect(
            same.Key.Code, same.Key.Severity, same.Sum(one => one.Before), same.Sum(one => one.New), same.Sum(one => one.Gone))),
    ];
}
