using Fettle.Engineering.Units;
using Fettle.Readiness.Alternatives;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;
using Fettle.Readiness.RuleSets;

namespace Fettle.Web.Declarations;

/// <summary>What the check found, in the units of the question.</summary>
/// <param name="Verdict">"ready", "ready-with-cautions" or "hold": that of the worst handling unit, or of what was found about the whole pickup.</param>
/// <param name="Findings">About the pickup as a whole; those about a handling unit stand with it.</param>
public sealed record CheckAnswer(string Verdict, RuleSetVersion RuleSet, IReadOnlyList<FindingAnswer> Findings, IReadOnlyList<UnitAnswer> HandlingUnits)
{
    /// <param name="alternatives">How many alternatives to answer: none, only the first, or all that are offered.</param>
    public static CheckAnswer Of(Declaration declaration, CheckResult result, RuleSet rules, UnitCosts costs, AlternativesWanted alternatives)
    {
        var taken = declaration.HandlingUnits.Select(unit => unit.Reference).ToHashSet(StringComparer.OrdinalIgnoreCase);
        return new(
            result.Verdict.Word(),
            result.RuleSet,
            FindingAnswer.Of(result.Findings, declaration.Units),
            [.. declaration.HandlingUnits.Zip(result.HandlingUnits, (unit, found) => UnitAnswer.Of(
                unit,
                found,
                declaration.Units,
                alternatives == AlternativesWanted.None ? null : AlternativeFinder.Find(unit, found, declaration.Lane, rules, costs, taken),
                alternatives == AlternativesWanted.Best ? 1 : AlternativeFinder.Offered))]);
    }
}

public enum AlternativesWanted
{
    None,
    Best,
    All,
}

/// <param name="Blocked">Why no alternative is offered, when something is wrong.</param>
/// <param name="Attempts">What was tried and did not do, nearest first, when nothing is offered.</param>
/// <param name="SearchStoppedEarly">The search gave up before it had tried everything.</param>
public sealed record UnitAnswer(
    string Reference,
    int Quantity,
    string Verdict,
    MeasuresAnswer Measures,
    IReadOnlyList<FindingAnswer> Findings,
    IReadOnlyList<AlternativeAnswer> Alternatives,
    string? Blocked,
    IReadOnlyList<AttemptAnswer> Attempts,
    bool SearchStoppedEarly)
{
    public static UnitAnswer Of(HandlingUnit unit, UnitResult found, UnitSystem units, AlternativeSearch? search, int offered = AlternativeFinder.Offered) => new(
        found.Reference,
        found.Quantity,
        found.Verdict.Word(),
        MeasuresAnswer.Of(found.Measures, units),
        FindingAnswer.Of(found.Findings, units),
        [.. (search?.Alternatives ?? []).Take(offered).Select(alternative => AlternativeAnswer.Of(alternative, units))],
        search?.Blocked?.Say(units),
        [.. (search?.Attempts ?? []).Select(attempt => new AttemptAnswer(attempt.Summary.Say(units), attempt.Left))],
        search?.StoppedEarly ?? false);
}

/// <param name="Left">Codes of what would still hold it, or would be newly wrong.</param>
public sealed record AttemptAnswer(string Summary, IReadOnlyList<string> Left);

/// <summary>Figures; null where one cannot be computed. Ratios are plain numbers, accelerations shares of g.</summary>
/// <param name="CartonStrength">A new carton's compression strength, an estimate that scatters widely.</param>
/// <param name="TopLoadCapacity">What may be put on top, a safety factor kept; an estimate, not a promise.</param>
/// <param name="TopLoadExpected">What the trade will put there.</param>
/// <param name="FreightClass">13-tier density scale.</param>
public sealed record MeasuresAnswer(
    Quantity? ComputedGrossWeight,
    SidesAnswer Overhang,
    SidesAnswer Clearance,
    Quantity? CartonStrength,
    Quantity? UsableStrength,
    double? SelfCrushSafety,
    Quantity? TopLoadCapacity,
    Quantity TopLoadExpected,
    bool CarriesLikeUnit,
    double TippingLateral,
    double TippingForward,
    Quantity Density,
    decimal FreightClass)
{
    public static MeasuresAnswer Of(Measures measures, UnitSystem units)
    {
        Quantity? Heavy(Mass? mass) => mass is { } m ? ((Quantity)m).In(units) : null;
        return new(
            Heavy(measures.ComputedGrossWeight),
            SidesAnswer.Of(measures.Shape.Overhang, units),
            SidesAnswer.Of(measures.Shape.Clearance, units),
            Heavy(measures.CartonStrength),
            Heavy(measures.UsableStrength),
            measures.SelfCrushSafety is { } safety ? Math.Round(safety, 4) : null,
            Heavy(measures.TopLoadCapacity),
            ((Quantity)measures.TopLoadExpected).In(units),
            measures.CarriesLikeUnit,
            Math.Round(measures.TippingLateral, 5),
            Math.Round(measures.TippingForward, 5),
            ((Quantity)measures.Density).In(units),
            measures.FreightClass);
    }
}

