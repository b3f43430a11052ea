using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;
using Fettle.Readiness.Declarations;
using Fettle.Readiness.Findings;

namespace Fettle.Readiness.Rules;

/// <summary>What the deck does for the cartons on it: carries their bases, under its middle, without gaps as large as they.</summary>
public static class DeckFitRule
{
    public static IEnumerable<Finding> Check(UnitUnderCheck check)
    {
        if (check is not { IsPalletOfCartons: true, Cartons: { } cartons, Unit.Platform: { } deck } || check.IsBetterLoose)
            yield break;
        if (check.Shape.Layer is { } layer)
        {
            if (check.Shape.Overhang.Greatest > Length.Zero && Edge(check, layer, deck, cartons.Carton) is { } edge)
                yield return edge;
            if (OffCentre(check, layer, deck) is { } off)
                yield return off;
        }

        if (Gap(check, deck, cartons.Carton) is { } gap)
            yield return gap;
    }

    private static Finding? Edge(UnitUnderCheck check, LayerPattern layer, Platform deck, Carton carton)
    {
        var limit = check.Rules.DeckFit.Support;
        var least = layer.Placements.Min(placement => On(placement.X, placement.Length, deck.Length) * On(placement.Y, placement.Width, deck.Width));
        // A carton whose middle is past the edge is a contradiction, and has been called one.
        if (least >= limit - Boundary || Math.Min(check.Shape.Overhang.Front / carton.Length, check.Shape.Overhang.Front / carton.Width) > 0.5)
            return null;
        return check.Find(
            FindingCodes.DeckEdge,
            check.Rules.DeckFit.SupportSeverity,
            "contents.perLayer",
            Quantity.Percent(least * 100),
            Quantity.Percent(limit * 100),
            check.BasisOf(rules => rules.DeckFit.Support, Basis.Standard("Carpenter and Dowsland 1985, support under a carton (from memory)")),
            $"The outermost cartons have {Quantity.Percent(least * 100)} of their base on the deck; {Quantity.Percent(limit * 100)} is the least. The deck's edge carries next to nothing of the stack above them, and they fold over it on the way.",
            $"Bring the layer inside the deck, or take a larger pallet.");

        static double On(Length start, Length side, Length deck) =>
            Math.Max(0, (Length.Min(start + side, deck) - Length.Max(start, Length.Zero)) / side);
    }

    private static Finding? OffCentre(UnitUnderCheck check, LayerPattern layer, Platform deck)
    {
        var limit = check.Rules.DeckFit.OffCentre;
        var along = Off(layer.Placements.Average(p => (p.X + (p.Length / 2)) / deck.Length));
        var across = Off(layer.Placements.Average(p => (p.Y + (p.Width / 2)) / deck.Width));
        var (share, side, subject) = along >= across ? (along, deck.Length, "outer.length") : (across, deck.Width, "outer.width");
        return share <= limit + Boundary ? null : check.Find(
            FindingCodes.OffCentre,
            check.Rules.DeckFit.OffCentreSeverity,
            subject,
            Quantity.Percent(share * 100),
            Quantity.Percent(limit * 100),
            check.BasisOf(rules => rules.DeckFit.OffCentre, Basis.CommonPractice("the load's middle belongs over the deck's; the share is our choice")),
            $"Built as close as they go, {Counted.Cartons(layer.Count)} in a layer have their middle {side * share} beside the deck's. One side of the pallet and one fork carry most of it, and it leans when it is lifted.",
            $"Spread the cartons evenly over the deck.",
            $"{side * share} ÷ {side} = {Quantity.Percent(share * 100)}");

        static double Off(double middle) => Math.Abs(middle - 0.5);
    }

    private static Finding? Gap(UnitUnderCheck check, Platform deck, Carton carton)
    {
        var limits = check.Rules.DeckFit;
        var shorter = Length.Min(carton.Length, carton.Width);
        var least = limits.BoardGap * limits.Gaps;
        return deck.Material != PlatformMaterial.Wood || check.Unit.Protection.SlipSheets || shorter >= least ? null : check.Find(
            FindingCodes.DeckGap,
            limits.GapSeverity,
            "contents.carton.width",
            shorter,
            least,
            check.BasisOf(rules => (rules.DeckFit.BoardGap, rules.DeckFit.Gaps), Basis.CommonPractice("small cartons sink between the boards of a wooden deck")),
            $"The carton's short side of {shorter} is less than {Quantity.Ratio(limits.Gaps)} gaps of {limits.BoardGap} between the deck's boards: some stand half on nothing and crush first.",
            $"Lay a sheet of board on the deck, or turn the cartons across the boards.",
            $"{shorter} < {Quantity.Ratio(limits.Gaps)} × {limits.BoardGap}");
    }

    /// <summary>Positions are kept in whole nanometres; what that rounds is no finding.</summary>
    private const double Boundary = 1e-6;
}
