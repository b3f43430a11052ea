using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>Half the base against the height of the centre of gravity, across and along the trailer.</summary>
public static class TippingRule
{
    private static readonly Basis Standard = Basis.Standard("EN 12195-1:2010 design accelerations");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var outer = check.Unit.Outer;
        var deck = check.Unit.Platform;
        if (Axis(check, check.Measures.TippingLateral, rules => rules.Tipping.Lateral, "outer.width", Length.Min(outer.Width, deck?.Width ?? outer.Width), Phrase.Of($"sideways in a bend")) is { } lateral)
            yield return lateral;
        if (Axis(check, check.Measures.TippingForward, rules => rules.Tipping.Forward, "outer.length", Length.Min(outer.Length, deck?.Length ?? outer.Length), Phrase.Of($"forward under full braking")) is { } forward)
            yield return forward;
    }

    private static Finding? Axis(UnitUnderCheck check, double critical, Func<RuleSet, double> limitOf, string subject, Length stands, Phrase when)
    {
        // Ties pass: the standard asks for b ≥ c · d. The boundary absorbs rounding in the last digits.
        var limit = limitOf(check.Rules);
        if (critical >= limit * (1 - Tipping.Boundary))
            return null;
        var limits = check.Rules.Tipping;
        var far = critical < limit * limits.FarBelow * (1 - Tipping.Boundary);
        return check.Find(
            FindingCodes.Tipping,
            far ? limits.FarBelowSeverity : limits.Severity,
            subject,
            Quantity.Ratio(critical),
            Quantity.Ratio(limit),
            check.BasisOf(limitOf, Standard),
            $"Tall for its base: {check.Unit.Outer.Height} on {stands}. It begins to tip {when} at {Quantity.Ratio(critical)} g, and must stand {Quantity.Ratio(limit)} g.",
            $"Build it lower (about {Tipping.GreatestHeight(stands, limit)} on this base) or wider; or ask for a strap or bulkhead, and let the carrier decide.");
    }
}
