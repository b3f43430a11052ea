using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>Load footprint against deck, side by side.</summary>
public static class OverhangRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check.Unit.Platform is not { } deck)
            yield break;
        var over = check.Shape.Overhang;
        var limits = check.Rules.Overhang;
        if (over.Front > Length.Zero)
            yield return check.Find(
                FindingCodes.Overhang,
                limits.OverhangSeverity,
                "outer.length",
                over.Front,
                Length.Zero,
                Basis.CommonPractice("nothing past the deck's edge"),
                $"The load is {check.Shape.LoadLength} long on a deck of {deck.Length}: {over.Front} sticks out at each end. Forks enter at the ends and strike the cartons there before they reach the pallet.",
                $"Bring the load inside {deck.Length}: another pattern, or a longer pallet.");
        if (over.Left > Length.Zero)
            yield return check.Find(
                FindingCodes.Overhang,
                limits.OverhangSeverity,
                "outer.width",
                over.Left,
                Length.Zero,
                Basis.CommonPractice("nothing past the deck's edge"),
                $"The load is {check.Shape.LoadWidth} wide on a deck of {deck.Width}: {over.Left} sticks out on each side. There it rubs on the next pallet and on the trailer wall, and the carton edge hangs without support.",
                $"Bring the load inside {deck.Width}: another pattern, or a wider pallet.");

        // A side that overhangs has been named; bare deck is about the sides that do not.
        var bare = check.Shape.Clearance;
        var short1 = over.Front == Length.Zero && bare.Front < limits.Clearance;
        var short2 = over.Left == Length.Zero && bare.Left < limits.Clearance;
        if (!check.IsPalletOfCartons || check.Unit.Protection.CornerBoards == CornerBoards.ToPlatform || !(short1 || short2))
            yield break;
        var least = short1 && short2 ? Length.Min(bare.Front, bare.Left) : short1 ? bare.Front : bare.Left;
        yield return check.Find(
            FindingCodes.Clearance,
            limits.ClearanceSeverity,
            short2 && (!short1 || bare.Left <= bare.Front) ? "outer.width" : "outer.length",
            least,
            limits.Clearance,
            Basis.CommonPractice("a few inches of bare deck on each side are best"),
            $"Only {least} of deck is left bare beside the cartons; {limits.Clearance} keeps them clear of forks, walls and neighbours.",
            $"Leave {limits.Clearance} on each side, or put corner boards down to the pallet.");
    }
}
