using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.DockVisits;

/// <summary>What a carrier's people said about a standard build when they saw it on the dock. It is about that build, not a promise about any load.</summary>
/// <param name="CarrierId">Whose people; other carriers are not bound by it.</param>
/// <param name="On">When it was written down.</param>
public sealed record BuildApproval(Guid VisitId, string VisitNumber, Guid CarrierId, bool Approved, string Why, string By, DateTimeOffset On)
{
    /// <summary>
    /// Whether a declared line is this build again: all alike but for its name, how many there are, who built it, whose word
    /// stands for regulated goods, and a scale's scatter within what the rules allow between declared and computed weight.
    /// </summary>
    public static bool IsSame(HandlingUnit declared, HandlingUnit build, WeightLimits limits)
    {
        var difference = declared.GrossWeight > build.GrossWeight ? declared.GrossWeight - build.GrossWeight : build.GrossWeight - declared.GrossWeight;
        return difference <= Mass.Min(limits.Mismatch, build.GrossWeight * (limits.MismatchPercent / 100)) && Alike(declared) == Alike(build);
    }

    private static HandlingUnit Alike(HandlingUnit unit) => unit with { Reference = "", Quantity = 1, BuiltBy = null, ConfirmedBy = null, GrossWeight = Mass.Zero };
}
