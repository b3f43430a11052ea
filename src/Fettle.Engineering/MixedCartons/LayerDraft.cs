using Fettle.Engineering.Patterns;
using Fettle.Engineering.Units;

namespace Fettle.Engineering.MixedCartons;

/// <summary>A carton in a layer that is not yet on a pile.</summary>
internal readonly record struct Laid(Stance Stance, long X, long Y);

/// <summary>
/// A layer of upright cartons of one height, in the middle of the deck. Layers are drafted first and stacked afterwards, the
/// strong and heavy ones low.
/// </summary>
/// <param name="Cartons">Its cartons.</param>
/// <param name="Mass">Of all its cartons, in kilograms.</param>
/// <param name="Pressure">Load per area that its weakest carton bears, in newtons per square metre; zero when one is fragile.</param>
internal sealed record LayerDraft(IReadOnlyList<Laid> Cartons, double Mass, double Pressure)
{
    /// <summary>
    /// As many layers as the cartons make that cover at least <paramref name="leastShare"/> of the deck: of one kind first, then
    /// of kinds of equal height (fragile ones among themselves). What is drafted is taken off <paramref name="left"/>.
    /// </summary>
    public static List<LayerDraft> Of(IReadOnlyList<CartonKind> kinds, PalletRoom room, double leastShare, int[] left)
    {
        var drafts = new List<LayerDraft>();
        for (var i = 0; i < kinds.Count; i++)
            OfOneKind(kinds, i, room, leastShare, left, drafts);
        var alike = Enumerable.Range(0, kinds.Count).GroupBy(i => (kinds[i].Height, Fragile: kinds[i].Bears == Force.Zero));
        foreach (var group in alike)
        {
            for (var layers = MostLayers(room, group.Key.Height); layers > 0; layers--)
            {
                var laid = MixedLayer.Best([.. group.Select(i => (kinds[i].Stances(i).First(), left[i]))], room);
                if (laid.Sum(c => c.Stance.Area) < leastShare * room.DeckArea)
                    break;
                foreach (var carton in laid)
                    left[carton.Stance.Kind]--;
                drafts.Add(Centred(laid, kinds, room));
            }
        }

        return drafts;
    }

    private static void OfOneKind(IReadOnlyList<CartonKind> kinds, int index, PalletRoom room, double leastShare, int[] left, List<LayerDraft> drafts)
    {
        var kind = kinds[index];
        var upright = kind.Stances(index).First();
        var fewest = Math.Max(1, leastShare * room.DeckArea / upright.Area);
        // Looking for a layer of a kind that cannot fill one costs time and finds nothing.
        if (left[index] < fewest || MostLayers(room, kind.Height) == 0)
            return;
        var pattern = PatternFinder.Best(room.DeckLength, room.DeckWidth, kind.Length, kind.Width);
        if (pattern.Count < fewest)
            return;
        var turned = kind.Stances(index).FirstOrDefault(s => s.Turned, upright);
        var layers = Math.Min(left[index] / pattern.Count, MostLayers(room, kind.Height));
        left[index] -= layers * pattern.Count;
        var draft = Centred([.. pattern.Placements.Select(p => new Laid(p.Length == kind.Length ? upright : turned, p.X.Nanometres, p.Y.Nanometres))], kinds, room);
        drafts.AddRange(Enumerable.Repeat(draft, layers));
    }

    private static int MostLayers(PalletRoom room, Length height) => (int)Math.Min(1_000, room.Height.Nanometres / height.Nanometres);

    private static LayerDraft Centred(IReadOnlyList<Laid> laid, IReadOnlyList<CartonKind> kinds, PalletRoom room)
    {
        var x = (room.DeckLength.Nanometres - laid.Max(c => c.X + c.Stance.Along)) / 2;
        var y = (room.DeckWidth.Nanometres - laid.Max(c => c.Y + c.Stance.Across)) / 2;
        return new LayerDraft(
            [.. laid.Select(c => c with { X = c.X + x, Y = c.Y + y })],
            laid.Sum(c => kinds[c.Stance.Kind].Mass.Kilograms),
            laid.Min(c => kinds[c.Stance.Kind].Bears.Newtons / (c.Stance.Area * 1e-18)));
    }
}
