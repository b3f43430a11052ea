using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Alternatives;

/// <summary>A changed declaration of one line that has been through the whole check again.</summary>
/// <param name="Key">Names the same change on the same line every time it is computed; what "apply" sends back.</param>
/// <param name="Summary">What to do, in a clerk's words.</param>
/// <param name="Cures">Codes of the findings that are gone, gravest first.</param>
/// <param name="HandlingUnits">The lines that take the place of the original.</param>
/// <param name="Results">Their check, line by line.</param>
public sealed record Alternative(
    string Key,
    Phrase Summary,
    IReadOnlyList<string> Cures,
    AlternativeCost Cost,
    IReadOnlyList<HandlingUnit> HandlingUnits,
    IReadOnlyList<UnitResult> Results)
{
    public Verdict Verdict => Results.Max(result => result.Verdict);
}

/// <summary>What a change costs against the original line.</summary>
/// <param name="ExtraPlatforms">Platforms more than before; negative when fewer.</param>
/// <param name="ExtraFloorPositions">Floor positions in the trailer more than before: two stackable like units share one.</param>
/// <param name="Material">Film, boards, sleeves and platforms in US dollars.</param>
/// <param name="Minutes">Work on the dock.</param>
/// <param name="LosesStackable">A stackable unit is declared not stackable.</param>
/// <param name="Total">All of it in US dollars, for ranking.</param>
public sealed record AlternativeCost(
    int ExtraPlatforms,
    int ExtraFloorPositions,
    decimal Material,
    double Minutes,
    bool LosesStackable,
    decimal Total);

/// <summary>Unit costs in US dollars, for ranking. Invented round figures, no source: a carrier or shipper sets its own.</summary>
public sealed record UnitCosts
{
    public decimal Platform { get; init; } = 15;

    /// <summary>A floor position in a trailer, as far as the rate feels it.</summary>
    public decimal FloorPosition { get; init; } = 40;

    /// <summary>One turn of film round one unit; bringing it down over the platform counts as one more.</summary>
    public decimal FilmTurn { get; init; } = 0.5m;

    /// <summary>Four corner boards.</summary>
    public decimal CornerBoards { get; init; } = 4;

    public decimal Sleeve { get; init; } = 6;

    public decimal Minute { get; init; } = 0.5m;

    /// <summary>Minutes to move one carton by hand.</summary>
    public double MinutesPerCarton { get; init; } = 0.2;

    /// <summary>Minutes to wrap one unit, or to put boards on it, or a sleeve.</summary>
    public double MinutesPerProtection { get; init; } = 3;

    public static readonly UnitCosts Default = new();
}

/// <summary>What the search came back with.</summary>
/// <param name="Alternatives">Cheapest first; empty when nothing helps.</param>
/// <param name="Blocked">Why nothing is offered; null when something is, or when nothing is wrong.</param>
public sealed record AlternativeSearch(IReadOnlyList<Alternative> Alternatives, Phrase? Blocked);
