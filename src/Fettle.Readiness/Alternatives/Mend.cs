using System.Collections.Frozen;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Alternatives;

/// <summary>
/// What can be put right without building the load again: film, boards, caps, straps, requests. Each code of finding names
/// the one change, or the two, that its rule asks for. Whether it helped, the check says.
/// </summary>
internal static class Mend
{
    private static readonly FrozenDictionary<string, Func<HandlingUnit, RuleSet, Preference, HandlingUnit>> ByCode =
        new Dictionary<string, Func<HandlingUnit, RuleSet, Preference, HandlingUnit>>(StringComparer.Ordinal)
        {
            // Nobody wraps anew and stops above the platform.
            [FindingCodes.WrapTurns] = (unit, rules, _) => Protect(unit, had => had with { WrapTurns = Math.Max(had.WrapTurns, rules.Wrap.Turns), WrapOverPlatform = true }),
            [FindingCodes.WrapAnchor] = (unit, _, _) => Protect(unit, had => had with { WrapOverPlatform = true }),
            [FindingCodes.CornerBoards] = (unit, _, _) => Protect(unit, had => had with { CornerBoards = CornerBoards.ToPlatform }),
            [FindingCodes.Clearance] = (unit, _, _) => Protect(unit, had => had with { CornerBoards = CornerBoards.ToPlatform }),
            [FindingCodes.Sleeve] = (unit, _, _) => Protect(unit, had => had with { Sleeve = true }),
        }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Whether there is a change that this finding asks for.</summary>
    public static bool Knows(string code) => ByCode.ContainsKey(code);

    /// <summary>The unit with everything put right that these codes ask for, and nothing else changed.</summary>
    public static HandlingUnit Apply(HandlingUnit unit, IEnumerable<string> codes, RuleSet rules, Preference prefer) =>
        codes.Aggregate(unit, (mended, code) => ByCode[code](mended, rules, prefer));

    /// <summary>The ways to mend these codes: the first of two alone, then each second one.</summary>
    public static IEnumerable<Preference> Ways(IReadOnlySet<string> codes)
    {
        yield return Preference.None;
    }

    private static HandlingUnit Protect(HandlingUnit unit, Func<Protection, Protection> change) => unit with { Protection = change(unit.Protection) };
}
