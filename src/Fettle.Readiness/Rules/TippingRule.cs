using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Half the base against the height of the centre of gravity, across and along the trailer.</summary>
public static class TippingRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var limits = check.Rules.Tipping;
        var lateral = Axis(check, check.Measures.TippingLateral, limits.Lateral, "outer.width", Phrase.Of($"sideways in a bend"));
        var forward = Axis(check, check.Measures.TippingForward, limits.Forward, "outer.length", Phrase.Of($"forward under full braking"));
        if (lateral is not null)
            yield return lateral;
        if (forward is not null)
            yield return forward;
    }

    private static Finding? Axis(UnitUnderCheck check, double critical, double limit, string subject, Phrase when)
    {
        // Ties pass: the standard asks for b ≥ c·d. The small term absorbs rounding in the last digits.
        if (critical >= limit - 1e-9)
            return null;
        var limits = check.Rules.Tipping;
        var far = critical < (limit * limits.FarBelow) - 1e-9;
        return check.Find(
            FindingCodes.Tipping,
            far ? limits.FarBelowSeverity : limits.Severity,
            subject,
            Quantity.Ratio(critical),
            Quantity.Ratio(limit),
            Basis.Standard("EN 12195-1:2010 design accelerations"),
            $"Tall for its base: it begins to tip {when} at {Quantity.Ratio(critical)} g, and must stand {Quantity.Ratio(limit)} g.",
            $"Build lower and wider; or ask for a strap or bulkhead, and let the carrier decide.");
    }
}
