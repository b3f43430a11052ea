using Fettle.Engineering.Units;
using Fettle.Engineering.Wrapping;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Stretch film: turns, and whether it ties the load to the platform.</summary>
public static class WrapRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (!check.IsHeldByFilm)
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
        if (wrap.WrapTurns >= limits.Turns && Squeeze(check) is { } squeeze)
            yield return squeeze;
    }

    /// <summary>
    /// What the film squeezes with, turns × force of one, against a film supplier's starting guide: advice only, since the
    /// force of a turn depends on film and machine. A heavy load is taken as an unsteady one.
    /// </summary>
    private static Finding? Squeeze(UnitUnderCheck check)
    {
        var limits = check.Rules.Wrap;
        var turns = check.Unit.Protection.WrapTurns;
        var wanted = Containment.Guide(LoadTemper.HeavyUnstable).Least;
        var held = Containment.Of(Force.FromPoundsForce(limits.PoundsForcePerTurn), turns);
        if (check.Unit.GrossWeight <= check.Rules.Weight.Heavy || held >= wanted)
            return null;
        var needed = (int)Math.Ceiling(wanted.PoundsForce / limits.PoundsForcePerTurn);
        return check.Find(
            FindingCodes.Containment,
            limits.ContainmentSeverity,
            "protection.wrapTurns",
            Quantity.Pieces(turns),
            Quantity.Pieces(needed),
            check.BasisOf(rules => rules.Wrap.PoundsForcePerTurn, Basis.CommonPractice("a film supplier's starting guide: 7 to 12 lb of squeeze for a heavy, unsteady load; 2.5 lb a turn is our choice")),
            $"{Counted.FullTurns(turns)} of film squeeze with about {held.MassHeld()}; a load of {check.Unit.GrossWeight} wants {wanted.MassHeld()}.",
            $"Wrap {Counted.FullTurns(needed)}, or measure with a pull plate what your film does.",
            $"{turns} × {Mass.FromPounds(limits.PoundsForcePerTurn)} = {held.MassHeld()} < {wanted.MassHeld()}");
    }
}
