using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;
using Fettle.Readiness.RuleSets;

namespace Fettle.Readiness.Rules;

/// <summary>
/// Half the base against the height of the centre of gravity, across and along the trailer. Forward a unit is blocked by
/// the freight before it, so that only the very tall are more than a tip there. A strap asked for answers both axes, a
/// bulkhead or load bar the forward one: what was a caution is then recorded as a tip, and what was far below the limit as
/// a caution, since a request is not yet a promise.
/// </summary>
public static class TippingRule
{
    private static readonly Basis Standard = Basis.Standard("EN 12195-1:2010 design accelerations");

    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var outer = check.Unit.Outer;
        var deck = check.Unit.Platform;
        var limits = check.Rules.Tipping;
        var (strap, bulkhead) = (check.Unit.Requests.Strap, check.Unit.Requests.Bulkhead);
        if (Axis(check, check.Measures.TippingLateral, rules => rules.Tipping.Lateral, limits.Severity, strap, "outer.width", Length.Min(outer.Width, deck?.Width ?? outer.Width), Phrase.Of($"sideways in a bend")) is { } lateral)
            yield return lateral;
        if (Axis(check, check.Measures.TippingForward, rules => rules.Tipping.Forward, limits.ForwardSeverity, strap || bulkhead, "outer.length", Length.Min(outer.Length, deck?.Length ?? outer.Length), Phrase.Of($"forward under full braking")) is { } forward)
            yield return forward;
    }

    private static Finding? Axis(
        UnitUnderCheck check, double critical, Func<RuleSet, double> limitOf, Severity severity, bool secured, string subject, Length stands, Phrase when)
    {
        // Ties pass: the standard asks for b ≥ c · d. The boundary absorbs rounding in the last digits.
        var limit = limitOf(check.Rules);
        if (critical >= limit * (1 - Tipping.Boundary))
            return null;
        var limits = check.Rules.Tipping;
        var far = critical < limit * limits.FarBelow * (1 - Tipping.Boundary);
        var gravity = (far, secured) switch
        {
            (true, false) => limits.FarBelowSeverity,
            (true, true) => Lesser(limits.FarBelowSeverity, limits.FarBelowSecuredSeverity),
            (false, false) => severity,
            (false, true) => Lesser(severity, limits.SecuredSeverity),
        };
        return check.Find(
            FindingCodes.Tipping,
            gravity,
            subject,
            Quantity.Ratio(critical),
            Quantity.Ratio(limit),
            check.BasisOf(limitOf, Standard),
            $"Tall for its base: {check.Unit.Outer.Height} on {stands}. It begins to tip {when} at {Quantity.Ratio(critical)} g, and must stand {Quantity.Ratio(limit)} g.",
            secured
                ? (FormattableString)$"See that what was asked for is there before it is loaded; lower (about {Tipping.GreatestHeight(stands, limit)} on this base) or wider it stands by itself."
                : $"Build it lower (about {Tipping.GreatestHeight(stands, limit)} on this base) or wider; or ask for a strap or bulkhead, and let the carrier decide.",
            $"({stands} ÷ 2) ÷ {check.Measures.CentreOfGravity} = {Quantity.Ratio(critical)} g");

        static Severity Lesser(Severity a, Severity b) => a < b ? a : b;
    }
}
