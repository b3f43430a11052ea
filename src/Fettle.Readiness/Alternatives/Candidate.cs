using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;
using Fettle.Readiness.Rules;

namespace Fettle.Readiness.Alternatives;

/// <summary>A build, the lines it makes, and what the check says of them.</summary>
internal sealed record Candidate(Build Build, IReadOnlyList<HandlingUnit> Lines, IReadOnlyList<UnitResult> Results, Wrongs Wrongs)
{
    public bool IsHeld => Results.Any(result => result.Verdict == Verdict.Hold);

    public bool IsReady => Results.All(result => result.Verdict == Verdict.Ready);
}
