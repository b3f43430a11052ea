using Fettle.Engineering.Units;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Stretch film: turns, and whether it ties the load to the platform.</summary>
public static class WrapRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (!check.IsPalletOfCartons)
            yield break;
        var wrap = check.Unit.Protection;
        var limits = check.Rules.Wrap;
        if (wrap.WrapTurns < limits.Turns)
        {
            var turns = wrap.WrapTurns == 0 ? Phrase.Of($"There is no film") : Phrase.Of($"The film goes round {Counted.Times(wrap.WrapTurns)}");
            yield return check.Find(
                FindingCodes.WrapTurns,
                limits.TurnsSeverity,
                "protection.wrapTurns",
                Quantity.Pieces(wrap.WrapTurns),
                Quantity.Pieces(limits.Turns),
                check.BasisOf(rules => rules.Wrap.Turns, Basis.CommonPractice("film goes at least twice round")),
                $"{turns}. It takes at least {Counted.FullTurns(limits.Turns)} to hold {check.Unit.GrossWeight} together.",
                $"Wrap {Counted.FullTurns(limits.Turns)}, from the pallet to the top.");
        }

        // Where there is no film, the finding above has said so.
        if (!wrap.WrapOverPlatform && wrap.WrapTurns > 0)
            yield return check.Find(
                FindingCodes.WrapAnchor,
                limits.AnchorSeverity,
                "protection.wrapOverPlatform",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("film comes down over the platform"),
                $"The film stops above the pallet. Nothing ties the load to it: it slides off as one block when the truck brakes.",
                $"Bring the film down over the pallet, at least two turns low.");
    }
}
