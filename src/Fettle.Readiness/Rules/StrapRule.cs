using Fettle.Engineering.Stability;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Straps over bare carton edges: what a hand tool pulls against what the board under the strap bears.</summary>
public static class StrapRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        var protection = check.Unit.Protection;
        if (!check.IsPalletOfCartons || protection.Straps == 0 || protection.CornerBoards != CornerBoards.None || protection.TopCap)
            yield break;
        if (check is not { Cartons.Carton.Board: { } board, Measures.StrengthLeft: { } left })
            yield break;
        var limits = check.Rules.Straps;
        // Damp and time weaken the edge; pattern, overhang and handling are about the whole carton.
        var share = left.Time * left.Humidity;
        var bears = Straps.CrushingTension(board, limits.Width, share).MassHeld();
        if (bears >= limits.Tension)
            yield break;
        yield return check.Find(
            FindingCodes.Straps,
            limits.Severity,
            "protection.straps",
            bears,
            limits.Tension,
            check.BasisOf(rules => (rules.Straps.Width, rules.Straps.Tension), Basis.CommonPractice("a strap pulled over a bare edge crushes cartons; the tension is our choice")),
            $"A strap pulled to {limits.Tension} cuts into a bare carton edge, which bears about {bears} under {limits.Width} of strap. What is crushed no longer holds the strap tight either.",
            $"Put corner boards or a cap under the straps, or leave the straps off.",
            $"{Quantity.Ratio(board.EdgeCrush)} lb/in × {limits.Width} × {Quantity.Ratio(share)} = {bears}");
    }
}
