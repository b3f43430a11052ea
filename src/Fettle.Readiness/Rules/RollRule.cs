using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Rolls on their side must be chocked; rolls on end want to be held together.</summary>
public static class RollRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit.Contents is not RollContents rolls || check.Unit.Kind == HandlingUnitKind.Crate || check.Unit.Protection.Straps > 0)
            yield break;
        var limits = check.Rules.Contents;
        if (rolls.Standing == RollStanding.OnSide)
        {
            var asked = check.Unit.Requests.Strap || check.Unit.Requests.Bulkhead;
            yield return check.Find(
                FindingCodes.RollChocks,
                asked ? limits.RollsRequestedSeverity : limits.RollsOnSideSeverity,
                "protection.straps",
                Quantity.Pieces(0),
                Quantity.Pieces(1),
                Basis.CommonPractice("a roll on its side is chocked and strapped to its pallet"),
                asked
                    ? (FormattableString)$"{ContentsInWords.Of(rolls)} of {rolls.WeightEach} on the side can roll off the pallet before the strap or bulkhead that is asked for holds them."
                    : $"{ContentsInWords.Of(rolls)} of {rolls.WeightEach} on the side roll at the first brake, and nothing holds them.",
                $"Chock and strap them to the pallet, or stand them on end.");
        }
        else if (check.Unit.Kind == HandlingUnitKind.Pallet && rolls.Count > 1 && check.Unit.Protection.WrapTurns < check.Rules.Wrap.Turns)
            yield return check.Find(
                FindingCodes.RollsOnEnd,
                limits.RollsOnEndSeverity,
                "protection.wrapTurns",
                Quantity.Pieces(check.Unit.Protection.WrapTurns),
                Quantity.Pieces(check.Rules.Wrap.Turns),
                check.BasisOf(rules => rules.Wrap.Turns, Basis.CommonPractice("film goes at least twice round")),
                $"{ContentsInWords.Of(rolls)} on end stand loose beside each other, and the outer ones scuff and tip.",
                $"Wrap or strap them together and to the pallet.");
    }
}
