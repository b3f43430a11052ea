using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>
/// The check. Page, API, import, submission and the terminal's re-check all call it, so that none can judge otherwise than
/// the rest. Pure: the same declaration and rule set give the same result.
/// </summary>
public static class ReadinessCheck
{
    private static readonly Func<UnitUnderCheck, IEnumerable<Finding>>[] Rules =
    [
        ConsistencyRule.Check,
        OverhangRule.Check,
        WeightRule.Check,
        WrapRule.Check,
        CornerBoardRule.Check,
        HeightRule.Check,
        TippingRule.Check,
        StrengthRule.Check,
        FewLightCartonsRule.Check,
    ];

    public static CheckResult Run(Declaration declaration, RuleSet rules) =>
        new(rules.Identity, [.. declaration.HandlingUnits.Select(unit => Run(unit, declaration.Lane, rules))]);

    public static UnitResult Run(HandlingUnit unit, Lane lane, RuleSet rules)
    {
        var check = new UnitUnderCheck(unit, lane, rules);
        // Gravest first; rules keep their order within one gravity.
        Finding[] findings = [.. Rules.SelectMany(rule => rule(check)).OrderByDescending(finding => finding.Severity)];
        return new(unit.Reference, unit.Quantity, VerdictOf(findings), check.Measures, findings);
    }

    private static Verdict VerdictOf(Finding[] findings) => findings.Length == 0
        ? Verdict.Ready
        : findings[0].Severity switch
        {
            Severity.Stop => Verdict.Hold,
            Severity.Caution => Verdict.ReadyWithCautions,
            Severity.Tip => Verdict.Ready,
        };
}

/// <summary>The result for a whole declaration. Its verdict is that of its worst unit.</summary>
public sealed record CheckResult(RuleSetVersion RuleSet, IReadOnlyList<UnitResult> HandlingUnits)
{
    public Verdict Verdict => HandlingUnits.Count == 0 ? Verdict.Ready : HandlingUnits.Max(unit => unit.Verdict);
}

/// <summary>The result for one line of identical handling units.</summary>
public sealed record UnitResult(string Reference, int Quantity, Verdict Verdict, Measures Measures, IReadOnlyList<Finding> Findings);
