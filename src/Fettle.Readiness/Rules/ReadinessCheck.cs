using Fettle.Engineering.Units;
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
        ContentsConsistencyRule.Check,
        OverhangRule.Check,
        DeckFitRule.Check,
        WeightRule.Check,
        PlatformRule.Check,
        WrapRule.Check,
        CornerBoardRule.Check,
        StrapRule.Check,
        SlipSheetRule.Check,
        TopCapRule.Check,
        HeightRule.Check,
        TippingRule.Check,
        SlidingRule.Check,
        StrengthRule.Check,
        MixedCartonRule.Check,
        StackableRule.Check,
        FragileRule.Check,
        DrumRule.Check,
        BagRule.Check,
        RollRule.Check,
        FurnitureRule.Check,
        MachineryRule.Check,
        CrateRule.Check,
        FewLightCartonsRule.Check,
        LiftingRule.Check,
        AwkwardRule.Check,
        RegulatedRule.Check,
        FreightClassRule.Check,
    ];

    public static CheckResult Run(Declaration declaration, RuleSet rules) =>
        new(rules.Identity, [.. declaration.HandlingUnits.Select(unit => Run(unit, declaration.Lane, rules, declaration.Units))], OfPickup(declaration, rules));

    /// <summary>What is found about the pickup as a whole, whatever its units are.</summary>
    public static IReadOnlyList<Finding> OfPickup(Declaration declaration, RuleSet rules) => [.. ProofRule.Check(declaration, rules)];

    /// <param name="typedIn">
    /// The units of the fields that the figures were typed into: where figures contradict each other, the likely slip is named.
    /// Nothing else depends on it.
    /// </param>
    public static UnitResult Run(HandlingUnit unit, Lane lane, RuleSet rules, UnitSystem? typedIn = null)
    {
        var check = new UnitUnderCheck(unit, lane, rules, typedIn);
        // Gravest first; rules keep their order within one gravity.
        Finding[] findings = [.. Rules.SelectMany(rule => rule(check)).OrderByDescending(finding => finding.Severity)];
        return new(unit.Reference, unit.Quantity, VerdictOf(findings), check.Measures, findings);
    }

    /// <param name="findings">About one unit, gravest first.</param>
    public static Verdict VerdictOf(IReadOnlyList<Finding> findings) => findings.Count == 0
        ? Verdict.Ready
        : findings[0].Severity switch
        {
            Severity.Stop => Verdict.Hold,
            Severity.Caution => Verdict.ReadyWithCautions,
            Severity.Tip => Verdict.Ready,
        };
}

/// <summary>The result for a whole declaration.</summary>
/// <param name="Findings">About the pickup as a whole; what is found about a unit stands with the unit.</param>
public sealed record CheckResult(RuleSetVersion RuleSet, IReadOnlyList<UnitResult> HandlingUnits, IReadOnlyList<Finding> Findings)
{
    /// <inheritdoc cref="Of"/>
    public Verdict Verdict => Of(HandlingUnits.Select(unit => unit.Verdict), Findings);

    /// <summary>
    /// That of the worst unit; a finding about the whole pickup makes it ready with cautions at most, for a hold is placed on
    /// freight of a line, and no line is at fault.
    /// </summary>
    public static Verdict Of(IEnumerable<Verdict> units, IReadOnlyList<Finding> findings) =>
        units.Append(findings.Any(finding => finding.Severity > Severity.Tip) ? Verdict.ReadyWithCautions : Verdict.Ready).Max();
}

/// <summary>The result for one line of identical handling units.</summary>
public sealed record UnitResult(string Reference, int Quantity, Verdict Verdict, Measures Measures, IReadOnlyList<Finding> Findings);
