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
                $"The load is {check.Shape.LoadLength} long on a deck of {deck.Length}: {over.Front} sticks out at each end. Forks enter at the ends and strike the load there before they reach the pallet.",
                $"Bring the load inside {deck.Length}: another pattern, or a longer pallet.");
        if (over.Left > Length.Zero)
            yield return check.Find(
                FindingCodes.Overhang,
                limits.OverhangSeverity,
                "outer.width",
                over.Left,
                Length.Zero,
                Basis.CommonPractice("nothing past the deck's edge"),
                $"The load is {check.Shape.LoadWidth} wide on a deck of {deck.Width}: {over.Left} sticks out on each side. There it rubs on the next pallet and on the trailer wall, and its edge hangs without support.",
                $"Bring the load inside {deck.Width}: another pattern, or a wider pallet.");

        // A side that overhangs has been named; bare deck is about the sides that do not.
        var bare = check.Shape.Clearance;
        var ends = over.Front == Length.Zero && bare.Front < limits.Clearance;
        var sides = over.Left == Length.Zero && bare.Left < limits.Clearance;
        if (!check.IsPalletOfCartons || check.Unit.Protection.CornerBoards == CornerBoards.ToPlatform || !(ends || sides))
            yield break;
        var least = ends && sides ? Length.Min(bare.Front, bare.Left) : ends ? bare.Front : bare.Left;
        var beside = least == Length.Zero
            ? Phrase.Of($"No deck is left bare beside the cartons")
            : Phrase.Of($"Only {least} of deck is left bare beside the cartons");
        yield return check.Find(
            FindingCodes.Clearance,
            limits.ClearanceSeverity,
            sides && (!ends || bare.Left <= bare.Front) ? "outer.width" : "outer.length",
            least,
            limits.Clearance,
            check.BasisOf(rules => rules.Overhang.Clearance, Basis.CommonPractice("a few inches of bare deck on each side are best")),
            $"{beside}; {limits.Clearance} keeps them clear of forks, walls and neighbours.",
            $"Leave {limits.Clearance} on each side, or put corner boards down to the pallet.");
    }
}
