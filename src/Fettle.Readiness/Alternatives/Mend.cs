using System.Collections.Frozen;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Alternatives;

/// <summary>
/// What can be put right without building the load again: film, boards, caps, straps, requests, fastening, a sound pallet.
/// Each code of finding names the one change, or the two, that its rule asks for. Whether it helped, the check says.
/// </summary>
internal static class Mend
{
    private delegate HandlingUnit Change(HandlingUnit unit, Finding finding, RuleSet rules, Preference prefer);

    private static readonly FrozenDictionary<string, Change> ByCode = new Dictionary<string, Change>(StringComparer.Ordinal)
    {
        // Nobody wraps anew and stops above the platform.
        [FindingCodes.WrapTurns] = Wrapped,
        [FindingCodes.Containment] = Wrapped,
        [FindingCodes.RollsOnEnd] = Wrapped,
        [FindingCodes.BareFurniture] = Wrapped,
        [FindingCodes.WrapAnchor] = (unit, _, _, _) => Protect(unit, had => had with { WrapOverPlatform = true }),
        [FindingCodes.CornerBoards] = Boarded,
        [FindingCodes.Clearance] = Boarded,
        [FindingCodes.Straps] = Boarded,
        [FindingCodes.Sleeve] = (unit, _, _, _) => Protect(unit, had => had with { Sleeve = true }),
        [FindingCodes.TopCap] = (unit, _, _, _) => Protect(unit, had => had with { TopCap = true }),
        [FindingCodes.SlipSheets] = Sheeted,
        [FindingCodes.DeckGap] = Sheeted,
        [FindingCodes.LooseDrums] = Strapped,
        [FindingCodes.RollChocks] = Strapped,
        [FindingCodes.Partitions] = (unit, _, _, _) => unit with { Partitions = true },
        [FindingCodes.FragileCare] = (unit, _, _, prefer) => unit with
        {
            Requests = prefer.HasFlag(Preference.Airbags) ? unit.Requests with { Airbags = true } : unit.Requests with { Decking = true },
        },
        [FindingCodes.Tipping] = Held,
        [FindingCodes.Sliding] = Held,
        [FindingCodes.TreatmentMark] = (unit, _, _, _) => OnSound(unit, deck => deck with { TreatmentMark = TreatmentMark.HT }),
        [FindingCodes.PlatformCondition] = (unit, _, _, _) => OnSound(unit, deck => deck),
        [FindingCodes.Unfastened] = (unit, _, _, _) => unit.Contents is MachineryContents machine ? unit with { Contents = machine with { Fastened = true } } : unit,
        [FindingCodes.Unbraced] = (unit, _, _, _) => unit.Contents is CrateContents crate ? unit with { Contents = crate with { Braced = true } } : unit,
        [FindingCodes.FreightClass] = (unit, finding, _, _) => unit with { DeclaredClass = (decimal)finding.Limit.Value },
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Whether there is a change that this finding asks for.</summary>
    public static bool Knows(string code) => ByCode.ContainsKey(code);

    /// <summary>The unit with everything put right that these findings ask for, and nothing else changed.</summary>
    public static HandlingUnit Apply(HandlingUnit unit, IEnumerable<Finding> findings, RuleSet rules, Preference prefer) =>
        findings.Aggregate(unit, (mended, finding) => ByCode[finding.Code](mended, finding, rules, prefer));

    /// <summary>The ways to mend these: the first of two alone, then with the second where there is one.</summary>
    public static IEnumerable<Preference> Ways(IReadOnlyCollection<Finding> findings)
    {
        yield return Preference.None;
        // For a tip one way is enough.
        if (findings.Any(finding => finding.Severity > Severity.Tip && finding.Code == FindingCodes.FragileCare))
            yield return Preference.Airbags;
        // A bulkhead helps forward only; beside a strap it is the other way to ask.
        if (findings.Any(finding => finding.Severity > Severity.Tip && finding.Code is (FindingCodes.Tipping or FindingCodes.Sliding)))
            yield return Preference.Bulkhead;
    }

    private static HandlingUnit Wrapped(HandlingUnit unit, Finding finding, RuleSet rules, Preference prefer) => Protect(unit, had => had with
    {
        WrapTurns = Math.Max(had.WrapTurns, Math.Max(rules.Wrap.Turns, (int)Math.Ceiling(finding.Limit.Value))),
        WrapOverPlatform = had.WrapOverPlatform || unit.Platform is not null,
    });

    private static HandlingUnit Boarded(HandlingUnit unit, Finding finding, RuleSet rules, Preference prefer) =>
        Protect(unit, had => had with { CornerBoards = CornerBoards.ToPlatform });

    private static HandlingUnit Sheeted(HandlingUnit unit, Finding finding, RuleSet rules, Preference prefer) =>
        Protect(unit, had => had with { SlipSheets = true });

    private static HandlingUnit Strapped(HandlingUnit unit, Finding finding, RuleSet rules, Preference prefer) =>
        Protect(unit, had => had with { Straps = Math.Max(had.Straps, MostStraps) });

    private static HandlingUnit Held(HandlingUnit unit, Finding finding, RuleSet rules, Preference prefer) => unit with
    {
        Requests = prefer.HasFlag(Preference.Bulkhead) ? unit.Requests with { Bulkhead = true } : unit.Requests with { Strap = true },
    };

    private static HandlingUnit OnSound(HandlingUnit unit, Func<Platform, Platform> change) =>
        unit.Platform is { } deck ? unit with { Platform = change(deck with { Condition = PlatformCondition.Sound }) } : unit;

    private static HandlingUnit Protect(HandlingUnit unit, Func<Protection, Protection> change) => unit with { Protection = change(unit.Protection) };

    /// <summary>Two straps cross or run side by side, so that one that slips is not the only one.</summary>
    private const int MostStraps = 2;
}
