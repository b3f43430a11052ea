using Fettle.Engineering.Units;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Findings;

/// <summary>A fact about freight, found by calculation.</summary>
/// <param name="Code">A short word that never changes: "overhang". All are in <see cref="FindingCodes"/>.</param>
/// <param name="Subject">The field it concerns, named as in the API: "protection.wrapTurns".</param>
/// <param name="Measured">What was declared or computed.</param>
/// <param name="Limit">What it was held against.</param>
/// <param name="Basis">Where the limit comes from.</param>
/// <param name="Message">What, how much, the limit and why it matters, in a clerk's words.</param>
/// <param name="Cure">What would put it right.</param>
/// <param name="Formula">The working: the formula with its inputs filled in, or the comparison itself where there is none.</param>
/// <param name="RuleSet">The rule set and version that judged.</param>
public sealed record Finding(
    string Code,
    Severity Severity,
    string Subject,
    Quantity Measured,
    Quantity Limit,
    Basis Basis,
    Phrase Message,
    Phrase Cure,
    Phrase Formula,
    RuleSetVersion RuleSet)
{
    /// <summary>The plainest working: what was measured beside what it was held against.</summary>
    public static Phrase Comparison(Quantity measured, Quantity limit) => measured.Value.CompareTo(limit.Value) switch
    {
        < 0 => Phrase.Of($"{measured} < {limit}"),
        0 => Phrase.Of($"{measured} = {limit}"),
        > 0 => Phrase.Of($"{measured} > {limit}"),
    };
}

/// <summary>In rising order of gravity.</summary>
public enum Severity
{
    /// <summary>Money or effort to be saved.</summary>
    Tip,

    /// <summary>May travel; recorded.</summary>
    Caution,

    /// <summary>Held if submitted so.</summary>
    Stop,
}

/// <summary>In rising order of gravity. "Ready" is a result of these checks; it is never a promise that freight is safe.</summary>
public enum Verdict
{
    Ready,
    ReadyWithCautions,
    Hold,
}

/// <summary>Where a limit comes from.</summary>
/// <param name="Source">The standard's or handbook's name; for common practice, what is customary.</param>
public sealed record Basis(BasisKind Kind, string Source)
{
    public static Basis CommonPractice(string what) => new(BasisKind.CommonPractice, what);

    public static Basis Standard(string source) => new(BasisKind.PublishedStandard, source);

    public static Basis Arithmetic(string what) => new(BasisKind.Arithmetic, what);

    public static Basis CarrierRule(string ruleSet) => new(BasisKind.CarrierRule, ruleSet);

    /// <summary>One line for a page, a mail or the API.</summary>
    public override string ToString() => Kind switch
    {
        BasisKind.PublishedStandard => Source,
        BasisKind.CarrierRule => $"Carrier's rule: {Source}",
        BasisKind.CommonPractice => $"Common practice, no source: {Source}",
        BasisKind.Arithmetic => $"Arithmetic: {Source}",
    };
}

public enum BasisKind
{
    PublishedStandard,
    CarrierRule,
    CommonPractice,

    /// <summary>Follows from the declared figures themselves.</summary>
    Arithmetic,
}