/// <summary>Front and back are the ends of the deck's length, left and right the ends of its width.</summary>
public sealed record SidesAnswer(Quantity Front, Quantity Back, Quantity Left, Quantity Right)
{
    public static SidesAnswer Of(Sides sides, UnitSystem units) => new(
        ((Quantity)sides.Front).In(units),
        ((Quantity)sides.Back).In(units),
        ((Quantity)sides.Left).In(units),
        ((Quantity)sides.Right).In(units));
}

/// <param name="Severity">"stop": held if submitted so; "caution": may travel, recorded; "tip": money or effort to be saved.</param>
/// <param name="Subject">The field it concerns, named as in the request.</param>
/// <param name="Formula">The working: the formula with its inputs filled in, or the comparison itself.</param>
/// <param name="Caution">The usual caution where someone can be hurt.</param>
public sealed record FindingAnswer(
    string Code,
    string Severity,
    string Subject,
    Quantity Measured,
    Quantity Limit,
    string Basis,
    string Message,
    string Cure,
    string Formula,
    string? Caution,
    RuleSetVersion RuleSet)
{
    public static IReadOnlyList<FindingAnswer> Of(IEnumerable<Finding> findings, UnitSystem units) => [.. findings.Select(finding => Of(finding, units))];

    public static FindingAnswer Of(Finding finding, UnitSystem units) => new(
        finding.Code,
        finding.Severity.Word(),
        finding.Subject,
        finding.Measured.In(units),
        finding.Limit.In(units),
        finding.Basis.Say(),
        finding.Message.Say(units),
        finding.Cure.Say(units),
        finding.Formula.Say(units),
        FindingCodes.CautionFor(finding.Code) is { } caution ? T(caution) : null,
        finding.RuleSet);
}

/// <param name="Merits">What tells it from the others: "cheapest", "fastest", "no-more-platforms", "no-more-material", "keeps-stackable", "least-wrong".</param>
/// <param name="HandlingUnits">The lines that take the place of this one, in the form of the request.</param>
public sealed record AlternativeAnswer(
    string Key,
    string Summary,
    IReadOnlyList<string> Cures,
    IReadOnlyList<string> Merits,
    CostAnswer Cost,
    IReadOnlyList<UnitJson> HandlingUnits,
    string Verdict)
{
    public static AlternativeAnswer Of(Alternative alternative, UnitSystem units) => new(
        alternative.Key,
        alternative.Summary.Say(units),
        alternative.Cures,
        [.. Enum.GetValues<Merits>().Where(merit => merit != Readiness.Alternatives.Merits.None && alternative.Merits.HasFlag(merit)).Select(merit => merit.Word())],
        new(
            alternative.Cost.ExtraPlatforms,
            alternative.Cost.ExtraFloorPositions,
            alternative.Cost.ExtraLinearFeet,
            alternative.Cost.Material,
            alternative.Cost.Minutes,
            alternative.Cost.LosesStackable,
            alternative.Cost.NewClass,
            alternative.Cost.Total),
        [.. alternative.HandlingUnits.Select(unit => UnitJson.Of(unit, units))],
        alternative.Verdict.Word());
}

/// <summary>Against the line as declared; US dollars by the unit costs set, and minutes of work.</summary>
/// <param name="NewClass">Freight class by density when it changes, the highest of the new lines.</param>
public sealed record CostAnswer(int ExtraPlatforms, int ExtraFloorPositions, double ExtraLinearFeet, decimal Material, double Minutes, bool LosesStackable, decimal? NewClass, decimal Total);
