using Fettle.Engineering.Units;

namespace Fettle.Engineering.Patterns;

/// <summary>
/// A way to stack a layer on itself: every second layer as it is, every other one turned. Columns keep a carton's strength
/// and hold nothing together; turned layers tie the stack and cost strength, so that common practice (no source) builds the
/// lower tiers in columns and ties the top one or two.
/// </summary>
/// <param name="Turn">How every second layer is turned.</param>
/// <param name="First">The first, third … layer.</param>
/// <param name="Second">The second, fourth … layer.</param>
/// <param name="Support">The worse supported of second on first and first on second.</param>
/// <param name="LongestCut">
/// The longest straight vertical cut between cartons that runs through both layers, as a share (0 to 1) of the stack's length
/// or width, whichever it runs along. Over some 0.75 the stack may part there (Carpenter and Dowsland 1985, from memory).
/// </param>
public sealed record LayerChoice(LayerTurn Turn, LayerPattern First, LayerPattern Second, LayerSupport Support, double LongestCut)
{
    /// <summary>Every carton stands on one alike.</summary>
    public bool IsColumns => Support.ColumnShare == 1;

    /// <summary>
    /// All different ways to stack a layer in the middle of a deck, columns first, then by how many cartons tie others
    /// together and how short the longest cut is. Ways that only look different (a symmetric layer turned) are left out.
    /// </summary>
    public static IReadOnlyList<LayerChoice> All(LayerPattern layer, Length deckLength, Length deckWidth)
    {
        if (layer.Count == 0)
            return [];
        var first = layer.CentredOn(deckLength, deckWidth);
        var choices = new List<LayerChoice>();
        foreach (var turn in Enum.GetValues<LayerTurn>())
        {
            if (turn == LayerTurn.QuarterTurn && (first.FootprintLength > deckWidth || first.FootprintWidth > deckLength))
                continue;
            var second = first.Turned(turn).CentredOn(deckLength, deckWidth);
            if (choices.Any(c => c.Second.Equals(second)))
                continue;
            var (up, down) = (LayerSupport.Of(first, second), LayerSupport.Of(second, first));
            choices.Add(new LayerChoice(turn, first, second, up.LeastShare <= down.LeastShare ? up : down, Cut(first, second)));
        }

        return [.. choices.OrderBy(c => c.Turn != LayerTurn.Same).ThenByDescending(c => c.Support.TiedShare).ThenBy(c => c.LongestCut)];
    }

    private static double Cut(LayerPattern first, LayerPattern second)
    {
        IReadOnlyList<Placement> across = [.. first.Placements, .. second.Placements];
        IReadOnlyList<Placement> along = [.. across.Select(p => new Placement(p.Y, p.X, p.Width, p.Length))];
        return Math.Max(CutAcross(across), CutAcross(along));
    }

    /// <summary>The longest cut at one X, as a share of the extent in Y; the outer faces are no cuts.</summary>
    private static double CutAcross(IReadOnlyList<Placement> cartons)
    {
        var (nearX, farX) = (cartons.Min(p => p.X), cartons.Max(p => p.Right));
        var (nearY, farY) = (cartons.Min(p => p.Y), cartons.Max(p => p.Top));
        var longest = Length.Zero;
        foreach (var x in cartons.SelectMany(p => (Length[])[p.X, p.Right]).Distinct().Where(x => x > nearX && x < farX))
        {
            var from = nearY;
            foreach (var p in cartons.Where(p => p.X < x && x < p.Right).OrderBy(p => p.Y))
            {
                longest = Length.Max(longest, p.Y - from);
                from = Length.Max(from, p.Top);
            }

            longest = Length.Max(longest, farY - from);
        }

        return longest / (farY - nearY);
    }
}
