using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Alternatives;

/// <summary>A changed declaration of one line that has been through the whole check again.</summary>
/// <param name="Key">Names the same change on the same line every time it is computed; what "apply" sends back.</param>
/// <param name="Summary">What to do, in a clerk's words.</param>
/// <param name="Cures">Codes of the findings that are gone, gravest first.</param>
/// <param name="Merits">What it is good at beside the others that are offered.</param>
/// <param name="HandlingUnits">The lines that take the place of the original.</param>
/// <param name="Results">Their check, line by line.</param>
public sealed record Alternative(
    string Key,
    Phrase Summary,
    IReadOnlyList<string> Cures,
    AlternativeCost Cost,
    Merits Merits,
    IReadOnlyList<HandlingUnit> HandlingUnits,
    IReadOnlyList<UnitResult> Results)
{
    public Verdict Verdict => Results.Max(result => result.Verdict);
}

/// <summary>
/// What tells an offer from the others beside it. One that all of them have is left out: it helps nobody to choose.
/// </summary>
[Flags]
public enum Merits
{
    None = 0,

    /// <summary>Least in all, by the unit costs.</summary>
    Cheapest = 1,

    /// <summary>Fewest minutes of work.</summary>
    Fastest = 2,

    /// <summary>No more platforms than declared.</summary>
    NoMorePlatforms = 4,

    /// <summary>Nothing to buy.</summary>
    NoMoreMaterial = 8,

    /// <summary>Still declared stackable.</summary>
    KeepsStackable = 16,

    /// <summary>Leaves least wrong.</summary>
    LeastWrong = 32,
}

/// <summary>What a change costs against the original line.</summary>
/// <param name="ExtraPlatforms">Platforms more than before; negative when fewer.</param>
/// <param name="ExtraFloorPositions">Floor positions in the trailer more than before: two stackable like units share one.</param>
/// <param name="ExtraLinearFeet">The same as trailer length at full width, larger platforms counted by their area; rounded to a tenth.</param>
/// <param name="Material">Film, boards, sleeves, platforms and the like in US dollars.</param>
/// <param name="Minutes">Work on the dock.</param>
/// <param name="LosesStackable">A stackable unit is declared not stackable.</param>
/// <param name="NewClass">Freight class by density when it is another than before, the highest of the new lines; null when it stays.</param>
/// <param name="Total">All of it in US dollars, for ranking.</param>
public sealed record AlternativeCost(
    int ExtraPlatforms,
    int ExtraFloorPositions,
    double ExtraLinearFeet,
    decimal Material,
    double Minutes,
    bool LosesStackable,
    decimal? NewClass,
    decimal Total);

/// <summary>A change that was tried and did not do.</summary>
/// <param name="Summary">What was tried.</param>
/// <param name="Left">Codes of what would still hold it, or would be newly wrong.</param>
public sealed record Attempt(Phrase Summary, IReadOnlyList<string> Left);

/// <summary>What the search came back with.</summary>
/// <param name="Alternatives">Cheapest first; empty when nothing helps.</param>
/// <param name="Blocked">Why nothing is offered; null when something is, or when nothing is wrong.</param>
/// <param name="Attempts">When nothing is offered: the changes that came nearest, nearest first.</param>
/// <param name="Builds">How many builds were put through the check.</param>
/// <param name="StoppedEarly">The search gave up before it had tried everything, so that a better offer may have been missed.</param>
public sealed record AlternativeSearch(
    IReadOnlyList<Alternative> Alternatives,
    Phrase? Blocked,
    IReadOnlyList<Attempt> Attempts,
    int Builds,
    bool StoppedEarly);
