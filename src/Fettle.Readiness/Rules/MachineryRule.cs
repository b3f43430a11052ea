using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>A machine is fastened to what it stands on.</summary>
public static class MachineryRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var unit = check.Unit;
        // Without platform or crate there is nothing to fasten it to: that is another finding.
        if (unit.Contents is not MachineryContents { Fastened: false } || (unit.Platform is null && unit.Kind != HandlingUnitKind.Crate))
            yield break;
        var limits = check.Rules.Contents;
        var strapped = unit.Protection.Straps > 0;
        yield return check.Find(
            FindingCodes.Unfastened,
            strapped ? limits.StrappedSeverity : limits.UnfastenedSeverity,
            "contents.fastened",
            Quantity.Pieces(0),
            Quantity.Pieces(1),
            Basis.CommonPractice("machines are bolted or strapped to their skid"),
            strapped
                ? (FormattableString)$"The machine stands on its skid with straps round it, and is not bolted: {unit.GrossWeight} works them loose."
                : $"The machine stands loose on its skid: {unit.GrossWeight} slides off it when the truck brakes.",
            $"Bolt it to the skid, with blocks round its feet.",
            $"not declared fastened; {unit.Protection.Straps} straps");
    }
}
