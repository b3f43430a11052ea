using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.DockVisits;

/// <summary>
/// What a carrier's people said about a standard build when they saw it on the dock. It is about that build as they saw it,
/// and no promise about any load.
/// </summary>
/// <param name="Build">As it stood in the catalogue when the visit was asked for; builds do not change.</param>
/// <param name="CarrierId">Whose people; other carriers are not bound by it.</param>
/// <param name="At">When it was written down.</param>
public sealed record BuildApproval(VisitedBuild Build, Guid CarrierId, bool Approved, string Why, Guid VisitId, string VisitNumber, Actor By, DateTimeOffset At)
{
    /// <summary>What holds now: of each build and carrier what was said last.</summary>
    public static IReadOnlyList<BuildApproval> Of(IEnumerable<DockVisit> visits) =>
    [
        .. from visit in visits
           where visit.Concluded is not null
           from verdict in visit.Concluded!.Verdicts
           let said = new BuildApproval(
               visit.Asked.Builds.Single(build => build.EntryId == verdict.EntryId), visit.Asked.CarrierId, verdict.Approved, verdict.Why, visit.Id, visit.Asked.Number, visit.Concluded!.By, visit.Concluded.At)
           group said by (verdict.EntryId, visit.Asked.CarrierId) into same
           select same.MaxBy(said => said.At)!,
    ];

    /// <summary>
    /// Whether a declared line is this build again: all alike but for its name, how many there are, who built it, whose word
    /// stands for regulated goods, and a scale's scatter within what the rules allow between declared and computed weight.
    /// </summary>
    public bool IsFor(HandlingUnit declared, WeightLimits limits)
    {
        var build = Build.Unit;
        var difference = declared.GrossWeight > build.GrossWeight ? declared.GrossWeight - build.GrossWeight : build.GrossWeight - declared.GrossWeight;
        return difference <= Mass.Min(limits.Mismatch, build.GrossWeight * (limits.MismatchPercent / 100)) && Alike(declared) == Alike(build);
    }

    private static HandlingUnit Alike(HandlingUnit unit) => unit with { Reference = "", Quantity = 1, BuiltBy = null, ConfirmedBy = null, GrossWeight = Mass.Zero };
}
