using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Holds;

/// <summary>How long each side has, as the carrier's rules had it when the hold was placed: kept with it, so that later rules move no deadline.</summary>
/// <param name="Shipper">Hours for the shipper to answer.</param>
/// <param name="Terminal">Hours for the terminal to decide.</param>
/// <param name="Rework">Hours for the terminal to rebuild and inspect.</param>
/// <param name="Remind">Whoever must act is reminded so many hours before their time ends.</param>
public sealed record HoldHours(int Shipper, int Terminal, int Rework, int Remind)
{
    public static HoldHours Usual { get; } = Of(new HoldLimits(), []);

    /// <summary>For freight that is stopped for several reasons the shortest time counts.</summary>
    public static HoldHours Of(HoldLimits limits, IEnumerable<Finding> findings) => new(
        findings
            .Where(finding => finding.Severity == Severity.Stop)
            .Select(stop => ToAnswer(stop.Code, limits))
            .DefaultIfEmpty(limits.ShipperHours)
            .Min(),
        limits.TerminalHours,
        limits.ReworkHours,
        limits.RemindHours);

    public int For(HoldSide side) => side == HoldSide.Shipper ? Shipper : Terminal;

    /// <summary>The table of hours by reason; whatever is not in it has the usual time.</summary>
    private static int ToAnswer(string code, HoldLimits limits) => code switch
    {
        FindingCodes.Regulated or FindingCodes.TreatmentMark => limits.RegulatedHours,
        FindingCodes.WeightMismatch or FindingCodes.InconsistentDimensions => limits.FiguresHours,
        FindingCodes.WrapTurns or FindingCodes.WrapAnchor or FindingCodes.Containment or FindingCodes.CornerBoards or FindingCodes.Straps => limits.WrapHours,
        _ => limits.ShipperHours,
    };
}
